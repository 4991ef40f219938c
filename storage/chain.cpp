#include "chain.h"

#include <sodium.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <numeric>

namespace strikeoff {

namespace {

constexpr std::size_t digestBytes = 32;

}

void Digest::add(std::string_view part)
{
    const auto length = std::to_string(part.size()) + ':';
    hash_.addData(QByteArrayView{length.data(), static_cast<qsizetype>(length.size())});
    hash_.addData(QByteArrayView{part.data(), static_cast<qsizetype>(part.size())});
}

void Digest::add(std::int64_t number) { add(std::to_string(number)); }

void Digest::addNothing() { hash_.addData(QByteArrayView{"-", 1}); }

std::string Digest::digits() const { return hash_.result().toHex().toStdString(); }

struct RunDigest::Hash {
    crypto_generichash_state state;
};

RunDigest::RunDigest(RecordKind kind) : blank_{blankRow(kind)}, hash_{std::make_unique<Hash>()}
{
    if (sodium_init() < 0) throw StorageError{"the library that digests the trail (libsodium) does not start"};
    crypto_generichash_init(&hash_->state, nullptr, 0, digestBytes);
    const auto fields = describe(kind).fields;
    order_.resize(fields.size());
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    std::sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) { return fields[a].name < fields[b].name; });
}

void RunDigest::add(const Row& row)
{
    const auto fields = describe(row.kind).fields;
    text_.clear();
    const auto write = [this](std::int64_t number) {
        std::array<char, 24> digits;
        text_.append(digits.data(), std::to_chars(digits.data(), digits.data() + digits.size(), number).ptr);
    };
    write(row.id);
    for (const auto i : order_) {
        if (row.values[i] == blank_.values[i]) continue;
        const auto& field = fields[i];
        text_ += '\n';
        text_ += field.name;
        const auto* number = std::get_if<std::int64_t>(&row.values[i]);
        if (number && field.type != FieldType::choice) {
            text_ += '=';
            write(*number);
        } else {
            // A choice by its code, as its place in the list may move.
            const auto* words = std::get_if<std::string>(&row.values[i]);
            const std::string_view held = number ? field.choices[static_cast<std::size_t>(*number)].code : words ? std::string_view{*words} : std::string_view{};
            text_ += ':';
            write(static_cast<std::int64_t>(held.size()));
            text_ += ':';
            text_ += held;
        }
    }
    text_ += '\n';
    crypto_generichash_update(&hash_->state, reinterpret_cast<const unsigned char*>(text_.data()), text_.size());
}

RunDigest::~RunDigest() = default;

std::string RunDigest::digits() const
{
    auto state = hash_->state;
    std::array<unsigned char, digestBytes> bytes;
    crypto_generichash_final(&state, bytes.data(), bytes.size());
    std::array<char, 2 * digestBytes + 1> digits;
    return sodium_bin2hex(digits.data(), digits.size(), bytes.data(), bytes.size());
}

ChainLink::ChainLink(std::string_view previous, const TrailHeading& heading)
{
    digest_.add(previous);
    digest_.add(heading.edit);
    for (const auto* text : {&heading.at, &heading.desk, &heading.title, &heading.how}) digest_.add(*text);
    if (heading.ofEdit) digest_.add(*heading.ofEdit);
    else digest_.addNothing();
}

void ChainLink::addChange(std::int64_t place, RecordKind kind, std::int64_t row, std::int64_t revision, const std::optional<std::string>& before, const std::optional<std::string>& after)
{
    digest_.add("change");
    digest_.add(place);
    digest_.add(describe(kind).name);
    digest_.add(row);
    digest_.add(revision);
    for (const auto* text : {&before, &after}) {
        if (*text) digest_.add(**text);
        else digest_.addNothing();
    }
}

void ChainLink::addRun(std::int64_t place, RecordKind kind, std::int64_t first, std::int64_t last, const std::string& rows)
{
    digest_.add("run");
    digest_.add(place);
    digest_.add(describe(kind).name);
    digest_.add(first);
    digest_.add(last);
    digest_.add(rows);
}

}

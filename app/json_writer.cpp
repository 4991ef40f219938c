#include "json_writer.h"

#include <array>
#include <charconv>
#include <cmath>

namespace strikeoff {

JsonWriter& JsonWriter::begin(char open, char close)
{
    startValue();
    json_ += open;
    levels_.push_back({close, true});
    return *this;
}

JsonWriter& JsonWriter::end()
{
    if (levels_.empty()) throw DomainError{"JSON closed more often than opened"};
    const auto [close, empty] = levels_.back();
    levels_.pop_back();
    if (!empty) newLine();
    json_ += close;
    return *this;
}

JsonWriter& JsonWriter::key(std::string_view name)
{
    startValue();
    addQuoted(name);
    json_ += ": ";
    afterKey_ = true;
    return *this;
}

JsonWriter& JsonWriter::text(std::string_view value)
{
    startValue();
    addQuoted(value);
    return *this;
}

JsonWriter& JsonWriter::decimal(const std::optional<double>& value, int decimals)
{
    if (!value || !std::isfinite(*value)) return null();
    std::array<char, 64> digits{};
    const auto [end, fault] = std::to_chars(digits.data(), digits.data() + digits.size(), *value, std::chars_format::fixed, decimals);
    return fault == std::errc{} ? bare({digits.data(), end}) : null();
}

JsonWriter& JsonWriter::bare(std::string_view value)
{
    startValue();
    json_ += value;
    return *this;
}

void JsonWriter::startValue()
{
    if (afterKey_) {
        afterKey_ = false;
        return;
    }
    if (levels_.empty()) return;
    if (!levels_.back().empty) json_ += ',';
    levels_.back().empty = false;
    newLine();
}

void JsonWriter::newLine()
{
    json_ += '\n';
    json_.append(levels_.size() * 2, ' ');
}

void JsonWriter::addQuoted(std::string_view text)
{
    constexpr std::string_view hex = "0123456789abcdef";
    json_ += '"';
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') (json_ += '\\') += c;
        else if (c == '\n') json_ += "\\n";
        else if (c == '\r') json_ += "\\r";
        else if (c == '\t') json_ += "\\t";
        else if (byte < 0x20 || byte == 0x7F) ((json_ += "\\u00") += hex[byte >> 4]) += hex[byte & 15];
        else json_ += c;
    }
    json_ += '"';
}

}

#include "record/book.h"

#include "record/key_index.h"

#include <algorithm>
#include <array>
#include <functional>
#include <map>

namespace strikeoff {

namespace {

class KeyHash {
public:
    void take(const Value& value)
    {
        mix(value.index());
        if (const auto* number = std::get_if<std::int64_t>(&value)) mix(std::hash<std::int64_t>{}(*number));
        else if (const auto* text = std::get_if<std::string>(&value)) mix(std::hash<std::string>{}(*text));
    }
    std::size_t value() const { return hash_; }

private:
    void mix(std::size_t part) { hash_ = (hash_ ^ part) * 1099511628211ULL; }
    std::size_t hash_ = 14695981039346656037ULL;
};

std::size_t hashOf(std::span<const Value> key)
{
    KeyHash hash;
    for (const auto& value : key) hash.take(value);
    return hash.value();
}

std::size_t keyHash(const KindDescription& kind, const void* record)
{
    KeyHash hash;
    for (const auto field : keyFields(kind)) hash.take(kind.fields[field].get(record));
    return hash.value();
}

bool hasKey(const KindDescription& kind, const void* record, std::span<const Value> key)
{
    const auto fields = keyFields(kind);
    return std::equal(fields.begin(), fields.end(), key.begin(), key.end(),
                      [&](std::size_t field, const Value& value) { return kind.fields[field].get(record) == value; });
}

}

std::vector<Value> valuesOf(const KindDescription& kind, const void* record)
{
    std::vector<Value> values;
    values.reserve(kind.fields.size());
    for (const auto& field : kind.fields) values.push_back(field.get(record));
    return values;
}

/// What a shelf of any kind can do, so that the rest is ordinary code without templates.
struct Book::ShelfAccess {
    std::size_t (*count)(const Book&);
    const void* (*at)(const Book&, std::size_t);
    const void* (*find)(const Book&, std::int64_t);
    std::int64_t (*id)(const void*);
    std::int64_t (*revision)(const void*);
    void (*put)(Book&, const Row&);
    void (*erase)(Book&, std::int64_t);
    void (*eraseAll)(Book&, std::span<const std::int64_t>);
    void (*reserve)(Book&, std::size_t);
    void* (*append)(Book&, std::int64_t, std::int64_t);
};

template <class Record>
Book::ShelfAccess Book::accessFor()
{
    return {
        [](const Book& book) { return book.all<Record>().size(); },
        [](const Book& book, std::size_t index) -> const void* { return &book.all<Record>()[index]; },
        [](const Book& book, std::int64_t id) -> const void* { return book.all<Record>().find(Id<Record>{id}); },
        [](const void* record) { return static_cast<const Record*>(record)->id.value(); },
        [](const void* record) { return static_cast<std::int64_t>(static_cast<const Record*>(record)->revision); },
        [](Book& book, const Row& row) { std::get<Shelf<Record>>(book.shelves_).put(recordOf<Record>(row)); },
        [](Book& book, std::int64_t id) { std::get<Shelf<Record>>(book.shelves_).erase(Id<Record>{id}); },
        [](Book& book, std::span<const std::int64_t> ids) { std::get<Shelf<Record>>(book.shelves_).eraseAll(ids); },
        [](Book& book, std::size_t count) { std::get<Shelf<Record>>(book.shelves_).reserve(count); },
        [](Book& book, std::int64_t id, std::int64_t revision) -> void* {
            auto& rows = std::get<Shelf<Record>>(book.shelves_);
            if (id <= rows.lastId()) throw DomainError{"ids that do not rise"};
            Record record;
            record.id = Id<Record>{id};
            record.revision = static_cast<std::int32_t>(revision);
            return &rows.append(std::move(record));
        },
    };
}

const Book::ShelfAccess& Book::accessTo(RecordKind kind)
{
    static const std::array<ShelfAccess, kindCount> table = [] {
        std::array<ShelfAccess, kindCount> made{};
        [&]<class... Record>(std::type_identity<std::tuple<Shelf<Record>...>>) {
            ((made[static_cast<std::size_t>(kindOf<Record>)] = accessFor<Record>()), ...);
        }(std::type_identity<decltype(shelves_)>{});
        return made;
    }();
    return table.at(static_cast<std::size_t>(kind));
}

Row blankRow(RecordKind kind)
{
    Row row{kind, 0, 0, {}};
    static const std::array<std::vector<Value>, kindCount> blanks = [] {
        std::array<std::vector<Value>, kindCount> made{};
        Book empty;
        for (const auto& description : allKinds()) {
            const void* record = empty.append(description.kind, 1, 1);
            made[static_cast<std::size_t>(description.kind)] = valuesOf(description, record);
        }
        return made;
    }();
    row.values = blanks.at(static_cast<std::size_t>(kind));
    return row;
}

/// (what is pointed at, who points) in order, a field; and (hash of the key, id), a kind.
struct Book::Indexes {
    using Pairs = std::vector<std::pair<std::int64_t, std::int64_t>>;
    std::map<std::pair<RecordKind, std::size_t>, Pairs> references;
    std::map<RecordKind, KeyIndex> keys;
};

Book::Book() : indexes_{std::make_unique<Indexes>()} {}
Book::Book(const Book& other) : shelves_{other.shelves_}, indexes_{std::make_unique<Indexes>()}, version_{other.version_} {}
Book::Book(Book&&) noexcept = default;
Book& Book::operator=(const Book& other)
{
    if (this != &other) *this = Book{other};
    return *this;
}
Book& Book::operator=(Book&&) noexcept = default;
Book::~Book() = default;

const Settings& Book::settings() const
{
    static const Settings defaults;
    const auto& shelf = all<Settings>();
    return shelf.empty() ? defaults : shelf[0];
}

std::size_t Book::count(RecordKind kind) const { return accessTo(kind).count(*this); }
const void* Book::at(RecordKind kind, std::size_t index) const { return accessTo(kind).at(*this, index); }
const void* Book::find(RecordKind kind, std::int64_t id) const { return accessTo(kind).find(*this, id); }
std::int64_t Book::idAt(RecordKind kind, std::size_t index) const { return accessTo(kind).id(at(kind, index)); }
std::int64_t Book::lastId(RecordKind kind) const
{
    const auto size = count(kind);
    return size == 0 ? 0 : idAt(kind, size - 1);
}

std::optional<Row> Book::row(RecordKind kind, std::int64_t id) const
{
    const auto* record = find(kind, id);
    if (!record) return std::nullopt;
    return Row{kind, id, accessTo(kind).revision(record), valuesOf(describe(kind), record)};
}

std::vector<std::int64_t> Book::referring(RecordKind kind, std::size_t field, std::int64_t id) const
{
    auto [entry, isNew] = indexes_->references.try_emplace({kind, field});
    auto& pairs = entry->second;
    if (isNew) {
        const auto& described = describe(kind).fields[field];
        const auto size = count(kind);
        const auto& access = accessTo(kind);
        pairs.reserve(size);
        for (std::size_t i = 0; i < size; ++i) {
            const auto* record = access.at(*this, i);
            if (const auto target = described.get(record); const auto* number = std::get_if<std::int64_t>(&target)) pairs.emplace_back(*number, access.id(record));
        }
        std::sort(pairs.begin(), pairs.end());
    }
    std::vector<std::int64_t> ids;
    for (auto at = std::lower_bound(pairs.begin(), pairs.end(), std::pair{id, std::numeric_limits<std::int64_t>::min()}); at != pairs.end() && at->first == id; ++at)
        ids.push_back(at->second);
    return ids;
}

const KeyIndex& Book::keysOf(RecordKind kind) const
{
    const auto [entry, isNew] = indexes_->keys.try_emplace(kind);
    auto& index = entry->second;
    if (isNew) {
        const auto& description = describe(kind);
        const auto size = count(kind);
        index.reserve(size);
        for (std::size_t i = 0; i < size; ++i) index.add(keyHash(description, at(kind, i)), idAt(kind, i));
    }
    return index;
}

std::vector<std::int64_t> Book::withKey(RecordKind kind, std::span<const Value> key) const
{
    const auto& description = describe(kind);
    std::vector<std::int64_t> ids;
    keysOf(kind).each(hashOf(key), [&](std::int64_t id) {
        if (hasKey(description, find(kind, id), key)) ids.push_back(id);
    });
    std::sort(ids.begin(), ids.end());
    return ids;
}

bool Book::isKeyShared(RecordKind kind, std::int64_t id) const
{
    const auto& keys = keysOf(kind);
    const auto* record = keys.mayShare() ? find(kind, id) : nullptr;
    if (!record) return false;
    const auto& description = describe(kind);
    bool shared = false;
    keys.each(keyHash(description, record), [&](std::int64_t other) {
        if (other == id || shared) return;
        const auto* otherRecord = find(kind, other);
        const auto fields = keyFields(description);
        shared = std::all_of(fields.begin(), fields.end(), [&](std::size_t field) {
            return description.fields[field].get(record) == description.fields[field].get(otherRecord);
        });
    });
    return shared;
}

namespace {

void take(std::vector<std::pair<std::int64_t, std::int64_t>>& pairs, std::pair<std::int64_t, std::int64_t> pair)
{
    const auto found = std::lower_bound(pairs.begin(), pairs.end(), pair);
    if (found != pairs.end() && *found == pair) pairs.erase(found);
}

}

void Book::put(const Row& row)
{
    const auto& description = describe(row.kind);
    if (row.values.size() != description.fields.size()) throw DomainError{"a row with another number of fields than its kind has"};
    const auto& access = accessTo(row.kind);
    const auto* old = access.find(*this, row.id);
    const auto oldValues = old ? valuesOf(description, old) : std::vector<Value>{};
    const auto oldHash = old ? keyHash(description, old) : std::size_t{0};
    access.put(*this, row);  // throws before anything changed
    ++version_;
    const auto* record = access.find(*this, row.id);
    for (auto& [place, pairs] : indexes_->references) {
        if (place.first != row.kind) continue;
        const auto value = description.fields[place.second].get(record);
        if (old) {
            if (oldValues[place.second] == value) continue;
            if (const auto* target = std::get_if<std::int64_t>(&oldValues[place.second])) take(pairs, {*target, row.id});
        }
        if (const auto* target = std::get_if<std::int64_t>(&value)) {
            const std::pair pair{*target, row.id};
            pairs.insert(std::lower_bound(pairs.begin(), pairs.end(), pair), pair);
        }
    }
    if (const auto found = indexes_->keys.find(row.kind); found != indexes_->keys.end()) {
        if (old) found->second.remove(oldHash, row.id);
        found->second.add(keyHash(description, record), row.id);
    }
}

void Book::erase(RecordKind kind, std::int64_t id)
{
    const auto& access = accessTo(kind);
    const auto* record = access.find(*this, id);
    if (!record) return;
    const auto& description = describe(kind);
    for (auto& [place, pairs] : indexes_->references) {
        if (place.first != kind) continue;
        const auto value = description.fields[place.second].get(record);
        if (const auto* target = std::get_if<std::int64_t>(&value)) take(pairs, {*target, id});
    }
    if (const auto found = indexes_->keys.find(kind); found != indexes_->keys.end())
        found->second.remove(keyHash(description, record), id);
    access.erase(*this, id);
    ++version_;
}

void Book::eraseAll(RecordKind kind, std::vector<std::int64_t> ids)
{
    if (ids.size() < 16) {
        for (const auto id : ids) erase(kind, id);
        return;
    }
    std::sort(ids.begin(), ids.end());
    accessTo(kind).eraseAll(*this, ids);
    std::erase_if(indexes_->references, [&](const auto& entry) { return entry.first.first == kind; });
    indexes_->keys.erase(kind);
    ++version_;
}

void Book::expectMany(RecordKind kind, std::size_t rows)
{
    std::erase_if(indexes_->references, [&](const auto& entry) { return entry.first.first == kind; });
    if (const auto keys = indexes_->keys.find(kind); keys != indexes_->keys.end()) keys->second.reserve(count(kind) + rows);
    accessTo(kind).reserve(*this, count(kind) + rows);
}

void* Book::append(RecordKind kind, std::int64_t id, std::int64_t revision)
{
    if (!indexes_->references.empty()) std::erase_if(indexes_->references, [&](const auto& entry) { return entry.first.first == kind; });
    if (!indexes_->keys.empty()) indexes_->keys.erase(kind);
    ++version_;
    return accessTo(kind).append(*this, id, revision);
}

}

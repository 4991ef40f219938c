#include "load.h"

#include "csv.h"
#include "quantity/letters.h"
#include "record/field_text.h"
#include "store.h"

#include <algorithm>
#include <unordered_map>
#include <utility>

namespace strikeoff {

namespace {

/// A heading as fields are named: "Batched At " is batched_at.
std::string asFieldName(std::string_view heading)
{
    while (!heading.empty() && (heading.front() == ' ' || heading.front() == '\t')) heading.remove_prefix(1);
    while (!heading.empty() && (heading.back() == ' ' || heading.back() == '\t')) heading.remove_suffix(1);
    auto name = lowered(heading);
    std::replace_if(name.begin(), name.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
    return name;
}

std::string quoted(std::string_view text)
{
    constexpr std::size_t most = 40;
    if (text.size() <= most) return "\u201c" + std::string{text} + "\u201d";
    auto end = most;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
    return "\u201c" + std::string{text.substr(0, end)} + "\u2026\u201d";
}

std::string columnList(const KindDescription& kind)
{
    std::string list;
    for (const auto& field : kind.fields) {
        if (!list.empty()) list += ", ";
        list += field.name;
    }
    return list;
}

/// Cells that hold what someone typed; the others are in forms of the program's own.
bool isGuardedColumn(const Field& field) { return field.isText() || field.type == FieldType::reference; }

/// What stands between the cells, by the first line: a comma, unless there is none and the line has the semicolons or tabs of a
/// spreadsheet.
Separator separatorOf(std::string_view bytes)
{
    const auto heading = bytes.substr(0, bytes.find_first_of("\r\n"));
    if (heading.find(',') != std::string_view::npos) return Separator::comma;
    if (heading.find(';') != std::string_view::npos) return Separator::semicolon;
    if (heading.find('\t') != std::string_view::npos) return Separator::tab;
    return Separator::comma;
}

/// The rows that a column's texts name, each looked up once.
class References {
public:
    const Reading& read(const Book& book, const Field& field, std::string_view text, std::optional<std::int64_t> scope)
    {
        const Seen seen{scope.value_or(0), text};
        if (last_ && Same{}(last_->first, seen)) return last_->second;  // rows of one supplier or job mostly stand together
        auto found = readings_.find(seen);
        if (found == readings_.end())
            found = readings_.emplace(Name{seen.scope, std::string{text}}, readReference(book, field, text, scope)).first;
        last_ = &*found;
        return found->second;
    }

private:
    struct Seen {
        std::int64_t scope;
        std::string_view text;
    };
    struct Name {
        std::int64_t scope;
        std::string text;
        operator Seen() const { return {scope, text}; }
    };
    struct Hash {
        using is_transparent = void;
        std::size_t operator()(const Seen& name) const
        {
            return std::hash<std::string_view>{}(name.text) * 31 + static_cast<std::size_t>(name.scope);
        }
    };
    struct Same {
        using is_transparent = void;
        bool operator()(const Seen& a, const Seen& b) const { return a.scope == b.scope && a.text == b.text; }
    };
    std::unordered_map<Name, Reading, Hash, Same> readings_;
    const std::pair<const Name, Reading>* last_ = nullptr;
};

struct Column {
    std::size_t cell;                  ///< place in the file's rows
    std::size_t field;                 ///< place in the kind's fields
    std::optional<std::size_t> scope;  ///< the field that a reference is named within
    References references;
};

class Loader {
public:
    Loader(Store& store, RecordKind kind, std::string_view fileName, std::string_view bytes, const LoadOptions& options)
        : store_{store}, book_{store.book()}, kind_{describe(kind)}, blank_{blankRow(kind).values}, bytes_{bytes},
          options_{options}, reader_{bytes, separatorOf(bytes)},
          keyFields_{keyFields(kind_)}, edit_{"Load " + lowered(kind_.plural) + " from " + std::string{fileName}}
    {
        number_ = numberField(kind_);
    }

    /// Whether the book refused rows that were good by themselves; the faults are then only the first ones it came upon.
    bool isRefused() const { return refused_; }

    LoadResult run()
    {
        if (readHeading()) readRows();
        if (!result_.stopped) finish();
        if (!result_.done()) result_.added = result_.changed = result_.unchanged = 0;
        std::stable_sort(result_.faults.begin(), result_.faults.end(),
                         [](const auto& a, const auto& b) { return a.line < b.line; });
        return std::move(result_);
    }

private:
    void fault(std::size_t line, std::string_view column, std::string message)
    {
        ++result_.faultCount;
        if (result_.faults.size() < LoadResult::mostFaults)
            result_.faults.push_back({line, std::string{column}, std::move(message)});
    }

    /// What the reader stopped at, with the column by its name where the heading gave it one.
    void readerFault()
    {
        if (!reader_.fault()) return;
        const auto& [line, column, message] = *reader_.fault();
        const auto place = "line " + std::to_string(line) + (column > 0 ? ", column " + std::to_string(column) : "") + ": ";
        std::string name;
        for (const auto& known : columns_)
            if (column == known.cell + 1) name = kind_.fields[known.field].name;
        if (name.empty() && column > 0) name = std::to_string(column);
        fault(line, name, message.starts_with(place) ? message.substr(place.size()) : message);
    }

    bool readHeading()
    {
        if (!reader_.next()) {
            if (reader_.fault()) readerFault();
            else fault(1, {}, "the file is empty; its first line names the columns: " + columnList(kind_));
            return false;
        }
        const auto line = reader_.line();
        const auto cells = reader_.cells();
        width_ = cells.size();
        for (std::size_t cell = 0; cell < cells.size(); ++cell) {
            const auto name = asFieldName(unguarded(cells[cell]));
            const auto* field = findField(kind_, name);
            if (!field) {
                fault(line, {},
                      (name.empty() ? "column " + std::to_string(cell + 1) + " has no name"
                                    : "there is no column " + quoted(cells[cell]) + " in " + std::string{kind_.name})
                          + "; its columns are " + columnList(kind_));
                continue;
            }
            const auto index = static_cast<std::size_t>(field - kind_.fields.data());
            if (std::any_of(columns_.begin(), columns_.end(), [&](const auto& other) { return other.field == index; })) {
                fault(line, name, "this column stands twice in the heading; leave one out");
                continue;
            }
            columns_.push_back(
                {cell, index, field->scope.empty() ? std::nullopt : std::optional{fieldIndex(kind_, field->scope)}, {}});
        }
        for (std::size_t i = 0; i < kind_.fields.size(); ++i) {
            if (std::any_of(columns_.begin(), columns_.end(), [&](const auto& column) { return column.field == i; })) continue;
            if (kind_.fields[i].required) fault(line, kind_.fields[i].name, "this column is missing from the heading; add it");
            else if (isRecorded(blank_[i])) missing_.push_back(i);
        }
        // What a reference is named within is read before it.
        std::stable_partition(columns_.begin(), columns_.end(), [](const auto& column) { return !column.scope; });
        return result_.faultCount == 0;
    }

    void readRows()
    {
        const auto lines = static_cast<std::size_t>(std::count(bytes_.begin(), bytes_.end(), '\n')) + 1;
        const auto likelyRows = std::min<std::size_t>(lines, 1'000'000);
        edit_.changes().reserve(likelyRows);
        lines_.reserve(likelyRows);
        newKeys_.reserve(likelyRows);
        for (std::size_t row = 0; reader_.next(); ++row) {
            if (options_.progress && row % 512 == 0
                && !options_.progress(static_cast<int>(std::min(reader_.line(), lines) * 50 / lines))) {
                result_.stopped = true;
                return;
            }
            readRow();
        }
        readerFault();
        findRepeated();
    }

    void readRow()
    {
        const auto cells = reader_.cells();
        if (std::all_of(cells.begin(), cells.end(), [](auto cell) { return cell.empty(); })) return;  // a spreadsheet's empty row
        const auto line = reader_.line();
        if (cells.size() != width_) {
            fault(line, {}, "this row has " + std::to_string(cells.size()) + " cells and the heading " + std::to_string(width_)
                                + "; give every row the same, and put text that holds a separator in quotes");
            return;
        }
        Row row{kind_.kind, 0, 0, std::vector<Value>(kind_.fields.size())};
        for (const auto field : missing_) row.values[field] = blank_[field];
        if (readCells(cells, line, row)) place(std::move(row), line);
    }

    bool readCells(std::span<const std::string_view> cells, std::size_t line, Row& row)
    {
        bool good = true;
        for (auto& column : columns_) {
            const auto& field = kind_.fields[column.field];
            auto& value = row.values[column.field];
            const auto text = isGuardedColumn(field) ? unguarded(cells[column.cell]) : cells[column.cell];
            if (text.empty()) {
                // A blank is "not recorded", or the default where the record always has a value of its own.
                if (!field.nullable && !field.required) value = blank_[column.field];
                continue;
            }
            if (field.type == FieldType::reference) {
                std::optional<std::int64_t> scope;
                if (column.scope) {
                    if (const auto* id = std::get_if<std::int64_t>(&row.values[*column.scope])) scope = *id;
                    else if (!good) continue;  // the fault is in what it is named within
                }
                const auto& reading = column.references.read(book_, field, text, scope);
                if (reading.ok()) value = reading.value;
                else fault(line, field.name, reading.fault);
                good = good && reading.ok();
            } else if (field.type == FieldType::text || field.type == FieldType::note) {
                value.emplace<std::string>(text);
            } else {
                auto reading = readFileText(field, text);
                good = good && reading.ok();
                if (!reading.ok()) fault(line, field.name, std::move(reading.fault));
                else if (isRecorded(reading.value)) value = std::move(reading.value);
                else if (!field.nullable && !field.required) value = blank_[column.field];
            }
        }
        return good;
    }

    /// Adds the row to the edit, as a change of the row with its key or as a new one.
    void place(Row row, std::size_t line)
    {
        const bool numberToCome = number_ && !isRecorded(row.values[*number_]);
        std::optional<std::int64_t> old;
        if (kind_.key.empty()) {
            if (book_.count(kind_.kind) > 0) old = book_.idAt(kind_.kind, 0);
            if (const auto first = std::exchange(onlyLine_, line); first != 0)
                return fault(line, {},
                             "a book has one row of " + std::string{kind_.name} + " and line " + std::to_string(first)
                                 + " gave it; leave one out");
        } else if (!numberToCome) {
            if (book_.count(kind_.kind) > 0) {
                std::vector<Value> key;
                for (const auto field : keyFields_) key.push_back(row.values[field]);
                if (const auto ids = book_.withKey(kind_.kind, key); !ids.empty()) old = ids.front();
            }
            if (old) {
                const auto [entry, isNew] = oldLines_.try_emplace(*old, line);
                if (!isNew) return fault(line, kind_.fields[keyFields_.back()].name, repeated(entry->second));
            } else {
                newKeys_.emplace_back(keyHash(row), edit_.changes().size());
            }
        }
        if (!old) {
            edit_.add(std::move(row));
            lines_.push_back(line);
            ++result_.added;
            return;
        }
        auto merged = *book_.row(kind_.kind, *old);
        bool differs = false;
        for (const auto& column : columns_) {
            auto& value = merged.values[column.field];
            if (value == row.values[column.field]) continue;
            value = std::move(row.values[column.field]);
            differs = true;
        }
        if (!differs) {
            ++result_.unchanged;
            return;
        }
        edit_.change(std::move(merged));
        lines_.push_back(line);
        ++result_.changed;
    }

    std::size_t keyHash(const Row& row) const
    {
        std::size_t hash = 0;
        for (const auto field : keyFields_) hash = hash * 1099511628211ULL + std::hash<Value>{}(row.values[field]);
        return hash;
    }

    /// Finds new rows that stand twice in the file, and takes the later ones out of the edit.
    void findRepeated()
    {
        std::sort(newKeys_.begin(), newKeys_.end());
        std::vector<bool> bad(lines_.size());
        const auto sameKey = [&](std::size_t a, std::size_t b) {
            const auto& changes = edit_.changes();
            return std::all_of(keyFields_.begin(), keyFields_.end(),
                               [&](std::size_t field) { return changes[a].row.values[field] == changes[b].row.values[field]; });
        };
        bool any = false;
        std::vector<std::size_t> firsts;  // of the keys that share a hash
        for (std::size_t i = 0; i < newKeys_.size(); ++i) {
            const auto change = newKeys_[i].second;
            if (i > 0 && newKeys_[i - 1].first != newKeys_[i].first) firsts.clear();
            const auto found =
                std::find_if(firsts.begin(), firsts.end(), [&](std::size_t first) { return sameKey(first, change); });
            if (found == firsts.end()) {
                firsts.push_back(change);
                continue;
            }
            fault(lines_[change], kind_.fields[keyFields_.back()].name, repeated(lines_[*found]));
            any = bad[change] = true;
        }
        if (any) leaveOut(bad);
    }

    void leaveOut(const std::vector<bool>& bad)
    {
        auto& changes = edit_.changes();
        std::size_t kept = 0;
        for (std::size_t i = 0; i < changes.size(); ++i) {
            if (bad[i]) continue;
            if (kept != i) changes[kept] = std::move(changes[i]);
            lines_[kept++] = lines_[i];
        }
        changes.erase(changes.begin() + static_cast<std::ptrdiff_t>(kept), changes.end());
        lines_.resize(kept);
    }

    std::string repeated(std::size_t firstLine) const
    {
        std::string labels;
        for (const auto field : keyFields_) {
            if (!labels.empty()) labels += ", ";
            labels += kind_.fields[field].name;
        }
        return "this row repeats line " + std::to_string(firstLine) + " (the same " + labels + "); leave one out";
    }

    /// Commits; or finds what else is wrong with the rows that could be read.
    void finish()
    {
        if (options_.progress && !options_.progress(60)) {
            result_.stopped = true;
            return;
        }
        if (!edit_.empty()) {
            if (options_.checkOnly || result_.faultCount > 0) checkRows();
            else commit();
        }
        if (options_.progress) options_.progress(100);
    }

    void commit()
    {
        const auto committed = store_.commit(std::move(edit_));
        for (const auto& conflict : committed.conflicts)
            fault(lines_[conflict.change], {},
                  "this row was changed by another program just now; look at it and load the file again");
        refused_ = !committed.problems.empty();
        for (const auto& problem : committed.problems) fault(lines_[problem.change], problem.field, problem.message);
    }

    void checkRows()
    {
        // Rules between rows are only looked at once every field is right, so what is left of the good rows is checked again.
        for (int round = 0; round < 3 && !edit_.empty(); ++round) {
            const auto problems = store_.check(edit_);
            if (problems.empty()) return;
            std::vector<bool> bad(lines_.size());
            for (const auto& problem : problems) {
                fault(lines_[problem.change], problem.field, problem.message);
                bad[problem.change] = true;
            }
            leaveOut(bad);
        }
    }

    Store& store_;
    const Book& book_;
    const KindDescription& kind_;
    const std::vector<Value> blank_;
    const std::string_view bytes_;
    const LoadOptions& options_;
    CsvReader reader_;
    const std::span<const std::size_t> keyFields_;
    Edit edit_;
    LoadResult result_;
    std::vector<Column> columns_;
    std::vector<std::size_t> missing_;  ///< fields that the file has no column for and that have a default
    std::size_t width_ = 0;
    std::optional<std::size_t> number_;
    std::vector<std::size_t> lines_;  ///< of the edit's changes
    std::unordered_map<std::int64_t, std::size_t> oldLines_;       ///< of rows that are in the book
    std::vector<std::pair<std::size_t, std::size_t>> newKeys_;     ///< of the others: hash of the key, place in the edit
    std::size_t onlyLine_ = 0;
    bool refused_ = false;
};

}

std::string dumpCsv(const Book& book, RecordKind kind)
{
    const auto& description = describe(kind);
    std::string csv;
    CsvWriter writer{csv};
    for (const auto& field : description.fields) writer.plain(field.name);
    writer.endRow();
    const auto count = book.count(kind);
    for (std::size_t i = 0; i < count; ++i) {
        const auto* record = book.at(kind, i);
        for (const auto& field : description.fields) {
            const auto text = fileText(book, description, field, record);
            if (isGuardedColumn(field)) writer.text(text);
            else writer.plain(text);
        }
        writer.endRow();
    }
    return csv;
}

std::string LoadResult::faultText(std::string_view fileName, std::size_t most) const
{
    std::string text;
    const auto shown = std::min(most, faults.size());
    for (std::size_t i = 0; i < shown; ++i) {
        const auto& [line, column, message] = faults[i];
        text += std::string{fileName} + ':' + std::to_string(line) + ": " + (column.empty() ? "" : "column " + column + ": ")
            + message + '\n';
    }
    if (faultCount > shown) text += "\u2026 and " + std::to_string(faultCount - shown) + " more\n";
    return text;
}

LoadResult loadCsv(Store& store, RecordKind kind, std::string_view fileName, std::string_view bytes, const LoadOptions& options)
{
    Loader loader{store, kind, fileName, bytes, options};
    auto result = loader.run();
    if (!loader.isRefused()) return result;
    // The edit is gone into the commit; reading it again finds every bad row, not only those the first rule stopped at.
    LoadOptions looking;
    looking.checkOnly = true;
    auto all = Loader{store, kind, fileName, bytes, looking}.run();
    return all.faultCount > 0 ? all : result;
}

}

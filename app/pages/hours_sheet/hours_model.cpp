#include "pages/hours_sheet/hours_model.h"

#include "labels.h"
#include "plain_words.h"
#include "record/field_text.h"

#include <algorithm>

namespace strikeoff {

namespace {

const Field& hoursField(std::string_view name)
{
    const auto& kind = describe(RecordKind::hours);
    return kind.fields[fieldIndex(kind, name)];
}

std::size_t at(int column) { return static_cast<std::size_t>(column - HoursModel::firstWork); }
std::size_t personAt(int row) { return static_cast<std::size_t>(row - HoursModel::firstPerson); }

constexpr int mostColumns = 200;  ///< no day has so many jobs

std::vector<DraftRow> rowsOn(const Book& book, Date day)
{
    std::vector<DraftRow> rows;
    for (const auto& row : book.all<Hours>())
        if (row.date == day) rows.push_back({row.id.value(), row.revision});
    return rows;
}

}

HoursModel::HoursModel(Desk& desk, QObject* parent) : GridModel{desk, RecordKind::hours, {"unpaid_minutes", "minutes"}, parent} { showDay(desk.today()); }

void HoursModel::showDay(Date day)
{
    seen_ = rowsOn(desk().book(), day);
    take(hoursSheet(desk().book(), day));
}

bool HoursModel::isOvertaken() const { return seen_ != rowsOn(desk().book(), day()); }

std::string HoursModel::cellName(int row, int column) const
{
    const auto whose = row == jobRow ? std::string{"job"} : row == phaseRow ? std::string{"phase"} : std::to_string(sheet_.people[personAt(row)].id.value());
    return whose + '/' + std::to_string(column);
}

std::vector<DraftRow> HoursModel::typedRows() const
{
    if (!changed_) return {};
    auto rows = seen_;
    auto& cells = rows.emplace_back().texts;
    cells["date"] = day().text();
    cells["columns"] = std::to_string(columnCount());
    for (int row = 0; row < rowCount(); ++row)
        for (int column = 0; column < columnCount(); ++column)
            if (const auto text = textAt(row, column); !text.isEmpty()) cells[cellName(row, column)] = utf8(text);
    return rows;
}

void HoursModel::putTyped(const std::vector<DraftRow>& rows)
{
    const auto& cells = rows.back().texts;
    const auto day = Date::parse(typedText(cells, "date"));
    if (!day) return;
    showDay(*day);
    auto seen = rows;
    seen.pop_back();
    if (seen != seen_) {  // its columns are others now: what was typed stands by itself, and is not saved over what the book says
        auto sheet = hoursSheet(desk().book(), *day);
        sheet.columns.clear();
        for (auto& person : sheet.people) {
            person.lunch.reset();
            person.cells.clear();
        }
        take(std::move(sheet));
        seen_ = std::move(seen);
    }
    const int columns = std::min(qs(typedText(cells, "columns")).toInt(), mostColumns);
    while (columnCount() < columns) addBlankColumn();
    for (int column = 0; column < columns; ++column)
        for (int row = 0; row < rowCount(); ++row)
            if (const auto text = qs(typedText(cells, cellName(row, column))); text != textAt(row, column)) readInto(row, column, text);
    settle();
}

void HoursModel::take(HoursSheet sheet)
{
    beginResetModel();
    sheet_ = std::move(sheet);
    unread_.clear();
    phaseKnown_.assign(sheet_.columns.size(), true);
    sheet_.columns.push_back({});
    phaseKnown_.push_back(false);
    for (auto& person : sheet_.people) person.cells.resize(sheet_.columns.size());
    std::vector<std::string_view> columns{"unpaid_minutes"};
    columns.resize(1 + sheet_.columns.size(), "minutes");
    setColumns(columns);
    typedColumn_ = firstWork;
    changed_ = false;
    flags_ = flagsOf(desk().book(), sheet_);
    endResetModel();
    emit wordsChanged();
}

bool HoursModel::isUsed(std::size_t column) const
{
    if (sheet_.columns[column].job || phaseKnown_[column]) return true;
    const int place = static_cast<int>(column) + firstWork;
    if (std::ranges::any_of(unread_, [&](const auto& entry) { return entry.first.second == place; })) return true;
    return std::ranges::any_of(sheet_.people, [&](const auto& person) { return !person.cells[column].isBlank(); });
}

void HoursModel::keepOneColumnToType()
{
    if (isUsed(sheet_.columns.size() - 1)) addBlankColumn();
}

void HoursModel::addBlankColumn()
{
    sheet_.columns.push_back({});
    phaseKnown_.push_back(false);
    for (auto& person : sheet_.people) person.cells.resize(sheet_.columns.size());
    addColumn("minutes");
}

void HoursModel::settle()
{
    keepOneColumnToType();
    flags_ = flagsOf(desk().book(), sheet_);
    changed_ = true;
    emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
    emit headerDataChanged(Qt::Vertical, 0, rowCount() - 1);
    emit headerDataChanged(Qt::Horizontal, 0, columnCount() - 1);
    emit wordsChanged();
}

void HoursModel::copyDayBefore()
{
    auto sheet = sheet_;
    sheet.columns.pop_back();
    for (auto& person : sheet.people) person.cells.resize(sheet.columns.size());
    take(copiedFromDayBefore(desk().book(), std::move(sheet)));
    settle();
}

void HoursModel::fillColumn(const QModelIndex& from, bool exceptHere)
{
    if (!from.isValid() || from.row() < firstPerson) return;
    auto text = textAt(from.row(), from.column());
    for (int row = firstPerson; text.isEmpty() && row < rowCount(); ++row) text = textAt(row, from.column());
    if (text.isEmpty()) return;
    for (int row = firstPerson; row < rowCount(); ++row) readInto(row, from.column(), exceptHere && row == from.row() ? QString{} : text);
    settle();
}

void HoursModel::readInto(int row, int column, const QString& text)
{
    if (read(row, column, utf8(text))) unread_.erase({row, column});
    else unread_[{row, column}] = text;
}

std::optional<Edit> HoursModel::edit(QModelIndex& toType) const
{
    for (const auto& [place, text] : unread_) {
        toType = index(place.first, place.second);
        return std::nullopt;
    }
    for (std::size_t column = 0; column < sheet_.columns.size(); ++column) {
        const bool worked = std::ranges::any_of(sheet_.people, [&](const auto& person) { return !person.cells[column].isBlank(); });
        if (!worked) continue;
        const int place = static_cast<int>(column) + firstWork;
        const bool needsJob = !sheet_.columns[column].job && sheet_.columns[column].phase != Phase::shop;
        if (phaseKnown_[column] && !needsJob) continue;
        toType = index(phaseKnown_[column] ? jobRow : phaseRow, place);
        return std::nullopt;
    }
    return hoursEdit(desk().book(), sheet_);
}

const Field& HoursModel::fieldFor(const QModelIndex& cell) const
{
    if (cell.row() == jobRow) return hoursField("job");
    if (cell.row() == phaseRow) return hoursField("phase");
    return hoursField(cell.column() == lunchColumn ? "unpaid_minutes" : "minutes");
}

QString HoursModel::faultAt(int row, int column) const
{
    if (unread_.contains({row, column})) {
        if (row == jobRow) return tr("There is no job of this number; type its number, or leave it blank for the shop.");
        if (row == phaseRow) return tr("Type the beginning of a phase: prep, place, finish, strip, seal, travel, rework or shop.");
        if (column == lunchColumn) return tr("Lunch is in minutes, like 30.");
        return tr("Type hours, like 8 or 7:30, or from and to, like 7-3:30.");
    }
    if (column < firstWork) return {};
    const auto place = at(column);
    const bool worked = std::ranges::any_of(sheet_.people, [&](const auto& person) { return !person.cells[place].isBlank(); });
    if (row == phaseRow && !phaseKnown_[place] && (worked || sheet_.columns[place].job)) return tr("What was done? Type the beginning of a phase: prep, place, finish, strip, seal, travel, rework or shop.");
    if (row == jobRow && worked && phaseKnown_[place] && !sheet_.columns[place].job && sheet_.columns[place].phase != Phase::shop) return tr("This phase belongs to a job; type its number.");
    return {};
}

QString HoursModel::wordsAt(int row) const
{
    QStringList words;
    for (int column = 0; column < columnCount(); ++column)
        if (const auto fault = faultAt(row, column); !fault.isEmpty()) words << fault;
    if (row >= firstPerson)
        for (const auto& flag : flags_)
            if (flag.person == personAt(row)) words << tr("Look again: %1.").arg(qs(flag.message));
    return words.join(u' ');
}

bool HoursModel::isBlocked(int row) const
{
    for (int column = 0; column < columnCount(); ++column)
        if (!faultAt(row, column).isEmpty()) return true;
    return false;
}

int HoursModel::columnToType(int row) const
{
    for (int column = 0; column < columnCount(); ++column)
        if (!faultAt(row, column).isEmpty()) return column;
    return std::clamp(typedColumn_, static_cast<int>(firstWork), columnCount() - 1);
}

QModelIndex HoursModel::cellAfter(const QModelIndex& cell) const
{
    if (cell.row() + 1 < rowCount()) return index(cell.row() + 1, cell.column());
    return cell.column() + 1 < columnCount() ? index(jobRow, cell.column() + 1) : cell;
}

QModelIndex HoursModel::cellBefore(const QModelIndex& cell) const
{
    const int first = cell.column() == lunchColumn ? firstPerson : jobRow;
    if (cell.row() > first) return index(cell.row() - 1, cell.column());
    return cell.column() > 0 ? index(rowCount() - 1, cell.column() - 1) : cell;
}

void HoursModel::takeOut(int row)
{
    if (row < firstPerson) return;
    auto& person = sheet_.people[personAt(row)];
    person.lunch.reset();
    for (auto& cell : person.cells) cell = {};
    std::erase_if(unread_, [&](const auto& entry) { return entry.first.first == row; });
    settle();
}

int HoursModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : firstPerson + static_cast<int>(sheet_.people.size()); }

QVariant HoursModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation == Qt::Vertical) {
        if (role == Qt::TextAlignmentRole) return QVariant::fromValue(Qt::Alignment{Qt::AlignLeft | Qt::AlignTop});
        if (role != Qt::DisplayRole) return {};
        if (section == jobRow) return tr("Job");
        if (section == phaseRow) return tr("Phase");
        const auto person = personAt(section);
        Minutes all;
        for (std::size_t column = 0; column < sheet_.columns.size(); ++column) all += paidInCell(desk().book(), sheet_, person, column);
        const auto name = qs(desk().book().get(sheet_.people[person].id).name);
        return all == Minutes{} ? name : name + QStringLiteral("  ") + qs(all.shown());
    }
    if (role == Qt::TextAlignmentRole) return QVariant::fromValue(Qt::Alignment{Qt::AlignLeft | Qt::AlignVCenter});
    if (role != Qt::DisplayRole && role != Qt::ToolTipRole) return GridModel::headerData(section, orientation, role);
    if (section == lunchColumn) return role == Qt::DisplayRole ? tr("Lunch, min") : tr("Unpaid minutes, taken out of the longest stretch from and to");
    const auto& column = sheet_.columns[at(section)];
    if (const auto* job = desk().book().find(column.job)) {
        const auto title = qs(job->title);
        if (role == Qt::ToolTipRole) return asPlainTip(title);
        return title.size() <= 16 ? title : title.left(15).trimmed() + QStringLiteral("\u2026");
    }
    return isUsed(at(section)) ? tr("Shop") : tr("Next");
}

Qt::ItemFlags HoursModel::flags(const QModelIndex& index) const
{
    if (index.row() < firstPerson && index.column() == lunchColumn) return Qt::ItemIsEnabled;
    return GridModel::flags(index);
}

QString HoursModel::textAt(int row, int column) const
{
    if (const auto found = unread_.find({row, column}); found != unread_.end()) return found->second;
    const auto& book = desk().book();
    if (row >= firstPerson) {
        const auto& person = sheet_.people[personAt(row)];
        if (column == lunchColumn) return person.lunch ? QString::number(person.lunch->count()) : QString{};
        return qs(cellText(person.cells[at(column)]));
    }
    if (column == lunchColumn) return {};
    const auto& place = sheet_.columns[at(column)];
    if (row == phaseRow) return phaseKnown_[at(column)] ? qs(labelOf(place.phase)) : QString{};
    return place.job ? qs(keyText(book, *place.job)) : QString{};
}

QVariant HoursModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
    switch (role) {
    case Qt::DisplayRole:
    case Qt::EditRole: return textAt(index.row(), index.column());
    case Qt::TextAlignmentRole: return QVariant::fromValue(Qt::Alignment{index.row() < firstPerson ? Qt::AlignLeft : Qt::AlignRight} | Qt::AlignVCenter);
    case faultRole: {
        const auto fault = faultAt(index.row(), index.column());
        if (!fault.isEmpty() || index.row() < firstPerson) return fault;
        for (const auto& flag : flags_)
            if (flag.person == personAt(index.row()) && flag.column && static_cast<int>(*flag.column) + firstWork == index.column()) return qs(flag.message);
        return QString{};
    }
    case Qt::ToolTipRole: return asPlainTip(faultAt(index.row(), index.column()));
    case carriedRole: return index.row() < firstPerson;
    default: return {};
    }
}

bool HoursModel::read(int row, int column, const std::string& text)
{
    const auto& book = desk().book();
    const auto blank = text.find_first_not_of(" \t") == std::string::npos;
    if (row >= firstPerson) {
        auto& person = sheet_.people[personAt(row)];
        if (column == lunchColumn) {
            const auto lunch = blank ? std::optional{Minutes{}} : Minutes::read(text);
            if (!lunch || *lunch < Minutes{} || *lunch > Minutes::of(600)) return false;
            person.lunch = blank ? std::nullopt : lunch;
            return true;
        }
        const auto cell = readCell(text);
        if (!cell) return false;
        auto& old = person.cells[at(column)];
        const auto record = old.row;
        old = *cell;
        if (!old.isBlank()) old.row = record;
        return true;
    }
    auto& place = sheet_.columns[at(column)];
    if (row == phaseRow) {
        const auto phase = readPhase(text);
        phaseKnown_[at(column)] = phase.has_value();
        if (phase) place.phase = *phase;
        if (phase == Phase::shop && !place.job) place.pour.reset();
        return phase || blank;
    }
    if (blank) {
        place.job.reset();
        place.pour.reset();
        return true;
    }
    const auto named = readReference(book, hoursField("job"), text, {});
    const auto* id = std::get_if<std::int64_t>(&named.value);
    if (!named.ok() || !id) return false;
    if (place.job != Id<Job>{*id}) {
        place.job = Id<Job>{*id};
        place.pour = pourOn(book, *place.job, sheet_.date);
    }
    return true;
}

bool HoursModel::setData(const QModelIndex& index, const QVariant& value, int role)
{
    if (role != Qt::EditRole || !checkIndex(index, CheckIndexOption::IndexIsValid)) return false;
    if (index.column() >= firstWork) typedColumn_ = index.column();
    const auto text = value.toString();
    if (text == textAt(index.row(), index.column())) return true;
    readInto(index.row(), index.column(), text);
    settle();
    return true;
}

}

#include "pages/ticket_desk/stack_model.h"

#include "labels.h"
#include "plain_words.h"

#include <algorithm>

namespace strikeoff {

namespace {

/// What a stack has in common first, then the load's own in the order of a ticket.
const std::vector<std::string_view> columns{"job", "pour", "supplier", "plant", "date", "mix", "number", "yards", "truck", "batched_at", "arrived_at", "discharge_began_at", "discharge_ended_at",
                             "options", "slump_ordered_in", "slump_in", "concrete_temp_f", "water_added_gal", "returned_yards", "signed_by", "note"};

}

StackModel::StackModel(Desk& desk, QObject* parent) : GridModel{desk, RecordKind::ticket, columns, parent}
{
    rows_.emplace_back();
    readAgain();
}

int StackModel::columnToType(int row) const
{
    const auto& reading = readingAt(row);
    if (!reading.faults.empty()) return columnOf(reading.faults.front().field);
    for (int i = 0; i < columnCount(); ++i) {
        const auto& field = fieldAt(i);
        if (typedText(typedAt(row), field.name).empty() && (field.required || (field.name == "job" && !reading.begun))) return i;
    }
    return columnToBegin();
}

std::optional<std::int64_t> StackModel::scopeOf(int row, const Field& field) const
{
    const auto& job = readingAt(row).ticket.job;
    return field.scope.empty() || !job ? std::nullopt : std::optional{job->value()};
}

QString StackModel::wordsAt(int row) const
{
    const auto& refusal = refusals_[static_cast<std::size_t>(row)];
    if (!refusal.isEmpty()) return tr("Not saved: %1").arg(refusal);
    const auto& reading = readingAt(row);
    const auto words = qs(reading.says());
    if (words.isEmpty() || isBlocked(row)) return words;
    return tr("Look again (you may save it all the same): %1").arg(words);
}

bool StackModel::isBlocked(int row) const
{
    const auto& reading = readingAt(row);
    return !refusals_[static_cast<std::size_t>(row)].isEmpty() || (reading.begun && !reading.canBeSaved());
}

void StackModel::begin()
{
    if (hasBegun()) readAgain();
    else startWith({firstOfStack(desk().book(), desk().today())});
}

void StackModel::startWith(std::vector<TypedTicket> rows)
{
    beginResetModel();
    rows_ = std::move(rows);
    refusals_.assign(rows_.size(), {});
    readings_ = readStack(desk().book(), rows_, desk().today());
    endResetModel();
    keepOneToType();
    readAgain();
}

std::span<const TypedTicket> StackModel::typed() const
{
    const auto last = std::find_if(readings_.rbegin(), readings_.rend(), [](const auto& reading) { return reading.begun; });
    return std::span{rows_}.first(static_cast<std::size_t>(readings_.rend() - last));
}

bool StackModel::hasBegun() const
{
    return std::ranges::any_of(readings_, [](const auto& reading) { return reading.begun; });
}

void StackModel::readAgain()
{
    refusals_.resize(rows_.size());
    readings_ = readStack(desk().book(), rows_, desk().today());
    emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
    emit wordsChanged();
}

void StackModel::keepOneToType()
{
    if (!readings_.back().begun) {
        // What is carried on follows the last ticket.
        if (rows_.size() > 1) rows_.back() = nextOfStack(rows_[rows_.size() - 2]);
        return;
    }
    const auto at = rowCount();
    beginInsertRows({}, at, at);
    rows_.push_back(nextOfStack(rows_.back()));
    refusals_.emplace_back();
    readings_.emplace_back();
    endInsertRows();
}

void StackModel::takeOut(int row)
{
    if (row < 0 || row >= rowCount()) return;
    if (rows_.size() == 1 || row + 1 == rowCount()) {
        rows_[static_cast<std::size_t>(row)] = row > 0 ? nextOfStack(typedAt(row - 1)) : firstOfStack(desk().book(), desk().today());
        refusals_[static_cast<std::size_t>(row)].clear();
        readAgain();
        return;
    }
    beginRemoveRows({}, row, row);
    rows_.erase(rows_.begin() + row);
    refusals_.erase(refusals_.begin() + row);
    readings_.erase(readings_.begin() + row);
    endRemoveRows();
    readAgain();
}

void StackModel::refuse(int row, const QString& words)
{
    refusals_[static_cast<std::size_t>(row)] = words;
    emit wordsChanged();
}

int StackModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(rows_.size()); }

QVariant StackModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
    const auto& field = fieldAt(index.column());
    const auto text = typedText(typedAt(index.row()), field.name);
    switch (role) {
    case Qt::DisplayRole:
    case Qt::EditRole: return qs(text);
    case Qt::TextAlignmentRole: return QVariant::fromValue(sideOf(index.column()));
    case faultRole:
        for (const auto& fault : readingAt(index.row()).faults)
            if (fault.field == field.name) return qs(fault.message);
        return QString{};
    case Qt::ToolTipRole: {
        const auto fault = data(index, faultRole).toString();
        return asPlainTip(fault.isEmpty() ? qs(field.meaning) : fault);
    }
    case carriedRole:  // the same as in the row above, or of a row not begun
        return !readingAt(index.row()).begun || (index.row() > 0 && nextOfStack(typedAt(index.row() - 1)).contains(field.name) && text == typedText(typedAt(index.row() - 1), field.name));
    case hintRole:
        return field.name == "number" && index.row() > 0 ? qs(numberAfter(typedText(typedAt(index.row() - 1), "number"))) : QString{};
    default: return {};
    }
}

bool StackModel::setData(const QModelIndex& index, const QVariant& value, int role)
{
    if (role != Qt::EditRole || !checkIndex(index, CheckIndexOption::IndexIsValid)) return false;
    const auto row = static_cast<std::size_t>(index.row());
    const auto before = rows_[row];
    typeInto(desk().book(), rows_[row], fieldAt(index.column()).name, utf8(value.toString()), desk().today());
    if (rows_[row] == before) return true;
    refusals_[row].clear();
    readings_ = readStack(desk().book(), rows_, desk().today());
    keepOneToType();
    readAgain();
    return true;
}

}

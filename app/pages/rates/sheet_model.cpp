#include "pages/rates/sheet_model.h"

#include "labels.h"
#include "plain_words.h"

namespace strikeoff {

namespace {

const std::vector<std::string_view> columns{"charge", "code", "meaning", "amount", "unit", "taxable", "from_yards", "to_yards", "free_minutes", "free_basis", "step_minutes", "season_from",
                                            "season_to", "only_when_ordered"};

}

SheetModel::SheetModel(Desk& desk, QObject* parent) : GridModel{desk, RecordKind::priceSheet, columns, parent}, rows_(1), readings_(1), refusals_(1) {}

void SheetModel::startWith(std::vector<TypedRow> rows, Id<Supplier> supplier)
{
    beginResetModel();
    rows_ = std::move(rows);
    rows_.emplace_back();
    refusals_.assign(rows_.size(), {});
    supplier_ = supplier;
    readings_ = readSheet(rows_, supplier_, day_);
    endResetModel();
    emit wordsChanged();
}

void SheetModel::setDay(Date effectiveOn)
{
    day_ = effectiveOn;
    readAgain();
}

void SheetModel::readAgain()
{
    if (rows_.back() != TypedRow{}) {
        beginInsertRows({}, rowCount(), rowCount());
        rows_.emplace_back();
        refusals_.emplace_back();
        readings_.emplace_back();
        endInsertRows();
    }
    readings_ = readSheet(rows_, supplier_, day_);
    emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
    emit wordsChanged();
}

void SheetModel::refuse(int row, const QString& words)
{
    refusals_[static_cast<std::size_t>(row)] = words;
    emit wordsChanged();
}

QString SheetModel::wordsAt(int row) const
{
    const auto& refusal = refusals_[static_cast<std::size_t>(row)];
    return refusal.isEmpty() ? qs(readings_[static_cast<std::size_t>(row)].says()) : tr("Not saved: %1").arg(refusal);
}

bool SheetModel::isBlocked(int row) const
{
    const auto& reading = readings_[static_cast<std::size_t>(row)];
    return !refusals_[static_cast<std::size_t>(row)].isEmpty() || (reading.begun && !reading.canBeSaved());
}

int SheetModel::columnToType(int row) const
{
    const auto& reading = readings_[static_cast<std::size_t>(row)];
    if (!reading.faults.empty()) return columnOf(reading.faults.front().field);
    for (int i = 0; reading.begun && i < columnCount(); ++i)
        if (fieldAt(i).required && typedText(rows_[static_cast<std::size_t>(row)], fieldAt(i).name).empty()) return i;
    return reading.begun ? columnOf("amount") : 0;
}

void SheetModel::takeOut(int row)
{
    if (row < 0 || row + 1 >= rowCount()) return;
    beginRemoveRows({}, row, row);
    rows_.erase(rows_.begin() + row);
    refusals_.erase(refusals_.begin() + row);
    readings_.erase(readings_.begin() + row);
    endRemoveRows();
    readAgain();
}

int SheetModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(rows_.size()); }

QVariant SheetModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
    const auto& field = fieldAt(index.column());
    const auto row = static_cast<std::size_t>(index.row());
    switch (role) {
    case Qt::DisplayRole:
    case Qt::EditRole: return qs(typedText(rows_[row], field.name));
    case Qt::TextAlignmentRole: return QVariant::fromValue(sideOf(index.column()));
    case faultRole:
        for (const auto& fault : readings_[row].faults)
            if (fault.field == field.name) return qs(fault.message);
        return QString{};
    case Qt::ToolTipRole: {
        const auto fault = data(index, faultRole).toString();
        return asPlainTip(fault.isEmpty() ? qs(field.meaning) : fault);
    }
    case carriedRole: return false;
    default: return {};
    }
}

bool SheetModel::setData(const QModelIndex& index, const QVariant& value, int role)
{
    if (role != Qt::EditRole || !checkIndex(index, CheckIndexOption::IndexIsValid)) return false;
    const auto row = static_cast<std::size_t>(index.row());
    const auto before = rows_[row];
    typeInto(rows_[row], fieldAt(index.column()).name, utf8(value.toString()));
    if (rows_[row] == before) return true;
    refusals_[row].clear();
    readAgain();
    return true;
}

}

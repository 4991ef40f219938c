#include "table/grid_model.h"

#include "labels.h"
#include "plain_words.h"
#include "table/record_source.h"

#include <algorithm>

namespace strikeoff {

GridModel::GridModel(Desk& desk, RecordKind kind, const std::vector<std::string_view>& columns, QObject* parent) : QAbstractTableModel{parent}, desk_{desk}, kind_{describe(kind)}
{
    setColumns(columns);
}

void GridModel::setColumns(const std::vector<std::string_view>& columns)
{
    fields_.clear();
    for (const auto name : columns) fields_.push_back(&kind_.fields[fieldIndex(kind_, name)]);
}

void GridModel::addColumn(std::string_view field)
{
    beginInsertColumns({}, static_cast<int>(fields_.size()), static_cast<int>(fields_.size()));
    fields_.push_back(&kind_.fields[fieldIndex(kind_, field)]);
    endInsertColumns();
}

QModelIndex GridModel::cellAfter(const QModelIndex& cell) const
{
    if (cell.column() + 1 < columnCount()) return index(cell.row(), cell.column() + 1);
    return cell.row() + 1 < rowCount() ? index(cell.row() + 1, columnToBegin()) : cell;
}

QModelIndex GridModel::cellBefore(const QModelIndex& cell) const
{
    if (cell.column() > 0) return index(cell.row(), cell.column() - 1);
    return cell.row() > 0 ? index(cell.row() - 1, columnCount() - 1) : cell;
}

int GridModel::columnOf(std::string_view field) const
{
    const auto found = std::ranges::find_if(fields_, [&](const auto* each) { return each->name == field; });
    return found == fields_.end() ? 0 : static_cast<int>(found - fields_.begin());
}

int GridModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(fields_.size()); }

Qt::Alignment GridModel::sideOf(int column) const
{
    const auto& field = fieldAt(column);
    const bool words = field.isText() || field.type == FieldType::reference || field.type == FieldType::date || field.type == FieldType::choice || field.type == FieldType::boolean;
    return Qt::Alignment{words ? Qt::AlignLeft : Qt::AlignRight} | Qt::AlignVCenter;
}

QVariant GridModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation == Qt::Vertical) return role == Qt::DisplayRole ? QVariant{section + 1} : QVariant{};
    const auto& field = fieldAt(section);
    if (role == Qt::DisplayRole) return headingOf(field);
    if (role == Qt::ToolTipRole) return asPlainTip(qs(field.meaning));
    if (role == Qt::TextAlignmentRole) return QVariant::fromValue(sideOf(section));
    return {};
}

Qt::ItemFlags GridModel::flags(const QModelIndex& index) const
{
    if (!index.isValid()) return Qt::NoItemFlags;
    return Qt::ItemIsEnabled | Qt::ItemIsSelectable | (desk_.store().isReadOnly() ? Qt::NoItemFlags : Qt::ItemIsEditable);
}

}

#include "form/lines_model.h"

#include "labels.h"
#include "plain_words.h"
#include "record/check.h"
#include "record/field_text.h"
#include "table/record_source.h"

#include <algorithm>

namespace strikeoff {

LinesModel::LinesModel(RecordKind kind, std::vector<LineColumn> columns, QString amountHeading, std::function<Money(const Row&)> amount, Desk& desk, QObject* parent)
    : QAbstractTableModel{parent}, kind_{kind}, columns_{std::move(columns)}, amountHeading_{std::move(amountHeading)}, amount_{std::move(amount)}, desk_{desk}
{
    for (const auto& column : columns_) {
        places_.push_back(fieldIndex(describe(kind_), column.field));
        fields_.push_back(&describe(kind_).fields[places_.back()]);
    }
}

void LinesModel::setState(State state)
{
    beginResetModel();
    state_ = std::move(state);
    endResetModel();
}

void LinesModel::setReadOnly(bool readOnly)
{
    if (readOnly_ == readOnly) return;
    beginResetModel();
    readOnly_ = readOnly;
    endResetModel();
}

bool LinesModel::isDirty() const
{
    return !state_.removed.empty() || std::ranges::any_of(state_.lines, [](const Line& line) { return line.isTouched(); });
}

std::vector<Row> LinesModel::typedLines() const
{
    std::vector<Row> rows;
    for (const auto& line : state_.lines)
        if (!line.isNew() || line.isTouched()) rows.push_back(line.now);
    return rows;
}

std::vector<DraftRow> LinesModel::typedRows() const
{
    std::vector<DraftRow> rows;
    for (const auto& gone : state_.removed) rows.push_back({gone.id, gone.revision});
    for (const auto& line : state_.lines) {
        if (!line.isTouched()) continue;
        auto& row = rows.emplace_back(DraftRow{line.base.id, line.base.revision});
        for (int column = 0; !isAmount(column); ++column) {
            const auto at = static_cast<std::size_t>(column);
            const auto text = utf8(typedText(line, column));
            const bool differs = line.typed.contains(column) || line.now.values[places_[at]] != line.base.values[places_[at]];
            if (differs || (line.isNew() && !text.empty())) row.texts[columns_[at].field] = text;
        }
    }
    return rows;
}

void LinesModel::putTyped(const std::vector<DraftRow>& rows, const std::function<Row()>& makeLine)
{
    beginResetModel();
    for (const auto& row : rows) {
        auto found = std::ranges::find_if(state_.lines, [&](const auto& line) { return row.id != 0 && line.base.id == row.id; });
        if (row.id != 0 && row.texts.empty()) {
            if (found == state_.lines.end()) continue;
            found->base.revision = row.revision;
            state_.removed.push_back(std::move(found->base));
            state_.lines.erase(found);
            continue;
        }
        if (found == state_.lines.end()) {  // new, or removed elsewhere since
            auto made = makeLine();
            made.id = row.id;
            state_.lines.push_back({made, made, {}, {}});
            found = std::prev(state_.lines.end());
        }
        // With the revision it was typed over: what somebody else changed since is met as a conflict.
        found->base.revision = found->now.revision = row.revision;
        for (const auto& [field, text] : row.texts)
            if (const int column = columnOf(field); column >= 0) take(*found, column, qs(text));
    }
    endResetModel();
    emit edited();
}

int LinesModel::addLine(Row row)
{
    const int place = rowCount();
    beginInsertRows({}, place, place);
    state_.lines.push_back({row, row, {}, {}});
    endInsertRows();
    emit edited();
    return place;
}

void LinesModel::removeLine(int row)
{
    if (row < 0 || row >= rowCount()) return;
    const auto at = state_.lines.begin() + row;
    beginRemoveRows({}, row, row);
    if (!at->isNew()) state_.removed.push_back(at->base);
    state_.lines.erase(at);
    endRemoveRows();
    emit edited();
}

void LinesModel::setFault(int row, int column, const QString& fault)
{
    auto& faults = state_.lines[static_cast<std::size_t>(row)].faults;
    if (fault.isEmpty()) faults.erase(column);
    else faults[column] = fault;
    emit dataChanged(index(row, column), index(row, column));
}

int LinesModel::columnOf(std::string_view name) const
{
    const auto found = std::ranges::find_if(columns_, [&](const auto& column) { return column.field == name; });
    return found == columns_.end() ? -1 : static_cast<int>(found - columns_.begin());
}

int LinesModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(state_.lines.size()); }

int LinesModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(columns_.size()) + 1; }

QString LinesModel::shown(const Line& line, int column) const
{
    if (isAmount(column)) return qs(amount_(line.now).shown());
    if (const auto typed = line.typed.find(column); typed != line.typed.end()) return typed->second;
    const auto& value = line.now.values[places_[static_cast<std::size_t>(column)]];
    if (!isRecorded(value)) return {};
    // Figures of a column have the same decimals, so that their points stand in line.
    const auto type = field(column).type;
    const int scale = decimalsOf(type);
    const auto* units = std::get_if<std::int64_t>(&value);
    if (scale <= 0 || !units) return qs(shownValue(field(column), value));
    int decimals = type == FieldType::money || type == FieldType::unitPrice ? 2 : 0;
    for (const auto& each : state_.lines)
        if (const auto* other = std::get_if<std::int64_t>(&each.now.values[places_[static_cast<std::size_t>(column)]])) decimals = std::max(decimals, decimalsUsed(*other, scale));
    return qs(shownDecimal(*units, scale, decimals));
}

/// As it can be typed again.
QString LinesModel::typedText(const Line& line, int column) const
{
    if (const auto typed = line.typed.find(column); typed != line.typed.end()) return typed->second;
    const auto& value = line.now.values[places_[static_cast<std::size_t>(column)]];
    return isRecorded(value) ? qs(shownValue(field(column), value)) : QString{};
}

QVariant LinesModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
    const auto& line = state_.lines[static_cast<std::size_t>(index.row())];
    const int column = index.column();
    const bool isFlag = !isAmount(column) && field(column).type == FieldType::boolean;
    switch (role) {
    case Qt::DisplayRole: return isFlag ? QVariant{} : QVariant{shown(line, column)};
    case Qt::EditRole: return isAmount(column) ? QVariant{} : QVariant{typedText(line, column)};
    case Qt::CheckStateRole:
        if (!isFlag) return {};
        return line.now.values[places_[static_cast<std::size_t>(column)]] == Value{std::int64_t{1}} ? Qt::Checked : Qt::Unchecked;
    case Qt::TextAlignmentRole: {
        const bool figures = isAmount(column) || decimalsOf(field(column).type) >= 0;
        return QVariant::fromValue(Qt::Alignment{(figures ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter});
    }
    case Qt::FontRole: return isAmount(column) || decimalsOf(field(column).type) >= 0 ? QVariant{figureFont()} : QVariant{};
    case Qt::ForegroundRole:
        return line.faults.contains(column) ? QVariant{toneColor(Tone::wrong)} : QVariant{};
    case Qt::ToolTipRole: {
        const auto fault = line.faults.find(column);
        const auto tip = fault != line.faults.end() ? fault->second : isFlag ? QString{} : shown(line, column);  // in full, where the column is narrow
        return tip.isEmpty() ? QVariant{} : QVariant{asPlainTip(tip)};
    }
    default: return {};
    }
}

void LinesModel::take(Line& line, int column, const QString& text)
{
    const auto& its = field(column);
    const auto place = places_[static_cast<std::size_t>(column)];
    const auto typed = utf8(text.trimmed());
    auto reading = typed.empty() ? Reading{} : readTyped(its, typed, desk_.today());
    line.typed.erase(column);
    line.faults.erase(column);
    if (!reading.ok()) {
        line.typed[column] = text;
        line.faults[column] = qs(reading.fault);
        return;
    }
    if (!isRecorded(reading.value) && !its.nullable && !its.required) reading.value = blankRow(kind_).values[place];
    line.now.values[place] = std::move(reading.value);
    for (const auto& problem : checkFields(line.now))
        if (problem.field == its.name) line.faults[column] = qs(problem.message);
}

bool LinesModel::setData(const QModelIndex& index, const QVariant& value, int role)
{
    if (readOnly_ || !checkIndex(index, CheckIndexOption::IndexIsValid) || isAmount(index.column())) return false;
    auto& line = state_.lines[static_cast<std::size_t>(index.row())];
    if (role == Qt::CheckStateRole) {
        line.now.values[places_[static_cast<std::size_t>(index.column())]] = Value{std::int64_t{value.toInt() == Qt::Checked ? 1 : 0}};
    } else if (role == Qt::EditRole) {
        if (value.toString() == data(index, Qt::EditRole).toString()) return true;  // looked at, not changed
        take(line, index.column(), value.toString());
    } else {
        return false;
    }
    emit dataChanged(this->index(0, 0), this->index(rowCount() - 1, columnCount() - 1));  // the decimals of a column go with all its lines
    emit edited();
    return true;
}

QVariant LinesModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal) return {};
    const bool figures = isAmount(section) || decimalsOf(field(section).type) >= 0;
    if (role == Qt::DisplayRole) return isAmount(section) ? amountHeading_ : headingOf(field(section));
    if (role == Qt::ToolTipRole && !isAmount(section)) return qs(field(section).meaning);
    if (role == Qt::TextAlignmentRole) return QVariant::fromValue(Qt::Alignment{(figures ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter});
    return {};
}

Qt::ItemFlags LinesModel::flags(const QModelIndex& index) const
{
    auto flags = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
    if (!index.isValid() || readOnly_ || isAmount(index.column())) return flags;
    return flags | (field(index.column()).type == FieldType::boolean ? Qt::ItemIsUserCheckable : Qt::ItemIsEditable);
}

}

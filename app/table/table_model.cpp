#include "table/table_model.h"

#include "labels.h"
#include "plain_words.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace strikeoff {

namespace {

bool anySum(const std::vector<Column>& columns)
{
    return std::ranges::any_of(columns, [](const Column& column) { return column.sumDecimals >= 0; });
}

}

TableModel::TableModel(std::vector<Column> columns, QObject* parent) : QAbstractTableModel{parent}, columns_{std::move(columns)}, sums_{anySum(columns_)} {}

void TableModel::setColumns(std::vector<Column> columns)
{
    beginResetModel();
    columns_ = std::move(columns);
    sums_ = anySum(columns_);
    source_.reset();
    sorted_.clear();
    visible_.clear();
    wordsEnd_.clear();
    words_.clear();
    if (sortColumn_ >= static_cast<int>(columns_.size())) sortColumn_ = -1;
    endResetModel();
}

void TableModel::setSource(std::shared_ptr<const TableSource> source)
{
    beginResetModel();
    source_ = std::move(source);
    words_.clear();
    wordsEnd_.clear();
    sorted_.clear();
    arrange();
    endResetModel();
}

void TableModel::setFilter(const QString& words)
{
    std::vector<std::string> wanted;
    for (const auto& word : words.toLower().split(u' ', Qt::SkipEmptyParts)) wanted.push_back(utf8(word));
    if (wanted == filterWords_) return;
    beginResetModel();
    // A letter more only takes rows away: those that hold the longer word held the shorter one.
    const bool narrower = !filterWords_.empty() && wanted.size() >= filterWords_.size() &&
                          std::ranges::all_of(filterWords_, [&, at = std::size_t{0}](const auto& word) mutable { return wanted[at++].find(word) != std::string::npos; });
    filterWords_ = std::move(wanted);
    if (narrower) narrow(std::exchange(visible_, {}));
    else arrange();
    endResetModel();
}

bool TableModel::gatherWords(std::size_t rows)
{
    const auto size = totalRows();
    wordsEnd_.reserve(size);
    for (; rows > 0 && wordsEnd_.size() < size; --rows) {
        source_->appendWords(wordsEnd_.size(), words_);
        wordsEnd_.push_back(words_.size());
    }
    return wordsEnd_.size() < size;
}

void TableModel::arrange()
{
    const auto size = totalRows();
    sumCells_.clear();
    if (sorted_.size() != size) {
        sorted_.resize(size);
        std::iota(sorted_.begin(), sorted_.end(), 0U);
        if (sortColumn_ >= 0) {
            std::vector<Value> keys;
            keys.reserve(size);
            for (std::size_t i = 0; i < size; ++i) keys.push_back(source_->sortValue(i, static_cast<std::size_t>(sortColumn_)));
            const bool falling = sortOrder_ == Qt::DescendingOrder;
            std::stable_sort(sorted_.begin(), sorted_.end(), [&](std::uint32_t a, std::uint32_t b) {
                const auto& one = keys[a];
                const auto& other = keys[b];
                if (isRecorded(one) != isRecorded(other)) return isRecorded(one);  // what is not recorded comes last either way
                return falling ? other < one : one < other;
            });
        }
        std::stable_partition(sorted_.begin(), sorted_.end(), [&](std::uint32_t row) { return !source_->isApart(row); });
    }
    if (filterWords_.empty()) {
        visible_ = sorted_;
        return;
    }
    narrow(sorted_);
}

void TableModel::narrow(const std::vector<std::uint32_t>& among)
{
    gatherWords(totalRows());
    sumCells_.clear();
    visible_.clear();
    for (const auto row : among) {
        const auto begin = row == 0 ? 0 : wordsEnd_[row - 1];
        const auto words = std::string_view{words_}.substr(begin, wordsEnd_[row] - begin);
        if (std::ranges::all_of(filterWords_, [&](const auto& word) { return words.find(word) != std::string_view::npos; })) visible_.push_back(row);
    }
}

RecordRef TableModel::recordAt(int row) const
{
    if (row < 0 || static_cast<std::size_t>(row) >= visible_.size()) return {};
    return source_->record(visible_[static_cast<std::size_t>(row)]);
}

int TableModel::rowOf(RecordRef record) const
{
    for (std::size_t i = 0; i < visible_.size(); ++i)
        if (source_->record(visible_[i]) == record) return static_cast<int>(i);
    return -1;
}

bool TableModel::isApart(int row) const { return isSum(row) || source_->isApart(visible_[static_cast<std::size_t>(row)]); }

Cell TableModel::sumCell(std::size_t column) const
{
    sumCells_.resize(columns_.size());
    auto& known = sumCells_[column];
    if (!known) known = reckonSum(column);
    return *known;
}

Cell TableModel::reckonSum(std::size_t column) const
{
    const int decimals = columns_[column].sumDecimals;
    if (decimals < 0) return column == 0 ? textCell(tr("Sum")) : Cell{};
    std::int64_t sum = 0;
    for (const auto row : visible_) {
        if (source_->isApart(row)) continue;
        const auto value = source_->sortValue(row, column);
        if (const auto* units = std::get_if<std::int64_t>(&value)) sum = checkedAdd(sum, *units);
    }
    return {qs(shownDecimal(sum, decimals, std::min(decimals, 2))), Value{sum}, Tone::plain, {}};
}

Cell TableModel::cellAt(int row, int column) const
{
    if (isSum(row)) return sumCell(static_cast<std::size_t>(column));
    return source_->cell(visible_.at(static_cast<std::size_t>(row)), static_cast<std::size_t>(column));
}

int TableModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : shownRows() + (sums_ && !visible_.empty() ? 1 : 0); }
int TableModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(columns_.size()); }

QVariant TableModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
    const auto& column = columns_[static_cast<std::size_t>(index.column())];
    switch (role) {
    case Qt::TextAlignmentRole: return QVariant::fromValue(Qt::Alignment{column.align == Align::right ? Qt::AlignRight : Qt::AlignLeft} | Qt::AlignVCenter);
    case Qt::FontRole: {
        const bool apart = isApart(index.row());
        if (column.align != Align::right && !apart) return {};
        auto font = column.align == Align::right ? figureFont() : textFont(TextSize::body);
        font.setBold(apart);
        return font;
    }
    case recordRole: return QVariant::fromValue<qlonglong>(recordAt(index.row()).id);
    case apartRole: return isApart(index.row());
    case Qt::DisplayRole:
    case Qt::ForegroundRole:
    case Qt::ToolTipRole:
    case sortRole: break;
    default: return {};
    }
    const auto cell = cellAt(index.row(), index.column());
    const bool dash = cell.text.isEmpty() && column.dashWhenBlank && !isApart(index.row());
    switch (role) {
    case Qt::DisplayRole: {
        if (dash) return QStringLiteral("\u2013");
        const auto end = cell.text.indexOf(u'\n');
        return end < 0 ? cell.text : QString{cell.text.left(end) + QStringLiteral(" \u2026")};
    }
    case Qt::ForegroundRole: return dash ? QVariant{windowPalette().quiet} : cell.tone == Tone::plain ? QVariant{} : QVariant{toneColor(cell.tone)};
    case Qt::ToolTipRole: {
        const auto tip = !cell.tip.isEmpty() ? cell.tip : dash ? tr("not recorded") : cell.text.contains(u'\n') ? cell.text : QString{};
        return tip.isEmpty() ? QVariant{} : QVariant{asPlainTip(tip)};
    }
    default:
        if (const auto* number = std::get_if<std::int64_t>(&cell.sort)) return QVariant::fromValue<qlonglong>(*number);
        if (const auto* text = std::get_if<std::string>(&cell.sort)) return qs(*text);
        return {};
    }
}

QVariant TableModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal || section < 0 || static_cast<std::size_t>(section) >= columns_.size()) return {};
    const auto& column = columns_[static_cast<std::size_t>(section)];
    if (role == Qt::DisplayRole) return column.heading;
    if (role == Qt::TextAlignmentRole) return QVariant::fromValue(Qt::Alignment{column.align == Align::right ? Qt::AlignRight : Qt::AlignLeft} | Qt::AlignVCenter);
    if (role == Qt::ToolTipRole && !column.tip.isEmpty()) return asPlainTip(column.tip);
    return {};
}

void TableModel::sort(int column, Qt::SortOrder order)
{
    if (column >= static_cast<int>(columns_.size())) return;
    emit layoutAboutToBeChanged({}, VerticalSortHint);
    const auto before = visible_;
    sortColumn_ = column;
    sortOrder_ = order;
    sorted_.clear();
    arrange();
    std::vector<int> placeNow(totalRows());
    for (std::size_t i = 0; i < visible_.size(); ++i) placeNow[visible_[i]] = static_cast<int>(i);
    const auto from = persistentIndexList();
    QModelIndexList to;
    to.reserve(from.size());
    for (const auto& old : from) to << (isSum(old.row()) ? old : index(placeNow[before[static_cast<std::size_t>(old.row())]], old.column()));
    changePersistentIndexList(from, to);
    emit layoutChanged({}, VerticalSortHint);
}

}

#include "pages/ticket_desk/statement_rows.h"

#include "labels.h"
#include "plain_words.h"

#include <algorithm>

namespace strikeoff {

StatementRows::StatementRows(Desk& desk, QObject* parent) : QAbstractTableModel{parent}, desk_{desk} {}

void StatementRows::setRows(TextRows rows, StatementGuess guess, ReadStatement read)
{
    beginResetModel();
    rows_ = std::move(rows);
    guess_ = std::move(guess);
    read_ = std::move(read);
    endResetModel();
    emit readAgain();
}

void StatementRows::clear()
{
    growing_ = false;
    setRows({}, {}, {});
}

void StatementRows::readRows()
{
    read_ = readStatement(rows_, guess_);
    if (!rows_.empty()) emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
    emit readAgain();
}

void StatementRows::correct(const std::function<void(StatementGuess&)>& how)
{
    how(guess_);
    readRows();
}

std::optional<int> StatementRows::firstRefused() const
{
    const auto found = std::ranges::find_if(read_.rows, [](const auto& note) { return note.role == RowRole::refused; });
    return found == read_.rows.end() ? std::nullopt : std::optional{static_cast<int>(found - read_.rows.begin())};
}

int StatementRows::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(rows_.size()); }
int StatementRows::columnCount(const QModelIndex& parent) const { return parent.isValid() || rows_.empty() ? 0 : static_cast<int>(guess_.columns.size()) + 1; }

QVariant StatementRows::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
    const auto row = static_cast<std::size_t>(index.row());
    const auto note = row < read_.rows.size() ? read_.rows[row] : RowNote{};
    if (index.column() == 0) {
        switch (role) {
        case Qt::DisplayRole:
            switch (note.role) {
            case RowRole::line: return tr("line");
            case RowRole::heading: return tr("headings");
            case RowRole::subtotal: return tr("subtotal");
            case RowRole::total: return tr("total");
            case RowRole::words: return tr("words");
            case RowRole::refused: return tr("not read");
            case RowRole::blank: return QString{};
            }
            return {};
        case Qt::ForegroundRole: return note.role == RowRole::refused ? toneColor(Tone::wrong) : note.role == RowRole::line ? toneColor(Tone::well) : toneColor(Tone::quiet);
        case Qt::ToolTipRole: return asPlainTip(qs(note.message));
        default: return {};
        }
    }
    const auto column = static_cast<std::size_t>(index.column()) - 1;
    switch (role) {
    case Qt::DisplayRole:
    case Qt::EditRole: return column < rows_[row].size() ? qs(rows_[row][column]) : QString{};
    case Qt::ForegroundRole:
        if (note.role == RowRole::refused) return toneColor(Tone::wrong);
        return note.role == RowRole::line && guess_.columns[column] != StatementColumn::other ? toneColor(Tone::plain) : toneColor(Tone::quiet);
    case Qt::ToolTipRole: return asPlainTip(qs(note.message));
    case Qt::TextAlignmentRole:
        switch (guess_.columns[column]) {
        case StatementColumn::quantity:
        case StatementColumn::unitPrice:
        case StatementColumn::amount:
        case StatementColumn::credit: return QVariant::fromValue(Qt::Alignment{Qt::AlignRight | Qt::AlignVCenter});
        default: return {};
        }
    default: return {};
    }
}

bool StatementRows::setData(const QModelIndex& index, const QVariant& value, int role)
{
    if (role != Qt::EditRole || !checkIndex(index, CheckIndexOption::IndexIsValid) || index.column() == 0) return false;
    auto& cells = rows_[static_cast<std::size_t>(index.row())];
    const auto column = static_cast<std::size_t>(index.column()) - 1;
    if (cells.size() <= column) cells.resize(column + 1);
    auto text = utf8(value.toString());
    if (cells[column] == text) return true;
    cells[column] = std::move(text);
    if (growing_ && index.row() + 1 == rowCount() && !cells[column].empty()) {
        beginInsertRows({}, rowCount(), rowCount());
        rows_.emplace_back(guess_.columns.size());
        endInsertRows();
    }
    readRows();
    return true;
}

QVariant StatementRows::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (role != Qt::DisplayRole) return {};
    if (orientation == Qt::Vertical) return section + 1;
    if (section == 0) return tr("Read as");
    const auto column = static_cast<std::size_t>(section) - 1;
    if (column < guess_.headings.size() && !guess_.headings[column].empty()) return qs(guess_.headings[column]);
    return tr("Column %1").arg(section);
}

Qt::ItemFlags StatementRows::flags(const QModelIndex& index) const
{
    if (!index.isValid()) return Qt::NoItemFlags;
    return Qt::ItemIsEnabled | Qt::ItemIsSelectable | (index.column() > 0 && !desk_.store().isReadOnly() ? Qt::ItemIsEditable : Qt::NoItemFlags);
}

}

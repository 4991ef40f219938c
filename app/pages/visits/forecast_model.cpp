#include "pages/visits/forecast_model.h"

#include "labels.h"
#include "plain_words.h"

#include <algorithm>

namespace strikeoff {

namespace {

const std::vector<std::string_view> columns{"date", "low_f", "high_f", "rain_chance_pct", "rain_from", "rain_to", "wind_mph", "humidity_pct"};

std::vector<DraftRow> recordsOf(const Book& book, const std::vector<TypedRow>& days)
{
    std::vector<DraftRow> records;
    for (const auto& day : days) {
        const auto date = Date::parse(typedText(day, "date"));
        const auto* record = date ? forecastOn(book, *date) : nullptr;
        records.push_back(record ? DraftRow{record->id.value(), record->revision} : DraftRow{});
    }
    return records;
}

}

ForecastModel::ForecastModel(Desk& desk, QObject* parent) : GridModel{desk, RecordKind::forecast, columns, parent}, from_{desk.today()} { startAgain(); }

void ForecastModel::startAgain()
{
    beginResetModel();
    from_ = desk().today();
    kept_ = forecastRows(desk().book(), from_);
    rows_ = kept_;
    seen_ = recordsOf(desk().book(), rows_);
    readings_.clear();
    for (const auto& row : rows_) readings_.push_back(readForecast(row, from_));
    endResetModel();
    emit wordsChanged();
}

void ForecastModel::refresh()
{
    if (!hasChanged() && (from_ != desk().today() || kept_ != forecastRows(desk().book(), from_))) startAgain();
}

bool ForecastModel::hasChanged() const { return rows_ != kept_; }

bool ForecastModel::isOvertaken() const { return seen_ != recordsOf(desk().book(), rows_); }

std::vector<DraftRow> ForecastModel::typedRows() const
{
    std::vector<DraftRow> rows;
    for (std::size_t i = 0; i < rows_.size(); ++i)
        if (rows_[i] != kept_[i]) rows.push_back({seen_[i].id, seen_[i].revision, rows_[i]});
    return rows;
}

void ForecastModel::putTyped(const std::vector<DraftRow>& rows)
{
    startAgain();
    for (const auto& row : rows) {
        // A day that has passed meanwhile needs no forecast.
        const auto found = std::ranges::find_if(rows_, [&](const auto& day) { return typedText(day, "date") == typedText(row.texts, "date"); });
        if (found == rows_.end()) continue;
        seen_[static_cast<std::size_t>(found - rows_.begin())] = {row.id, row.revision};
        *found = row.texts;
    }
    readAgain();
}

std::optional<Edit> ForecastModel::edit(int& faulty) const
{
    const auto found = std::ranges::find_if(readings_, [](const auto& reading) { return !reading.faults.empty(); });
    if (found != readings_.end()) {
        faulty = static_cast<int>(found - readings_.begin());
        return std::nullopt;
    }
    return forecastEdit(desk().book(), readings_);
}

void ForecastModel::readAgain()
{
    for (std::size_t i = 0; i < rows_.size(); ++i) readings_[i] = readForecast(rows_[i], from_);
    emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
    emit wordsChanged();
}

bool ForecastModel::paste(const QModelIndex& at, const QString& text)
{
    const auto pasted = pasteForecast(rows_, utf8(text), static_cast<std::size_t>(std::max(at.row(), 0)), fieldAt(std::max(at.column(), 1)).name, from_);
    if (pasted.taken == 0 && pasted.remark.empty()) return false;
    readAgain();
    if (!pasted.remark.empty()) desk().say(qs(pasted.remark), Tone::attention);
    return true;
}

QString ForecastModel::wordsAt(int row) const { return qs(readings_[static_cast<std::size_t>(row)].says()); }
bool ForecastModel::isBlocked(int row) const { return !readings_[static_cast<std::size_t>(row)].faults.empty(); }

int ForecastModel::columnToType(int row) const
{
    const auto& reading = readings_[static_cast<std::size_t>(row)];
    if (!reading.faults.empty()) return std::max(columnOf(reading.faults.front().field), 1);
    return columnToBegin();
}

QModelIndex ForecastModel::cellBefore(const QModelIndex& cell) const
{
    if (cell.column() > 1) return index(cell.row(), cell.column() - 1);
    return cell.row() > 0 ? index(cell.row() - 1, columnCount() - 1) : cell;
}

void ForecastModel::takeOut(int row)
{
    if (row < 0 || row >= rowCount()) return;
    auto& typed = rows_[static_cast<std::size_t>(row)];
    std::erase_if(typed, [](const auto& cell) { return cell.first != "date"; });
    readAgain();
}

int ForecastModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(rows_.size()); }

QVariant ForecastModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
    const auto row = static_cast<std::size_t>(index.row());
    const auto& field = fieldAt(index.column());
    const auto& reading = readings_[row];
    switch (role) {
    case Qt::DisplayRole:
        if (index.column() == 0) return qs(reading.forecast.date.shownShort());
        [[fallthrough]];
    case Qt::EditRole: return qs(typedText(rows_[row], field.name));
    case Qt::TextAlignmentRole: return QVariant::fromValue(sideOf(index.column()));
    case faultRole:
        for (const auto& fault : reading.faults)
            if (fault.field == field.name) return qs(fault.message);
        return QString{};
    case Qt::ToolTipRole: {
        const auto fault = data(index, faultRole).toString();
        return asPlainTip(fault.isEmpty() ? reading.blank ? tr("Nothing is known of this day's weather yet.") : qs(field.meaning) : fault);
    }
    case carriedRole: return index.column() == 0 && reading.blank;  // dim: unknown
    default: return {};
    }
}

bool ForecastModel::setData(const QModelIndex& index, const QVariant& value, int role)
{
    if (role != Qt::EditRole || !checkIndex(index, CheckIndexOption::IndexIsValid) || index.column() == 0) return false;
    auto& row = rows_[static_cast<std::size_t>(index.row())];
    const auto text = utf8(value.toString().trimmed());
    const std::string name{fieldAt(index.column()).name};
    if (text == typedText(row, name)) return true;
    if (text.empty()) row.erase(name);
    else row[name] = text;
    readAgain();
    return true;
}

Qt::ItemFlags ForecastModel::flags(const QModelIndex& index) const
{
    const auto flags = GridModel::flags(index);
    return index.column() == 0 ? flags & ~Qt::ItemIsEditable : flags;
}

}

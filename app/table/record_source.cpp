#include "table/record_source.h"

#include "labels.h"
#include "plain_words.h"

#include <algorithm>

namespace strikeoff {

namespace {

bool isFigure(FieldType type)
{
    switch (type) {
    case FieldType::integer:
    case FieldType::clockTime:
    case FieldType::money:
    case FieldType::unitPrice:
    case FieldType::yards:
    case FieldType::quantity:
    case FieldType::area:
    case FieldType::rate:
    case FieldType::degrees:
    case FieldType::minutes:
    case FieldType::tapeLength: return true;
    default: return false;
    }
}

int usualWidth(const Field& field)
{
    switch (field.type) {
    case FieldType::note: return 40;
    case FieldType::text: return field.name == "number" ? 9 : field.name == "unit" || field.name == "code" ? 8 : 20;
    case FieldType::options: return 16;
    case FieldType::points: return 20;
    case FieldType::choice: return 14;
    case FieldType::date: return 13;
    case FieldType::reference: return 18;
    case FieldType::boolean: return 8;
    case FieldType::clockTime: return 10;
    case FieldType::money: return 12;
    default: return 10;
    }
}

int leastDecimals(FieldType type) { return type == FieldType::money || type == FieldType::unitPrice ? 2 : 0; }

/// Walks a dotted name: the references on the way, then the field.
std::pair<std::vector<const Field*>, std::pair<const KindDescription*, const Field*>> walk(RecordKind kind, std::string_view path)
{
    std::vector<const Field*> through;
    const auto* described = &describe(kind);
    for (;;) {
        const auto dot = path.find('.');
        const auto* field = &described->fields[fieldIndex(*described, path.substr(0, dot))];
        if (dot == std::string_view::npos) return {std::move(through), {described, field}};
        through.push_back(field);
        described = &describe(field->refersTo);
        path.remove_prefix(dot + 1);
    }
}

}

int decimalsUsed(std::int64_t units, int scale)
{
    int decimals = scale;
    while (decimals > 0 && units % 10 == 0) {
        units /= 10;
        --decimals;
    }
    return decimals;
}

QString headingOf(const Field& field)
{
    return field.unit.empty() ? qs(field.label) : qs(field.label) + QStringLiteral(", ") + qs(field.unit);
}

RecordSource::RecordSource(const Book& book, RecordKind kind, const std::vector<RecordColumn>& columns, const RecordFilter& filter) : book_{book}, kind_{kind}
{
    const auto count = book.count(kind);
    if (!filter) ids_.reserve(count);
    for (std::size_t i = 0; i < count; ++i)
        if (!filter || filter(book, book.at(kind, i))) ids_.push_back(book.idAt(kind, i));
    for (const auto& column : columns) {
        Place place;
        place.reckon = column.reckon;
        if (!place.reckon) {
            auto [through, end] = walk(kind, column.field);
            place.through = std::move(through);
            place.kind = end.first;
            place.field = end.second;
            if (const int scale = decimalsOf(place.field->type); scale > 0) {
                place.decimals = leastDecimals(place.field->type);
                for (const auto id : ids_) {
                    const auto* record = follow(place, book.find(kind, id));
                    if (!record) continue;
                    const auto value = place.field->get(record);
                    if (const auto* units = std::get_if<std::int64_t>(&value)) place.decimals = std::max(place.decimals, decimalsUsed(*units, scale));
                    if (place.decimals == scale) break;
                }
            }
        }
        places_.push_back(std::move(place));
    }
}

const void* RecordSource::follow(const Place& place, const void* record) const
{
    for (const auto* reference : place.through) {
        if (!record) return nullptr;
        const auto value = reference->get(record);
        const auto* id = std::get_if<std::int64_t>(&value);
        record = id ? book_.find(reference->refersTo, *id) : nullptr;
    }
    return record;
}

Cell RecordSource::cell(std::size_t row, std::size_t column) const
{
    const auto* record = book_.find(kind_, ids_[row]);
    if (!record) return {};
    const auto& place = places_[column];
    if (place.reckon) return place.reckon(book_, record);
    record = follow(place, record);
    if (!record) return {};
    const auto value = place.field->get(record);
    if (!isRecorded(value)) return {};
    Cell cell;
    if (const auto* units = std::get_if<std::int64_t>(&value); units && place.decimals >= 0)
        cell.text = qs(shownDecimal(*units, decimalsOf(place.field->type), place.decimals));
    else cell.text = qs(shownText(book_, *place.kind, *place.field, record));
    cell.sort = place.field->type == FieldType::reference || place.field->isText() ? Value{inSmallLetters(utf8(cell.text))} : value;
    return cell;
}

Value RecordSource::sortValue(std::size_t row, std::size_t column) const
{
    const auto& place = places_[column];
    if (!place.reckon && place.field->type != FieldType::reference && !place.field->isText()) {
        const auto* record = book_.find(kind_, ids_[row]);
        if (record) record = follow(place, record);
        return record ? place.field->get(record) : Value{};
    }
    return cell(row, column).sort;
}

void RecordSource::appendWords(std::size_t row, std::string& words) const
{
    const auto* record = book_.find(kind_, ids_[row]);
    if (!record) return;
    const auto& kind = describe(kind_);
    for (const auto& field : kind.fields) {
        const auto shown = shownText(book_, kind, field, record);
        if (shown.empty()) continue;
        words += inSmallLetters(shown);
        words += ' ';
        // A figure is found as it is written without marks, a day by its ISO form too.
        if (!field.isText() && field.type != FieldType::reference) {
            words += fileText(book_, kind, field, record);
            words += ' ';
        }
    }
    for (std::size_t i = 0; i < places_.size(); ++i) {
        if (!places_[i].reckon && places_[i].through.empty()) continue;
        words += inSmallLetters(utf8(cell(row, i).text));
        words += ' ';
    }
}

std::vector<Column> columnsOf(RecordKind kind, const std::vector<RecordColumn>& columns)
{
    std::vector<Column> made;
    for (const auto& column : columns) {
        Column head;
        head.heading = column.heading;
        head.width = column.width;
        head.align = column.align;
        head.dashWhenBlank = column.dashWhenBlank;
        if (!column.reckon) {
            const auto& field = *walk(kind, column.field).second.second;
            if (head.heading.isEmpty()) head.heading = headingOf(field);
            if (head.width == 0) head.width = usualWidth(field);
            head.align = isFigure(field.type) ? Align::right : Align::left;
            head.dashWhenBlank = column.dashWhenBlank && field.type != FieldType::note;
            head.tip = qs(field.meaning);
            if (column.sum) head.sumDecimals = std::max(decimalsOf(field.type), 0);
        } else if (column.sum) {
            head.sumDecimals = 2;
        }
        if (head.width == 0) head.width = 12;
        made.push_back(std::move(head));
    }
    return made;
}

std::vector<RecordColumn> everyField(RecordKind kind)
{
    std::vector<RecordColumn> columns;
    std::vector<RecordColumn> notes;
    for (const auto& field : describe(kind).fields) (field.type == FieldType::note ? notes : columns).push_back({.field = std::string{field.name}});
    columns.insert(columns.end(), notes.begin(), notes.end());
    return columns;
}

std::shared_ptr<const TableSource> tableOf(const Desk& desk, RecordKind kind, const std::vector<RecordColumn>& columns, const RecordFilter& filter)
{
    return std::make_shared<RecordSource>(desk.book(), kind, columns, filter);
}

}

#include "book_tables.h"

#include "record/description.h"

namespace strikeoff {

std::string BookTable::columnList() const
{
    std::string list;
    for (const auto& column : columns) list += (list.empty() ? "" : ", ") + column.name;
    return list;
}

std::string BookTable::select() const { return "SELECT " + columnList() + " FROM " + name + (order.empty() ? "" : " ORDER BY " + order); }

Value BookTable::cell(const FastStatement& row, std::size_t column) const
{
    const int place = static_cast<int>(column);
    if (row.isNull(place)) return {};
    return columns[column].isText ? Value{std::string{row.text(place)}} : Value{row.number(place)};
}

BookTable tableOf(const KindDescription& kind)
{
    BookTable table{std::string{kind.name}, {{"id"}, {"revision"}}, "id"};
    for (const auto& field : kind.fields)
        table.columns.push_back({std::string{field.name}, field.isText() || field.type == FieldType::choice || field.type == FieldType::date});
    return table;
}

std::vector<BookTable> allTables()
{
    std::vector<BookTable> tables;
    for (const auto& kind : allKinds()) tables.push_back(tableOf(kind));
    tables.push_back({"edit", {{"id"}, {"at", true}, {"desk", true}, {"title", true}, {"how", true}, {"of_edit"}, {"chain", true}}, "id"});
    tables.push_back({"edit_change", {{"edit"}, {"place"}, {"kind", true}, {"row"}, {"revision"}, {"before", true}, {"after", true}}, "edit, place"});
    tables.push_back({"edit_run", {{"edit"}, {"place"}, {"kind", true}, {"first"}, {"last"}}, "edit, place"});
    tables.push_back({"counter", {{"name", true}, {"next"}}, {}});
    tables.push_back({"number_given", {{"series", true}, {"first"}, {"last"}, {"edit"}, {"how", true}}, {}});
    return tables;
}

}

#include "shelf_io.h"

#include "record/field_text.h"

#include <map>
#include <memory>

namespace strikeoff {

namespace {

std::string selectColumns(const KindDescription& kind)
{
    std::string sql = "SELECT id, revision";
    for (const auto& field : kind.fields) sql += ", " + std::string{field.name};
    return sql + " FROM " + std::string{kind.name};
}

[[noreturn]] void refuse(const Database& database, const KindDescription& kind, std::int64_t id, const Field& field, const std::string& why)
{
    throw StorageError{"cannot read " + database.path() + ": " + std::string{kind.name} + " row " + std::to_string(id) + ", " + std::string{field.name} + ": " + why
                       + "; go back to a copy"};
}

/// Reads one column into a record without going through a Value: a whole book passes here.
void readField(const FastStatement& statement, int column, const Field& field, void* record)
{
    if (statement.isNull(column)) return;
    switch (field.type) {
    case FieldType::text:
    case FieldType::note:
    case FieldType::options:
    case FieldType::points: field.setText(record, statement.text(column)); return;
    case FieldType::date:
        if (const auto date = Date::parse(statement.text(column))) field.setNumber(record, date->days());
        else throw DomainError{"no date"};
        return;
    case FieldType::choice: {
        const auto code = statement.text(column);
        for (std::size_t i = 0; i < field.choices.size(); ++i)
            if (field.choices[i].code == code) {
                field.setNumber(record, static_cast<std::int64_t>(i));
                return;
            }
        throw DomainError{"none of the choices"};
    }
    default: field.setNumber(record, statement.number(column));
    }
}

}

void readShelves(Database& database, Book& book)
{
    for (const auto& kind : allKinds()) {
        const auto rows = database.number("SELECT count(*) FROM " + std::string{kind.name});
        book.expectMany(kind.kind, static_cast<std::size_t>(rows));
        FastStatement select{database, selectColumns(kind) + " ORDER BY id"};
        const auto fields = kind.fields;
        while (select.step()) {
            const auto id = select.number(0);
            void* record = nullptr;
            try {
                record = book.append(kind.kind, id, select.number(1));
            } catch (const DomainError& error) {
                refuse(database, kind, id, fields[0], error.what());
            }
            for (std::size_t i = 0; i < fields.size(); ++i) {
                try {
                    readField(select, static_cast<int>(i) + 2, fields[i], record);
                } catch (const DomainError& error) {
                    refuse(database, kind, id, fields[i], error.what());
                }
            }
        }
    }
}

std::optional<Row> readRow(Database& database, RecordKind kind, std::int64_t id)
{
    const auto& description = describe(kind);
    FastStatement select{database, selectColumns(description) + " WHERE id = ?"};
    select.bind(1, id);
    std::optional<Row> row;
    while (select.step()) {
        row = Row{kind, id, select.number(1), {}};
        for (std::size_t i = 0; i < description.fields.size(); ++i) {
            const auto& field = description.fields[i];
            const int column = static_cast<int>(i) + 2;
            const bool text = field.isText() || field.type == FieldType::choice || field.type == FieldType::date;
            Value stored;
            if (!select.isNull(column)) stored = text ? Value{std::string{select.text(column)}} : Value{select.number(column)};
            const auto value = fromStoredForm(field, stored);
            if (!value) refuse(database, description, id, field, "not a value of its kind");
            row->values.push_back(*value);
        }
    }
    return row;
}

void writeRows(Database& database, const std::vector<Applied>& applied)
{
    enum class Verb { insert, update, erase };
    std::map<std::pair<RecordKind, Verb>, std::unique_ptr<FastStatement>> statements;
    const auto statementFor = [&](RecordKind kind, Verb verb) -> FastStatement& {
        auto& statement = statements[{kind, verb}];
        if (statement) return *statement;
        const auto& description = describe(kind);
        const std::string table{description.name};
        std::string sql;
        if (verb == Verb::erase) {
            sql = "DELETE FROM " + table + " WHERE id = ?";
        } else if (verb == Verb::insert) {
            sql = "INSERT INTO " + table + " (revision";
            std::string marks = "?";
            for (const auto& field : description.fields) {
                sql += ", " + std::string{field.name};
                marks += ", ?";
            }
            sql += ", id) VALUES (" + marks + ", ?)";
        } else {
            sql = "UPDATE " + table + " SET revision = ?";
            for (const auto& field : description.fields) sql += ", " + std::string{field.name} + " = ?";
            sql += " WHERE id = ?";
        }
        statement = std::make_unique<FastStatement>(database, sql);
        return *statement;
    };

    for (const auto& change : applied) {
        if (!change.after) {
            auto& statement = statementFor(change.kind(), Verb::erase);
            statement.bind(1, change.before->id);
            statement.run();
            continue;
        }
        const auto& row = *change.after;
        auto& statement = statementFor(row.kind, change.before ? Verb::update : Verb::insert);
        const auto fields = describe(row.kind).fields;
        statement.bind(1, row.revision);
        int place = 2;
        for (std::size_t i = 0; i < fields.size(); ++i, ++place) {
            const auto& field = fields[i];
            const auto* number = std::get_if<std::int64_t>(&row.values[i]);
            if (number && field.type == FieldType::choice) statement.bind(place, field.choices[static_cast<std::size_t>(*number)].code);
            else if (number && field.type == FieldType::date) statement.bind(place, storedForm(field, row.values[i]));
            else statement.bind(place, row.values[i]);
        }
        statement.bind(place, row.id);
        statement.run();
    }
}

}

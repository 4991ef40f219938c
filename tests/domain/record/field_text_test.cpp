#include "record/field_text.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

const Field& fieldOf(RecordKind kind, std::string_view name) { return *findField(describe(kind), name); }

}

TEST_CASE("a per cent is typed with one sign or none, however many are pasted", "[field_text]")
{
    const auto today = *Date::of(2026, 11, 25);
    const auto& kind = describe(RecordKind::settings);
    const auto rate = std::find_if(kind.fields.begin(), kind.fields.end(), [](const Field& field) { return field.type == FieldType::rate; });
    REQUIRE(rate != kind.fields.end());
    CHECK(readTyped(*rate, "8.25%", today).value == Value{std::int64_t{82'500}});
    CHECK(readTyped(*rate, "8.25 %", today).value == Value{std::int64_t{82'500}});
    CHECK(readTyped(*rate, "8 1/4", today).value == Value{std::int64_t{82'500}});
    CHECK_FALSE(readTyped(*rate, "8%%", today).ok());
    CHECK_FALSE(readTyped(*rate, "%", today).ok());
    // Each sign was once taken off by a call of its own, and a million of them broke the program.
    CHECK_FALSE(readTyped(*rate, std::string(1'000'000, '%'), today).ok());
}

TEST_CASE("a reference with a million strokes is refused at once", "[field_text]")
{
    const Book book;
    const auto& pour = fieldOf(RecordKind::ticket, "pour");
    const auto reading = readReference(book, pour, std::string(1'000'000, '/'), std::nullopt);
    CHECK_FALSE(reading.ok());
    CHECK(reading.fault.size() < 500);
}

TEST_CASE("a stroke within the first part of a name needs no mark before it", "[field_text]")
{
    Book book;
    Row supplier = blankRow(RecordKind::supplier);
    supplier.id = 1;
    supplier.set("name", std::string{"Ash/Elm/Fir"});
    book.put(supplier);
    Row statement = blankRow(RecordKind::statement);
    statement.id = 1;
    statement.set("supplier", std::int64_t{1});
    statement.set("number", std::string{"S1"});
    book.put(statement);
    const auto& field = fieldOf(RecordKind::statementLine, "statement");
    for (const auto* name : {"Ash/Elm/Fir/S1", "Ash\\/Elm\\/Fir/S1"}) CHECK(readReference(book, field, name, std::nullopt).value == Value{std::int64_t{1}});
}

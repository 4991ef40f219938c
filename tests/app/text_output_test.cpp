#include "json_writer.h"
#include "text_table.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

TEST_CASE("tables line up whatever the text holds", "[command][table]")
{
    TextTable table;
    table.words("Name", 12).figures("$");
    table.row({"na\u00efve", "1.00"});
    table.row({"\u6771\u4eac", "\u221220.00"});
    table.row({"two\nlines\x1B[31m", "3"});
    table.row({"a very long name indeed", ""});
    CHECK(table.text()
          == "Name               $\n"
             "\u2500\u2500\u2500\u2500\u2500\u2500\u2500\u2500\u2500\u2500\u2500\u2500  \u2500\u2500\u2500\u2500\u2500\u2500\n"
             "na\u00efve           1.00\n"
             "\u6771\u4eac          \u221220.00\n"
             "two lines[3\u2026       3\n"
             "a very long\u2026\n");
    CHECK(terminalWidth("e\u0301") == 1);
    CHECK(terminalWidth("\xFF\xFE") == 2);
    CHECK(onOneLine("evil \u202Etext") == "evil text");
}

TEST_CASE("JSON keeps the order of its keys and escapes what it must", "[command][json]")
{
    JsonWriter json;
    json.beginObject()
        .key("z")
        .text("say \"hi\" \\ \n\x01 </script> \u2713")
        .key("a")
        .beginArray()
        .whole(-3)
        .null()
        .boolean(true)
        .end()
        .key("empty")
        .beginObject()
        .end();
    json.key("when").date(Date::of(2026, 7, 1)).key("money").money(Money::ofCents(-5)).end();
    CHECK(
        json.finished()
        == "{\n  \"z\": \"say \\\"hi\\\" \\\\ \\n\\u0001 </script> \u2713\",\n  \"a\": [\n    -3,\n    null,\n    true\n  ],\n  \"empty\": {},\n"
           "  \"when\": \"2026-07-01\",\n  \"money\": \"-0.05\"\n}\n");
}

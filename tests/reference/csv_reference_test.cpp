#include "csv.h"

#include <catch2/catch.hpp>

#include <vector>

using namespace strikeoff;

namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string writtenRow(const std::vector<std::string>& cells)
{
    std::string file;
    CsvWriter writer{file};
    for (const auto& cell : cells) writer.plain(cell);
    writer.endRow();
    return file;
}

std::string writtenText(std::string_view cell)
{
    std::string file;
    CsvWriter{file}.text(cell).plain("1").endRow();
    return file.substr(0, file.size() - 4);  // without ",1" and CRLF
}

Rows rowsOf(std::string_view file)
{
    Rows rows;
    CsvReader reader{file};
    while (reader.next()) rows.emplace_back(reader.cells().begin(), reader.cells().end());
    CHECK_FALSE(reader.fault());
    return rows;
}

}

TEST_CASE("CV-01 a line break inside a quoted cell", "[reference][csv]")
{
    // Source: RFC 4180 (October 2005), section 2, rule 6.
    const std::vector<std::string> cells{"aaa", "b\r\nbb", "ccc"};
    CHECK(writtenRow(cells) == "aaa,\"b\r\nbb\",ccc\r\n");
    CHECK(rowsOf("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") == Rows{cells, {"zzz", "yyy", "xxx"}});
}

TEST_CASE("CV-02 a quote inside a cell is doubled", "[reference][csv]")
{
    // Source: RFC 4180, section 2, rule 7.
    const std::vector<std::string> cells{"aaa", "b\"bb", "ccc"};
    CHECK(writtenRow(cells) == "aaa,\"b\"\"bb\",ccc\r\n");
    CHECK(rowsOf("\"aaa\",\"b\"\"bb\",\"ccc\"") == Rows{cells});
}

TEST_CASE("CV-03 a comma is quoted, and spaces are part of a cell", "[reference][csv]")
{
    // Source: RFC 4180, section 2, rules 4 and 6.
    const std::vector<std::string> cells{"a,b", "", " c "};
    CHECK(writtenRow(cells) == "\"a,b\",, c \r\n");
    CHECK(rowsOf("\"a,b\",, c \r\n") == Rows{cells});
}

TEST_CASE("CV-04 the last row may lack its line end", "[reference][csv]")
{
    // Source: RFC 4180, section 2, rules 1 and 2.
    const Rows rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
    CHECK(rowsOf("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == rows);
    CHECK(rowsOf("aaa,bbb,ccc\r\nzzz,yyy,xxx") == rows);
}

TEST_CASE("CV-05 no comma follows the last cell", "[reference][csv]")
{
    // Source: RFC 4180, section 2, rule 4: the same number of cells in every row, the last one not followed by a comma.
    CHECK(writtenRow({"aaa", "bbb", "ccc"}) == "aaa,bbb,ccc\r\n");
    CHECK(writtenRow({"aaa", "bbb", ""}) == "aaa,bbb,\r\n");
    CHECK(rowsOf("aaa,bbb,\r\n") == Rows{{"aaa", "bbb", ""}});
}

TEST_CASE("a quote may not stand in a cell that is not quoted", "[reference][csv]")
{
    // Source: RFC 4180, section 2, rule 5.
    CsvReader reader{"aaa,b\"bb,ccc\r\n"};
    CHECK_FALSE(reader.next());
    CHECK(reader.fault().has_value());
}

TEST_CASE("FI-01 and FI-02 formula text is led by an apostrophe, quoted, its quotes doubled", "[reference][csv]")
{
    // Source: OWASP, "CSV Injection" (community pages), the two examples.
    CHECK(writtenText("=1+2\";=1+2") == "\"'=1+2\"\";=1+2\"");
    CHECK(writtenText("=1+2'\" ;,=1+2") == "\"'=1+2'\"\" ;,=1+2\"");
}

TEST_CASE("FI-03 every mark that can begin a formula is guarded, and comes back as typed", "[reference][csv]")
{
    // Source: OWASP, "CSV Injection": = + - @ tab CR LF. The texts are our own.
    for (const std::string text : {"-5 yd short", "+1 555 0100", "@gate", "\tx", "\rx", "\nx", "=x"}) {
        CHECK(writtenText(text) == "\"'" + text + '"');
        const auto rows = rowsOf(writtenText(text));
        REQUIRE(rows.size() == 1);
        CHECK(unguarded(rows[0][0]) == text);
    }
}

TEST_CASE("FI-04 a number the program made is not free text", "[reference][csv]")
{
    // Source: OWASP, "CSV Injection" treats input from outside; that a money column stays a number is our rule.
    CHECK(writtenRow({"-12.50", "2026-04-11"}) == "-12.50,2026-04-11\r\n");
}

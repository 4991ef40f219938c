#include "csv.h"

#include <catch2/catch.hpp>

#include <array>
#include <random>
#include <vector>

using namespace strikeoff;
using namespace std::string_literals;

namespace {

using Cells = std::vector<std::string>;

struct Reading {
    std::vector<Cells> rows;
    std::vector<std::size_t> lines;
    std::optional<CsvFault> fault;
};

Reading readAll(std::string_view file, Separator separator = Separator::comma)
{
    Reading reading;
    CsvReader reader{file, separator};
    while (reader.next()) {
        reading.rows.emplace_back(reader.cells().begin(), reader.cells().end());
        reading.lines.push_back(reader.line());
    }
    reading.fault = reader.fault();
    return reading;
}

std::string faultOf(std::string_view file)
{
    const auto reading = readAll(file);
    return reading.fault ? reading.fault->message : "read without a fault";
}

}

TEST_CASE("plain rows read as they stand", "[csv]")
{
    const auto reading = readAll("number,date,yards\r\n4711,2026-04-11,9.5\r\n");
    CHECK(reading.rows == std::vector<Cells>{{"number", "date", "yards"}, {"4711", "2026-04-11", "9.5"}});
    CHECK(reading.lines == std::vector<std::size_t>{1, 2});
    CHECK_FALSE(reading.fault);
}

TEST_CASE("a cell that needs no change is a view into the file", "[csv]")
{
    const std::string file = "one,\"two, three\",\"fo\"\"ur\"\n";
    CsvReader reader{file};
    REQUIRE(reader.next());
    const auto cells = reader.cells();
    REQUIRE(cells.size() == 3);
    CHECK(cells[0].data() == file.data());
    CHECK(cells[1].data() == file.data() + 5);
    CHECK(cells[1] == "two, three");
    CHECK(cells[2] == "fo\"ur");
}

TEST_CASE("lines end in CRLF, LF or CR, also mixed in one file", "[csv]")
{
    const auto reading = readAll("a,b\r\nc,d\ne,f\rg,h");
    CHECK(reading.rows == std::vector<Cells>{{"a", "b"}, {"c", "d"}, {"e", "f"}, {"g", "h"}});
    CHECK(reading.lines == std::vector<std::size_t>{1, 2, 3, 4});
}

TEST_CASE("an empty file, and one with nothing but a byte-order mark or blank lines, has no rows", "[csv]")
{
    for (const auto* file : {"", "\xEF\xBB\xBF", "\r\n\r\n", "\n", "  \n\t\n ", "\xEF\xBB\xBF\n"}) {
        const auto reading = readAll(file);
        CHECK(reading.rows.empty());
        CHECK_FALSE(reading.fault);
    }
}

TEST_CASE("a byte-order mark is no part of the first cell, quoted or not", "[csv]")
{
    CHECK(readAll("\xEF\xBB\xBFnumber,date\n").rows == std::vector<Cells>{{"number", "date"}});
    CHECK(readAll("\xEF\xBB\xBF\"number\",date\n").rows == std::vector<Cells>{{"number", "date"}});
    CHECK(readAll("a\n\xEF\xBB\xBF" "b\n").rows == std::vector<Cells>{{"a"}, {"\xEF\xBB\xBF" "b"}});
}

TEST_CASE("blank lines are passed over and still counted", "[csv]")
{
    const auto reading = readAll("a,b\n\n   \t\r\nc,d\n,\n\"\"\n");
    CHECK(reading.rows == std::vector<Cells>{{"a", "b"}, {"c", "d"}, {"", ""}, {""}});
    CHECK(reading.lines == std::vector<std::size_t>{1, 4, 5, 6});
}

TEST_CASE("a line of tabs is a row where tabs part the cells", "[csv]")
{
    CHECK(readAll("a\tb\n\t\n", Separator::tab).rows == std::vector<Cells>{{"a", "b"}, {"", ""}});
}

TEST_CASE("a quoted line end belongs to the cell, and the next row knows its line", "[csv]")
{
    const auto reading = readAll("1,\"rear\r\npatio\n\n\rgate\"\r\n2,\"x\"\n");
    CHECK(reading.rows == std::vector<Cells>{{"1", "rear\r\npatio\n\n\rgate"}, {"2", "x"}});
    CHECK(reading.lines == std::vector<std::size_t>{1, 6});
}

TEST_CASE("the other separators part cells, and then a comma is text", "[csv]")
{
    for (const auto separator : {Separator::semicolon, Separator::tab, Separator::bar}) {
        const std::string mark(1, static_cast<char>(separator));
        CHECK(readAll("a,b" + mark + "\"c" + mark + "d\"\n", separator).rows == std::vector<Cells>{{"a,b", "c" + mark + "d"}});
        std::string file;
        CsvWriter{file, separator}.text("a,b").text("c" + mark + "d").endRow();
        CHECK(file == "a,b" + mark + "\"c" + mark + "d\"\r\n");
    }
}

TEST_CASE("a trailing separator means one more empty cell", "[csv]")
{
    CHECK(readAll("a,b,\n,\n,").rows == std::vector<Cells>{{"a", "b", ""}, {"", ""}, {"", ""}});
    CHECK(readAll("\"a\",").rows == std::vector<Cells>{{"a", ""}});
}

TEST_CASE("a quote that is never closed is named by the line it began on", "[csv]")
{
    const auto reading = readAll("a,b\nc,\"open\nmore,text\nand more\n");
    CHECK(reading.rows == std::vector<Cells>{{"a", "b"}});
    REQUIRE(reading.fault);
    CHECK(reading.fault->line == 2);
    CHECK(reading.fault->column == 2);
    CHECK(reading.fault->message == "line 2, column 2: the quote that opens this cell is never closed; close it, or take it away");
    CHECK(faultOf("\"") == "line 1, column 1: the quote that opens this cell is never closed; close it, or take it away");
    CHECK(faultOf("a\n\"x\ny\",\"\"\"") == "line 3, column 2: the quote that opens this cell is never closed; close it, or take it away");
}

TEST_CASE("text after a closing quote and a quote inside an unquoted cell are faults, not guesses", "[csv]")
{
    CHECK(faultOf("a\n\"b\"c,d\n") == "line 2, column 1: text after the closing quote; a quote inside a quoted cell is written twice");
    CHECK(faultOf("\"b\" ,d\n") == "line 1, column 1: text after the closing quote; a quote inside a quoted cell is written twice");
    CHECK(faultOf("a,6\" slab\n")
          == "line 1, column 2: a quote inside a cell that does not begin with one; put the whole cell in quotes and double each quote inside it");
    CHECK(faultOf("a, \"b\"\n").find("line 1, column 2: a quote inside") == 0);
}

TEST_CASE("after a fault nothing more is read", "[csv]")
{
    CsvReader reader{"a\nb\"\nc\n"};
    CHECK(reader.next());
    CHECK_FALSE(reader.next());
    CHECK(reader.cells().empty());
    CHECK_FALSE(reader.next());
    CHECK(reader.fault()->line == 2);
}

TEST_CASE("NUL bytes and UTF-16 are refused with the remedy", "[csv]")
{
    CHECK(faultOf("a,b\nc,d\0e\n"s) == "line 2, column 2: a NUL byte; is this a CSV file?");
    CHECK(faultOf("a,\"b\n\0\"\n"s) == "line 2, column 2: a NUL byte; is this a CSV file?");
    CHECK(faultOf("\xFF\xFE" "a\0"s) == "line 1: this is UTF-16 text; save the file as UTF-8 and load it again");
    CHECK(faultOf("\xFE\xFF\0a"s) == "line 1: this is UTF-16 text; save the file as UTF-8 and load it again");
}

TEST_CASE("Latin-1 bytes are named with line, column and byte", "[csv]")
{
    std::string file;
    for (int i = 0; i < 11; ++i) file += "1,2,3\r\n";
    file += "7,9.5,caf\xE9\r\n";
    CHECK(faultOf(file) == "line 12, column 3: not UTF-8 text (byte 0xE9); save the file as UTF-8 and load it again");
    CHECK(faultOf("a,\"x\ny \xB0\"\n") == "line 2, column 2: not UTF-8 text (byte 0xB0); save the file as UTF-8 and load it again");
}

TEST_CASE("UTF-8 is taken and nothing that only looks like it", "[csv]")
{
    // Source of the bounds: RFC 3629, sections 3 and 4.
    for (const auto* good : {"\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80", "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
        CHECK(readAll(good).rows == std::vector<Cells>{{good}});
        CHECK(readAll('"' + std::string{good} + '"').rows == std::vector<Cells>{{good}});
    }
    const std::array bad{"\x80", "\xBF", "\xC0\x80", "\xC1\xBF", "\xC2", "\xC2" "a", "\xE0\x80\x80", "\xE0\x9F\xBF", "\xE2\x82", "\xE2\x82" "a", "\xED\xA0\x80",
                         "\xED\xBF\xBF", "\xF0\x80\x80\x80", "\xF0\x8F\xBF\xBF", "\xF0\x9F\x98", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFE", "\xFF"};
    for (const auto* text : bad) {
        CHECK(faultOf("a," + std::string{text}).find("line 1, column 2: not UTF-8 text (byte 0x") == 0);
        CHECK(faultOf("a,\"" + std::string{text} + "\"").find("line 1, column 2: not UTF-8 text (byte 0x") == 0);
    }
}

TEST_CASE("a row of exactly 1 MiB is read, a byte more is a fault", "[csv]")
{
    const auto most = CsvReader::mostBytesInRow;
    const auto row = "a," + std::string(most - 2, 'x');
    for (const auto* end : {"", "\n", "\r\n", "\nnext\n"}) {
        const auto reading = readAll("h\n" + row + end);
        REQUIRE(reading.rows.size() >= 2);
        CHECK(reading.rows[1][1].size() == most - 2);
        CHECK_FALSE(reading.fault);
        CHECK(faultOf("h\n" + row + "x" + end) == "line 2 is longer than 1 MiB; is this a CSV file?");
    }
    const auto quoted = '"' + std::string(most - 2, 'x') + '"';
    CHECK(readAll(quoted + "\n").rows[0][0].size() == most - 2);
    CHECK(faultOf("x" + std::string(std::size_t{50} << 20, 'x')) == "line 1 is longer than 1 MiB; is this a CSV file?");
    CHECK(faultOf('"' + std::string(most - 1, 'x') + "\"\n") == "line 1 is longer than 1 MiB; is this a CSV file?");
    CHECK(faultOf('"' + std::string(most, 'x') + "\"\n")
          == "line 1, column 1: the quote that opens this cell is not closed within 1 MiB; close it, or take it away");
    // A character that straddles the limit, and doubled quotes up to and over it.
    CHECK(faultOf(std::string(most, 'x') + "\xC3\xA9\n") == "line 1 is longer than 1 MiB; is this a CSV file?");
    CHECK(readAll('"' + std::string(most - 2, '"') + '"').rows[0][0] == std::string((most - 2) / 2, '"'));
    CHECK(faultOf(std::string(most + 2, '"')).find("not closed within 1 MiB") != std::string::npos);
    CHECK(faultOf(std::string(most + 3, '"')).find("not closed within 1 MiB") != std::string::npos);
}

TEST_CASE("200 columns are read, one more is a fault", "[csv]")
{
    const std::string row(CsvReader::mostColumns - 1, ',');
    CHECK(readAll(row + "\n").rows[0].size() == CsvReader::mostColumns);
    CHECK(faultOf("a\n" + row + ",\n") == "line 2 has more than 200 columns; is this a CSV file?");
    CHECK(readAll("a\n" + row + ",\n").fault->column == CsvReader::mostColumns + 1);
}

TEST_CASE("a lone empty or blank cell still makes a row", "[csv]")
{
    std::string file;
    CsvWriter writer{file};
    writer.text("note").endRow();
    writer.text("").endRow();
    writer.plain("  ").endRow();
    writer.endRow();  // no cells, no row
    writer.text("").text("").endRow();
    CHECK(file == "note\r\n\"\"\r\n\"  \"\r\n,\r\n");
    CHECK(readAll(file).rows == std::vector<Cells>{{"note"}, {""}, {"  "}, {"", ""}});
}

TEST_CASE("only free text is guarded, and only where it must be", "[csv]")
{
    std::string file;
    CsvWriter writer{file};
    writer.text("'70s patio").text("a=b").text("").text("'").text("''x").text("12' 6-1/2\"").endRow();
    CHECK(file == "'70s patio,a=b,,',''x,\"12' 6-1/2\"\"\"\r\n");
    file.clear();
    writer.plain("-12.50").plain("+3").text("\rx").text("\nx").text("'=1").text("''@x").endRow();
    CHECK(file == "-12.50,+3,\"'\rx\",\"'\nx\",\"''=1\",\"'''@x\"\r\n");
}

TEST_CASE("taking the guard off leaves what someone typed", "[csv]")
{
    CHECK(unguarded("'=1+2") == "=1+2");
    CHECK(unguarded("''=1+2") == "'=1+2");
    CHECK(unguarded("-5 yd short") == "-5 yd short");  // typed into a file by hand
    CHECK(unguarded("'70s patio") == "'70s patio");
    CHECK(unguarded("'") == "'");
    CHECK(unguarded("") == "");
}

TEST_CASE("a text that begins with a byte-order mark keeps it", "[csv]")
{
    std::string file;
    CsvWriter{file}.text("\xEF\xBB\xBFx").endRow();
    CHECK(readAll(file).rows == std::vector<Cells>{{"\xEF\xBB\xBFx"}});
}

TEST_CASE("whatever cells are written, the same are read", "[csv]")
{
    std::mt19937 random{20260411};
    const std::array pieces{"\"", "\"\"", "\r", "\n", "\r\n", ",", ";", "\t", "|", "=", "+", "-", "@", "'", "''", " ", "a", "7", "=1+2\";=1+2", "\xC3\xA9",
                            "\xE2\x80\xB2", "\xF0\x9F\x9A\x9A", "\xEF\xBB\xBF", "patio"};
    const auto below = [&](std::size_t bound) { return static_cast<std::size_t>(random() % bound); };
    for (const auto separator : {Separator::comma, Separator::semicolon, Separator::tab, Separator::bar}) {
        for (int round = 0; round < 400; ++round) {
            std::vector<Cells> rows(1 + below(8));
            std::vector<std::vector<bool>> isText(rows.size());
            std::string file;
            CsvWriter writer{file, separator};
            for (std::size_t r = 0; r < rows.size(); ++r) {
                for (std::size_t c = 1 + below(6); c > 0; --c) {
                    std::string cell;
                    for (std::size_t n = below(7); n > 0; --n) cell += pieces[below(pieces.size())];
                    rows[r].push_back(cell);
                    isText[r].push_back(below(2) == 0);
                    isText[r].back() ? writer.text(cell) : writer.plain(cell);
                }
                writer.endRow();
            }
            auto reading = readAll(file, separator);
            INFO(file);
            REQUIRE_FALSE(reading.fault);
            REQUIRE(reading.rows.size() == rows.size());
            for (std::size_t r = 0; r < rows.size(); ++r)
                for (std::size_t c = 0; c < reading.rows[r].size(); ++c)
                    if (c < isText[r].size() && isText[r][c]) {
                        // Nothing a spreadsheet would run stands at the start of a text cell.
                        REQUIRE((reading.rows[r][c].empty() || std::string_view{"=+-@\t\r\n"}.find(reading.rows[r][c].front()) == std::string_view::npos));
                        reading.rows[r][c] = std::string{unguarded(reading.rows[r][c])};
                    }
            REQUIRE(reading.rows == rows);
        }
    }
}

TEST_CASE("mutilated files end in rows or in a fault that names its line, never in a crash", "[csv]")
{
    std::mt19937 random{7};
    const auto below = [&](std::size_t bound) { return static_cast<std::size_t>(random() % bound); };
    std::string whole = "\xEF\xBB\xBF";
    CsvWriter writer{whole};
    for (int i = 0; i < 12; ++i) writer.plain(std::to_string(i)).text("said \"4 in\", twice\r\nrear caf\xC3\xA9").text("=1+2").plain("\xF0\x9F\x9A\x9A").endRow();
    std::size_t faults = 0, rows = 0;
    for (int round = 0; round < 5'000; ++round) {
        auto file = whole;
        for (std::size_t n = below(4); n > 0; --n) file[below(file.size())] = static_cast<char>(below(256));
        if (below(2) == 0) file.resize(below(file.size() + 1));
        if (below(8) == 0) file.erase(0, below(file.size() + 1));
        // A copy of just that size, so that a sanitizer sees a step past its end.
        const std::vector<char> exact(file.begin(), file.end());
        const auto reading = readAll({exact.data(), exact.size()}, below(2) == 0 ? Separator::comma : Separator::bar);
        rows += reading.rows.size();
        if (!reading.fault) continue;
        ++faults;
        REQUIRE(reading.fault->line >= 1);
        REQUIRE(reading.fault->message.find("line " + std::to_string(reading.fault->line)) == 0);
    }
    CHECK(faults > 1'000);
    CHECK(rows > 10'000);
    for (int round = 0; round < 20'000; ++round) {
        std::vector<char> noise(below(60));
        for (auto& c : noise) c = "\",\r\n'= a\xC3\xA9\xFF\x00"[below(12)];
        CsvReader reader{{noise.data(), noise.size()}};
        std::size_t last = 0;
        while (reader.next()) {
            REQUIRE(reader.line() > last);
            REQUIRE_FALSE(reader.cells().empty());
            last = reader.line();
        }
    }
}

#include "ready_mix/statement_reader.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

/// Rows of a table with cells parted by bars.
TextRows rowsOf(std::initializer_list<const char*> lines)
{
    TextRows rows;
    for (const std::string_view line : lines) {
        auto& row = rows.emplace_back();
        for (std::size_t begin = 0; begin <= line.size();) {
            const auto end = std::min(line.find('|', begin), line.size());
            row.emplace_back(line.substr(begin, end - begin));
            begin = end + 1;
        }
    }
    return rows;
}

ReadStatement read(const TextRows& rows, std::string_view remembered = {}) { return readStatement(rows, guessStatement(rows, remembered)); }

/// "48213 2026-06-12 4000AE 9.5 yd 170.00 1615.00".
std::string shown(const StatementLine& line)
{
    std::string text = line.ticketNumber.empty() ? "-" : line.ticketNumber;
    text += line.date ? ' ' + line.date->text() : " -";
    text += ' ' + (line.code.empty() ? "-" : line.code);
    text += line.quantity ? ' ' + line.quantity->text() : " -";
    text += ' ' + (line.unit.empty() ? "-" : line.unit);
    text += line.unitPrice ? ' ' + line.unitPrice->text() : " -";
    return text + ' ' + line.amount.text();
}

}

TEST_CASE("a plain statement reads as it stands, total behind it", "[reader]")
{
    const auto rows = rowsOf({"Ticket|Date|Code|Description|Qty|Unit|Unit Price|Amount", "48213|6/12/2026|4000AE|4000 psi, air|9.5|yd|$170.00|$1,615.00",
                              "48213|6/12/2026|ENV|Washout|1|load|12.00|12.00", "||||||Total|$1,627.00"});
    const auto statement = read(rows);
    CHECK(statement.problems.empty());
    REQUIRE(statement.lines.size() == 2);
    CHECK(shown(statement.lines[0]) == "48213 2026-06-12 4000AE 9.5 yd 170.00 1615.00");
    CHECK(shown(statement.lines[1]) == "48213 2026-06-12 ENV 1 load 12.00 12.00");
    CHECK(statement.lines[1].line == 2);
    CHECK(statement.total == Money::ofCents(1627'00));
    CHECK(statement.rows[3].role == RowRole::total);
}

TEST_CASE("headings in other words and another order, titles above, repeated headings and subtotals between", "[reader]")
{
    const auto rows = rowsOf({"Lindmoor Ready Mix||||||", "Statement of account|||June 2026|||", "|||||||", "Extended|Del. Date|What|Docket #|Volume|UOM|Rate|Job",
                              "1,615.00|06/30/26|4000 psi air|48213|9.5|cy|170.00|Smith patio", "12.00|06/30/26|Environment fee|48213|1|ea|12.00|Smith patio",
                              "1,627.00||Subtotal||||", "Extended|Del. Date|What|Docket #|Volume|UOM|Rate|Job", "510.00|07/01/26|4000 psi air|48260|3|cy|170.00|Jones walk", "|||||||",
                              "510.00||Sub-total||||", "2,137.00||Statement total||||"});
    const auto guess = guessStatement(rows);
    CHECK(guess.headingRow == 3U);
    const auto statement = readStatement(rows, guess);
    CHECK(statement.problems.empty());
    REQUIRE(statement.lines.size() == 3);
    CHECK(shown(statement.lines[0]) == "48213 2026-06-30 - 9.5 cy 170.00 1615.00");
    CHECK(statement.lines[1].description == "Environment fee");
    CHECK(shown(statement.lines[2]) == "48260 2026-07-01 - 3 cy 170.00 510.00");
    CHECK(statement.total == Money::ofCents(2137'00));
    CHECK(statement.rows[0].role == RowRole::words);
    CHECK(statement.rows[6].role == RowRole::subtotal);
    CHECK(statement.rows[7].role == RowRole::heading);
    CHECK(statement.rows[9].role == RowRole::blank);
}

TEST_CASE("decimal commas, days first, points for thousands and euro signs", "[reader]")
{
    const auto rows = rowsOf({"Datum;Date|Ticket no|Qty|Price|Amount", "13.06.2026|48213|9,5|170,00|1.615,00", "02.06.2026|48100|10,25|170,00|1.742,50", "01.06.2026|48090|1|12,00|12,00 \u20ac"});
    const auto guess = guessStatement(rows);
    CHECK(guess.decimalMark == ',');
    CHECK(guess.dateOrder == DateOrder::dayMonthYear);
    CHECK(guess.dateOrderSure);
    const auto statement = readStatement(rows, guess);
    REQUIRE(statement.lines.size() == 3);
    CHECK(shown(statement.lines[0]) == "48213 2026-06-13 - 9.5 - 170.00 1615.00");
    CHECK(shown(statement.lines[1]) == "48100 2026-06-02 - 10.25 - 170.00 1742.50");
    CHECK(statement.lines[2].amount == Money::ofCents(12'00));
}

TEST_CASE("the order of dates follows from the whole column, and is asked for when it cannot be told", "[reader]")
{
    const auto ofDates = [](std::initializer_list<const char*> dates) {
        TextRows rows{{"Ticket", "Date", "Amount"}};
        for (const auto* date : dates) rows.push_back({"48" + std::to_string(100 + rows.size()), date, "100.50"});
        return guessStatement(rows);
    };
    CHECK(ofDates({"6/2/2026", "6/13/2026"}).dateOrder == DateOrder::monthDayYear);
    CHECK(ofDates({"2/6/2026", "13/6/2026"}).dateOrder == DateOrder::dayMonthYear);
    CHECK(ofDates({"2026-06-02", "2026-06-13"}).dateOrder == DateOrder::yearMonthDay);
    // A statement spans a month, not half a year.
    CHECK(ofDates({"02/06/2026", "05/06/2026", "11/06/2026"}).dateOrder == DateOrder::dayMonthYear);
    CHECK(ofDates({"06/02/2026", "06/05/2026", "06/11/2026"}).dateOrder == DateOrder::monthDayYear);
    CHECK(ofDates({"06/02/2026", "06/11/2026"}).dateOrderSure);
    const auto unsure = ofDates({"6/7/2026", "7/6/2026"});
    CHECK_FALSE(unsure.dateOrderSure);
    CHECK_FALSE(unsure.remarks.empty());
    for (const auto* words : {"Jun 12, 2026", "12 June 2026", "12-Jun-26", "Fri 6/12/2026 7:41 am", "20260612"}) {
        TextRows rows{{"Ticket", "Date", "Amount"}, {"48213", words, "100.50"}, {"48214", words, "90.25"}};
        const auto statement = read(rows);
        INFO(words);
        REQUIRE(statement.lines.size() == 2);
        CHECK(statement.lines[0].date == Date::of(2026, 6, 12));
    }
}

TEST_CASE("credits in brackets, with a minus in front or behind, with CR, or in a column of their own", "[reader]")
{
    const auto statement = read(rowsOf({"Ticket|Date|Description|Amount|Credit", "48213|6/12/26|Mix|1,615.00|", "48213|6/30/26|Credit|(45.00)|", "48213|6/30/26|Credit|45.00-|", "48213|6/30/26|Credit|-45.00|",
                                        "48213|6/30/26|Credit|$45.00 CR|", "48213|6/30/26|Credit|\u221245.00|", "48213|6/30/26|Credit||45.00"}));
    REQUIRE(statement.lines.size() == 7);
    for (std::size_t i = 1; i < 7; ++i) CHECK(statement.lines[i].amount == Money::ofCents(-45'00));
}

TEST_CASE("a ticket printed on the first of its lines belongs to the lines below it", "[reader]")
{
    const auto statement = read(rowsOf({"Tkt|Date|Product|Qty|Price|Total", "48213|6/12/26|4000AE|9.5|170.00|1615.00", "||ENV|1|12.00|12.00", "||FUEL|1|23.00|23.00", "48214|6/12/26|4000AE|4|170.00|680.00",
                                        "||ENV|1|12.00|12.00"}));
    REQUIRE(statement.lines.size() == 5);
    CHECK(statement.lines[2].ticketNumber == "48213");
    CHECK(statement.lines[2].date == Date::of(2026, 6, 12));
    CHECK(statement.lines[4].ticketNumber == "48214");
}

TEST_CASE("without any headings the cells say what they are", "[reader]")
{
    const auto rows = rowsOf({"6/12/2026|48213|4000 psi air|9.5|yd|170.00|1615.00", "6/12/2026|48213|Fuel|1|load|23.00|23.00", "6/15/2026|48260|4000 psi air|3|yd|170.00|510.00", "6/15/2026|48260|Fuel|1|load|16.50|16.50"});
    const auto guess = guessStatement(rows);
    CHECK_FALSE(guess.headingRow.has_value());
    const auto statement = readStatement(rows, guess);
    REQUIRE(statement.lines.size() == 4);
    CHECK(shown(statement.lines[0]) == "48213 2026-06-12 - 9.5 yd 170.00 1615.00");
    CHECK(statement.lines[1].description == "Fuel");
    // What was guessed is kept by place, and read again.
    const auto again = guessStatement(rows, guess.text());
    CHECK(again.columns == guess.columns);
}

TEST_CASE("a column that holds the same in every row is not what tells the lines apart", "[reader]")
{
    const auto guess = guessStatement(rowsOf({"Lindmoor/0626|48213|6/12/2026|Mix, 4000 psi|1615.00", "Lindmoor/0626|48213|6/12/2026|Fuel|23.00", "Lindmoor/0626|48260|6/15/2026|Mix, 4000 psi|510.00",
                                              "Lindmoor/0626|48260|6/15/2026|Washout fee|12.00"}));
    REQUIRE(guess.columns.size() == 5);
    CHECK(guess.columns[1] == StatementColumn::ticket);
    CHECK(guess.columns[3] == StatementColumn::description);
}

TEST_CASE("a column of sales tax is a line for each ticket", "[reader]")
{
    const auto statement = read(rowsOf({"Ticket|Date|Item|Qty|Unit price|Amount|Tax|Balance", "48213|6/12/26|4000AE|9.5|170.00|1615.00|100.94|1715.94", "48213|6/12/26|ENV|1|12.00|12.00|0.00|1727.94",
                                        "48260|6/15/26|4000AE|3|170.00|510.00|31.88|2269.82"}));
    REQUIRE(statement.lines.size() == 5);
    CHECK(shown(statement.lines[1]) == "48213 2026-06-12 - - - - 100.94");
    CHECK(statement.lines[1].description == "Sales tax");
    CHECK(statement.lines[4].ticketNumber == "48260");
}

TEST_CASE("a corrected guess is kept for the supplier and used where its headings are", "[reader]")
{
    const auto rows = rowsOf({"Our ref|Your ref|Date|Amount", "771|48213|6/12/26|100.00", "772|48260|6/15/26|50.00", "773|48270|6/16/26|50.25"});
    auto guess = guessStatement(rows);
    guess.set(StatementColumn::ticket, 1);
    CHECK(guess.columns[0] == StatementColumn::other);
    const auto keptText = guess.text();
    CHECK(keptText.find("ticket=Your ref") != std::string::npos);
    const auto next = rowsOf({"Date|Amount|Your ref|Our ref", "7/2/26|100.00|48301|901", "7/15/26|50.00|48302|902"});
    const auto statement = read(next, keptText);
    REQUIRE(statement.lines.size() == 2);
    CHECK(statement.lines[0].ticketNumber == "48301");
    // Of another layout: guessed anew, and said.
    const auto other = guessStatement(rowsOf({"Ticket|Date|Amount", "1001|7/2/26|5.00"}), keptText);
    CHECK_FALSE(other.remarks.empty());
    CHECK(other.columns[0] == StatementColumn::ticket);
    CHECK_FALSE(StatementGuess::parse("nonsense").has_value());
}

TEST_CASE("one row that cannot be read keeps all out, and says where", "[reader]")
{
    const auto rows = rowsOf({"Ticket|Date|Amount", "48213|6/12/26|100.00", "48214|soon|50.00", "48215|6/14/26|fifty"});
    const auto statement = read(rows);
    CHECK(statement.lines.empty());
    CHECK_FALSE(statement.fine());
    REQUIRE(statement.problems.size() == 2);
    CHECK(statement.problems[0].find("Row 3") == 0);
    CHECK(statement.problems[0].find("soon") != std::string::npos);
    CHECK(statement.problems[1].find("\u201cAmount\u201d") != std::string::npos);
    CHECK_FALSE(read({}).fine());
    CHECK_FALSE(read({}).problems.empty());
}

TEST_CASE("reading can be stopped, and then nothing is taken in", "[reader]")
{
    TextRows rows{{"Ticket", "Date", "Amount"}};
    for (int i = 0; i < 5000; ++i) rows.push_back({std::to_string(40'000 + i), "6/12/26", "12.50"});
    int asked = 0;
    const auto statement = readStatement(rows, guessStatement(rows), [&](int) { return ++asked < 3; });
    CHECK(asked == 3);
    CHECK(statement.lines.empty());
    CHECK(readStatement(rows, guessStatement(rows)).lines.size() == 5000);
}

TEST_CASE("a printed total that its lines do not add up to stays as printed", "[reader]")
{
    const auto statement = read(rowsOf({"Ticket|Date|Amount", "48213|6/12/26|100.00", "48214|6/13/26|50.00", "Total||160.00"}));
    REQUIRE(statement.lines.size() == 2);
    CHECK(statement.total == Money::ofCents(160'00));
    // What was brought forward is none of this statement's.
    const auto brought = read(rowsOf({"Ticket|Date|Description|Amount", "||Previous balance|500.00", "48213|6/12/26|Mix|100.00", "48214|6/13/26|Mix|50.00", "||Total due|650.00"}));
    REQUIRE(brought.lines.size() == 2);
    CHECK(brought.total == Money::ofCents(150'00));
}

TEST_CASE("the separator is the one that parts the rows most evenly", "[reader]")
{
    CHECK(guessSeparator("a,b,c\n1,2,3\n") == ',');
    CHECK(guessSeparator("Ticket;Amount\n48213;1.615,00\n48214;12,50\n") == ';');
    CHECK(guessSeparator("Ticket\tDescription\tAmount\n48213\tMix, air\t1,615.00\n") == '\t');
    CHECK(guessSeparator("Ticket|Amount\n1|2\n") == '|');
    CHECK(guessSeparator("\"a;b\",\"c;d\"\n\"e;f\",\"g;h\"\n") == ',');
    CHECK(guessSeparator("") == ',');
}

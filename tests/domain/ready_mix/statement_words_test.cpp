#include "ready_mix/statement_words.h"

#include "domain/book_maker.h"

using namespace strikeoff;

TEST_CASE("what was read of a statement is said with its sum and its total", "[ready_mix][statement]")
{
    ReadStatement read;
    CHECK(statementAnswer(read) == "No line yet.");
    read.lines.push_back(StatementLine{.ticketNumber = "T-48213", .amount = usd("1650")});
    read.lines.push_back(StatementLine{.ticketNumber = "48213", .amount = usd("80.50")});
    CHECK(statementAnswer(read) == "Two lines for one ticket; they add up to $1,730.50.");
    read.lines.push_back(StatementLine{.amount = usd("-30.50")});
    read.total = usd("1700");
    CHECK(statementAnswer(read) == "Three lines for one ticket, one credit among them; they add up to $1,700.00, as the printed total says.");
    read.total = usd("1710");
    read.rows.push_back({RowRole::refused, "row 4"});
    CHECK(statementAnswer(read) == "Three lines for one ticket, one credit among them; they add up to $1,700.00, the printed total says $1,710.00; one row cannot be read.");
    read.lines.clear();
    CHECK(statementAnswer(read) == "One row cannot be read.");
}

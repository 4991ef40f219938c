#pragma once

#include "record/ready_mix.h"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace strikeoff {

/// Rows of text cells as a file or the clipboard has them.
using TextRows = std::vector<std::vector<std::string>>;

/// What a column of a supplier's file holds.
enum class StatementColumn { other, ticket, date, code, description, quantity, unit, unitPrice, amount, credit, tax };
inline constexpr std::array statementColumnChoices{
    Choice{"other", "\u2013"}, Choice{"ticket", "Ticket"}, Choice{"date", "Date"}, Choice{"code", "Code"}, Choice{"description", "Description"},
    Choice{"quantity", "Quantity"}, Choice{"unit", "Unit"}, Choice{"price", "Unit price"}, Choice{"amount", "Amount"}, Choice{"credit", "Credit"},
    Choice{"tax", "Tax"}};
template <> inline constexpr std::span<const Choice> choicesOf<StatementColumn> = statementColumnChoices;

enum class DateOrder : int { monthDayYear, dayMonthYear, yearMonthDay };
inline constexpr std::array dateOrderChoices{Choice{"mdy", "month, day, year"}, Choice{"dmy", "day, month, year"}, Choice{"ymd", "year, month, day"}};
template <> inline constexpr std::span<const Choice> choicesOf<DateOrder> = dateOrderChoices;

/// How a file is taken to be laid out: shown to the owner, corrected in place and remembered for the supplier.
struct StatementGuess {
    std::vector<StatementColumn> columns;  ///< by place
    std::vector<std::string> headings;     ///< as the file words them; blank where it has none
    std::optional<std::size_t> headingRow; ///< place among the rows
    char decimalMark = '.';                ///< '.' or ','
    DateOrder dateOrder = DateOrder::monthDayYear;
    bool dateOrderSure = true;             ///< false when every date could be read both ways
    bool ticketCarries = false;            ///< the ticket stands on the first of its lines only
    std::vector<std::string> remarks;      ///< what the owner should look at, a sentence each

    /// What is missing to read anything, as a sentence with the remedy; blank when it will do.
    std::string obstacle() const;
    /// Gives a column its meaning and takes it from the one that had it.
    void set(StatementColumn meaning, std::size_t column);
    /// For supplier.statement_columns: "mdy;.;ticket=Delivery No;date=Del. Date;…", a column without a heading by its place ("#3").
    std::string text() const;
    /// Reads that again: order, mark, and a meaning and heading for each known column.
    static std::optional<StatementGuess> parse(std::string_view text);
};

/// Guesses from headings (any order and wording) and, where they say nothing, from what the cells look like. A layout remembered for the supplier
/// goes first wherever its headings are in the file. Never throws on input.
StatementGuess guessStatement(const TextRows& rows, std::string_view remembered = {});

/// What became of a row.
enum class RowRole { line, heading, blank, subtotal, total, words, refused };
struct RowNote {
    RowRole role = RowRole::blank;
    std::string message;  ///< of a refused row: what cannot be read and what to do
};

struct ReadStatement {
    std::vector<StatementLine> lines;  ///< numbered from 1; no statement, no ids
    std::vector<RowNote> rows;         ///< one a row
    std::optional<Money> total;        ///< printed behind the lines
    std::vector<std::string> problems; ///< what keeps it from being taken in, naming row and column; then nothing is
    std::vector<std::string> remarks;
    bool fine() const { return problems.empty() && !lines.empty(); }
};

/// Reads the rows by a layout. All or nothing: a row that is neither a line nor recognised as something else is a problem. Never throws on input.
/// `progress` is asked now and then and stops the reading by returning false.
ReadStatement readStatement(const TextRows& rows, const StatementGuess& guess, const std::function<bool(int percent)>& progress = {});

/// Which of comma, semicolon, tab and bar parts the cells of a text: the one that gives its rows most evenly more than one cell.
char guessSeparator(std::string_view text);

/// A statement record for lines that were read: number and day as given, period and total from the lines.
Statement statementFor(const ReadStatement& read, Id<Supplier> supplier, std::string number, Date day);

}

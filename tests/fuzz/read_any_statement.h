#pragma once

#include "fuzz/promise.h"
#include "text_rows.h"

namespace strikeoff::fuzz {

/// Reads any bytes as a supplier's statement and throws when a promise of the reader does not hold.
inline void readAnyStatement(std::string_view bytes)
{
    const auto split = splitText(bytes);
    auto guess = guessStatement(split.rows);
    const auto kept = guess.text();
    const auto again = StatementGuess::parse(kept);
    require(again.has_value(), "a layout that was kept is read again");
    require(again->text().substr(0, 5) == kept.substr(0, 5), "the order of dates and the decimal mark are kept");
    (void)guessStatement(split.rows, kept);
    // A supplier's kept layout is a text of the book, which could hold anything.
    const auto firstLine = linesOf(bytes, 1).front();
    if (const auto layout = StatementGuess::parse(firstLine)) require(StatementGuess::parse(layout->text()).has_value(), "a layout that is read can be kept");
    (void)guessStatement(split.rows, firstLine);
    for (std::size_t shift = 0; shift < 2; ++shift) {
        const auto read = readStatement(split.rows, guess);
        require(read.rows.size() == split.rows.size(), "every row is accounted for");
        require(read.problems.empty() == !read.lines.empty(), "lines or problems, never both and never neither");
        std::int32_t place = 0;
        for (const auto& line : read.lines) {
            require(line.line == ++place, "lines are numbered from one");
            require(line.description.size() <= 400 && line.ticketNumber.size() <= 400 && line.code.size() <= 400, "a text fits its field");
        }
        (void)statementFor(read, Id<Supplier>{1}, "S1", Date::ofDays(20'000));
        // And with the columns taken for others.
        if (guess.columns.size() > 1) guess.set(StatementColumn::amount, bytes.size() % guess.columns.size());
    }
}

}

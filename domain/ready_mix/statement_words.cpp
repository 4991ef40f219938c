#include "ready_mix/statement_words.h"

#include "quantity/words.h"
#include "ready_mix/expected_charge.h"

#include <algorithm>
#include <set>

namespace strikeoff {

std::string statementAnswer(const ReadStatement& read)
{
    const auto refused = std::count_if(read.rows.begin(), read.rows.end(), [](const auto& note) { return note.role == RowRole::refused; });
    if (read.lines.empty()) return refused > 0 ? capitalized(counted(refused, "row", "rows") + " cannot be read.") : "No line yet.";
    std::set<std::string> tickets;
    Money sum;
    int credits = 0;
    for (const auto& line : read.lines) {
        if (auto number = comparableNumber(line.ticketNumber); !number.empty()) tickets.insert(std::move(number));
        sum += line.amount;
        if (line.amount < Money{}) ++credits;
    }
    auto text = counted(static_cast<std::int64_t>(read.lines.size()), "line", "lines") + " for " + counted(static_cast<std::int64_t>(tickets.size()), "ticket", "tickets");
    if (credits > 0) text += ", " + counted(credits, "credit", "credits") + " among them";
    text += "; they add up to " + dollars(sum);
    if (read.total) text += *read.total == sum ? ", as the printed total says" : ", the printed total says " + dollars(*read.total);
    if (refused > 0) text += "; " + counted(refused, "row", "rows") + " cannot be read";
    return capitalized(text + ".");
}

}

#pragma once

#include "record/book.h"

#include <string>
#include <vector>

namespace strikeoff {

/// One month of ready-mix.
struct DeskMonth {
    Date month;      ///< its first day
    int loads = 0;
    Yards yards;
    Money billed;    ///< by statement lines of the month's tickets
    Money expected;  ///< by the sheet in force, for tickets no statement has billed
    int notBilled = 0;
};

/// A statement added up and looked up: how many of the tickets it names are on file.
struct StatementSummary {
    const Statement* statement = nullptr;
    Money lines;          ///< sum of its lines
    int lineCount = 0;
    int ticketsNamed = 0;
    int ticketsFound = 0;
    bool addsUp = true;   ///< no total printed, or the lines add up to it
};

struct TicketDesk {
    std::vector<DeskMonth> months;             ///< the twelve months up to today, oldest first
    std::vector<StatementSummary> statements;  ///< newest first
    int statementsOpen = 0;                    ///< not approved yet
    int claimsOpen = 0;
    Money claimed;                             ///< by open claims
    std::string answer;                        ///< in one sentence with numbers
};
TicketDesk ticketDesk(const Book& book, Date today);

}

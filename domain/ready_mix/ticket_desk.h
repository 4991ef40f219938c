#pragma once

#include "ready_mix/statement_findings.h"

#include <functional>

namespace strikeoff {

class CostReckoner;

/// One month of ready-mix.
struct DeskMonth {
    Date month;      ///< its first day
    int loads = 0;
    Yards yards;
    Money billed;    ///< by statement lines of the month's tickets
    Money expected;  ///< by the sheet in force, for tickets no statement has billed
    int notBilled = 0;
    int open = 0;    ///< findings on its loads, and on statements of the month without a load, that wait for the owner
};

/// A statement added up and looked up: how many of the tickets it names are on file.
struct StatementSummary {
    const Statement* statement = nullptr;
    Money lines;          ///< sum of its lines
    int lineCount = 0;
    int ticketsNamed = 0;
    int ticketsFound = 0;
    bool addsUp = true;   ///< no total printed, or the lines add up to it
    int open = 0;         ///< findings that wait for the owner; of statements reckoned only
    Money inQuestion;     ///< what is open on it, or claimed and not credited yet
};

struct TicketDesk {
    std::vector<DeskMonth> months;             ///< the twelve months up to today, oldest first
    std::vector<StatementSummary> statements;  ///< newest first
    int statementsOpen = 0;                    ///< not approved yet
    int claimsOpen = 0;
    Money claimed;                             ///< by open claims
    std::vector<UnbilledTicket> unbilled;      ///< tickets of the twelve months that no statement bills, the oldest first
    std::string answer;                        ///< in one sentence with numbers
};

/// Gives the check of a statement: a page keeps those it has made.
using CheckOf = std::function<const StatementCheck&(const Statement&)>;

/// The desk on a day. Statements of the twelve months and those that are not approved are checked.
TicketDesk ticketDesk(CostReckoner& reckoner, Date today, const StatementMatches& matches, const CheckOf& checkOf);
TicketDesk ticketDesk(const Book& book, Date today);

}

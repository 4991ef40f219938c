#pragma once

#include "job/steps.h"
#include "ready_mix/statement_findings.h"

#include <span>

namespace strikeoff {

/// Pairs lines with a ticket, or parts them from any, by hand; forgetPairing leaves them to the match again.
Step pairByHand(const Book& book, std::span<const StatementLine* const> lines, const Ticket& ticket);
Step partByHand(const Book& book, std::span<const StatementLine* const> lines);
Step forgetPairing(const Book& book, std::span<const StatementLine* const> lines);

/// All lines of the statement that bill the same load as one of them (same printed number and day).
std::vector<const StatementLine*> linesOfLoad(const Book& book, const StatementLine& line);

/// Lets a line that does not agree stand as billed, with a reason; without a line, the printed total. An empty reason takes that back.
Step letStand(const Book& book, const StatementLine& line, const std::string& reason);
Step letTotalStand(const Book& book, const Statement& statement, const std::string& reason);

/// Approves a statement: its amounts are the jobs' cost from now on, and what is disputed becomes claims, one for each cause on each ticket, that add
/// up to the disputed amount. Not while anything needs the owner's eye.
Step approveStatement(const Book& book, const Statement& statement, Date day);
/// Takes the approval back; claims that nothing happened to yet go with it.
Step reopenStatement(const Book& book, const Statement& statement);
Step payStatement(const Book& book, const Statement& statement, Date day);

/// A credit line answers a claim. When it brings less, what is missing stays open as a claim of its own.
Step creditClaim(const Book& book, const Claim& claim, const StatementLine& credit);
/// The owner lets a claim go, with a reason.
Step letClaimGo(const Book& book, const Claim& claim, const std::string& reason, Date day);

/// A letter to the supplier about what is disputed on a statement.
struct SupplierLetter {
    struct Line {
        std::string ticket;
        std::optional<Date> date;
        std::string what;  ///< "Mix 4000AE"
        Money billed;
        std::optional<Money> expected;
        Money difference;
        std::string why;
    };
    std::string from;      ///< the outfit's name and address, lines
    std::string to;        ///< the supplier's
    Date date;
    std::string subject;   ///< "Statement 2608-3318 of August 31, 2026"
    std::string greeting;
    std::vector<std::string> opening;  ///< paragraphs above the table
    std::vector<Line> lines;
    Money asked;           ///< sum of the differences
    std::vector<std::string> closing;  ///< paragraphs below it
    std::string signature;
    /// As plain text, for mail: lines of at most 78 columns but for the table.
    std::string text() const;
};
/// Nothing when nothing is disputed.
std::optional<SupplierLetter> letterFor(const Book& book, const StatementCheck& check, Date day);

}

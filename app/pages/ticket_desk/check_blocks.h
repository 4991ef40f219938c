#pragma once

#include "desk.h"

#include "facing_papers.h"
#include "ready_mix/statement_findings.h"

namespace strikeoff {

/// Which findings of a check are looked at.
struct FindingFilter {
    enum class Show { open, differing, everything, one } show = Show::open;
    Finding one = Finding::agrees;
    bool takes(const LineFinding& finding) const;
};

/// A check as it is drawn: a block a ticket, and for each row the finding it shows (its place in the check), or nothing for a ticket not billed.
struct CheckBlock {
    FacingBlock block;
    std::vector<std::optional<std::size_t>> findings;
};

/// The lines of a check in blocks, one a ticket, by their place on the statement; blocks without a line that the filter takes are left out. Tickets that are not
/// billed stand at the end when everything is shown.
std::vector<CheckBlock> checkBlocks(const Book& book, const StatementCheck& check, const FindingFilter& filter);

/// The largest difference there is, in dollars: the measure of the bars.
double largestDifference(const StatementCheck& check);

/// "Ticket 48213", "Charge without a ticket", "The statement as a whole".
QString nameOf(const LineFinding& finding);
Tone toneOf(const LineFinding& finding);
/// The finding's words with its state: "Not earned, claimed".
QString wordsOf(const LineFinding& finding);
/// "+$22.00", "−$3.10".
QString signedDollars(Money amount);

}

#pragma once

#include "ready_mix/expected_charge.h"
#include "ready_mix/statement_match.h"

namespace strikeoff {

enum class Finding { agrees, priceOff, yardsOff, chargeNotOnSheet, notEarned, billedTwice, noTicket, sumOff, taxOff, credit, needsYourEye };
inline constexpr std::array findingChoices{
    Choice{"agrees", "Agrees"}, Choice{"price_off", "Price off"}, Choice{"yards_off", "Yards off"}, Choice{"charge_not_on_sheet", "Charge not on sheet"},
    Choice{"not_earned", "Not earned"}, Choice{"billed_twice", "Billed twice"}, Choice{"no_ticket", "No ticket on file"}, Choice{"sum_off", "Sum off"},
    Choice{"tax_off", "Tax off"}, Choice{"credit", "Credit"}, Choice{"needs_your_eye", "Needs your eye"}};
template <> inline constexpr std::span<const Choice> choicesOf<Finding> = findingChoices;

/// What became of a line that does not agree.
enum class FindingState {
    settled,  ///< nothing to do: it agrees, or is a credit, or the slip is the supplier's own loss
    open,     ///< waits for the owner
    claimed,  ///< a claim is open for it
    credited, ///< its claim was credited
    letStand, ///< the owner pays it as billed, with a reason
};

/// What the check says about one line, or about the statement as a whole (without a line).
struct LineFinding {
    const StatementLine* line = nullptr;
    const Ticket* ticket = nullptr;
    PairedHow how = PairedHow::none;
    std::vector<TicketCandidate> candidates;  ///< when it needs the owner's eye
    Finding finding = Finding::agrees;
    FindingState state = FindingState::settled;
    Money billed;                    ///< agreed + disputed + needsEye, to the cent
    Money agreed;
    Money disputed;                  ///< what should come back
    Money needsEye;
    std::optional<Money> expected;   ///< by sheet and ticket; nothing when it cannot be told
    Money difference;                ///< billed less expected; nothing where that is not known
    bool follows = false;            ///< a tax that is off only because the lines it taxes are
    std::string why;                 ///< the two numbers and where they come from, in a sentence
    const Claim* claim = nullptr;    ///< raised for it; of a credit line, the claim it closes
    const Claim* suggested = nullptr;  ///< of a credit line: the open claim it looks like
};

/// A ticket of the statement's period that no statement bills.
struct UnbilledTicket {
    const Ticket* ticket = nullptr;
    std::optional<Money> expected;
};

/// What a ticket holds against its load without dollars: late discharge, slump, water, cold. "Not recorded" says nothing.
struct TicketRemark {
    const Ticket* ticket = nullptr;
    std::string text;
};

/// What to pay on a statement. What is disputed is held back, and a credit that answers what was held back is not taken off again.
struct PayThis {
    Money billed;
    Money heldBack;     ///< disputed and not settled, and what needs the owner's eye
    Money settled;      ///< credits on this statement for what was held back on earlier ones
    Money pay;          ///< billed − heldBack + settled
    Money discount;     ///< for paying early, by the sheets of the tickets billed; shown, not deducted
    Money payEarly;     ///< pay − discount
    std::optional<Date> earlyUntil;
    std::optional<Date> dueOn;
    std::string sentence;
};

struct StatementCheck {
    const Statement* statement = nullptr;
    std::vector<LineFinding> lines;        ///< by their place; what is about the whole statement behind them
    std::vector<UnbilledTicket> unbilled;  ///< by date and number
    std::vector<TicketRemark> remarks;
    std::vector<const Claim*> claimsOpen;  ///< all open claims with the supplier, the oldest first
    Money billed;                          ///< agreed + disputed + needsEye, to the cent
    Money agreed;
    Money disputed;
    Money needsEye;
    Money expected;                        ///< sum of what is expected for its lines
    int linesOpen = 0;                     ///< findings that wait for the owner
    PayThis pay;
    std::string answer;                    ///< in one sentence with numbers
    /// Whether anything waits: a finding, or a claim raised on one of the lines.
    bool isOpen() const;
};

/// Checks statements of a book that stands still; matches are made once. Pure: the same book, the same findings.
class StatementDesk {
public:
    explicit StatementDesk(const Book& book);

    const StatementMatches& matches() const { return matches_; }
    StatementCheck check(const Statement& statement) const;

private:
    const Book& book_;
    PriceSheets sheets_;
    StatementMatches matches_;
};

/// The same for one statement.
StatementCheck checkStatement(const Book& book, const Statement& statement);

/// What a ticket alone holds against its load by the settings' rules, a sentence each.
std::vector<std::string> ticketRemarks(const Book& book, const Ticket& ticket);

/// Slump may be off by this much either way of the slump ordered: the settings' figure, else ASTM C94's by slump (2 in and less ½ in, to 4 in
/// 1 in, above 1½ in).
Quantity slumpTolerance(const Settings& settings, Quantity ordered);
/// The coldest a load may arrive for a section that thick, °F: the settings' figure, else ASTM C94 / ACI 306R (under 12 in 55, to 36 in 50, to
/// 72 in 45, above 40). An unknown thickness counts as a slab.
int leastConcreteTempF(const Settings& settings, std::optional<TapeLength> thickness);

}

#pragma once

#include "record/book.h"

#include <memory>
#include <span>
#include <string>
#include <vector>

namespace strikeoff {

/// How a statement line came to its ticket.
enum class PairedHow {
    number,  ///< the numbers compare equal
    near,    ///< the number is mistyped or missing, and this ticket alone fits
    hand,    ///< the owner said so
    none,    ///< no ticket, or one that could as well be another
};
inline constexpr std::array pairedHowChoices{Choice{"number", "same number"}, Choice{"near", "near number"}, Choice{"hand", "by hand"}, Choice{"none", "no ticket"}};
template <> inline constexpr std::span<const Choice> choicesOf<PairedHow> = pairedHowChoices;

/// A ticket that could be meant by lines that are not sure of theirs.
struct TicketCandidate {
    const Ticket* ticket = nullptr;
    int cost = 0;      ///< how badly it fits; 0 is the same number, date, yards and mix
    std::string fits;  ///< "two digits swapped, same day, same yards"
};

struct LineMatch {
    const StatementLine* line = nullptr;
    const Ticket* ticket = nullptr;            ///< nothing while it is doubtful
    PairedHow how = PairedHow::none;
    bool doubtful = false;                     ///< more than one ticket fits, or one that fits badly: the owner decides
    std::vector<TicketCandidate> candidates;   ///< of a doubtful line, the best first
};

/// Which ticket each line of each statement bills. It points into the book and holds while the book stands still.
class StatementMatches {
public:
    explicit StatementMatches(const Book& book);
    ~StatementMatches();
    StatementMatches(StatementMatches&&) noexcept;
    StatementMatches& operator=(StatementMatches&&) noexcept;

    /// The match of one line.
    const LineMatch& of(Id<StatementLine> line) const;
    /// The matches of a statement's lines, by their place on it.
    std::vector<const LineMatch*> of(const Statement& statement) const;
    /// All lines that bill a ticket, the earliest statement first.
    std::span<const LineMatch* const> of(const Ticket& ticket) const;
    /// Every line of the book, by id.
    std::span<const LineMatch> all() const;

private:
    struct Pairing;
    std::unique_ptr<Pairing> pairing_;
};

/// The limits within which a line and a ticket can be a pair.
struct MatchLimits {
    static constexpr int daysOff = 5;                ///< a line's date and its ticket's
    static constexpr int daysBeforeStatement = 120;  ///< a line without a date and its ticket
    static constexpr int daysBeforeCredit = 240;     ///< a credit carries its own day, not the load's
    static constexpr int editsOff = 2;               ///< edits between two numbers, two neighboring characters swapped counted as one
    static constexpr int worthALine = 26;            ///< a pair that fits worse is none
    static constexpr int clearlyWorse = 6;           ///< by how much the next best way to pair all lines has to be worse
};

}

#pragma once

#include "record/book.h"

#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

namespace strikeoff {

/// The lines of a statement that bill one load: what the match pairs with tickets.
struct BilledLoad {
    std::vector<const StatementLine*> lines;
    std::string number;           ///< comparable; blank when none is printed
    std::optional<Date> date;
    std::optional<Yards> yards;   ///< of its mix
    std::string_view mix;         ///< code of its mix; blank when no line names one
    std::string_view truck;       ///< where a line names one
    bool creditOnly = true;       ///< nothing but credits
};

/// The codes that a supplier's sheets ever sold a mix under, in small letters.
class MixCodes {
public:
    explicit MixCodes(const Book& book);
    bool isMix(Id<Supplier> supplier, const std::string& code) const;

private:
    std::unordered_map<std::int64_t, std::unordered_set<std::string>> codes_;
};

/// Puts the lines of a statement (by their place on it) together by printed number and day. A line whose charge the load has already, not right behind
/// it, begins the load again: it was billed twice, or the number is another load's. Lines paired or parted by hand are left out.
std::vector<BilledLoad> billedLoads(const std::vector<const StatementLine*>& lines, Id<Supplier> supplier, const MixCodes& mixes);

/// Whether a unit is cubic yards in one of the ways statements write it.
bool isYardUnit(std::string_view unit);

}

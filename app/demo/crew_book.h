#pragma once

#include "demo/calendar.h"
#include "record/choices.h"

#include <array>
#include <map>
#include <optional>
#include <vector>

namespace strikeoff::demo {

inline constexpr std::size_t crewCount = 5;

/// Some minutes of one person's day.
struct Spell {
    std::optional<std::size_t> plan;  ///< which job; none for the shop
    std::optional<std::size_t> pour;  ///< which of its pours
    Phase phase{};
    int minutes = 0;
    std::optional<int> startsAt;      ///< minutes after midnight, where the clock matters
    const char* note = "";
};

/// Who works where on which day, and who has time left.
class CrewBook {
public:
    CrewBook();

    /// Employed and neither ill nor on leave.
    bool isThere(std::size_t person, Date date) const;
    /// Minutes not yet taken of an ordinary day; none at weekends and on holidays.
    int minutesLeft(std::size_t person, Date date) const;
    int minutesTaken(std::size_t person, Date date) const;
    void book(std::size_t person, Date date, Spell spell);
    /// Those there on a day who have most time left, at most so many.
    std::vector<std::size_t> freest(Date date, std::size_t most, int leastMinutes) const;

    using Key = std::pair<Date, std::size_t>;
    std::map<Key, std::vector<Spell>>& spells() { return spells_; }

private:
    std::map<Key, std::vector<Spell>> spells_;
    std::map<Key, bool> away_;
};

}

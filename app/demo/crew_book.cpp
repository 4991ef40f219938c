#include "demo/crew_book.h"

#include "demo/random.h"
#include "demo/world.h"

#include <algorithm>

namespace strikeoff::demo {

namespace {

constexpr int ordinaryDay = 510;
constexpr int ownersDay = 390;  // the rest goes to measuring, quoting and the telephone

}

CrewBook::CrewBook()
{
    Random random{5};
    for (std::size_t person = 0; person < crewCount; ++person) {
        for (int year = 2023; year <= 2026; ++year) {
            // A week in summer, one about the new year when there is little to do, and a few days ill.
            const auto leave = day(year, 7, 1) + random.pick(0, 50);
            for (int i = 0; i < 7; ++i) away_[{leave + i, person}] = true;
            for (int i = random.pick(1, 5); i > 0; --i) {
                const auto ill = day(year, 1, 10) + random.pick(0, 290);
                if (today() - ill > 5 || ill > today()) away_[{ill, person}] = true;
            }
        }
    }
}

bool CrewBook::isThere(std::size_t person, Date date) const
{
    return crewMemberWorks(person, date) && !away_.contains({date, person});
}

int CrewBook::minutesTaken(std::size_t person, Date date) const
{
    int taken = 0;
    if (const auto found = spells_.find({date, person}); found != spells_.end())
        for (const auto& spell : found->second) taken += spell.minutes;
    return taken;
}

int CrewBook::minutesLeft(std::size_t person, Date date) const
{
    if (!isWorkday(date) || !isThere(person, date)) return 0;
    return std::max(0, (person == 0 ? ownersDay : ordinaryDay) - minutesTaken(person, date));
}

void CrewBook::book(std::size_t person, Date date, Spell spell)
{
    if (spell.minutes <= 0) return;
    auto& spells = spells_[{date, person}];
    for (auto& other : spells)
        if (other.plan == spell.plan && other.pour == spell.pour && other.phase == spell.phase) {
            other.minutes += spell.minutes;
            return;
        }
    spells.push_back(spell);
}

std::vector<std::size_t> CrewBook::freest(Date date, std::size_t most, int leastMinutes) const
{
    std::vector<std::pair<int, std::size_t>> left;
    for (std::size_t person = 0; person < crewCount; ++person)
        if (const int minutes = minutesLeft(person, date); minutes >= leastMinutes) left.emplace_back(-minutes, person);
    std::sort(left.begin(), left.end());
    std::vector<std::size_t> people;
    for (const auto& [minutes, person] : left)
        if (people.size() < most) people.push_back(person);
    return people;
}

}

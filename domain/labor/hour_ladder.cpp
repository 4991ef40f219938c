#include "labor/hour_ladder.h"

#include "labor/burden.h"
#include "labor/rates.h"
#include "quantity/words.h"

#include <algorithm>
#include <map>

namespace strikeoff {

namespace {

struct Sums {
    Minutes worked;
    Money straight, premium;
    BurdenAmounts burden{};

    void take(const HourCost& cost)
    {
        worked += cost.minutes;
        straight += cost.straight;
        premium += cost.premium;
        for (std::size_t i = 0; i < burdenItemCount; ++i) burden[i] += cost.burden[i];
    }
};

UnitPrice perHour(Money money, Minutes worked) { return UnitPrice::ofUnits(divideHalfUp(static_cast<Int128>(money.cents()) * 100 * 60, worked.count())); }

HourLadder ladderFrom(const CrewMember* person, const Sums& sums)
{
    HourLadder ladder{person, sums.worked, perHour(sums.straight, sums.worked), perHour(sums.premium, sums.worked), {}};
    for (std::size_t i = 0; i < burdenItemCount; ++i) ladder.burden[i] = perHour(sums.burden[i], sums.worked);
    return ladder;
}

HourLadder byTables(const Book& book, const CrewMember& person, UnitPrice hourly, Date day)
{
    HourLadder ladder{&person, {}, hourly, {}, {}};
    for (std::size_t i = 0; i < burdenItemCount; ++i) {
        const auto* rate = burdenInForce(book, static_cast<BurdenItem>(i), day, person.compClass);
        if (!rate || !rate->rate) continue;
        ladder.burden[i] = rate->basis == BurdenBasis::perHour
            ? *rate->rate
            : UnitPrice::ofUnits(divideHalfUp(static_cast<Int128>(hourly.units()) * rate->rate->units(), 1'000'000));
    }
    return ladder;
}

std::string answerOf(const CrewRates& rates)
{
    if (rates.people.empty()) return "Nobody on the crew has a pay rate yet: enter the crew and what they are paid.";
    const auto by = [](const HourLadder& a, const HourLadder& b) { return a.total() < b.total(); };
    const auto least = std::min_element(rates.people.begin(), rates.people.end(), by)->total(), most = std::max_element(rates.people.begin(), rates.people.end(), by)->total();
    auto text = "An hour of the crew truly costs $" + rates.crew.total().shown(2);
    if (least.shown(2) != most.shown(2)) text += " (from $" + least.shown(2) + " to $" + most.shown(2) + ")";
    if (rates.breakEven)
        text += "; to break even charge $" + rates.breakEven->shown(2) + " for a billable hour, at " + std::to_string(rates.lastYear.year) + "\u2019s billable share of "
            + rates.lastYear.billableShare->shown(0) + " % and $" + rates.lastYear.perHour->shown(2) + " of overhead";
    return text + ".";
}

}

UnitPrice HourLadder::total() const
{
    auto sum = pay + premium;
    for (const auto step : burden) sum += step;
    return sum;
}

CrewRates crewRates(const Book& book, const LaborCost& labor, Date day)
{
    CrewRates rates;
    std::map<Id<CrewMember>, Sums> sums;
    Sums all;
    const auto from = monthsOn(day, -12) + 1;
    for (const auto& row : book.all<Hours>()) {
        if (row.date < from || row.date > day) continue;
        const auto& cost = *labor.of(row.id);
        if (!cost.rateKnown) continue;
        sums[row.person].take(cost);
        all.take(cost);
    }
    for (const auto& person : book.all<CrewMember>()) {
        if ((person.leftOn && *person.leftOn < day) || (person.hiredOn && *person.hiredOn > day)) continue;
        const auto found = sums.find(person.id);
        if (found != sums.end() && found->second.worked > Minutes{}) rates.people.push_back(ladderFrom(&person, found->second));
        else if (const auto* rate = rateInForce(book, person.id, day); rate && !rate->dayRate) rates.people.push_back(byTables(book, person, rate->hourlyRate, day));
    }
    std::stable_sort(rates.people.begin(), rates.people.end(), [](const HourLadder& a, const HourLadder& b) { return a.person->name < b.person->name; });
    if (all.worked > Minutes{}) {
        rates.crew = ladderFrom(nullptr, all);
    } else if (!rates.people.empty()) {
        const auto count = static_cast<std::int64_t>(rates.people.size());
        for (const auto& mine : rates.people) {
            rates.crew.pay += mine.pay;
            for (std::size_t i = 0; i < burdenItemCount; ++i) rates.crew.burden[i] += mine.burden[i];
        }
        rates.crew.pay = UnitPrice::ofUnits(divideHalfUp(rates.crew.pay.units(), count));
        for (auto& step : rates.crew.burden) step = UnitPrice::ofUnits(divideHalfUp(step.units(), count));
    }
    rates.lastYear = overheadOf(book, labor, day.year() - 1, day);
    rates.toDate = overheadOf(book, labor, day.year(), day);
    if (!rates.people.empty() && rates.lastYear.perHour)
        rates.breakEven = UnitPrice::ofUnits(divideHalfUp(static_cast<Int128>(rates.crew.total().units()) * rates.lastYear.worked.count(), rates.lastYear.billable.count()))
            + *rates.lastYear.perHour;
    rates.answer = answerOf(rates);
    if (const auto missing = burdenNotSet(book, day); !missing.empty() && !rates.people.empty()) {
        std::vector<std::string> names;
        for (const auto item : missing) names.emplace_back(labelOf(item));
        rates.missing = "Not set yet, so counted as nothing: " + listed(names) + ".";
    }
    return rates;
}

}

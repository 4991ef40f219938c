#include "review/year_bridge.h"

#include "labor/overhead.h"
#include "quantity/words.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace strikeoff {

namespace {

constexpr auto concrete = static_cast<std::size_t>(CostClass::concrete);
constexpr auto labor = static_cast<std::size_t>(CostClass::labor);

/// The jobs of one type in one year, in whole numbers so that every step is rounded once.
struct Sums {
    std::int64_t area = 0;  ///< hundredths of a ft²
    Money revenue;
    std::array<Money, costClassCount> byClass{};
    std::int64_t minutes = 0;

    void take(const FinishedJob& job)
    {
        area += std::llround(job.areaSqft * 100);
        revenue += job.revenue;
        for (std::size_t i = 0; i < costClassCount; ++i) byClass[i] += job.byClass[i];
        minutes += job.crewMinutes.count();
    }
    Money profit() const
    {
        auto left = revenue;
        for (const auto cost : byClass) left -= cost;
        return left;
    }
};

Money scaled(Money money, std::int64_t by, std::int64_t of) { return Money::ofCents(divideHalfUp(static_cast<Int128>(money.cents()) * by, of)); }

/// The same day of another year; 29 February is the 28th where there is none.
Date sameDayOf(int year, Date day)
{
    const auto same = Date::of(year, day.month(), day.day());
    return same ? *same : *Date::of(year, day.month(), 28);
}

struct Moves {
    Money volume, price, concreteCost, pace, laborRate;
    std::array<Money, costClassCount> others{};

    void take(const Sums& a, const Sums& b)
    {
        if (a.area <= 0 || b.area <= 0) {
            volume += b.profit() - a.profit();
            return;
        }
        const auto at = [&](Money money) { return scaled(money, b.area, a.area); };
        auto grown = at(a.revenue);
        price += b.revenue - grown;
        for (std::size_t i = 0; i < costClassCount; ++i) {
            const auto cost = at(a.byClass[i]);
            grown -= cost;
            if (i == concrete) concreteCost += cost - b.byClass[i];
            else if (i != labor) others[i] += cost - b.byClass[i];
            else if (a.minutes > 0) {
                const auto atOldRate = scaled(a.byClass[i], b.minutes, a.minutes);
                pace += cost - atOldRate;
                laborRate += atOldRate - b.byClass[i];
            } else {
                laborRate += cost - b.byClass[i];
            }
        }
        volume += grown - a.profit();
    }
};

std::string perSqft(Money money, double areaSqft) { return areaSqft > 0 ? '$' + shownDecimal(std::llround(money.toDouble() / areaSqft * 100), 2, 2) : std::string{"\u2013"}; }
std::string areaText(double areaSqft) { return shownDecimal(std::llround(areaSqft), 0, 0) + " ft\u00b2"; }
std::string perHour(const ReviewYear& year)
{
    const double hours = static_cast<double>(year.crewMinutes.count()) / 60;
    return hours > 0 ? '$' + shownDecimal(std::llround(year.byClass[labor].toDouble() / hours * 100), 2, 2) : std::string{"\u2013"};
}
std::string pace(const ReviewYear& year)
{
    const double hours = static_cast<double>(year.crewMinutes.count()) / 60;
    return hours > 0 ? shownDecimal(std::llround(year.areaSqft / hours * 10), 1, 1) : std::string{"\u2013"};
}

void addSteps(YearBridge& bridge, const Moves& moves)
{
    const auto& a = bridge.before;
    const auto& b = bridge.after;
    const auto add = [&](std::string name, Money amount, std::string detail) {
        if (!amount.isZero()) bridge.steps.push_back({std::move(name), amount, std::move(detail)});
    };
    const auto each = [&](std::size_t i) { return perSqft(b.byClass[i], b.areaSqft) + " a ft\u00b2 against " + perSqft(a.byClass[i], a.areaSqft); };
    add("Volume", moves.volume, areaText(b.areaSqft) + " done against " + areaText(a.areaSqft) + ", type by type");
    add("Price", moves.price, perSqft(b.revenue, b.areaSqft) + " billed a ft\u00b2 against " + perSqft(a.revenue, a.areaSqft) + ", all types together");
    add("Concrete cost", moves.concreteCost, each(concrete));
    add("Pace", moves.pace, pace(b) + " ft\u00b2 a crew-hour against " + pace(a));
    add("Labor rate", moves.laborRate, perHour(b) + " a crew-hour against " + perHour(a));
    for (std::size_t i = 0; i < costClassCount; ++i) add(std::string{labelOf(static_cast<CostClass>(i))}, moves.others[i], each(i));
    add("Overhead", a.overhead - b.overhead, dollars(b.overhead) + " against " + dollars(a.overhead));
}

std::string answerOf(const YearBridge& bridge)
{
    const auto& a = bridge.before;
    const auto& b = bridge.after;
    const auto years = std::to_string(b.year) + (bridge.upTo ? " up to " + bridge.upTo->shown() : "");
    if (a.jobs == 0 && b.jobs == 0) return "No job was done in " + std::to_string(a.year) + " or " + std::to_string(b.year) + '.';
    auto text = "The jobs of " + years + (b.profit() < Money{} ? " lost " + dollars(-b.profit()) : " made " + dollars(b.profit())) + " after overhead, ";
    const auto difference = bridge.difference();
    if (difference.isZero()) return text + "as those of " + std::to_string(a.year) + '.';
    text += dollars(difference < Money{} ? -difference : difference) + (difference < Money{} ? " less than " : " more than ") + std::to_string(a.year);
    auto steps = bridge.steps;
    std::stable_sort(steps.begin(), steps.end(), [](const auto& x, const auto& y) { return x.amount > y.amount; });
    const auto said = [](const BridgeStep& step) {
        auto name = step.name;
        name.front() = static_cast<char>(name.front() >= 'A' && name.front() <= 'Z' ? name.front() - 'A' + 'a' : name.front());
        return name + (step.amount < Money{} ? " took " + dollars(-step.amount) : " added " + dollars(step.amount));
    };
    std::vector<std::string> parts;
    if (steps.front().amount > Money{}) parts.push_back(said(steps.front()));
    if (steps.back().amount < Money{}) parts.push_back(said(steps.back()));
    if (difference < Money{}) std::reverse(parts.begin(), parts.end());
    return text + (parts.empty() ? "" : ": " + listed(parts)) + '.';
}

}

Money ReviewYear::cost() const
{
    Money sum;
    for (const auto each : byClass) sum += each;
    return sum;
}

YearBridge yearBridge(const FinishedJobs& jobs, const CostReckoner& reckoner, int before, int after, Date asOf)
{
    YearBridge bridge;
    bridge.before.year = before;
    bridge.after.year = after;
    const auto lastDay = [](int year) { return *Date::of(year, 12, 31); };
    if (asOf.year() == after && asOf < lastDay(after)) bridge.upTo = asOf;
    const auto end = [&](int year) { return bridge.upTo ? sameDayOf(year, *bridge.upTo) : lastDay(year); };
    std::map<std::uint16_t, std::pair<Sums, Sums>> types;
    const auto take = [&](const FinishedJob& job) {
        auto* year = job.day.year() == before ? &bridge.before : job.day.year() == after ? &bridge.after : nullptr;
        if (!year || job.day > end(year->year)) return;
        ++year->jobs;
        year->areaSqft += job.areaSqft;
        year->revenue += job.revenue;
        for (std::size_t i = 0; i < costClassCount; ++i) year->byClass[i] += job.byClass[i];
        year->crewMinutes += job.crewMinutes;
        auto& type = types[job.keys[static_cast<std::size_t>(Grouping::jobType)]];
        (year == &bridge.before ? type.first : type.second).take(job);
    };
    for (const auto& job : jobs.jobs) take(job);
    for (const auto& job : jobs.others) take(job);
    bridge.before.overhead = overheadOf(reckoner.book(), reckoner.labor(), before, end(before)).overhead;
    bridge.after.overhead = overheadOf(reckoner.book(), reckoner.labor(), after, end(after)).overhead;

    Moves moves;
    for (const auto& [key, sums] : types) moves.take(sums.first, sums.second);
    addSteps(bridge, moves);
    Money sum;
    for (const auto& step : bridge.steps) sum += step.amount;
    if (sum != bridge.difference()) throw DomainError{"steps of a year bridge that do not add up"};
    bridge.answer = answerOf(bridge);
    return bridge;
}

std::vector<int> reviewYears(const FinishedJobs& jobs)
{
    std::set<int> years;
    for (const auto& job : jobs.jobs) years.insert(job.day.year());
    for (const auto& job : jobs.others) years.insert(job.day.year());
    return {years.begin(), years.end()};
}

}

#include "labor/burden_ladder.h"

#include "labor/burden.h"
#include "quantity/rounding.h"

#include <algorithm>
#include <limits>

namespace strikeoff {

namespace {

constexpr std::int64_t partsOfACent = 3'000'000;
constexpr std::int64_t perPercentUnit = 3;  // a four-decimal per cent is a millionth
constexpr std::int64_t perHourUnit = 500;   // a four-decimal dollar an hour is a six-thousandth of a cent a minute

const BurdenStep* stepOn(const std::vector<BurdenStep>& steps, int day)
{
    const BurdenStep* found = nullptr;
    for (const auto& step : steps) {
        if (step.from.days() > day) break;
        found = &step;
    }
    return found;
}

/// Half up; what is rounded is never negative.
std::int64_t wholeCents(std::int64_t exact) { return (exact + partsOfACent / 2) / partsOfACent; }

int yearOf(int day) { return Date::ofDays(day).year(); }

}

BurdenTables burdenTablesFor(const Book& book, std::string_view compClass)
{
    BurdenTables tables;
    for (std::size_t i = 0; i < burdenItemCount; ++i) {
        const auto item = static_cast<BurdenItem>(i);
        std::vector<Date> days;
        for (const auto& row : book.all<BurdenRate>())
            if (row.item == item && (row.compClass.empty() || row.compClass == compClass)) days.push_back(row.fromDate);
        std::sort(days.begin(), days.end());
        days.erase(std::unique(days.begin(), days.end()), days.end());
        for (const auto day : days) {
            const auto* row = burdenInForce(book, item, day, compClass);
            BurdenStep step{day, row->basis, {}, row->wageBase ? row->wageBase->cents() : std::numeric_limits<std::int64_t>::max(), row->onPremium};
            if (row->rate) step.rate = row->rate->units();
            tables[i].push_back(step);
        }
    }
    return tables;
}

void addBurden(std::span<const PaidRow> rows, std::int64_t premiumCents, const BurdenTables& tables, BurdenYear& year,
               std::span<std::array<std::int64_t, burdenItemCount>> burden)
{
    thread_local std::vector<std::int64_t> earned, weights, shares;
    for (std::size_t from = 0; from < rows.size();) {
        // The rows of one calendar year.
        const int thisYear = yearOf(rows[from].day);
        std::size_t to = rows.size();
        const bool whole = from == 0 && yearOf(rows.back().day) == thisYear;
        if (!whole)
            for (to = from + 1; to < rows.size() && yearOf(rows[to].day) == thisYear;) ++to;
        if (year.year != thisYear) year = BurdenYear{thisYear, {}, {}};

        for (std::size_t i = 0; i < burdenItemCount; ++i) {
            for (std::size_t begin = from; begin < to;) {
                const auto* step = stepOn(tables[i], rows[begin].day);
                std::size_t end = to;
                if (stepOn(tables[i], rows[to - 1].day) != step)
                    for (end = begin + 1; end < to && stepOn(tables[i], rows[end].day) == step;) ++end;
                if (step && step->rate) {
                    const auto part = rows.subspan(begin, end - begin);
                    std::int64_t straight = 0, premium = 0, minutes = 0;
                    for (const auto& row : part) {
                        if (!row.rateKnown) continue;
                        straight += row.straight;
                        minutes += row.minutes;
                    }
                    const bool perHour = step->basis == BurdenBasis::perHour;
                    if (step->onPremium && !perHour && premiumCents != 0) {
                        if (part.size() == rows.size()) premium = premiumCents;
                        else {
                            weights.clear();
                            for (const auto& row : rows) weights.push_back(row.rateKnown ? row.overtime + 2 * row.doubled : 0);
                            earned.resize(rows.size());
                            splitOver(premiumCents, weights, earned);
                            for (std::size_t r = begin; r < end; ++r) premium += earned[r];
                        }
                    }
                    const auto before = wholeCents(year.exact[i]);
                    if (perHour) {
                        year.exact[i] = checkedAdd(year.exact[i], checkedMultiply(minutes, *step->rate * perHourUnit));
                    } else {
                        const auto counted = year.counted[i];
                        year.counted[i] = checkedAdd(counted, straight + premium);
                        const auto taxed = std::min(year.counted[i], step->base) - std::min(counted, step->base);
                        year.exact[i] = checkedAdd(year.exact[i], checkedMultiply(taxed, *step->rate * perPercentUnit));
                    }
                    const auto cents = wholeCents(year.exact[i]) - before;
                    if (cents != 0) {
                        weights.clear();
                        std::int64_t sum = 0;
                        for (const auto& row : part) {
                            weights.push_back(!row.rateKnown ? 0 : perHour ? row.minutes : row.straight + (step->onPremium ? row.premium : 0));
                            sum += weights.back();
                        }
                        if (sum == 0)  // all that counted was premium that other days carry
                            for (std::size_t r = 0; r < part.size(); ++r) weights[r] = part[r].rateKnown ? std::max<std::int64_t>(part[r].minutes, 1) : 0;
                        shares.resize(part.size());
                        splitOver(cents, weights, shares);
                        for (std::size_t r = 0; r < part.size(); ++r) burden[begin + r][i] += shares[r];
                    }
                }
                begin = end;
            }
        }
        from = to;
    }
}

}

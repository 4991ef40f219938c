#include "labor/week_pay.h"

#include "quantity/rounding.h"

#include <algorithm>
#include <array>

namespace strikeoff {

namespace {

constexpr std::int64_t weekLimit = 40 * 60;
constexpr std::int64_t dayLimit = 8 * 60;
constexpr std::int64_t doubleLimit = 12 * 60;
/// Four decimals of a dollar an hour, times minutes, to a cent.
constexpr std::int64_t unitsOfACent = 100 * 60;

/// What of a stretch from `before` on lies past a limit.
std::int64_t pastLimit(std::int64_t before, std::int64_t minutes, std::int64_t limit)
{
    return std::clamp(before + minutes - limit, std::int64_t{0}, minutes);
}

void findOvertime(std::span<PaidRow> rows, OvertimeRule rule)
{
    int days = 0;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (i == 0 || rows[i].day != rows[i - 1].day) ++days;
    const bool isSeventh = rule == OvertimeRule::daily && days == 7;
    std::int64_t inWeek = 0, inDay = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        auto& row = rows[i];
        if (i == 0 || row.day != rows[i - 1].day) inDay = 0;
        row.overtime = row.doubled = 0;
        if (rule == OvertimeRule::daily) {
            const bool last = isSeventh && row.day == rows.back().day;
            row.doubled = pastLimit(inDay, row.minutes, last ? dayLimit : doubleLimit);
            row.overtime = last ? row.minutes - row.doubled : pastLimit(inDay, row.minutes, dayLimit) - row.doubled;
        }
        inDay += row.minutes;
        const auto plain = row.minutes - row.overtime - row.doubled;
        row.overtime += pastLimit(inWeek, plain, weekLimit);
        inWeek += plain;
    }
}

/// Puts shares of a sum on the rows, by a weight each.
template <class WeightOf, class Take>
void share(std::span<PaidRow> rows, std::int64_t cents, WeightOf weightOf, Take take)
{
    if (cents == 0) return;
    thread_local std::vector<std::int64_t> weights, shares;
    weights.clear();
    for (const auto& row : rows) weights.push_back(weightOf(row));
    shares.resize(rows.size());
    splitOver(cents, weights, shares);
    for (std::size_t i = 0; i < rows.size(); ++i) take(rows[i], shares[i]);
}

}

void splitOver(std::int64_t total, std::span<const std::int64_t> weights, std::span<std::int64_t> shares)
{
    constexpr std::size_t most = 64;
    std::int64_t sum = 0;
    for (const auto weight : weights) sum = checkedAdd(sum, weight);
    std::int64_t product = 0;
    if (weights.size() > most || total < 0 || sum <= 0 || __builtin_mul_overflow(total, sum, &product)) {
        const auto split = splitByWeight(total, weights);
        std::copy(split.begin(), split.end(), shares.begin());
        return;
    }
    std::array<std::int64_t, most> rest{};
    std::int64_t left = total;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        const auto exact = total * weights[i];
        shares[i] = exact / sum;
        rest[i] = exact - shares[i] * sum;
        left -= shares[i];
    }
    for (; left > 0; --left) {
        std::size_t largest = 0;
        for (std::size_t i = 1; i < weights.size(); ++i)
            if (rest[i] > rest[largest]) largest = i;
        ++shares[largest];
        rest[largest] = -1;
    }
}

PaidWeek payWeek(std::span<PaidRow> rows, std::int64_t bonusCents, const Settings& settings)
{
    PaidWeek week;
    findOvertime(rows, settings.overtimeRule);

    std::int64_t paid = 0;         // minutes with a rate
    std::int64_t hourly = 0;       // straight pay by the hour, exact
    std::int64_t whole = bonusCents;  // pay that is whole cents from the start
    std::int64_t halves = 0;       // half-time units: one a minute of overtime, two a doubled one
    std::int64_t overtime = 0, doubled = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        auto& row = rows[i];
        week.worked += row.minutes;
        week.overtime += row.overtime;
        week.doubled += row.doubled;
        row.straight = row.premium = 0;
        if (!row.rateKnown) continue;
        paid += row.minutes;
        halves += row.overtime + 2 * row.doubled;
        overtime += row.overtime;
        doubled += row.doubled;
        if (!row.dayRateCents) hourly = checkedAdd(hourly, checkedMultiply(row.hourlyRate, row.minutes));
    }

    // A day's rate, over that day's rows.
    for (std::size_t i = 0; i < rows.size();) {
        std::size_t end = i + 1;
        while (end < rows.size() && rows[end].day == rows[i].day) ++end;
        const auto day = rows.subspan(i, end - i);
        const auto rated = std::find_if(day.begin(), day.end(), [](const PaidRow& row) { return row.dayRateCents && row.minutes > 0; });
        if (rated != day.end()) {
            whole += *rated->dayRateCents;
            share(day, *rated->dayRateCents, [](const PaidRow& row) { return row.dayRateCents ? row.minutes : 0; },
                  [](PaidRow& row, std::int64_t cents) { row.straight += cents; });
        }
        i = end;
    }
    const auto hourlyCents = divideHalfUp(hourly, unitsOfACent);
    share(rows, hourlyCents, [](const PaidRow& row) { return row.rateKnown && !row.dayRateCents ? row.hourlyRate * row.minutes : 0; },
          [](PaidRow& row, std::int64_t cents) { row.straight += cents; });
    share(rows, bonusCents, [](const PaidRow& row) { return row.rateKnown ? row.minutes : 0; },
          [](PaidRow& row, std::int64_t cents) { row.straight += cents; });
    week.straight = hourlyCents + whole;
    if (paid == 0) return week;

    const auto all = static_cast<Int128>(hourly) + static_cast<Int128>(whole) * unitsOfACent;
    week.regularRate = UnitPrice::ofUnits(divideHalfUp(all, paid));
    if (halves == 0) return week;
    std::int64_t gross = 0;
    if (settings.rateRounding == RateRounding::cent) {
        const auto rate = divideHalfUp(all, static_cast<Int128>(paid) * 100);
        const auto onTop = divideHalfUp(static_cast<Int128>(rate) * 3, 2) - rate;
        gross = divideHalfUp(all + (static_cast<Int128>(overtime) * onTop + static_cast<Int128>(doubled) * rate) * 100, unitsOfACent);
    } else {
        gross = divideHalfUp(all * (2 * paid + halves), static_cast<Int128>(2 * unitsOfACent) * paid);
    }
    week.premium = gross - week.straight;
    const bool spread = settings.premiumSpread == PremiumSpread::week;
    share(rows, week.premium, [&](const PaidRow& row) { return !row.rateKnown ? 0 : spread ? row.minutes : row.overtime + 2 * row.doubled; },
          [](PaidRow& row, std::int64_t cents) { row.premium = cents; });
    return week;
}

}

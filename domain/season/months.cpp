#include "season/months.h"

#include "cost/job_cost.h"
#include "quantity/words.h"
#include "takeoff/takeoff.h"

#include <map>

namespace strikeoff {

std::optional<Money> SeasonMonth::perYard() const
{
    if (yards.isZero() || paid.isZero()) return std::nullopt;
    return Money::ofCents(divideHalfUp(static_cast<Int128>(paid.cents()) * Yards::one, yards.units()));
}

std::optional<double> SeasonMonth::sqftPerCrewHour() const
{
    if (crewMinutes.count() == 0 || areaSqft <= 0) return std::nullopt;
    return areaSqft * 60 / static_cast<double>(crewMinutes.count());
}

SeasonMonths seasonMonths(const Book& book)
{
    std::map<Date, SeasonMonth> months;
    const auto monthOf = [&](Date day) -> SeasonMonth& {
        auto& month = months[firstOfMonth(day)];
        month.month = firstOfMonth(day);
        return month;
    };
    CostReckoner reckoner{book};
    for (const auto& ticket : book.all<Ticket>()) {
        const auto cost = reckoner.of(ticket);
        if (!cost.amount) continue;
        auto& month = monthOf(ticket.date);
        ++month.tickets;
        month.yards += ticket.yards;
        month.paid += *cost.amount;
    }
    // A pour's pace counts in the month it was poured, with all the job's hours of prep, placing and finishing when it was the job's only pour.
    for (const auto& job : book.all<Job>()) {
        const auto pours = book.referring<&Pour::job>(job.id);
        if (pours.size() != 1 || !pours.front()->pouredOn) continue;
        const auto& pour = *pours.front();
        const double area = pour.area ? pour.area->toDouble() : takeoffOf(book, job.id).areaSqft;
        Minutes minutes;
        for (const auto* hours : book.referring<&Hours::job>(job.id))
            if (hours->phase == Phase::prepForm || hours->phase == Phase::place || hours->phase == Phase::finish) minutes += hours->worked().value_or(Minutes{});
        auto& month = monthOf(*pour.pouredOn);
        ++month.pours;
        if (area <= 0 || minutes.count() == 0) continue;
        month.areaSqft += area;
        month.crewMinutes += minutes;
    }

    SeasonMonths result;
    for (auto& [first, month] : months) {
        while (!result.months.empty() && monthsOn(result.months.back().month, 1) < first) {
            SeasonMonth empty;
            empty.month = monthsOn(result.months.back().month, 1);
            result.months.push_back(empty);
        }
        result.months.push_back(month);
    }
    const SeasonMonth* priced = nullptr;
    const SeasonMonth* yearBefore = nullptr;
    for (const auto& month : result.months)
        if (month.perYard()) priced = &month;
    if (priced)
        for (const auto& month : result.months)
            if (month.month == monthsOn(priced->month, -12) && month.perYard()) yearBefore = &month;
    if (!priced) result.answer = "No priced ticket yet: prices and pace show here month by month.";
    else {
        result.answer = "A delivered yard cost " + dollars(*priced->perYard()) + " in " + shownMonth(priced->month);
        if (yearBefore) {
            const auto difference = *priced->perYard() - *yearBefore->perYard();
            result.answer += difference.isZero() ? ", as a year before" : ", " + dollars(difference < Money{} ? -difference : difference) + (difference < Money{} ? " less" : " more") + " than a year before";
        }
        if (const auto pace = priced->sqftPerCrewHour()) result.answer += "; the crew made " + Quantity::ofUnits(divideHalfUp(static_cast<std::int64_t>(*pace * 1e6), 1000)).shown(1) + " ft\u00b2 a crew-hour";
        result.answer += ".";
    }
    return result;
}

}

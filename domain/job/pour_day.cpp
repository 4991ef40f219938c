#include "job/pour_day.h"

#include "job/stage.h"
#include "quantity/words.h"
#include "statistics/quantiles.h"
#include "takeoff/takeoff.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

constexpr std::size_t poursToGoBy = 3;
constexpr std::size_t newestPours = 40;
constexpr double likeSize = 2;  // a slab up to twice or half as large keeps about the same crew (common practice, no source)

std::string quarterHours(double hours) { return Quantity::ofUnits(std::llround(hours * 4) * 250).shown(2); }

const Pour* pourAhead(const Book& book, Id<Job> job)
{
    const Pour* next = nullptr;
    for (const auto* pour : book.referring<&Pour::job>(job))
        if (!pour->pouredOn && (!next || (pour->plannedOn && (!next->plannedOn || *pour->plannedOn < *next->plannedOn)))) next = pour;
    return next;
}

/// Time from placing to the broom of a pour that is done.
std::optional<Minutes> broomTime(const Pour& pour)
{
    if (!pour.pouredOn || !pour.placedAt || !pour.broomedAt) return std::nullopt;
    auto minutes = pour.broomedAt->minutes() - pour.placedAt->minutes();
    if (minutes <= 0) minutes += 24 * 60;
    return Minutes::of(minutes);
}

/// People at placing and finishing, as a mean from placing to the broom; nothing where hours or times are not written down.
std::optional<double> peopleOn(const Book& book, const Pour& pour)
{
    const auto time = broomTime(pour);
    if (!time) return std::nullopt;
    const bool alone = book.referring<&Pour::job>(pour.job).size() == 1;
    std::int64_t minutes = 0;
    for (const auto* row : book.referring<&Hours::job>(pour.job)) {
        const bool ofPour = row->pour ? row->pour == pour.id : alone;
        const bool onSlab = row->phase == Phase::place || row->phase == Phase::finish;
        if (ofPour && onSlab && row->date == *pour.pouredOn) minutes += row->worked().value_or(Minutes{}).count();
    }
    if (minutes <= 0) return std::nullopt;
    return static_cast<double>(minutes) / static_cast<double>(time->count());
}

struct CrewKept {
    double people = 0;
    int pours = 0;
};

/// Of the shop's newest pours of like size: of the type first, of any type where those are few.
std::optional<CrewKept> crewKept(const Book& book, const std::optional<Id<JobType>>& type, double areaSqft)
{
    std::vector<const Pour*> own;
    for (const auto& pour : book.all<Pour>())
        if (broomTime(pour)) own.push_back(&pour);
    std::ranges::stable_sort(own, [](const auto* a, const auto* b) { return *a->pouredOn > *b->pouredOn; });
    std::vector<double> ofType, ofAny;
    for (const auto* pour : own) {
        const double area = pour->area ? pour->area->toDouble() : 0;
        if (area <= 0 || area > areaSqft * likeSize || area < areaSqft / likeSize) continue;
        const auto people = peopleOn(book, *pour);
        if (!people) continue;
        const auto* job = book.find(pour->job);
        if (ofAny.size() < newestPours) ofAny.push_back(*people);
        if (job && type && job->jobType == type && ofType.size() < newestPours) ofType.push_back(*people);
    }
    const auto& chosen = ofType.size() >= poursToGoBy ? ofType : ofAny;
    if (chosen.size() < poursToGoBy) return std::nullopt;
    return CrewKept{*median(chosen), static_cast<int>(chosen.size())};
}

/// What pours of a calendar month were like, over all years.
struct MonthOfPours {
    std::vector<double> air, accelerator, start;
};

MonthOfPours poursIn(const Book& book, const FinishEstimator& finishes, int month)
{
    MonthOfPours pours;
    for (const auto& pour : book.all<Pour>()) {
        if (!pour.pouredOn || pour.pouredOn->month() != month || !pour.airTempF) continue;
        pours.air.push_back(*pour.airTempF);
        pours.accelerator.push_back(finishes.conditionsOf(pour).accelerator);
        if (pour.placedAt) pours.start.push_back(pour.placedAt->minutes());
    }
    return pours;
}

}

Date pourMonthOf(const Book& book, const Job& job, Date day)
{
    if (const auto* current = currentQuote(book, job.id); current && current->pourMonth) day = *current->pourMonth;
    for (const auto* pour : book.referring<&Pour::job>(job.id))
        if (pour->plannedOn && !pour->pouredOn) day = *pour->plannedOn;
    // No weekend charge is carried into a bid.
    while (day.weekday() == 0 || day.weekday() == 6) day = day + 1;
    return day;
}

std::optional<PourDay> pourDayAhead(const Book& book, const Job& job, Date month, double areaSqft)
{
    if (areaSqft <= 0) return std::nullopt;
    const Weather weather{book};
    const FinishEstimator finishes{book, weather};
    const auto* planned = pourAhead(book, job.id);

    PourDay ahead;
    ahead.day = planned && planned->plannedOn ? *planned->plannedOn : month;
    Pour pour;
    if (planned) pour = *planned;
    pour.job = job.id;
    pour.plannedOn = ahead.day;
    auto conditions = finishes.conditionsOf(pour);
    conditions.areaSqft = planned && planned->area ? planned->area->toDouble() : areaSqft;

    std::string from;
    const auto* forecast = weather.on(ahead.day);
    if (!forecast || !forecast->lowF || !forecast->highF) {
        const auto before = poursIn(book, finishes, ahead.day.month());
        if (before.air.size() < poursToGoBy) return std::nullopt;
        conditions.seen = DayMean{ahead.day, *median(before.air)};
        const bool isOrdered = planned && !planned->optionsOrdered.empty();
        if (!isOrdered) conditions.accelerator = *median(before.accelerator);
        if (!pour.plannedAt && !before.start.empty())
            conditions.placing = Moment{ahead.day, ClockTime::ofMinutes(static_cast<int>(*median(before.start))).value_or(conditions.placing.at())};
        from = "air and start as your " + counted(static_cast<std::int64_t>(before.air.size()), "pour", "pours") + " of that month of the year had them";
    } else {
        from = "air by the forecast";
    }
    const auto table = tableTime(weather, conditions);
    if (!table) return std::nullopt;
    ahead.finish = finishes.estimate(conditions, *table);

    // Not everybody who pours stays until the broom, so what was written down goes before the crew a pour is given.
    if (const auto kept = crewKept(book, job.jobType, conditions.areaSqft)) {
        ahead.people = kept->people;
        ahead.peopleFrom = kept->pours;
    } else if (planned && planned->crewSize) {
        ahead.people = *planned->crewSize;
    } else {
        return std::nullopt;
    }
    const auto hoursTo = [&](Moment end) { return ahead.people * static_cast<double>((end - ahead.finish.placing).count()) / 60; };
    ahead.hours = hoursTo(ahead.finish.broom);
    ahead.low = hoursTo(ahead.finish.early);
    ahead.high = hoursTo(ahead.finish.late);

    const auto people = Quantity::ofUnits(std::llround(ahead.people * 10) * 100).text();
    ahead.words = "placing from " + ahead.finish.placing.at().shown() + ", " + ahead.finish.inShort + "; with " + people + (people == "1" ? " person" : " people") + " on the slab until then " +
                  quarterHours(ahead.hours) + " h (" + quarterHours(ahead.low) + " to " + quarterHours(ahead.high) + ", four times in five); " + from + ", " +
                  (ahead.finish.ownPours > 0 ? "the time by the setting table and " + counted(ahead.finish.ownPours, "pour", "pours") + " of your own" : "the time by the setting table alone") +
                  (ahead.peopleFrom > 0 ? ", the people by " + counted(ahead.peopleFrom, "pour", "pours") + " of about this size" : ", the people as the pour has them");
    return ahead;
}

std::string pourDayNote(const Book& book, const Quote& quote, Date today)
{
    const auto* job = book.find(quote.job);
    if (!job) return {};
    const auto area = takeoffOf(book, job->id).areaSqft;
    const auto ahead = pourDayAhead(book, *job, pourMonthOf(book, *job, quote.acceptedOn.value_or(today)), area);
    if (!ahead) return {};
    Quantity carried;
    for (const auto* line : book.referring<&QuoteLine::quote>(quote.id))
        if (line->costClass == CostClass::labor && (line->phase == Phase::place || line->phase == Phase::finish)) carried += line->quantity;
    const auto short_ = ahead->hours - carried.toDouble();
    return "Pour day in " + shownMonth(ahead->day) + ": " + ahead->words + ". This quote carries " + carried.shown(2) + " h for placing and finishing" +
           (short_ >= 0.25 ? ", " + quarterHours(short_) + " h fewer." : ".");
}

std::string broomNote(const Book& book, const Pour& pour)
{
    if (!pour.pouredOn && !pour.plannedOn) return "Give the pour a day and the hour placing starts, and when it will be broomed is reckoned here.";
    const Weather weather{book};
    const FinishEstimator finishes{book, weather};
    if (const auto time = broomTime(pour)) {
        const auto conditions = finishes.conditionsOf(pour);
        auto text = "Broomed at " + pour.broomedAt->shown() + ", " + time->shown() + " h after placing began.";
        if (!weather.airF(conditions.placing, conditions.seen)) text += " With its air temperature it would count among the pours of your own that estimates rest on.";
        else text += " Estimates for later pours rest on it.";
        return text;
    }
    const auto estimate = finishes.estimate(pour);
    if (!estimate) return "In this cold the slab would not set within three days: heat, a tent, or another day.";
    return estimate->sentence + "." + (pour.plannedAt || pour.placedAt ? "" : " No hour is given for the start, so the usual one is taken.");
}

}

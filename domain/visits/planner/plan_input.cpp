#include "visits/planner/plan_input.h"

#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {
namespace {

constexpr int visitsFromDefault = 7 * 60 + 30;
constexpr int visitsToDefault = 17 * 60 + 30;
constexpr int pourDoneUnknown = 13 * 60;  ///< a crew that pours has the afternoon left (common practice, no source)
constexpr int washUp = 30;                ///< from the finish until the truck leaves the pour (common practice, no source)

std::optional<GeoPoint> pointOf(const std::optional<Degrees>& latitude, const std::optional<Degrees>& longitude)
{
    if (!latitude || !longitude) return {};
    return GeoPoint{*latitude, *longitude};
}

bool isOnCrew(const CrewMember& person, Date date)
{
    return (!person.hiredOn || *person.hiredOn <= date) && (!person.leftOn || *person.leftOn > date);
}

/// A pour of the day, done or planned.
struct DayPour {
    const Pour* pour;
    int from;
    int until;
};

std::vector<DayPour> poursOf(const Book& book, const VisitWindows& windows, Date date)
{
    std::vector<DayPour> pours;
    for (const auto& pour : book.all<Pour>()) {
        if (pour.pouredOn.value_or(pour.plannedOn.value_or(Date{})) != date) continue;
        const auto* job = book.find(pour.job);
        if (!job || job->droppedOn) continue;
        int until = pourDoneUnknown;
        if (const auto finish = finishOf(windows.finishes(), pour))
            until = finish->at.date() == date ? finish->at.at().minutes() : finish->at.date() > date ? 24 * 60 : pourDoneUnknown;
        const int from = pour.placedAt ? pour.placedAt->minutes() : pour.plannedAt ? pour.plannedAt->minutes() : visitsFromDefault;
        pours.push_back({&pour, from, until});
    }
    std::ranges::stable_sort(pours, {}, &DayPour::until);
    return pours;
}

}

PlanPlaces::PlanPlaces(const Book& book) : book_{book}
{
    Place shop{"the shop", {}, {}, {}, true};
    shop.town = book.settings().outfitTown;
    shop.point = pointOf(book.settings().shopLatitude, book.settings().shopLongitude);
    places_.push_back(shop);
}

std::size_t PlanPlaces::placeOf(Id<Job> jobId)
{
    const auto* job = book_.find(jobId);
    if (!job) return 0;
    const auto* site = book_.find(job->site);
    const auto key = site ? std::pair{0, site->id.value()} : std::pair{1, job->customer.value()};
    const auto [known, isNew] = known_.try_emplace(key, places_.size());
    if (!isNew) return known->second;
    Place place;
    place.name = placeText(book_, job);
    if (site) {
        place.town = site->town;
        place.point = pointOf(site->latitude, site->longitude);
        if (site->driveMinutes) place.minutesFromShop = static_cast<int>(site->driveMinutes->count());
    }
    if (place.town.empty())
        if (const auto* customer = book_.find(job->customer)) place.town = customer->town;
    places_.push_back(std::move(place));
    return known->second;
}

DriveTable PlanPlaces::table() const
{
    DriveRules rules;
    rules.roadFactor = book_.settings().roadFactor.toDouble();
    rules.milesPerHour = book_.settings().driveMph;
    std::vector<TypedDrive> towns;
    for (const auto& drive : book_.all<TownDrive>()) towns.push_back({drive.fromTown, drive.toTown, static_cast<int>(drive.minutes.count())});
    return {places_, towns, rules};
}

std::string placeText(const Book& book, const Job* job)
{
    if (!job) return {};
    if (const auto* site = book.find(job->site)) return site->name;
    if (const auto* customer = book.find(job->customer)) return customer->name + (customer->town.empty() ? "" : ", " + customer->town);
    return job->title;
}

Minutes usualMinutes(const Book& book, const Visit& visit)
{
    if (visit.minutes && visit.minutes->count() > 0) return *visit.minutes;
    const auto* pour = visit.pour ? book.find(*visit.pour) : nullptr;
    const auto toFive = [](double minutes) { return Minutes::of(std::max<std::int64_t>(15, static_cast<std::int64_t>(minutes / 5 + 0.5) * 5)); };
    const double area = pour && pour->area ? pour->area->toDouble() : 500;
    switch (visit.kind) {
    case VisitKind::strip: return toFive(30 + area * 0.04);
    case VisitKind::cut: return toFive(20 + (pour && pour->sawJoint ? pour->sawJoint->toDouble() : area / 8) * 0.4);
    case VisitKind::seal: return toFive(30 + area * 0.06);
    case VisitKind::walkThrough: return Minutes::of(30);
    case VisitKind::resealCall: return Minutes::of(10);
    }
    return Minutes::of(60);
}

DayPlan crewOf(const Book& book, const VisitWindows& windows, PlanPlaces& places, Date date)
{
    DayPlan day;
    day.date = date;
    const auto& settings = book.settings();
    const Span hours{settings.visitsFrom ? settings.visitsFrom->minutes() : visitsFromDefault,
                     settings.visitsTo ? settings.visitsTo->minutes() : visitsToDefault};
    int people = 0, onCrew = 0;
    for (const auto& person : book.all<CrewMember>()) {
        if (!isOnCrew(person, date)) continue;
        ++onCrew;
        people += person.doesVisits;
    }
    if (onCrew == 0) people = 1;  // the owner, who keeps no card of himself
    if (people == 0) {
        day.crewWhy = "nobody on the crew makes visits";
        return day;
    }
    int runs = std::min(people, std::max(1, settings.visitRuns));
    const auto pours = poursOf(book, windows, date);
    if (!pours.empty()) {
        // Those who pour go on from there; a truck that is left goes out with whoever is left.
        const auto& last = pours.back();
        const auto* job = book.find(last.pour->job);
        day.crewWhy = "the crew pours " + (job ? job->title : std::string{"a slab"});
        const int pouring = std::min(people, last.pour->crewSize.value_or(people));
        const int leaves = last.until + washUp;
        if (leaves < hours.to) {
            day.crew.push_back({static_cast<int>(places.placeOf(last.pour->job)), 0, {leaves, hours.to}, std::max(1, pouring), 1});
            day.crewWhy += " until about " + ClockTime::ofMinutes(std::min((last.until + 5) / 10 * 10, 1439))->shown();  // an estimate to the minute would claim too much
        } else {
            day.crewWhy += " and is not done before the visits' hours end";
        }
        people -= pouring;
        runs = std::min(runs - 1, people);
    }
    for (int run = 0; run < runs; ++run) {
        const int share = people / runs + (run < people % runs ? 1 : 0);
        if (!day.crew.empty() && day.crew.back().hours == hours && day.crew.back().people == share) ++day.crew.back().count;
        else day.crew.push_back({0, 0, hours, share, 1});
    }
    return day;
}

}

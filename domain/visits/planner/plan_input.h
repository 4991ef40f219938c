#pragma once

#include "visits/planner/visit_plan.h"

#include <map>

namespace strikeoff {

/// Shop and sites of a plan, each once, in the order they are asked for; the shop is the first.
class PlanPlaces {
public:
    explicit PlanPlaces(const Book& book);
    std::size_t placeOf(Id<Job> job);
    DriveTable table() const;

private:
    const Book& book_;
    std::vector<Place> places_;
    std::map<std::pair<int, std::int64_t>, std::size_t> known_;
};

/// Who can go out on a day, and why no more of them.
DayPlan crewOf(const Book& book, const VisitWindows& windows, PlanPlaces& places, Date date);

/// What a visit of a kind usually takes on site, where it does not say so itself (common practice, no source).
Minutes usualMinutes(const Book& book, const Visit& visit);

/// "the site, else the customer and town" of a job.
std::string placeText(const Book& book, const Job* job);

}

#include "quantity/moment.h"

#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

namespace {

constexpr std::int64_t dayMinutes = 1440;

std::int64_t dayOf(std::int64_t minutes) { return minutes >= 0 ? minutes / dayMinutes : -((-minutes + dayMinutes - 1) / dayMinutes); }

std::string clockText(int minutes) { return minutes >= dayMinutes ? "midnight" : ClockTime::ofMinutes(minutes)->shown(); }

}

Date Moment::date() const { return Date::ofDays(dayOf(minutes_)); }

ClockTime Moment::at() const { return *ClockTime::ofMinutes(minutes_ - dayOf(minutes_) * dayMinutes); }

std::string momentText(Moment moment, Date seenFrom) { return dayText(moment.date(), seenFrom) + " at " + moment.at().shown(); }

std::string spansText(const std::vector<ClockSpan>& spans)
{
    std::vector<std::string> parts;
    for (const auto& span : spans) parts.push_back(clockText(span.from) + " to " + clockText(span.to));
    return listed(parts);
}

std::vector<ClockSpan> common(const std::vector<ClockSpan>& a, const std::vector<ClockSpan>& b)
{
    std::vector<ClockSpan> both;
    for (const auto& one : a)
        for (const auto& other : b)
            if (const ClockSpan part{std::max(one.from, other.from), std::min(one.to, other.to)}; part.from < part.to) both.push_back(part);
    return both;
}

}

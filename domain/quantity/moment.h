#pragma once

#include "quantity/date.h"

#include <vector>

namespace strikeoff {

/// A clock time on a day: local wall time to the minute. An hour later is sixty minutes later on the clock; the two nights a year when clocks are
/// moved are not known here.
class Moment {
public:
    constexpr Moment() = default;
    constexpr Moment(Date date, ClockTime at) : minutes_{date.days() * 1440 + at.minutes()} {}
    static constexpr Moment startOf(Date date) { return Moment{date, ClockTime{}}; }

    /// DomainError outside the years kept.
    Date date() const;
    ClockTime at() const;
    constexpr std::int64_t minutes() const { return minutes_; }  ///< since 1970-01-01 00:00

    friend constexpr auto operator<=>(Moment, Moment) = default;
    friend constexpr Moment operator+(Moment moment, Minutes later) { return Moment{checkedAdd(moment.minutes_, later.count())}; }
    friend constexpr Minutes operator-(Moment a, Moment b) { return Minutes::of(checkedSubtract(a.minutes_, b.minutes_)); }

private:
    explicit constexpr Moment(std::int64_t minutes) : minutes_{minutes} {}
    std::int64_t minutes_ = 0;
};

/// "today at 1:45 pm", "Wed Nov 25 at 7:00 am", as read on a day.
std::string momentText(Moment moment, Date seenFrom);

/// Part of a day, from and to in minutes of its clock, 0 to 1440; `to` itself is outside.
struct ClockSpan {
    int from = 0;
    int to = 0;
    friend bool operator==(const ClockSpan&, const ClockSpan&) = default;
};

/// "8:30 am to 3:00 pm", spans joined by "and"; "until midnight" at the day's end.
std::string spansText(const std::vector<ClockSpan>& spans);
/// The minutes in both; spans in order and apart, as they come.
std::vector<ClockSpan> common(const std::vector<ClockSpan>& a, const std::vector<ClockSpan>& b);

}

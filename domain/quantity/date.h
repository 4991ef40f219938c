#pragma once

#include "quantity/rounding.h"

#include <chrono>
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace strikeoff {

/// A calendar date of the business, 1900-01-01 to 2199-12-31; always a day that exists.
class Date {
public:
    constexpr Date() = default;
    static std::optional<Date> of(int year, int month, int day);
    /// Days since 1970-01-01; DomainError outside the years kept.
    static Date ofDays(std::int64_t days);
    /// ISO 8601, "2026-11-25", and nothing else.
    static std::optional<Date> parse(std::string_view iso);
    /// What people type, seen from a day: ISO, "6/12", "6/12/26", "Jun 12", "today", "tomorrow", "yesterday", "fri" (the next one, today
    /// included), "+3", "-1". A date without its year is the one nearest to that day; 29 February is none when no leap year is next to
    /// that day's. Nothing for what is no day of the years kept.
    static std::optional<Date> read(std::string_view typed, Date seenFrom);

    constexpr std::int64_t days() const { return days_; }
    std::chrono::year_month_day calendar() const;
    int year() const { return static_cast<int>(calendar().year()); }
    int month() const { return static_cast<int>(static_cast<unsigned>(calendar().month())); }
    int day() const { return static_cast<int>(static_cast<unsigned>(calendar().day())); }
    /// 0 Sunday … 6 Saturday.
    int weekday() const;

    std::string text() const;   ///< "2026-11-25"
    std::string shown() const;  ///< "Nov 25, 2026"
    std::string shownShort() const;  ///< "Wed Nov 25"

    friend constexpr auto operator<=>(Date, Date) = default;
    friend Date operator+(Date date, int days) { return ofDays(std::int64_t{date.days_} + days); }
    friend Date operator-(Date date, int days) { return ofDays(std::int64_t{date.days_} - days); }
    friend constexpr int operator-(Date a, Date b) { return static_cast<int>(a.days_ - b.days_); }

private:
    explicit constexpr Date(std::int32_t days) : days_{days} {}
    std::int32_t days_ = 0;
};

/// A day some days on, or nothing when it is outside the years kept: for distances that someone typed.
std::optional<Date> daysOn(Date date, std::int64_t days);

/// The same day some months on; a day the month lacks becomes the month's last (31 January plus one is 28 or 29 February). DomainError
/// outside the years kept.
Date monthsOn(Date date, int months);
Date firstOfMonth(Date date);
Date lastOfMonth(Date date);
/// First day of the week holding the date; 0 Sunday … 6 Saturday says on which weekday weeks start. A week that began before the
/// years kept starts with their first day.
Date startOfWeek(Date date, int firstWeekday);

/// ISO 8601 week of a date: "2026-W48-3".
std::string isoWeekText(Date date);

/// "November 2026".
std::string shownMonth(Date date);

/// A day of every year, such as the first of winter service; 29 February is one.
class MonthDay {
public:
    constexpr MonthDay() = default;
    static std::optional<MonthDay> of(int month, int day);
    static std::optional<MonthDay> parse(std::string_view text);  ///< "11-15"
    /// The number month × 100 + day, for storing.
    static std::optional<MonthDay> ofNumber(std::int64_t number);
    constexpr std::int64_t number() const { return number_; }
    std::string text() const;
    friend constexpr auto operator<=>(MonthDay, MonthDay) = default;

private:
    explicit constexpr MonthDay(int number) : number_{number} {}
    int number_ = 101;
};

/// Whether a date lies between two days of the year, both included, wrapping the year's end when the first is the later.
bool isWithin(Date date, MonthDay from, MonthDay to);

/// Local wall time to the minute.
class ClockTime {
public:
    constexpr ClockTime() = default;
    static std::optional<ClockTime> of(int hour, int minute);
    static std::optional<ClockTime> ofMinutes(std::int64_t minutes);
    static std::optional<ClockTime> parse(std::string_view text);  ///< "07:30" or "7:30", 24 hours
    /// What people type: "7:30a", "730", "7a", "12p", "15:05", "1505", "noon".
    static std::optional<ClockTime> read(std::string_view typed);

    constexpr int minutes() const { return minutes_; }
    std::string text() const;   ///< "07:30"
    std::string shown() const;  ///< "7:30 am"
    friend constexpr auto operator<=>(ClockTime, ClockTime) = default;

private:
    explicit constexpr ClockTime(int minutes) : minutes_{static_cast<std::int16_t>(minutes)} {}
    std::int16_t minutes_ = 0;
};

/// Whole minutes of work, waiting or driving. A sum that does not fit throws.
class Minutes {
public:
    constexpr Minutes() = default;
    static constexpr Minutes of(std::int64_t minutes) { return Minutes{minutes}; }
    /// "450", "7:30", "7.5h", "7h 30", "7h30m", "45m"; a bare number is minutes. Nothing for parts of a minute, and
    /// for parts of an hour with minutes after them.
    static std::optional<Minutes> read(std::string_view typed);
    constexpr std::int64_t count() const { return count_; }
    std::string shown() const;  ///< "7:30" (hours and minutes)
    friend constexpr auto operator<=>(Minutes, Minutes) = default;
    friend constexpr Minutes operator+(Minutes a, Minutes b) { return Minutes{checkedAdd(a.count_, b.count_)}; }
    friend constexpr Minutes operator-(Minutes a, Minutes b) { return Minutes{checkedSubtract(a.count_, b.count_)}; }
    constexpr Minutes& operator+=(Minutes other) { return *this = *this + other; }

private:
    explicit constexpr Minutes(std::int64_t count) : count_{count} {}
    std::int64_t count_ = 0;
};

}

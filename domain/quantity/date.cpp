#include "quantity/date.h"

#include "quantity/decimal.h"
#include "quantity/letters.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>

namespace strikeoff {

namespace {

using namespace std::chrono;

constexpr std::array<std::string_view, 12> monthNames{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"};
constexpr std::array<std::string_view, 7> dayNames{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};

constexpr std::int64_t firstDay = -25567, lastDay = 84005;  // 1900-01-01 and 2199-12-31
constexpr int firstYear = 1900, lastYear = 2199;

bool startsWithDigit(std::string_view text) { return !text.empty() && isDigit(text.front()); }

std::optional<int> digits(std::string_view text, std::size_t least, std::size_t most)
{
    if (text.size() < least || text.size() > most) return std::nullopt;
    int value = 0;
    for (const char c : text) {
        if (c < '0' || c > '9') return std::nullopt;
        value = value * 10 + (c - '0');
    }
    return value;
}

template <std::size_t N>
std::optional<int> nameIndex(const std::array<std::string_view, N>& names, std::string_view typed)
{
    if (typed.size() < 3) return std::nullopt;
    for (std::size_t i = 0; i < N; ++i)
        if (lowered(names[i]).starts_with(typed)) return static_cast<int>(i);
    return std::nullopt;
}

std::optional<Date> nearestYear(int month, int day, Date seenFrom)
{
    std::optional<Date> best;
    for (int offset = -1; offset <= 1; ++offset) {
        const auto date = Date::of(seenFrom.year() + offset, month, day);
        if (date && (!best || std::abs(*date - seenFrom) < std::abs(*best - seenFrom))) best = date;
    }
    return best;
}

std::optional<int> typedYear(std::string_view text)
{
    if (const auto full = digits(text, 4, 4)) return full;
    if (const auto two = digits(text, 2, 2)) return 2000 + *two;
    return std::nullopt;
}

int daysInMonth(int year, int month)
{
    return static_cast<int>(static_cast<unsigned>((std::chrono::year{year} / month / last).day()));
}

std::string padded(int value, int width)
{
    auto text = std::to_string(value);
    if (text.size() < static_cast<std::size_t>(width)) text.insert(0, static_cast<std::size_t>(width) - text.size(), '0');
    return text;
}

}

std::optional<Date> Date::of(int year, int month, int day)
{
    if (year < firstYear || year > lastYear || month < 1 || month > 12 || day < 1 || day > 31) return std::nullopt;
    const year_month_day calendar{std::chrono::year{year}, std::chrono::month{static_cast<unsigned>(month)}, std::chrono::day{static_cast<unsigned>(day)}};
    if (!calendar.ok()) return std::nullopt;
    return Date{static_cast<std::int32_t>(sys_days{calendar}.time_since_epoch().count())};
}

Date Date::ofDays(std::int64_t days)
{
    if (days < firstDay || days > lastDay) throw DomainError{"a date is outside the years 1900 to 2199"};
    return Date{static_cast<std::int32_t>(days)};
}

std::optional<Date> Date::parse(std::string_view iso)
{
    if (iso.size() != 10 || iso[4] != '-' || iso[7] != '-') return std::nullopt;
    const auto year = digits(iso.substr(0, 4), 4, 4), month = digits(iso.substr(5, 2), 2, 2), day = digits(iso.substr(8, 2), 2, 2);
    if (!year || !month || !day) return std::nullopt;
    return of(*year, *month, *day);
}

std::optional<Date> Date::read(std::string_view typed, Date seenFrom)
{
    const auto text = lowered(trimmed(typed));
    if (text.empty() || text.size() > 40) return std::nullopt;
    if (const auto iso = parse(text)) return iso;
    if (text == "today") return seenFrom;
    if (text == "tomorrow") return daysOn(seenFrom, 1);
    if (text == "yesterday") return daysOn(seenFrom, -1);
    if (text.front() == '+' || text.front() == '-') {
        const auto days = digits(std::string_view{text}.substr(1), 1, 4);
        if (!days) return std::nullopt;
        return daysOn(seenFrom, text.front() == '+' ? *days : -*days);
    }
    if (const auto slash = text.find_first_of("/."); slash != std::string::npos && startsWithDigit(text)) {
        const auto second = text.find(text[slash], slash + 1);
        const auto month = digits(text.substr(0, slash), 1, 2);
        const auto day = digits(text.substr(slash + 1, second == std::string::npos ? std::string::npos : second - slash - 1), 1, 2);
        if (!month || !day) return std::nullopt;
        if (second == std::string::npos) return nearestYear(*month, *day, seenFrom);
        const auto year = typedYear(text.substr(second + 1));
        return year ? of(*year, *month, *day) : std::nullopt;
    }
    if (const auto weekday = nameIndex(dayNames, text)) return daysOn(seenFrom, (*weekday - seenFrom.weekday() + 7) % 7);
    if (const auto space = text.find(' '); space != std::string::npos) {
        auto name = text.substr(0, space);
        if (name.ends_with('.')) name.pop_back();
        const auto month = nameIndex(monthNames, name);
        auto rest = text.substr(space + 1);
        const auto comma = rest.find_first_of(", ");
        const auto day = digits(rest.substr(0, comma), 1, 2);
        if (!month || !day) return std::nullopt;
        if (comma == std::string::npos) return nearestYear(*month + 1, *day, seenFrom);
        const auto yearAt = rest.find_first_not_of(", ", comma);
        const auto year = yearAt == std::string::npos ? std::nullopt : typedYear(rest.substr(yearAt));
        return year ? of(*year, *month + 1, *day) : std::nullopt;
    }
    return std::nullopt;
}

year_month_day Date::calendar() const { return year_month_day{sys_days{std::chrono::days{days_}}}; }

int Date::weekday() const { return static_cast<int>(std::chrono::weekday{sys_days{std::chrono::days{days_}}}.c_encoding()); }

std::string Date::text() const
{
    const auto c = calendar();
    return padded(static_cast<int>(c.year()), 4) + '-' + padded(static_cast<int>(static_cast<unsigned>(c.month())), 2) + '-' + padded(static_cast<int>(static_cast<unsigned>(c.day())), 2);
}

std::string Date::shown() const
{
    return std::string{monthNames[static_cast<std::size_t>(month() - 1)].substr(0, 3)} + ' ' + std::to_string(day()) + ", " + std::to_string(year());
}

std::string Date::shownShort() const
{
    return std::string{dayNames[static_cast<std::size_t>(weekday())].substr(0, 3)} + ' ' + std::string{monthNames[static_cast<std::size_t>(month() - 1)].substr(0, 3)} + ' ' + std::to_string(day());
}

std::optional<Date> daysOn(Date date, std::int64_t days)
{
    // The distance is looked at first, so that the sum cannot overflow.
    if (days < firstDay - date.days() || days > lastDay - date.days()) return std::nullopt;
    return Date::ofDays(date.days() + days);
}

Date monthsOn(Date date, int monthCount)
{
    // Counted by hand: a year of std::chrono wraps round at 32767.
    const auto moved = std::int64_t{date.year()} * 12 + date.month() - 1 + monthCount;
    if (moved < firstYear * 12 || moved >= (lastYear + 1) * 12) throw DomainError{"a date is outside the years 1900 to 2199"};
    const int year = static_cast<int>(moved / 12), month = static_cast<int>(moved % 12) + 1;
    return *Date::of(year, month, std::min(date.day(), daysInMonth(year, month)));
}

Date firstOfMonth(Date date) { return date - (date.day() - 1); }

Date lastOfMonth(Date date) { return date + (daysInMonth(date.year(), date.month()) - date.day()); }

Date startOfWeek(Date date, int firstWeekday)
{
    const auto start = date.days() - (date.weekday() - firstWeekday + 7) % 7;
    return Date::ofDays(std::max(start, firstDay));
}

std::string isoWeekText(Date date)
{
    const int weekday = date.weekday() == 0 ? 7 : date.weekday();
    // A week belongs to the year of its Thursday, which may lie outside the years kept.
    const sys_days thursday{std::chrono::days{date.days() + 4 - weekday}};
    const auto year = year_month_day{thursday}.year();
    const auto week = (thursday - sys_days{year / 1 / 1}).count() / 7 + 1;
    return std::to_string(static_cast<int>(year)) + "-W" + padded(static_cast<int>(week), 2) + '-' + std::to_string(weekday);
}

std::string shownMonth(Date date) { return std::string{monthNames[static_cast<std::size_t>(date.month() - 1)]} + ' ' + std::to_string(date.year()); }

std::optional<MonthDay> MonthDay::of(int month, int day)
{
    if (!Date::of(2024, month, day)) return std::nullopt;  // a leap year, so that 02-29 passes
    return MonthDay{month * 100 + day};
}

std::optional<MonthDay> MonthDay::ofNumber(std::int64_t number)
{
    if (number < 101 || number > 1231) return std::nullopt;
    return of(static_cast<int>(number / 100), static_cast<int>(number % 100));
}

std::optional<MonthDay> MonthDay::parse(std::string_view text)
{
    if (text.size() != 5 || text[2] != '-') return std::nullopt;
    const auto month = digits(text.substr(0, 2), 2, 2), day = digits(text.substr(3), 2, 2);
    return month && day ? of(*month, *day) : std::nullopt;
}

std::string MonthDay::text() const { return padded(number_ / 100, 2) + '-' + padded(number_ % 100, 2); }

bool isWithin(Date date, MonthDay from, MonthDay to)
{
    const std::int64_t day = date.month() * 100 + date.day();
    return from <= to ? day >= from.number() && day <= to.number() : day >= from.number() || day <= to.number();
}

std::optional<ClockTime> ClockTime::of(int hour, int minute)
{
    if (hour < 0 || hour > 23 || minute < 0 || minute > 59) return std::nullopt;
    return ClockTime{hour * 60 + minute};
}

std::optional<ClockTime> ClockTime::ofMinutes(std::int64_t minutes)
{
    if (minutes < 0 || minutes >= 24 * 60) return std::nullopt;
    return ClockTime{static_cast<int>(minutes)};
}

std::optional<ClockTime> ClockTime::parse(std::string_view text)
{
    const auto colon = text.find(':');
    if (colon == std::string_view::npos) return std::nullopt;
    const auto hour = digits(text.substr(0, colon), 1, 2), minute = digits(text.substr(colon + 1), 2, 2);
    return hour && minute ? of(*hour, *minute) : std::nullopt;
}

std::optional<ClockTime> ClockTime::read(std::string_view typed)
{
    auto text = lowered(trimmed(typed));
    if (text == "noon") return of(12, 0);
    if (text == "midnight") return of(0, 0);
    char half = 0;
    if (text.ends_with('m')) {
        text.pop_back();
        if (!text.ends_with('a') && !text.ends_with('p')) return std::nullopt;
    }
    if (text.ends_with('a') || text.ends_with('p')) {
        half = text.back();
        text.pop_back();
        while (text.ends_with(' ')) text.pop_back();
    }
    std::optional<int> hour, minute = 0;
    if (const auto colon = text.find_first_of(":."); colon != std::string::npos) {
        hour = digits(std::string_view{text}.substr(0, colon), 1, 2);
        minute = digits(std::string_view{text}.substr(colon + 1), 2, 2);
    } else if (text.size() <= 2) {
        hour = digits(text, 1, 2);
    } else {
        hour = digits(std::string_view{text}.substr(0, text.size() - 2), 1, 2);
        minute = digits(std::string_view{text}.substr(text.size() - 2), 2, 2);
    }
    if (!hour || !minute) return std::nullopt;
    if (half != 0) {
        if (*hour < 1 || *hour > 12) return std::nullopt;
        hour = *hour % 12 + (half == 'p' ? 12 : 0);
    }
    return of(*hour, *minute);
}

std::string ClockTime::text() const { return padded(minutes_ / 60, 2) + ':' + padded(minutes_ % 60, 2); }

std::string ClockTime::shown() const
{
    const int hour = minutes_ / 60;
    return std::to_string(hour % 12 == 0 ? 12 : hour % 12) + ':' + padded(minutes_ % 60, 2) + (hour < 12 ? " am" : " pm");
}

std::optional<Minutes> Minutes::read(std::string_view typed)
{
    auto text = lowered(trimmed(typed));
    if (text.empty() || text.size() > 20) return std::nullopt;
    if (const auto colon = text.find(':'); colon != std::string::npos) {
        const auto hours = digits(text.substr(0, colon), 1, 6), minutes = digits(text.substr(colon + 1), 2, 2);
        return hours && minutes && *minutes < 60 ? std::optional{of(*hours * 60 + *minutes)} : std::nullopt;
    }
    if (const auto h = text.find('h'); h != std::string::npos) {
        if (!startsWithDigit(text) && text.front() != '.') return std::nullopt;
        const auto hours = readDecimal(text.substr(0, h), 4);
        if (!hours || *hours > 100'000'000 || (*hours * 60) % 10'000 != 0) return std::nullopt;
        auto rest = trimmed(std::string_view{text}.substr(h + 1));
        if (rest.empty()) return of(*hours * 60 / 10'000);
        if (rest.ends_with('m')) rest = trimmed(rest.substr(0, rest.size() - 1));
        const auto minutes = digits(rest, 1, 2);
        if (!minutes || *minutes >= 60 || *hours % 10'000 != 0) return std::nullopt;
        return of(*hours * 60 / 10'000 + *minutes);
    }
    if (text.ends_with('m')) text.pop_back();
    const auto minutes = digits(trimmed(text), 1, 7);
    return minutes ? std::optional{of(*minutes)} : std::nullopt;
}

std::string Minutes::shown() const
{
    const auto all = count_ < 0 ? 0 - static_cast<std::uint64_t>(count_) : static_cast<std::uint64_t>(count_);
    return (count_ < 0 ? "\u2212" : "") + std::to_string(all / 60) + ':' + padded(static_cast<int>(all % 60), 2);
}

}

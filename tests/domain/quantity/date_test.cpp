#include "quantity/date.h"

#include "quantity/rounding.h"

#include <catch2/catch.hpp>

#include <limits>
#include <random>

using namespace strikeoff;

namespace {

Date day(int year, int month, int dayOfMonth)
{
    const auto date = Date::of(year, month, dayOfMonth);
    REQUIRE(date);
    return *date;
}

const Date first = Date::ofDays(-25567);  // 1900-01-01
const Date last = Date::ofDays(84005);    // 2199-12-31
constexpr auto smallest = std::numeric_limits<std::int64_t>::min();
constexpr auto largest = std::numeric_limits<std::int64_t>::max();

}

TEST_CASE("a date is a day that exists, from 1900 to 2199", "[quantity]")
{
    CHECK(Date::of(1900, 1, 1) == first);
    CHECK(Date::of(2199, 12, 31) == last);
    CHECK_FALSE(Date::of(1899, 12, 31));
    CHECK_FALSE(Date::of(2200, 1, 1));
    CHECK_FALSE(Date::of(2026, 2, 31));
    CHECK_FALSE(Date::of(2026, 2, 29));
    CHECK_FALSE(Date::of(1900, 2, 29));
    CHECK(Date::of(2000, 2, 29));
    CHECK_FALSE(Date::of(2026, 0, 1));
    CHECK_FALSE(Date::of(2026, 13, 1));
    CHECK_FALSE(Date::of(2026, 4, 31));
    CHECK_FALSE(Date::of(2026, 4, 0));
    CHECK_FALSE(Date::of(2026, 4, -1));
    CHECK_FALSE(Date::of(2026, 4, 1 + 256));
    CHECK_FALSE(Date::of(2026, 4 + 256, 1));
    CHECK_FALSE(Date::of(2026 + 65536, 4, 1));
    CHECK_THROWS_AS(Date::ofDays(84006), DomainError);
    CHECK_THROWS_AS(Date::ofDays(-25568), DomainError);
    CHECK_THROWS_AS(Date::ofDays(largest), DomainError);
}

TEST_CASE("ISO dates and nothing else are parsed", "[quantity]")
{
    CHECK(Date::parse("2026-11-25") == day(2026, 11, 25));
    for (const auto* text : {"", "2026-11-5", "2026-11-31", "2026/11/25", "26-11-25", "2026-11-25 ", " 2026-11-25", "+026-11-25", "2026-1--25", "2026-11-2a", "20261125", "2026-W48-3", "0000-00-00"}) {
        INFO(text);
        CHECK_FALSE(Date::parse(text));
    }
}

TEST_CASE("every day of the calendar prints as a date that reads back, and follows the one before", "[quantity]")
{
    int year = 1900, month = 1, dayOfMonth = 0;
    constexpr int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    for (auto days = first.days(); days <= last.days(); ++days) {
        const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        if (++dayOfMonth > lengths[month - 1] + (month == 2 && leap ? 1 : 0)) {
            dayOfMonth = 1;
            if (++month > 12) {
                month = 1;
                ++year;
            }
        }
        const auto date = Date::ofDays(days);
        REQUIRE(date.year() == year);
        REQUIRE(date.month() == month);
        REQUIRE(date.day() == dayOfMonth);
        REQUIRE(Date::parse(date.text()) == date);
        REQUIRE(Date::read(date.text(), first) == date);
        REQUIRE(date.weekday() == (days - first.days() + 1) % 7);  // 1 January 1900 was a Monday
    }
}

TEST_CASE("a day typed without its year is the nearest one", "[quantity]")
{
    const auto seenFrom = day(2026, 11, 25);
    CHECK(Date::read("6/12", seenFrom) == day(2026, 6, 12));
    CHECK(Date::read("1/15", seenFrom) == day(2027, 1, 15));
    CHECK(Date::read("11/25", seenFrom) == seenFrom);
    CHECK(Date::read("12/31", day(2026, 1, 2)) == day(2025, 12, 31));
    CHECK(Date::read("6.12", seenFrom) == day(2026, 6, 12));
    CHECK(Date::read("Jun 12", seenFrom) == day(2026, 6, 12));
    CHECK(Date::read("june 12", seenFrom) == day(2026, 6, 12));
    CHECK(Date::read("Jun. 12", seenFrom) == day(2026, 6, 12));
    CHECK(Date::read("SEPT 3", seenFrom) == day(2026, 9, 3));
    CHECK(Date::read("2/29", day(2027, 12, 1)) == day(2028, 2, 29));
    CHECK_FALSE(Date::read("2/29", day(2026, 11, 25)));  // none within a year
    CHECK_FALSE(Date::read("2/30", seenFrom));
}

TEST_CASE("a day typed with its year, in two or four digits", "[quantity]")
{
    const auto seenFrom = day(2026, 11, 25);
    CHECK(Date::read("6/12/25", seenFrom) == day(2025, 6, 12));
    CHECK(Date::read("6/12/2025", seenFrom) == day(2025, 6, 12));
    CHECK(Date::read("06/02/1999", seenFrom) == day(1999, 6, 2));
    CHECK(Date::read("Jun 12, 2025", seenFrom) == day(2025, 6, 12));
    CHECK(Date::read("Jun 12 25", seenFrom) == day(2025, 6, 12));
    CHECK(Date::read("Jun. 12, 2025", seenFrom) == day(2025, 6, 12));
    CHECK(Date::read(" 2025-06-12 ", seenFrom) == day(2025, 6, 12));
    CHECK(Date::read(day(2025, 6, 12).shown(), seenFrom) == day(2025, 6, 12));
}

TEST_CASE("days typed as words and distances", "[quantity]")
{
    const auto wednesday = day(2026, 11, 25);
    CHECK(Date::read("today", wednesday) == wednesday);
    CHECK(Date::read("Tomorrow", wednesday) == day(2026, 11, 26));
    CHECK(Date::read("yesterday", wednesday) == day(2026, 11, 24));
    CHECK(Date::read("fri", wednesday) == day(2026, 11, 27));
    CHECK(Date::read("Wednesday", wednesday) == wednesday);
    CHECK(Date::read("tues", wednesday) == day(2026, 12, 1));
    CHECK(Date::read("+3", wednesday) == day(2026, 11, 28));
    CHECK(Date::read("-1", wednesday) == day(2026, 11, 24));
    CHECK(Date::read("+0", wednesday) == wednesday);
}

TEST_CASE("typing that is no day, or a day out of the years kept, is nothing", "[quantity]")
{
    const auto seenFrom = day(2026, 11, 25);
    for (const auto* text : {"", " ", "+", "-", "+x", "+99999", "-99999", "+-1", "6/", "/6", "6/12/", "6/12/026", "6//12", "13/1", "0/1", "6/32", "6/12/2200", "1/1/1899", "fr", "jun", "jun x", "jun 12,",
                             "jun 12, x", "jun 31", "jux 12", "12 jun", "to day", "2026-02-31", "....", "/", ".", "6/12/26/1", "\xFF\xFE"}) {
        INFO(text);
        CHECK_FALSE(Date::read(text, seenFrom));
    }
    for (const auto* text : {"tomorrow", "+1", "+9999", "mon"}) CHECK_FALSE(Date::read(text, last));
    for (const auto* text : {"yesterday", "-1", "-9999"}) CHECK_FALSE(Date::read(text, first));
    CHECK(Date::read("12/31", first) == day(1900, 12, 31));
    CHECK(Date::read("1/1", last) == day(2199, 1, 1));
    CHECK(Date::read("tue", last) == last);
}

TEST_CASE("any typed bytes are a date or nothing", "[quantity]")
{
    std::mt19937 random{23};
    const std::string_view pieces[] = {"jun", "may ", "fri", "today", "1", "2", "12", "31", "2026", "/", ".", "-", "+", ",", " ", "\xFF", "9999"};
    int read = 0;
    for (int i = 0; i < 60'000; ++i) {
        std::string text;
        for (auto n = random() % 6; n > 0; --n) text += pieces[random() % std::size(pieces)];
        const auto seenFrom = Date::ofDays(first.days() + static_cast<std::int64_t>(random() % 109'573));
        static_cast<void>(Date::parse(text));
        static_cast<void>(MonthDay::parse(text));
        static_cast<void>(ClockTime::parse(text));
        const auto time = ClockTime::read(text);
        if (time) REQUIRE(ClockTime::parse(time->text()) == time);
        const auto minutes = Minutes::read(text);
        if (minutes) REQUIRE(minutes->count() >= 0);
        if (const auto date = Date::read(text, seenFrom)) {
            ++read;
            REQUIRE(Date::parse(date->text()) == date);
        }
    }
    CHECK(read > 1'000);
}

TEST_CASE("dates are shown with month and weekday names", "[quantity]")
{
    CHECK(day(2026, 11, 25).text() == "2026-11-25");
    CHECK(day(2026, 11, 25).shown() == "Nov 25, 2026");
    CHECK(day(2026, 11, 5).shownShort() == "Thu Nov 5");
    CHECK(shownMonth(day(2026, 11, 25)) == "November 2026");
}

TEST_CASE("days are added and counted, and never leave the calendar unnoticed", "[quantity]")
{
    CHECK(day(2026, 12, 31) + 1 == day(2027, 1, 1));
    CHECK(day(2026, 3, 1) - 1 == day(2026, 2, 28));
    CHECK(day(2026, 11, 25) - day(2026, 10, 26) == 30);
    CHECK(first + (last - first) == last);
    CHECK(daysOn(day(2026, 12, 31), 1) == day(2027, 1, 1));
    CHECK(daysOn(first, last - first) == last);
    CHECK_FALSE(daysOn(last, 1));
    CHECK_FALSE(daysOn(first, -1));
    CHECK_FALSE(daysOn(first, smallest));
    CHECK_FALSE(daysOn(last, largest));
    CHECK_THROWS_AS(last + 1, DomainError);
    CHECK_THROWS_AS(first - 1, DomainError);
    CHECK_THROWS_AS(last + std::numeric_limits<int>::max(), DomainError);
    CHECK_THROWS_AS(last - std::numeric_limits<int>::min(), DomainError);
    CHECK_THROWS_AS(first - std::numeric_limits<int>::max(), DomainError);
}

TEST_CASE("months on keep the day, or take the month's last", "[quantity]")
{
    CHECK(monthsOn(day(2026, 1, 31), 1) == day(2026, 2, 28));
    CHECK(monthsOn(day(2024, 1, 31), 1) == day(2024, 2, 29));
    CHECK(monthsOn(day(2026, 11, 25), 24) == day(2028, 11, 25));
    CHECK(monthsOn(day(2026, 3, 31), -1) == day(2026, 2, 28));
    CHECK(monthsOn(day(2026, 1, 15), -1) == day(2025, 12, 15));
    CHECK(monthsOn(day(2024, 2, 29), 12) == day(2025, 2, 28));
    CHECK(monthsOn(day(2026, 5, 5), 0) == day(2026, 5, 5));
    CHECK_THROWS_AS(monthsOn(last, 1), DomainError);
    CHECK_THROWS_AS(monthsOn(first, -1), DomainError);
    CHECK_THROWS_AS(monthsOn(first, 65'536 * 12), DomainError);
    CHECK_THROWS_AS(monthsOn(first, std::numeric_limits<int>::max()), DomainError);
    CHECK_THROWS_AS(monthsOn(first, std::numeric_limits<int>::min()), DomainError);
}

TEST_CASE("months and weeks have ends, also at the ends of the calendar", "[quantity]")
{
    CHECK(firstOfMonth(day(2026, 11, 25)) == day(2026, 11, 1));
    CHECK(lastOfMonth(day(2026, 11, 25)) == day(2026, 11, 30));
    CHECK(lastOfMonth(day(2028, 2, 1)) == day(2028, 2, 29));
    CHECK(lastOfMonth(day(2026, 12, 31)) == day(2026, 12, 31));
    CHECK(lastOfMonth(last) == last);
    CHECK(firstOfMonth(first) == first);
    CHECK(startOfWeek(day(2026, 11, 25), 0) == day(2026, 11, 22));
    CHECK(startOfWeek(day(2026, 11, 25), 1) == day(2026, 11, 23));
    CHECK(startOfWeek(day(2026, 11, 25), 3) == day(2026, 11, 25));
    CHECK(startOfWeek(day(2026, 11, 25), 4) == day(2026, 11, 19));
    CHECK(startOfWeek(first, 1) == first);
    CHECK(startOfWeek(first, 0) == first);  // the Sunday before is not kept
    CHECK(isoWeekText(last) == "2200-W01-2");
    CHECK(isoWeekText(first) == "1900-W01-1");
}

TEST_CASE("a day of every year", "[quantity]")
{
    CHECK(MonthDay::parse("11-15") == MonthDay::of(11, 15));
    CHECK(MonthDay::of(2, 29));
    CHECK_FALSE(MonthDay::of(2, 30));
    CHECK_FALSE(MonthDay::of(0, 1));
    for (const auto* text : {"", "1-15", "11-5", "11/15", "13-01", "02-30", "11-15 ", "--115"}) CHECK_FALSE(MonthDay::parse(text));
    CHECK(MonthDay::of(3, 1)->text() == "03-01");
    CHECK(MonthDay::ofNumber(1115) == MonthDay::of(11, 15));
    CHECK_FALSE(MonthDay::ofNumber(0));
    CHECK_FALSE(MonthDay::ofNumber(-1115));
    CHECK_FALSE(MonthDay::ofNumber((std::int64_t{1} << 32) * 100 + 1115));
    CHECK_FALSE(MonthDay::ofNumber(smallest));
    CHECK_FALSE(MonthDay::ofNumber(largest));
}

TEST_CASE("a stretch of the year may run over its end", "[quantity]")
{
    const auto november = *MonthDay::of(11, 15), march = *MonthDay::of(3, 31);
    CHECK(isWithin(day(2026, 11, 15), november, march));
    CHECK(isWithin(day(2026, 12, 31), november, march));
    CHECK(isWithin(day(2026, 1, 1), november, march));
    CHECK(isWithin(day(2026, 3, 31), november, march));
    CHECK_FALSE(isWithin(day(2026, 4, 1), november, march));
    CHECK_FALSE(isWithin(day(2026, 11, 14), november, march));
    CHECK(isWithin(day(2026, 7, 1), march, november));
    CHECK_FALSE(isWithin(day(2026, 12, 1), march, november));
    CHECK(isWithin(day(2026, 3, 31), march, march));
    CHECK_FALSE(isWithin(day(2026, 4, 1), march, march));
}

TEST_CASE("clock times as stored", "[quantity]")
{
    CHECK(ClockTime::parse("07:30") == ClockTime::of(7, 30));
    CHECK(ClockTime::parse("7:30") == ClockTime::of(7, 30));
    CHECK(ClockTime::parse("23:59") == ClockTime::of(23, 59));
    for (const auto* text : {"", ":", "7", "730", "24:00", "7:60", "7:5", "-7:30", "7:-5", "7:30:00", "007:30", "7:30a", " 7:30"}) {
        INFO(text);
        CHECK_FALSE(ClockTime::parse(text));
    }
    for (int minute = 0; minute < 24 * 60; ++minute) {
        const auto time = *ClockTime::ofMinutes(minute);
        REQUIRE(time.minutes() == minute);
        REQUIRE(ClockTime::parse(time.text()) == time);
        REQUIRE(ClockTime::read(time.text()) == time);
        REQUIRE(ClockTime::read(time.shown()) == time);
    }
    CHECK_FALSE(ClockTime::ofMinutes(-1));
    CHECK_FALSE(ClockTime::ofMinutes(24 * 60));
    CHECK_FALSE(ClockTime::ofMinutes(std::int64_t{1} << 32));
    CHECK_FALSE(ClockTime::of(24, 0));
    CHECK_FALSE(ClockTime::of(0, -1));
}

TEST_CASE("clock times as typed", "[quantity]")
{
    CHECK(ClockTime::read("742") == ClockTime::of(7, 42));
    CHECK(ClockTime::read("0742") == ClockTime::of(7, 42));
    CHECK(ClockTime::read("7:42a") == ClockTime::of(7, 42));
    CHECK(ClockTime::read("7:42 PM") == ClockTime::of(19, 42));
    CHECK(ClockTime::read("742p") == ClockTime::of(19, 42));
    CHECK(ClockTime::read("7.42") == ClockTime::of(7, 42));
    CHECK(ClockTime::read("7a") == ClockTime::of(7, 0));
    CHECK(ClockTime::read("7") == ClockTime::of(7, 0));
    CHECK(ClockTime::read("12a") == ClockTime::of(0, 0));
    CHECK(ClockTime::read("12p") == ClockTime::of(12, 0));
    CHECK(ClockTime::read("12:05 am") == ClockTime::of(0, 5));
    CHECK(ClockTime::read("15:05") == ClockTime::of(15, 5));
    CHECK(ClockTime::read("1505") == ClockTime::of(15, 5));
    CHECK(ClockTime::read("Noon") == ClockTime::of(12, 0));
    CHECK(ClockTime::read("midnight") == ClockTime::of(0, 0));
    for (const auto* text : {"", " ", "a", "m", "am", "pm", "7m", "13p", "0a", "24", "24:00", "2400", "760", "7:5", "7:60", "-7", "7:", ":30", "7:30x", "7:30:15", "12345", "7 30", "noonish", "\xFF"}) {
        INFO(text);
        CHECK_FALSE(ClockTime::read(text));
    }
}

TEST_CASE("minutes as typed", "[quantity]")
{
    CHECK(Minutes::read(Minutes::of(9'999'999).shown()) == Minutes::of(9'999'999));  // what is shown can be typed, however many
    CHECK(Minutes::read("450") == Minutes::of(450));
    CHECK(Minutes::read("7:30") == Minutes::of(450));
    CHECK(Minutes::read("7.5h") == Minutes::of(450));
    CHECK(Minutes::read("7.5 h") == Minutes::of(450));
    CHECK(Minutes::read("7 1/2h") == Minutes::of(450));
    CHECK(Minutes::read(".25h") == Minutes::of(15));
    CHECK(Minutes::read("7h 30") == Minutes::of(450));
    CHECK(Minutes::read("7h30m") == Minutes::of(450));
    CHECK(Minutes::read("7h 30 m") == Minutes::of(450));
    CHECK(Minutes::read("7H") == Minutes::of(420));
    CHECK(Minutes::read("45m") == Minutes::of(45));
    CHECK(Minutes::read("45 m") == Minutes::of(45));
    CHECK(Minutes::read("0") == Minutes{});
    CHECK(Minutes::read("0:05") == Minutes::of(5));
    for (const auto* text : {"", " ", "h", "m", "hm", "7.5", "-5", "-1h", "7:60", "7:5", ":30", "7:", "7h60", "7hm", "7.51h", "7.333h", "7.5h30", "1/3h", "$7h", "(7)h", "7h-5", "7x", "99999h", "99999999", "7:30h",
                             "7hh", "\xFF"}) {
        INFO(text);
        CHECK_FALSE(Minutes::read(text));
    }
}

TEST_CASE("minutes are shown as hours and minutes, and sums that do not fit throw", "[quantity]")
{
    CHECK(Minutes::of(450).shown() == "7:30");
    CHECK(Minutes::of(5).shown() == "0:05");
    CHECK(Minutes::of(-90).shown() == "\u22121:30");
    CHECK(Minutes::of(smallest).shown() == "\u2212153722867280912930:08");
    CHECK(Minutes::of(30) + Minutes::of(45) - Minutes::of(5) == Minutes::of(70));
    CHECK_THROWS_AS(Minutes::of(largest) + Minutes::of(1), DomainError);
    CHECK_THROWS_AS(Minutes::of(smallest) - Minutes::of(1), DomainError);
    for (int count = 0; count < 3000; ++count) REQUIRE(Minutes::read(Minutes::of(count).shown()) == Minutes::of(count));
}

#include "demo/calendar.h"

#include "quantity/rounding.h"

namespace strikeoff::demo {

Date day(int year, int month, int dayOfMonth)
{
    const auto date = Date::of(year, month, dayOfMonth);
    if (!date) throw DomainError{"a day of the demonstration that does not exist"};
    return *date;
}

ClockTime clock(int minutesAfterMidnight)
{
    const auto time = ClockTime::ofMinutes(minutesAfterMidnight);
    if (!time) throw DomainError{"a time of the demonstration outside the day"};
    return *time;
}

Date firstDay() { return day(2023, 6, 1); }
Date today() { return day(2026, 11, 25); }

bool isHoliday(Date date)
{
    const int month = date.month(), dayOfMonth = date.day(), weekday = date.weekday();
    if (month == 1 && dayOfMonth == 1) return true;
    if (month == 5 && weekday == 1 && dayOfMonth > 24) return true;
    if (month == 7 && dayOfMonth == 4) return true;
    if (month == 9 && weekday == 1 && dayOfMonth <= 7) return true;
    if (month == 11 && weekday == 4 && dayOfMonth > 21 && dayOfMonth <= 28) return true;
    return month == 12 && dayOfMonth >= 24;
}

bool isWorkday(Date date) { return date.weekday() != 0 && date.weekday() != 6 && !isHoliday(date); }

Date nextWorkday(Date date)
{
    while (!isWorkday(date)) date = date + 1;
    return date;
}

SeasonOfYear seasonOf(Date date) { return static_cast<SeasonOfYear>(date.month() % 12 / 3); }

}

#include "demo/weather.h"

#include "demo/random.h"

#include <algorithm>
#include <array>

namespace strikeoff::demo {

namespace {

/// Mean temperature in the middle of each month, °F, and wet days in a thousand.
constexpr std::array monthMeanF{24, 28, 39, 51, 61, 70, 74, 73, 65, 53, 41, 29};
constexpr std::array monthWet{190, 190, 230, 280, 280, 240, 200, 190, 200, 220, 230, 200};

Date weatherFrom() { return day(2023, 4, 1); }
Date weatherTo() { return day(2027, 4, 30); }

/// Mean for a day in tenths of a degree, on the straight line between the middles of two months.
int normalTenths(Date date)
{
    const int month = date.month() - 1;
    const int other = date.day() >= 15 ? (month + 1) % 12 : (month + 11) % 12;
    const int away = date.day() >= 15 ? date.day() - 15 : 15 - date.day();
    const auto here = monthMeanF[static_cast<std::size_t>(month)], there = monthMeanF[static_cast<std::size_t>(other)];
    return (here * (30 - away) + there * away) * 10 / 30;
}

struct Foretold {
    int month, dayOfMonth, low, high, rain, from, to, wind, humidity;
};
/// The days around the book's last one, as the owner typed them in.
constexpr std::array<Foretold, 20> foretold{{
    {11, 20, 37, 50, 10, 0, 0, 8, 55},     {11, 21, 38, 51, 30, 0, 0, 10, 62},    {11, 22, 34, 46, 50, 2, 9, 14, 74},
    {11, 23, 32, 47, 5, 0, 0, 7, 58},      {11, 24, 34, 50, 10, 0, 0, 6, 60},     {11, 25, 35, 52, 10, 0, 0, 8, 57},
    {11, 26, 33, 50, 5, 0, 0, 9, 52},      {11, 27, 37, 53, 20, 0, 0, 11, 61},    {11, 28, 39, 50, 60, 13, 20, 13, 76},
    {11, 29, 36, 44, 80, 4, 16, 15, 82},   {11, 30, 31, 44, 15, 0, 0, 12, 60},    {12, 1, 28, 41, 10, 0, 0, 9, 55},
    {12, 2, 30, 45, 5, 0, 0, 6, 54},       {12, 3, 34, 48, 10, 0, 0, 8, 58},      {12, 4, 37, 49, 40, 16, 21, 12, 70},
    {12, 5, 31, 41, 40, 0, 0, 16, 68},     {12, 6, 24, 36, 20, 0, 0, 14, 59},     {12, 7, 20, 33, 10, 0, 0, 10, 55},
    {12, 8, 22, 35, 20, 0, 0, 9, 58},      {12, 9, 27, 40, 30, 0, 0, 9, 63},
}};

}

Date forecastFrom() { return day(2026, foretold.front().month, foretold.front().dayOfMonth); }
Date forecastTo() { return day(2026, 12, 6); }  // what lies behind it nobody has typed yet

Weather::Weather()
{
    Random random{1};
    int spell = 0;  // tenths of a degree over the normal
    for (Date date = weatherFrom(); date <= weatherTo(); date = date + 1) {
        spell = spell * 7 / 10 + static_cast<int>(random.bell(0, 52));
        const auto month = static_cast<std::size_t>(date.month() - 1);
        DayWeather made;
        const int mean = (normalTenths(date) + spell) / 10;
        made.wet = random.chance(monthWet[month]);
        const int half = made.wet ? random.pick(5, 8) : random.pick(8, 13);
        made.lowF = mean - half;
        made.highF = mean + half;
        made.rainChance = made.wet ? random.pick(11, 19) * 5 : random.pick(0, 8) * 5;
        if (made.wet) {
            const int from = random.pick(3, 17);
            made.rainFrom = clock(from * 60);
            made.rainTo = clock(std::min(from + random.pick(2, 9), 23) * 60);
        }
        made.windMph = std::max(2, static_cast<int>(random.bell(9, 4)));
        made.humidity = static_cast<int>(std::clamp<std::int64_t>(random.bell(made.wet ? 78 : 58, 9), 24, 97));
        days_.push_back(made);
    }
    for (const auto& told : foretold) {
        auto& made = days_[static_cast<std::size_t>(day(2026, told.month, told.dayOfMonth) - weatherFrom())];
        made = {told.low, told.high, told.rain, told.to > 0, {}, {}, told.wind, told.humidity};
        if (told.to > 0) {
            made.rainFrom = clock(told.from * 60);
            made.rainTo = clock(told.to * 60);
        }
    }
}

const DayWeather& Weather::at(Date date) const { return days_.at(static_cast<std::size_t>(date - weatherFrom())); }

bool Weather::canPour(Date date) const
{
    const auto& today = at(date);
    if (today.wet && today.rainFrom->minutes() < 17 * 60) return false;
    const auto& night = at(date - 1);
    return today.highF >= 39 && today.lowF >= 22 && night.averageF() >= 29;
}

}

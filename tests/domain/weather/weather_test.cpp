#include "domain/book_maker.h"
#include "weather/weather.h"

using namespace strikeoff;

namespace {

Moment moment(std::string_view day, std::string_view time) { return {on(day), at(time)}; }

}

TEST_CASE("the air runs from the low at dawn to the high in the afternoon and back", "[weather]")
{
    BookMaker maker;
    maker.add(DayForecast{.date = on("2026-11-24"), .lowF = 30, .highF = 50});
    maker.add(DayForecast{.date = on("2026-11-25"), .lowF = 36, .highF = 60});
    maker.add(DayForecast{.date = on("2026-11-26"), .lowF = 44, .highF = 48});
    const Weather weather{maker.book};

    double low = 1000;
    double high = -1000;
    int lowAt = 0;
    int highAt = 0;
    double before = *weather.airF(moment("2026-11-24", "23:45"));
    for (int minute = 0; minute < 1440; minute += 15) {
        const auto air = weather.airF({on("2026-11-25"), *ClockTime::ofMinutes(minute)});
        REQUIRE(air);
        CHECK(std::abs(*air - before) < 3);  // no jumps, also not at midnight
        before = *air;
        if (*air < low) { low = *air; lowAt = minute; }
        if (*air > high) { high = *air; highAt = minute; }
    }
    CHECK(low == Approx(36).margin(0.2));
    CHECK(high == Approx(60).margin(0.2));
    CHECK(lowAt == Approx(7 * 60).margin(45));   // sunrise at 40° north in late November
    CHECK(highAt == Approx(14 * 60).margin(15)); // two hours after the sun's noon
    CHECK(std::abs(*weather.airF(moment("2026-11-26", "00:00")) - before) < 3);
}

TEST_CASE("a day that is not forecast is unknown, not fine", "[weather]")
{
    BookMaker maker;
    maker.add(DayForecast{.date = on("2026-11-25"), .lowF = 36, .highF = 60});
    maker.add(DayForecast{.date = on("2026-11-27"), .highF = 60, .rainChance = 10});
    const Weather weather{maker.book};
    CHECK(weather.airF(moment("2026-11-25", "12:00")));
    CHECK_FALSE(weather.airF(moment("2026-11-26", "12:00")));
    CHECK_FALSE(weather.airF(moment("2026-11-27", "12:00")));  // without its low
    CHECK_FALSE(weather.rains(moment("2026-11-25", "12:00")));
    CHECK(weather.rains(moment("2026-11-27", "12:00")) == std::optional{false});
    CHECK_FALSE(weather.meanAirF(moment("2026-11-25", "20:00"), moment("2026-11-26", "02:00")));
    CHECK(weather.meanAirF(moment("2026-11-25", "10:00"), moment("2026-11-25", "12:00")));
}

TEST_CASE("what was seen on a day goes over what was forecast for it", "[weather]")
{
    BookMaker maker;
    maker.add(DayForecast{.date = on("2026-11-25"), .lowF = 36, .highF = 60});
    const Weather weather{maker.book};
    const auto noon = moment("2026-11-25", "12:00");
    CHECK(*weather.airF(noon, DayMean{on("2026-11-25"), 58}) == Approx(*weather.airF(noon) + 10));
    CHECK(*weather.airF(moment("2026-11-29", "14:00"), DayMean{on("2026-11-29"), 50}) == Approx(60).margin(0.2));
    CHECK_FALSE(weather.airF(moment("2026-11-29", "14:00"), DayMean{on("2026-11-28"), 50}));
}

TEST_CASE("rain counts in its hours, past midnight too", "[weather]")
{
    BookMaker maker;
    maker.add(DayForecast{.date = on("2026-06-01"), .rainChance = 60, .rainFrom = at("14:00"), .rainTo = at("16:00")});
    maker.add(DayForecast{.date = on("2026-06-02"), .rainChance = 50, .rainFrom = at("22:00"), .rainTo = at("03:00")});
    maker.add(DayForecast{.date = on("2026-06-03"), .rainChance = 10});
    maker.add(DayForecast{.date = on("2026-06-04"), .rainChance = 80});
    maker.add(DayForecast{.date = on("2026-06-05"), .rainChance = 49, .rainFrom = at("08:00")});
    const Weather weather{maker.book};
    const auto rains = [&](std::string_view day, std::string_view time) { return weather.rains(moment(day, time)).value(); };
    CHECK_FALSE(rains("2026-06-01", "13:59"));
    CHECK(rains("2026-06-01", "14:00"));
    CHECK_FALSE(rains("2026-06-01", "16:00"));
    CHECK_FALSE(rains("2026-06-02", "02:00"));
    CHECK(rains("2026-06-02", "23:00"));
    CHECK(rains("2026-06-03", "02:59"));
    CHECK_FALSE(rains("2026-06-03", "03:00"));
    CHECK(rains("2026-06-04", "05:00"));
    CHECK_FALSE(rains("2026-06-05", "09:00"));
}

#include "domain/book_maker.h"
#include "visits/gates.h"

using namespace strikeoff;

namespace {

const auto day = on("2026-10-14");

struct Sky {
    BookMaker maker;
    void add(int after, int low, int high, std::optional<int> rain = 10, std::optional<ClockTime> from = {}, std::optional<ClockTime> to = {})
    {
        maker.add(DayForecast{.date = day + after, .lowF = low, .highF = high, .rainChance = rain, .rainFrom = from, .rainTo = to});
    }
    DayHours hours(const FinishingProduct& product, Date date = day) const { return gateHours(product, Weather{maker.book}, date); }
};

bool holds(const std::vector<ClockSpan>& spans, std::string_view time)
{
    const int minute = at(time).minutes();
    return std::any_of(spans.begin(), spans.end(), [&](const ClockSpan& span) { return span.from <= minute && minute < span.to; });
}

}

TEST_CASE("a product goes on in the warm hours of the day only", "[visits][gates]")
{
    Sky sky;
    for (int i = -1; i < 4; ++i) sky.add(i, 34, 64);
    const auto hours = sky.hours({.name = "Guard", .lowestAirF = 50});
    REQUIRE(hours.open.size() == 1);
    CHECK_FALSE(holds(hours.open, "07:30"));
    CHECK(holds(hours.open, "13:00"));
    CHECK_FALSE(holds(hours.open, "23:00"));
    CHECK(hours.unknown.empty());
    CHECK(hours.why.find("the air is under the 50 \u00b0F it needs from ") == 0);

    // Every quarter of an hour inside is warm enough by the air itself, and the ones next to it are not.
    const Weather weather{sky.maker.book};
    CHECK(*weather.airF(Moment{day, *ClockTime::ofMinutes(hours.open.front().from)}) >= 50);
    CHECK(*weather.airF(Moment{day, *ClockTime::ofMinutes(hours.open.front().from - 15)}) < 50);
    CHECK(*weather.airF(Moment{day, *ClockTime::ofMinutes(hours.open.front().to)}) < 50);

    const auto shut = sky.hours({.name = "Guard", .lowestAirF = 70});
    CHECK(shut.isShut());
    CHECK(shut.why == "the air is under the 70 \u00b0F it needs all day");
    CHECK(sky.hours({.name = "Guard"}).open == std::vector<ClockSpan>{{0, 1440}});
    CHECK(sky.hours({.name = "Guard"}).why.empty());
}

TEST_CASE("the hours after it went on must stay warm", "[visits][gates]")
{
    Sky sky;
    sky.add(-1, 55, 70);
    sky.add(0, 55, 70);
    sky.add(1, 38, 60);  // a cold next dawn
    sky.add(2, 55, 70);
    const FinishingProduct short4{.name = "Guard", .lowestAirF = 50, .warmHoursAfter = 4};
    const FinishingProduct long24{.name = "Guard", .lowestAirF = 50, .warmHoursAfter = 24};
    CHECK(holds(sky.hours(short4).open, "13:00"));
    for (const auto* time : {"06:00", "13:00", "20:00"}) CHECK_FALSE(holds(sky.hours(long24).open, time));
    CHECK(sky.hours(long24).unknown.empty());
    CHECK(sky.hours(long24).why == "the air falls under 50 \u00b0F within the 24 hours after");
    CHECK(sky.hours(long24, day - 1).open.front().from == 0);
}

TEST_CASE("a cold night still sits in the slab when the air has warmed", "[visits][gates]")
{
    Sky sky;
    for (int i = -1; i < 3; ++i) sky.add(i, 34, 62);
    const auto air = sky.hours({.name = "Guard", .lowestAirF = 50});
    const auto surface = sky.hours({.name = "Guard", .lowestSurfaceF = 50});
    REQUIRE_FALSE(air.open.empty());
    REQUIRE_FALSE(surface.open.empty());
    CHECK(surface.open.front().from > air.open.front().from + 60);
    CHECK(surface.why.find("the surface may be under the 50 \u00b0F it needs") == 0);
}

TEST_CASE("dry hours before rain shut the hours before it", "[visits][gates]")
{
    Sky sky;
    sky.add(-1, 60, 75);
    sky.add(0, 60, 75, 70, at("17:00"), at("19:00"));
    sky.add(1, 60, 75, 10);
    const auto hours = sky.hours({.name = "Guard", .dryHours = 4});
    CHECK(holds(hours.open, "12:45"));
    CHECK_FALSE(holds(hours.open, "13:00"));
    CHECK_FALSE(holds(hours.open, "18:00"));
    CHECK(holds(hours.open, "19:00"));
    CHECK(hours.why == "rain 70 % from 5:00 pm to 7:00 pm; rain 70 % from 5:00 pm to 7:00 pm; it needs four dry hours");
}

TEST_CASE("what nobody knows is unknown, whatever else is fine", "[visits][gates]")
{
    Sky sky;
    sky.add(-1, 60, 75);
    sky.add(0, 60, 75);
    // The day after is not forecast.
    const FinishingProduct guard{.name = "Guard", .lowestAirF = 50, .warmHoursAfter = 24, .dryHours = 12};
    const auto today = sky.hours(guard);
    CHECK(today.open.empty());
    CHECK(today.isUnknown());
    CHECK_FALSE(today.isShut());
    CHECK(today.why.find("no forecast is entered for Thu Oct 15") == 0);
    const auto tomorrow = sky.hours(guard, day + 1);
    CHECK(tomorrow.open.empty());
    CHECK(tomorrow.unknown == std::vector<ClockSpan>{{0, 1440}});

    // What is known to be bad stays shut.
    sky.add(1, 60, 75, 90);
    const auto wet = sky.hours(guard);
    CHECK_FALSE(holds(wet.unknown, "13:00"));
    CHECK_FALSE(holds(wet.open, "13:00"));
    CHECK(wet.why.find("rain 90 % on Thu Oct 15; it needs twelve dry hours") != std::string::npos);

    // A chance of rain that is not entered is unknown as well.
    sky.add(2, 60, 75, std::nullopt);
    CHECK(sky.hours({.name = "Guard"}, day + 2).isUnknown());
    CHECK(sky.hours({.name = "Guard"}, day + 2).why.find("the chance of rain of Fri Oct 16 is not entered") == 0);
}

TEST_CASE("open, unknown and shut never overlap, under any weather", "[visits][gates]")
{
    std::uint32_t seed = 5;
    const auto pick = [&](int below) { seed = seed * 1664525 + 1013904223; return static_cast<int>((seed >> 8) % static_cast<std::uint32_t>(below)); };
    for (int round = 0; round < 200; ++round) {
        Sky sky;
        for (int i = -1; i < 5; ++i) {
            if (pick(5) == 0) continue;
            const int low = pick(60) + 10;
            sky.add(i, low, low + pick(35), pick(4) == 0 ? std::nullopt : std::optional{pick(100)}, pick(2) ? std::optional{*ClockTime::of(pick(24), 0)} : std::nullopt,
                    pick(2) ? std::optional{*ClockTime::of(pick(24), 0)} : std::nullopt);
        }
        FinishingProduct product{.name = "Guard"};
        if (pick(2)) product.lowestAirF = 40 + pick(20);
        if (pick(2)) product.lowestSurfaceF = 40 + pick(20);
        if (pick(2)) product.warmHoursAfter = pick(48);
        if (pick(2)) product.dryHours = pick(48);
        const Weather weather{sky.maker.book};
        const auto hours = gateHours(product, weather, day);
        CHECK(common(hours.open, hours.unknown).empty());
        for (const auto* spans : {&hours.open, &hours.unknown})
            for (std::size_t i = 0; i < spans->size(); ++i) {
                CHECK((*spans)[i].from < (*spans)[i].to);
                if (i > 0) CHECK((*spans)[i].from > (*spans)[i - 1].to);
            }
        // Nothing open touches a quarter of an hour that is known to be too cold or wet, or that nobody knows.
        for (const auto& span : hours.open)
            for (int minute = span.from; minute < span.to; minute += 15) {
                const Moment now{day, *ClockTime::ofMinutes(minute)};
                CHECK(weather.rains(now) == std::optional{false});
                if (!product.lowestAirF) continue;
                REQUIRE(weather.airF(now));
                for (int after = 0; after <= product.warmHoursAfter.value_or(0) * 60; after += 15) CHECK(weather.airF(now + Minutes::of(after)).value_or(-100) >= *product.lowestAirF);
            }
    }
}

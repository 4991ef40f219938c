#include "route/geo_point.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

TEST_CASE("great circles agree with published and independently computed ones", "[reference][distance]")
{
    // Source: Rosetta Code, "Haversine formula": Nashville airport to Los Angeles airport, 2886.444442838 km on a sphere of 6371 km and 2887.259950607 km on
    // one of 6372.8 km.
    CHECK(greatCircleKm(36.12, -86.67, 33.94, -118.40, 6371) == Approx(2886.444442838).margin(1e-6));
    CHECK(greatCircleKm(36.12, -86.67, 33.94, -118.40, 6372.8) == Approx(2887.259950607).margin(1e-6));
    CHECK(greatCircleKm(36.12, -86.67, 33.94, -118.40) == Approx(2886.448430).margin(1e-6));  // mean radius, computed with GeographicLib's sphere
    // Computed with GeographicLib 2.1.2 on a sphere of 6371 km: a degree at the equator, half round, across the date line, a quarter round.
    CHECK(greatCircleKm(0, 0, 0, 1, 6371) == Approx(111.194927).margin(1e-6));
    CHECK(greatCircleKm(0, 0, 1, 0, 6371) == Approx(111.194927).margin(1e-6));
    CHECK(greatCircleKm(0, 0, 0, 180, 6371) == Approx(20015.086796).margin(1e-6));
    CHECK(greatCircleKm(10, 179.5, 10, -179.5, 6371) == Approx(109.505584).margin(1e-6));
    CHECK(greatCircleKm(35, 45, 35, 135, 6371) == Approx(7871.769099).margin(1e-6));
    CHECK(greatCircleKm(43.6423, -72.2518, 43.2081, -71.5376, 6371) == Approx(75.217169).margin(1e-6));
    // Land's End to John o' Groats, a common worked example: 968.853547 km on 6371 km.
    CHECK(greatCircleKm(50 + 3 / 60.0 + 59 / 3600.0, -(5 + 42 / 60.0 + 53 / 3600.0), 58 + 38 / 60.0 + 38 / 3600.0, -(3 + 4 / 60.0 + 12 / 3600.0), 6371) ==
          Approx(968.853547).margin(1e-6));
}

TEST_CASE("equal places are no way apart", "[reference][distance]")
{
    CHECK(greatCircleKm(43.65, -72.31, 43.65, -72.31) == 0);
}

TEST_CASE("the sphere errs by little against the ellipsoid", "[reference][distance]")
{
    // GeographicLib 2.1.2, WGS84: 75310.8513 m.
    CHECK(greatCircleKm(43.6423, -72.2518, 43.2081, -71.5376) == Approx(75.3108513).epsilon(0.005));
}

#include "route/geo_point.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

TEST_CASE("a geo address is read with altitude and parameters let go", "[route][geo]")
{
    // Examples of RFC 5870, sections 1, 6.1 and 6.2.
    struct { const char* text; const char* latitude; const char* longitude; } const examples[] = {
        {"geo:13.4125,103.8667", "13.4125", "103.8667"},
        {"geo:48.2010,16.3695,183", "48.201", "16.3695"},
        {"geo:48.198634,16.371648;crs=wgs84;u=40", "48.198634", "16.371648"},
        {"geo:90,-22.43;crs=WGS84", "90", "0"},  // 3.4.2: at a pole every longitude is the same place
        {"geo:66,30;u=6.500;FOo=this%2dthat", "66", "30"},
        {"GEO:-37.786971,-122.399677", "-37.786971", "-122.399677"},
        {"geo:1,-180", "1", "180"},
    };
    for (const auto& example : examples) {
        CAPTURE(example.text);
        const auto read = readGeo(example.text);
        REQUIRE(read.point);
        CHECK(read.point->latitude.text() == example.latitude);
        CHECK(read.point->longitude.text() == example.longitude);
    }
}

TEST_CASE("a pair of figures is a place, and the seventh decimal rounds", "[route][geo]")
{
    const auto read = readGeo("  43.6423005, -72.25180049 ");
    REQUIRE(read.point);
    CHECK(read.point->latitude.units() == 43'642'301);
    CHECK(read.point->longitude.units() == -72'251'800);
    CHECK(readGeo(geoUri(*read.point)).point == read.point);
}

TEST_CASE("what is no place is refused with the remedy", "[route][geo]")
{
    CHECK_THAT(readGeo("geo:323482,4306480;crs=EPSG:32618;u=20").problem, Catch::Contains("another reference system"));
    CHECK_THAT(readGeo("-122.399677,37.786971").problem, Catch::Contains("is longitude typed first?"));
    CHECK_THAT(readGeo("geo:12,190").problem, Catch::Contains("between -180 and 180"));
    for (const auto* text : {"", "geo:", "geo:12", "geo:1,2,3,4", "geo:1.,2", "geo:+1,2", "geo:1e2,2", "43.6", "Hill Road 5", "1,2,3", "geo: 1,2",
                             "99999999999999999999,1", "geo:.5,1", "--1,2"}) {
        CAPTURE(text);
        const auto read = readGeo(text);
        CHECK_FALSE(read.point);
        CHECK_FALSE(read.problem.empty());
    }
}

TEST_CASE("a text that is meant as a place is told from a figure that is not", "[route][geo]")
{
    for (const auto* text : {"geo:", " GEO:1", "48.2, 16.3", "48,2", "Hill Road, Orchard"}) CHECK(holdsPlace(text));
    for (const auto* text : {"", "48.2010", "-72.5", "geography"}) CHECK_FALSE(holdsPlace(text));
}

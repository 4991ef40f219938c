#include "route/drive.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

GeoPoint point(const char* text) { return *readGeo(text).point; }
const DriveRules rules{1.25, 40, 5, 30};

}

TEST_CASE("coordinates give the road's miles and minutes, and win over what is typed", "[route][drive]")
{
    // One degree of latitude: 6371.0088 km × π / 180 = 111.195 km = 69.094 mi; × 1.25 = 86.367 mi; at 40 mph 129.55 minutes.
    const Place shop{"the shop", "Ames Mill", point("43,-72"), {}, true};
    const Place site{"Hill Road", "Orchard", point("44,-72"), 10, false};
    const auto drive = driveBetween(shop, site, {{"Ames Mill", "Orchard", 20}}, rules);
    CHECK(drive.source == DriveSource::coordinates);
    CHECK(drive.minutes == 130);
    CHECK(drive.miles == Approx(86.367).margin(0.001));
    CHECK(driveBetween(site, site, {}, rules).minutes == 0);
}

TEST_CASE("without coordinates towns come first, then the site's own minutes, then a guess that says so", "[route][drive]")
{
    const Place shop{"the shop", "Ames Mill", {}, {}, true};
    const Place near{"Hill Road", "Orchard", {}, 18, false};
    const Place far{"Dam Road", " orchard ", {}, 25, false};
    const Place lost{"Back Lane", "Nowhere", {}, {}, false};
    const std::vector<TypedDrive> towns{{"orchard", "", 22}};

    CHECK(driveBetween(shop, near, towns, rules).minutes == 22);
    CHECK(driveBetween(near, shop, towns, rules).source == DriveSource::towns);
    CHECK(driveBetween(shop, near, {}, rules).minutes == 18);
    CHECK(driveBetween(shop, near, {}, rules).source == DriveSource::siteMinutes);
    CHECK(driveBetween(shop, near, {}, rules).miles == Approx(12.0));  // 18 minutes at 40 mph
    CHECK(driveBetween(near, far, {}, rules).minutes == 5);            // one town
    CHECK(driveBetween(near, {"Mill", "Ames Mill", {}, 4, false}, {}, rules).minutes == 22);  // by way of the shop
    CHECK(driveBetween(near, lost, {}, rules).source == DriveSource::missing);
    CHECK(driveBetween(near, lost, {}, rules).minutes == 30);
}

TEST_CASE("the table is the same both ways and names each place whose way is missing once", "[route][drive]")
{
    const DriveTable table{{{"the shop", "Ames Mill", {}, {}, true}, {"Hill Road", "Orchard", {}, 18, false}, {"Back Lane", "Nowhere", {}, {}, false}}, {}, rules};
    for (std::size_t a = 0; a < table.size(); ++a)
        for (std::size_t b = 0; b < table.size(); ++b) CHECK(table.between(a, b).minutes == table.between(b, a).minutes);
    REQUIRE(table.missing().size() == 1);
    CHECK(table.missing()[0] == "The way to Back Lane is not recorded, 30 minutes are taken: record its coordinates, or minutes between the towns.");

    // The shop is asked for only where a site lies on the map.
    const DriveTable mapped{{{"the shop", "", {}, {}, true}, {"Hill Road", "Orchard", point("43,-72"), {}, false}}, {}, rules};
    REQUIRE(mapped.missing().size() == 1);
    CHECK_THAT(mapped.missing()[0], Catch::Contains("the shop's coordinates in the settings"));
}

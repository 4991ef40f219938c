#pragma once

#include "route/geo_point.h"

#include <string>
#include <vector>

namespace strikeoff {

/// How a way on the map becomes minutes at the wheel; the owner's settings.
struct DriveRules {
    double roadFactor = 1.3;     ///< miles by road to a mile as the crow flies (common practice, no source)
    double milesPerHour = 35;
    int minutesInTown = 5;       ///< between two places of one town whose coordinates are not recorded
    int minutesUnknown = 30;     ///< taken for a way of which nothing is recorded
};

/// A shop or a site, with whatever is recorded about where it lies.
struct Place {
    std::string name;
    std::string town;
    std::optional<GeoPoint> point;
    std::optional<int> minutesFromShop;
    bool isShop = false;
};

/// Minutes someone typed between two towns; they hold both ways. An empty town is the shop.
struct TypedDrive {
    std::string from;
    std::string to;
    int minutes = 0;
};

/// What a drive's minutes rest on.
enum class DriveSource {
    samePlace,
    coordinates,   ///< great circle, road factor and speed
    towns,         ///< minutes typed between the two towns, or within one
    siteMinutes,   ///< minutes from the shop as the sites have them; between two sites, by way of the shop
    missing        ///< nothing recorded: DriveRules::minutesUnknown
};

/// Miles are the road's for coordinates, and what the speed makes of the minutes for the rest.
struct Drive {
    int minutes = 0;
    double miles = 0;
    DriveSource source = DriveSource::samePlace;
};

/// Minutes and miles between all of some places.
class DriveTable {
public:
    DriveTable(std::vector<Place> places, const std::vector<TypedDrive>& towns, const DriveRules& rules);

    std::size_t size() const { return places_.size(); }
    const Place& place(std::size_t index) const { return places_.at(index); }
    const Drive& between(std::size_t from, std::size_t to) const { return drives_.at(from * places_.size() + to); }
    /// One sentence a place whose way is not known, naming what to record; sorted by place.
    const std::vector<std::string>& missing() const { return missing_; }

private:
    std::vector<Place> places_;
    std::vector<Drive> drives_;
    std::vector<std::string> missing_;
};

/// The drive between two places: by coordinates, else by the towns, else by the minutes the sites have from the shop, else missing.
Drive driveBetween(const Place& from, const Place& to, const std::vector<TypedDrive>& towns, const DriveRules& rules);

}

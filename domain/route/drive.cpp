#include "route/drive.h"

#include "quantity/letters.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {
namespace {

/// Towns are compared as people type them: letters of either case, blanks at the ends left out.
std::string townKey(std::string_view town) { return lowered(trimmed(town)); }

bool isPair(const TypedDrive& drive, const std::string& a, const std::string& b)
{
    const auto from = townKey(drive.from), to = townKey(drive.to);
    return (from == a && to == b) || (from == b && to == a);
}

/// How a town drive may name a place: by its town, and the shop also by nothing.
std::vector<std::string> townNames(const Place& place)
{
    std::vector<std::string> names;
    if (const auto key = townKey(place.town); !key.empty()) names.push_back(key);
    if (place.isShop) names.emplace_back();
    return names;
}

std::optional<int> typedMinutes(const Place& a, const Place& b, const std::vector<TypedDrive>& towns)
{
    for (const auto& from : townNames(a))
        for (const auto& to : townNames(b))
            for (const auto& drive : towns)
                if (isPair(drive, from, to)) return drive.minutes;
    return {};
}

bool shareTown(const Place& a, const Place& b) { return !townKey(a.town).empty() && townKey(a.town) == townKey(b.town); }

std::optional<int> shopMinutes(const Place& place) { return place.isShop ? 0 : place.minutesFromShop; }

Drive byMinutes(int minutes, DriveSource source, const DriveRules& rules) { return {minutes, minutes * rules.milesPerHour / 60, source}; }

}

Drive driveBetween(const Place& from, const Place& to, const std::vector<TypedDrive>& towns, const DriveRules& rules)
{
    if (from.point && to.point) {
        if (*from.point == *to.point) return {};
        const double miles = greatCircleMiles(*from.point, *to.point) * rules.roadFactor;
        const double minutes = std::round(miles / std::max(rules.milesPerHour, 1.0) * 60);
        return {std::max(1, static_cast<int>(minutes)), miles, DriveSource::coordinates};
    }
    if (const auto minutes = typedMinutes(from, to, towns)) return byMinutes(*minutes, DriveSource::towns, rules);
    const auto there = shopMinutes(from), back = shopMinutes(to);
    if (there && back && from.isShop != to.isShop) return byMinutes(*there + *back, DriveSource::siteMinutes, rules);
    if (shareTown(from, to)) return byMinutes(rules.minutesInTown, DriveSource::towns, rules);
    if (there && back) return byMinutes(*there + *back, DriveSource::siteMinutes, rules);
    return byMinutes(rules.minutesUnknown, DriveSource::missing, rules);
}

DriveTable::DriveTable(std::vector<Place> places, const std::vector<TypedDrive>& towns, const DriveRules& rules) : places_{std::move(places)}
{
    drives_.resize(places_.size() * places_.size());
    for (std::size_t from = 0; from < places_.size(); ++from)
        for (std::size_t to = 0; to < from; ++to)
            drives_[from * places_.size() + to] = drives_[to * places_.size() + from] = driveBetween(places_[from], places_[to], towns, rules);

    for (std::size_t at = 0; at < places_.size(); ++at) {
        const auto& place = places_[at];
        const bool unknown = std::ranges::any_of(places_, [&](const Place& other) {
            return &other != &place && between(at, static_cast<std::size_t>(&other - places_.data())).source == DriveSource::missing;
        });
        if (!unknown || place.point || place.minutesFromShop) continue;
        // The shop's own place helps only where a site has one.
        if (place.isShop && std::ranges::none_of(places_, [](const Place& other) { return other.point.has_value(); })) continue;
        missing_.push_back("The way to " + place.name + " is not recorded, " + std::to_string(rules.minutesUnknown) + " minutes are taken: record " +
                           (place.isShop ? "the shop's coordinates in the settings." : "its coordinates, or minutes between the towns."));
    }
    std::ranges::sort(missing_);
}

}

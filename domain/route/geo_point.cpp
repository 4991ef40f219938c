#include "route/geo_point.h"

#include "quantity/letters.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace strikeoff {
namespace {

std::vector<std::string_view> cut(std::string_view text, char at)
{
    std::vector<std::string_view> parts;
    while (true) {
        const auto end = text.find(at);
        parts.push_back(text.substr(0, end));
        if (end == std::string_view::npos) return parts;
        text.remove_prefix(end + 1);
    }
}

/// A coordinate of RFC 5870, an optional minus, digits, and a point with digits, in millionths; the seventh decimal rounds a half away from zero.
std::optional<std::int64_t> coordinate(std::string_view text)
{
    const bool negative = text.starts_with('-');
    if (negative) text.remove_prefix(1);
    const auto point = text.find('.');
    const auto whole = text.substr(0, point);
    if (whole.empty() || whole.size() > 9 || !std::ranges::all_of(whole, isDigit)) return {};
    std::int64_t units = 0;
    for (const char c : whole) units = units * 10 + (c - '0');
    std::string_view decimals;
    if (point != std::string_view::npos) {
        decimals = text.substr(point + 1);
        if (decimals.empty() || !std::ranges::all_of(decimals, isDigit)) return {};
    }
    for (std::size_t place = 0; place < 6; ++place) units = units * 10 + (place < decimals.size() ? decimals[place] - '0' : 0);
    if (decimals.size() > 6 && decimals[6] >= '5') ++units;
    return negative ? -units : units;
}

GeoReading refused(std::string problem) { return {{}, std::move(problem)}; }

/// Parameters after the first semicolon; the reference system, where given, comes first by the RFC's grammar, but pasted text is read leniently.
bool otherSystem(const std::vector<std::string_view>& parts)
{
    return std::any_of(parts.begin() + 1, parts.end(), [](std::string_view part) {
        const auto parameter = lowered(part);
        return parameter.starts_with("crs=") && parameter != "crs=wgs84";
    });
}

}

double greatCircleKm(double latitude1, double longitude1, double latitude2, double longitude2, double radiusKm)
{
    constexpr double radians = std::numbers::pi / 180;
    const double north = std::sin((latitude2 - latitude1) * radians / 2);
    const double east = std::sin((longitude2 - longitude1) * radians / 2);
    const double h = north * north + std::cos(latitude1 * radians) * std::cos(latitude2 * radians) * east * east;
    return 2 * radiusKm * std::asin(std::sqrt(std::clamp(h, 0.0, 1.0)));
}

double greatCircleMiles(const GeoPoint& a, const GeoPoint& b)
{
    return greatCircleKm(a.latitude.toDouble(), a.longitude.toDouble(), b.latitude.toDouble(), b.longitude.toDouble()) / kmPerMile;
}

GeoReading readGeo(std::string_view text)
{
    text = trimmed(text);
    if (text.empty()) return refused("Nothing is typed: paste a geo: address or type latitude and longitude, such as 48.2010, 16.3695.");
    const bool isUri = lowered(text.substr(0, 4)) == "geo:";
    if (isUri) text.remove_prefix(4);
    const auto parts = cut(text, ';');
    if (otherSystem(parts)) return refused("The place is given in another reference system than WGS84: copy it as plain latitude and longitude.");
    if (!isUri && parts.size() > 1) return refused("This is no place: type latitude and longitude, such as 48.2010, 16.3695.");
    const auto numbers = cut(parts.front(), ',');
    if (numbers.size() < 2 || numbers.size() > (isUri ? 3U : 2U))
        return refused("A place is latitude, a comma and longitude, such as 48.2010, 16.3695.");
    std::vector<std::int64_t> units;
    for (const auto number : numbers) {
        const auto read = coordinate(isUri ? number : trimmed(number));
        if (!read) return refused("\"" + std::string{trimmed(number)} + "\" is no decimal figure of degrees: type it like 48.2010 or -72.2518.");
        units.push_back(*read);
    }
    if (units[0] < -90'000'000 || units[0] > 90'000'000) return refused("A latitude lies between -90 and 90: is longitude typed first?");
    if (units[1] < -180'000'000 || units[1] > 180'000'000) return refused("A longitude lies between -180 and 180.");
    // RFC 5870, 3.4.2: at the poles every longitude is the same place, written as 0; and -180 is 180.
    if (units[0] == 90'000'000 || units[0] == -90'000'000) units[1] = 0;
    if (units[1] == -180'000'000) units[1] = 180'000'000;
    return {GeoPoint{Degrees::ofUnits(units[0]), Degrees::ofUnits(units[1])}, {}};
}

bool holdsPlace(std::string_view text)
{
    return lowered(trimmed(text).substr(0, 4)) == "geo:" || text.find(',') != std::string_view::npos;
}

std::string geoUri(const GeoPoint& point)
{
    return "geo:" + point.latitude.text() + "," + point.longitude.text();
}

}

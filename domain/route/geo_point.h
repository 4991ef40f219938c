#pragma once

#include "quantity/decimal.h"

#include <optional>
#include <string>
#include <string_view>

namespace strikeoff {

/// Mean radius of the earth, R1 of WGS84: (2a + b) / 3 = 6371.0088 km. A sphere errs by at most about half a per cent, less than any road factor does.
inline constexpr double earthRadiusKm = 6371.0088;
inline constexpr double kmPerMile = 1.609344;

/// A place on the earth by WGS84, north and east positive.
struct GeoPoint {
    Degrees latitude;
    Degrees longitude;
    friend bool operator==(const GeoPoint&, const GeoPoint&) = default;
};

/// Length of the great circle between two places given in degrees, in km, by the haversine form, which stays exact for near places and gives no
/// NaN for equal and opposite ones (Sinnott, Sky and Telescope 68, 1984).
double greatCircleKm(double latitude1, double longitude1, double latitude2, double longitude2, double radiusKm = earthRadiusKm);
double greatCircleMiles(const GeoPoint& a, const GeoPoint& b);

/// What a pasted place holds, or what is wrong with it and what to do.
struct GeoReading {
    std::optional<GeoPoint> point;
    std::string problem;
};

/// Reads a geo URI by RFC 5870, "geo:48.2010,16.3695,183;crs=wgs84;u=35": altitude and parameters are taken and let go, a reference system other
/// than WGS84 is refused. A bare "48.2010, 16.3695" is taken too. Decimals past the sixth (four inches) are rounded.
GeoReading readGeo(std::string_view text);

/// Whether a text is meant as a whole place, right or wrong: it begins as a geo URI does, or has the comma that one figure never has.
bool holdsPlace(std::string_view text);

/// "geo:48.201,16.3695".
std::string geoUri(const GeoPoint& point);

}

#pragma once

#include "fuzz/promise.h"
#include "route/geo_point.h"

#include <cmath>

namespace strikeoff::fuzz {

/// Reads any bytes as a geo: URI or a pair of coordinates.
inline void readAnyGeo(std::string_view bytes)
{
    const auto read = readGeo(bytes);
    require(read.point.has_value() == read.problem.empty(), "a place or what is wrong with it");
    if (!read.point) return;
    const auto& [latitude, longitude] = *read.point;
    require(latitude >= Degrees::ofWhole(-90) && latitude <= Degrees::ofWhole(90), "a latitude is one");
    require(longitude > Degrees::ofWhole(-180) && longitude <= Degrees::ofWhole(180), "a longitude is one");
    require(readGeo(geoUri(*read.point)).point == read.point, "a place written as an address is read as the same place");
    require(readGeo(latitude.text() + ", " + longitude.text()).point == read.point, "and as two figures");
    const auto km = greatCircleKm(latitude.toDouble(), longitude.toDouble(), 0, 0);
    require(std::isfinite(km) && km >= 0 && km <= earthRadiusKm * 3.1416, "no place is further away than the other side of the earth");
}

}

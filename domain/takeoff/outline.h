#pragma once

#include "takeoff/takeoff.h"

namespace strikeoff {

/// The outline of a polygon read from its corner points.
struct Outline {
    std::vector<Point> corners;  ///< feet, anticlockwise, the first not repeated at the end
    double areaSqft = 0;         ///< shoelace formula on whole ten-thousandths of a foot, so it is exact before the last division
    double perimeterFt = 0;
    std::string fault;           ///< why it bounds no area, or empty
};

/// Corners written twice in a row, and the first one again at the end, count once.
Outline readOutline(std::string_view points);

}

#include "takeoff/outline.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

constexpr std::int64_t unitsPerFoot = 10'000;
constexpr std::int64_t farthest = std::int64_t{4} * 5280 * unitsPerFoot;  // keeps every product below far inside its type

/// Which way the road from a over b to c turns: 1 left, −1 right, 0 straight on or back.
int turn(Corner a, Corner b, Corner c)
{
    const auto cross = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
    return cross > 0 ? 1 : cross < 0 ? -1 : 0;
}

/// Whether a point in line with a and b lies between them, ends included.
bool between(Corner a, Corner b, Corner point)
{
    return std::min(a.x, b.x) <= point.x && point.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= point.y && point.y <= std::max(a.y, b.y);
}

/// Whether two edges share a point.
bool meet(Corner a, Corner b, Corner c, Corner d)
{
    const int abc = turn(a, b, c);
    const int abd = turn(a, b, d);
    const int cda = turn(c, d, a);
    const int cdb = turn(c, d, b);
    if (abc != abd && cda != cdb) return true;
    return (abc == 0 && between(a, b, c)) || (abd == 0 && between(a, b, d)) || (cda == 0 && between(c, d, a)) || (cdb == 0 && between(c, d, b));
}

/// Whether two edges that are no neighbors share a point. A spike out and back is found too: its way back ends on, or goes past, a corner of an
/// edge that is no neighbor of it.
bool crossesItself(const std::vector<Corner>& corners)
{
    const auto count = corners.size();
    const auto at = [&](std::size_t i) { return corners[i % count]; };
    for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = i + 2; j < count; ++j)
            if ((j + 1) % count != i && meet(at(i), at(i + 1), at(j), at(j + 1))) return true;
    return false;
}

Outline faulty(std::string fault)
{
    Outline outline;
    outline.fault = std::move(fault);
    return outline;
}

}

Outline readOutline(std::string_view points)
{
    auto read = parsePoints(points);
    if (!read) return faulty("Points are no corners; write at least three, in feet, such as 0 0; 12 0; 12 8.5");
    auto& corners = *read;
    corners.erase(std::unique(corners.begin(), corners.end()), corners.end());
    while (corners.size() > 1 && corners.front() == corners.back()) corners.pop_back();
    if (corners.size() < 3) return faulty("Points are fewer than three corners; add the missing ones");
    for (const auto& corner : corners)
        if (std::max(std::abs(corner.x), std::abs(corner.y)) > farthest)
            return faulty("Points lie more than 4 miles out; correct the corner that is wrong");

    Int128 twice = 0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const auto& a = corners[i];
        const auto& b = corners[(i + 1) % corners.size()];
        twice += static_cast<Int128>(a.x) * b.y - static_cast<Int128>(b.x) * a.y;
    }
    if (std::all_of(corners.begin(), corners.end(), [&](const Corner& c) { return turn(corners[0], corners[1], c) == 0; }))
        return faulty("Points lie all in one line; correct a corner");
    if (crossesItself(corners))
        return faulty("Points make an outline that crosses or touches itself; go round it in order, and use a deduction for an opening");

    Outline outline;
    if (twice < 0) {
        twice = -twice;
        std::reverse(corners.begin(), corners.end());
    }
    outline.areaSqft = static_cast<double>(twice) / 2 / static_cast<double>(unitsPerFoot * unitsPerFoot);
    const auto feet = [](std::int64_t units) { return static_cast<double>(units) / static_cast<double>(unitsPerFoot); };
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const auto& next = corners[(i + 1) % corners.size()];
        outline.corners.push_back({feet(corners[i].x), feet(corners[i].y)});
        outline.perimeterFt += std::hypot(feet(next.x - corners[i].x), feet(next.y - corners[i].y));
    }
    return outline;
}

}

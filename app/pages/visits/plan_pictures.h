#pragma once

#include "labels.h"
#include "route_map.h"
#include "window_strip.h"
#include "visits/planner/visit_plan.h"

namespace strikeoff {

/// The plan as days across with a row a visit, in the plan's order but what is late first.
struct PlanStrip {
    WindowStrip strip;
    std::vector<std::size_t> rows;  ///< by row of the strip: the plan's
};
PlanStrip stripOf(const VisitPlan& plan);

/// A day's runs on the map, from the shop or from where the crew pours. Places without coordinates put all places on a ring.
struct PlanMap {
    RouteMap map;
    std::vector<std::optional<std::size_t>> rows;  ///< by place of the map: the first visit there, by the plan's row
};
PlanMap routeMapOf(const VisitPlan& plan, int day, std::optional<std::size_t> chosenRow);

/// "Seal · Orchard Street".
QString rowName(const PlanRow& row);

}

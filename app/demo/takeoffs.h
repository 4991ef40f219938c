#pragma once

#include "demo/world.h"

namespace strikeoff::demo {

/// Measures a job near the area asked for: adds its takeoff sections and fills in the plan's area, volume, perimeter and order.
void makeTakeoff(World& world, JobPlan& plan, Random& random);

}

#pragma once

namespace strikeoff {

/// Prints the planner's figures over made-up weeks: the time of a plan as a ratio to a bare nearest-neighbor pass, how many plans were proven best,
/// for two full weeks and for one, and the exact order of a day of twelve stops. A short run looks at fewer weeks.
void benchPlans(bool isShort);

}

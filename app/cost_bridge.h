#pragma once

#include "waterfall.h"

#include "cost/explanation.h"

namespace strikeoff {

/// From what a job was bid to what it cost, cause by cause, in whole dollars.
Waterfall bridgeOf(const JobExplanation& explained);

}

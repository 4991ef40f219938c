#pragma once

#include "quantity/moment.h"
#include "record/visit.h"
#include "weather/weather.h"

#include <string>
#include <vector>

namespace strikeoff {

/// The hours of a day something can be done in. What is in neither list is shut; what is in `unknown` nobody can say, and it is never to be taken as open.
struct DayHours {
    std::vector<ClockSpan> open;     ///< passes every gate by what is forecast
    std::vector<ClockSpan> unknown;  ///< nothing known speaks against it, but something it needs is not forecast
    std::string why;                 ///< why the day, or part of it, is shut or unknown; empty when all of it is open

    bool isShut() const { return open.empty() && unknown.empty(); }
    bool isUnknown() const { return open.empty() && !unknown.empty(); }
};

/// The hours of a day a product can go on by its label: air and surface at or over the lowest while it goes on, air over the lowest for the warm
/// hours after, no rain while it goes on and for the dry hours after. The surface is taken as the lower of the air and the mean air of the six
/// hours before (common practice, no source): the owner's thermometer goes over it, and the label over both. A gate the product does not record is open.
DayHours gateHours(const FinishingProduct& product, const Weather& weather, Date date);

}

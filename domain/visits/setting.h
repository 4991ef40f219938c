#pragma once

#include "quantity/moment.h"
#include "record/book.h"
#include "weather/weather.h"

#include <optional>
#include <string>
#include <vector>

namespace strikeoff {

/// When a pour was finished, or will be as far as can be told.
struct PourFinish {
    Moment at;
    bool estimated = false;
};

/// When a pour's surface will take the broom.
struct FinishEstimate {
    Moment broom;      ///< as likely before as after
    Moment early;      ///< one pour in ten is broomed before
    Moment late;       ///< one in ten after: early to late is the 80 % range
    int ownPours = 0;  ///< how many of the shop's own pours it rests on
    bool weatherKnown = false;
    std::string sentence;
};

class FinishEstimator;

}

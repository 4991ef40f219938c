#pragma once

#include "visits/windows.h"

#include <string>
#include <vector>

namespace strikeoff::day {

/// What the forecast of a day says against a pour planned for it: cold, frost in the ground, drying, heat and cold for the crew, each in a few words; that
/// there is no forecast is one of them. Rain is left to the caller.
std::vector<std::string> pourWarnings(const Book& book, const VisitWindows& windows, const Pour& pour, Date day);

/// What the forecast of a day says against a sealing visit: no hour passes its product's gates, or nobody knows, or not the hour it is planned for.
std::vector<std::string> sealWarnings(const VisitWindows& windows, const Visit& visit, Date day);

}

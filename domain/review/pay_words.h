#pragma once

#include "review/what_pays.h"

namespace strikeoff {

/// Fills the sentences of a review whose figures are in place.
void writeWords(WhatPays& review, std::size_t leftOut);

/// "concrete price", "labor pace (place)", "forms (not in the bid)": a driver as a sentence names it.
std::string driverWords(const PayDriver& driver);
/// Dollars per crew-hour in whole dollars with a real minus sign: "$61", "−$4".
std::string wholeDollars(double dollars);
/// A chance as people say it: "one in eight", "less than one in a hundred"; by the nearest simple share.
std::string chanceWords(double chance);

}

#pragma once

#include "quantity/date.h"
#include "quantity/decimal.h"

#include <span>
#include <string>
#include <string_view>

namespace strikeoff {

/// A count as a sentence carries it: "no", "one" … "twelve", then digits with thousands marks, "1,204".
std::string inWords(std::int64_t count);
/// A count with its noun: "one job", "three jobs", "no jobs".
std::string counted(std::int64_t count, std::string_view one, std::string_view many);
/// With a capital first letter (ASCII; anything else stays as it is).
std::string capitalized(std::string text);
/// "a", "a and b", "a, b and c".
std::string listed(std::span<const std::string> parts);
/// "$1,234.50", "−$12.00".
std::string dollars(Money amount);
/// A temperature in whole degrees: "41 °F", "−4 °F".
std::string degreesText(double f);
/// A day as read on another day: "today", "tomorrow", "yesterday", "Wed Nov 25"; with its year when that is more than 90 days off.
std::string dayText(Date day, Date seenFrom);

}

#pragma once

#include <string_view>

namespace strikeoff {

/// Edits between two texts (UTF-8, by characters): one put in, taken out or changed, or two neighbors swapped, counts one; no piece is edited twice
/// ("optimal string alignment"). More than `most` is `most` + 1, found out early. Bytes that are no UTF-8 count as a character each.
int editsBetween(std::string_view a, std::string_view b, int most = 1'000'000);

}

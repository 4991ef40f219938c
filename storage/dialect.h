#pragma once

#include <string>

namespace strikeoff {

/// What differs between engines, and nothing else: the words of a schema statement.
std::string expanded(std::string statement);

}

#pragma once

#include <span>
#include <string>

namespace strikeoff {

/// Runs one verb (or the window) and returns the exit status: 0 done, 1 a fault that is printed, 2 wrong usage, 3 an answer that needs the owner.
int runCommandLine(std::span<const std::string> arguments);

}

#pragma once

#include "quantity/date.h"

#include <functional>
#include <iosfwd>
#include <span>
#include <string>

namespace strikeoff {

/// What the command line runs in: where it prints, what day it is, and how the window is opened on a book ("" for none yet).
struct Surroundings {
    std::ostream& out;
    std::ostream& err;
    Date today;
    std::function<int(const std::string& book)> openWindow;
};

/// Runs one verb, or opens the window when there is none, and returns the exit status: 0 done, 1 the input or the book has a fault that is
/// printed, 2 wrong usage, 3 an answer that needs the owner. `arguments` are those behind the program's name. Nothing is thrown.
int runCommandLine(std::span<const std::string> arguments, const Surroundings& surroundings);

}

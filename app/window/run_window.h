#pragma once

#include <string>

namespace strikeoff {

/// Opens the window, on a book when a path is given, and runs until it is closed. Returns the exit status.
int runWindow(int& argc, char** argv, const std::string& book);

}

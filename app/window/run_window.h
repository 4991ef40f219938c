#pragma once

#include "window/main_window.h"

#include <string>

namespace strikeoff {

/// Books in files. One whose file nobody may write, or that this user may not, is opened to look only.
BookShelf booksInFiles();

/// Opens the window, on a book when a path is given, and runs until it is closed. Returns the exit status.
int runWindow(int& argc, char** argv, const std::string& book);

}

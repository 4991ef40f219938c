#pragma once

#include "app/application.h"
#include "command_line.h"

#include <sstream>
#include <string>
#include <vector>

namespace strikeoff::test {

struct Printed {
    int status = 0;
    std::string out;
    std::string err;
};

/// Runs the command line on 1 July 2026; a window that would be opened is noted in `out`.
inline Printed run(const std::vector<std::string>& arguments)
{
    application();
    std::ostringstream out;
    std::ostringstream err;
    const auto openWindow = [&](const std::string& book) {
        out << "window on [" << book << ']';
        return 0;
    };
    const int status = runCommandLine(arguments, {out, err, *Date::of(2026, 7, 1), openWindow});
    return {status, out.str(), err.str()};
}

}

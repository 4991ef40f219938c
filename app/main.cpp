#include "command_line.h"
#include "window/run_window.h"

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <string>
#include <vector>

#include <sys/stat.h>

namespace {

strikeoff::Date systemToday()
{
    const auto now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    return strikeoff::Date::of(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday).value_or(strikeoff::Date{});
}

bool isSet(const char* variable)
{
    const auto* value = std::getenv(variable);
    return value && *value;
}

}

int main(int argc, char** argv)
{
    ::umask(077);  // whatever is written is the owner's alone, also what a library writes for us, such as a printed PDF
    const std::vector<std::string> arguments(argv + (argc > 0 ? 1 : 0), argv + argc);
    const auto openWindow = [&](const std::string& book) {
        if (!isSet("DISPLAY") && !isSet("WAYLAND_DISPLAY") && !isSet("QT_QPA_PLATFORM")) {
            std::cerr << "strikeoff: there is no display to open the window on; strikeoff --help lists what it can print\n";
            return 1;
        }
        return strikeoff::runWindow(argc, argv, book);
    };
    return strikeoff::runCommandLine(arguments, {std::cout, std::cerr, systemToday(), openWindow});
}

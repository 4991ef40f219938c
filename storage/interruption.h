#pragma once

#include "database.h"

#include <chrono>
#include <functional>

namespace strikeoff {

/// While it lives, the engine of a file asks now and then, in the middle of a long statement, whether it is to go on. A server is not asked.
class Interruption {
public:
    Interruption(const Database& database, std::function<bool()> goesOn);
    ~Interruption();
    Interruption(const Interruption&) = delete;
    Interruption& operator=(const Interruption&) = delete;

    /// Does the work; false when it was broken off because it was to stop.
    bool ran(const std::function<void()>& work);

private:
    bool isToStop();

    sqlite3* handle_;
    std::function<bool()> goesOn_;
    std::chrono::steady_clock::time_point asked_{};
    bool isStopped_ = false;
};

}

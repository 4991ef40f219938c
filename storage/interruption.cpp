#include "interruption.h"

#include <sqlite3.h>

namespace strikeoff {

namespace {

constexpr int stepsBetween = 20'000;  // of the engine, a few milliseconds
constexpr std::chrono::milliseconds timeBetween{30};

}

Interruption::Interruption(const Database& database, std::function<bool()> goesOn) : handle_{database.handle()}, goesOn_{std::move(goesOn)}
{
    if (handle_) sqlite3_progress_handler(handle_, stepsBetween, [](void* self) { return static_cast<Interruption*>(self)->isToStop() ? 1 : 0; }, this);
}

Interruption::~Interruption()
{
    if (handle_) sqlite3_progress_handler(handle_, 0, nullptr, nullptr);
}

bool Interruption::ran(const std::function<void()>& work)
{
    try {
        work();
    } catch (const StorageError&) {
        if (!isStopped_) throw;
    }
    return !isStopped_;
}

bool Interruption::isToStop()
{
    const auto now = std::chrono::steady_clock::now();
    if (now - asked_ < timeBetween) return isStopped_;
    asked_ = now;
    isStopped_ = isStopped_ || !goesOn_();
    return isStopped_;
}

}

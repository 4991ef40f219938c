#include "bench_of_harm.h"

#include <atomic>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <thread>

#include <QCoreApplication>

namespace strikeoff::faults {

namespace {

void control(const char* what)
{
    const auto command = qEnvironmentVariable("STRIKEOFF_TEST_SERVER_CONTROL").toStdString() + ' ' + what + " >/dev/null 2>&1";
    require(std::system(command.c_str()) == 0, std::string{"the server does as it is told: "} + what);
}

}

int serverStops(const Call& call)
{
    if (Ground::server().empty()) {
        std::fprintf(stderr, "this needs a server: tests/server/with_server faults server\n");
        return 77;
    }
    const Ground ground;
    const auto path = ground.book("stops");
    Store::create(path);
    const int stops = call.isLong ? 100 : 6;
    std::atomic<bool> over{false};
    std::atomic<int> lost{0}, saved{0};
    std::string failure;
    // The desk: an edit that could not be saved is saved once more, as its form would, until it is done.
    std::thread desk{[&] {
        try {
            const auto store = opened(path);
            while (!over) {
                const auto edit = threeRows("Step " + std::to_string(saved));
                while (true) {
                    try {
                        if (const auto result = store->commit(edit); !result.done()) throw StorageError{result.text()};
                        break;
                    } catch (const ConnectionLost&) {
                        ++lost;
                        std::this_thread::sleep_for(std::chrono::milliseconds{20});
                    }
                }
                ++saved;
            }
        } catch (const std::exception& error) {
            failure = error.what();
        }
    }};
    std::mt19937 random{call.seed};
    for (int i = 0; i < stops; ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds{std::uniform_int_distribution<int>{50, 300}(random)});
        control(i % 3 == 0 ? "stop" : "crash");
        control("start");
    }
    std::this_thread::sleep_for(std::chrono::milliseconds{200});
    over = true;
    desk.join();
    require(failure.empty(), "a desk gets through every stop: " + failure);
    require(saved > 0 && lost > 0, "the desk wrote between the stops, and met them");
    const auto store = opened(path);
    for (int i = 0; i < saved; ++i) {
        const int rows = rowsOf(store->book(), "Step " + std::to_string(i));
        require(rows == 3, "what was reported done is there once: step " + std::to_string(i) + " has " + std::to_string(rows) + " of 3 rows");
    }
    require(static_cast<int>(store->book().all<Customer>().size()) == saved, "nothing else is there");
    require(faultsOf(*store).empty(), "the book passes verify: " + faultsOf(*store));
    std::printf("the server stopped or broken off %d times while a desk wrote: %d edits saved, each once, after %d times of \"the server does not answer\"; verify passes\n", stops, saved.load(),
                lost.load());
    return 0;
}

}

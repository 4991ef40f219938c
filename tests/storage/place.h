#pragma once

#include "store.h"

#include <QTemporaryDir>

#include <atomic>
#include <chrono>
#include <functional>
#include <memory>
#include <string>
#include <thread>
#include <unistd.h>

namespace strikeoff::test {

/// Where a test's books lie: a folder of its own, or, when STRIKEOFF_TEST_SERVER names a database on a server, a schema for each book.
struct Folder {
    QTemporaryDir dir;
    int number = nextNumber();

    static int nextNumber()
    {
        static std::atomic<int> count{0};
        return ++count;
    }
    static std::string server() { return qEnvironmentVariable("STRIKEOFF_TEST_SERVER").toStdString(); }

    std::string file(const char* name = "book.strikeoff") const
    {
        if (server().empty()) return ownFile(name);
        auto book = std::string{name};
        book = book.substr(0, book.find('.'));
        return server() + "?book=t" + std::to_string(getpid()) + '_' + std::to_string(number) + '_' + book;
    }
    /// A file whatever the engine.
    std::string ownFile(const char* name) const { return dir.filePath(QString::fromUtf8(name)).toStdString(); }
    std::unique_ptr<Store> fresh(const char* name = "book.strikeoff") const
    {
        Store::create(file(name));
        return Store::open(file(name));
    }
};

/// What an action says it cannot do; blank when it was done.
inline std::string messageOf(const std::function<void()>& action)
{
    try {
        action();
    } catch (const StorageError& error) {
        return error.what();
    }
    return {};
}

/// Whether a store takes in what another one did within the two seconds that are promised; a server tells of it when it gets to it.
inline bool refreshedSoon(Store& store)
{
    for (int i = 0; i < 200; ++i) {
        if (store.refresh()) return true;
        std::this_thread::sleep_for(std::chrono::milliseconds{10});
    }
    return false;
}

}

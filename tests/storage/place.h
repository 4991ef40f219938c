#pragma once

#include "store.h"

#include <QTemporaryDir>

#include <atomic>
#include <memory>
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

}

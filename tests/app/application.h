#pragma once

#include <QApplication>

#include "desk.h"
#include "preferences.h"
#include "store.h"

#include <QTemporaryDir>

#include <memory>

namespace strikeoff::test {

/// The one application of the test program, without a screen.
QApplication& application();

/// A fresh book in a folder of its own, and a desk to work at on a fixed day.
struct Office {
    Office();
    QTemporaryDir folder;
    std::string path;
    Preferences preferences;
    std::unique_ptr<Store> store;
    std::unique_ptr<Desk> desk;

    const Book& book() const { return store->book(); }
    /// Commits and requires that it went through; the ids of the rows.
    std::vector<std::int64_t> commit(const Edit& edit);
    Id<Customer> addCustomer(const char* name, const char* note = "");
    Id<Job> addJob(Id<Customer> customer, const char* title);
};

inline Date day(const char* iso) { return *Date::parse(iso); }

/// Lets queued work happen.
void settle();

}

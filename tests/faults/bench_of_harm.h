#pragma once

#include "load.h"
#include "store.h"

#include <QTemporaryDir>

#include <map>
#include <random>
#include <string>

namespace strikeoff::faults {

/// A promise that was not kept ends the program with a line that says which.
void require(bool kept, const std::string& promise);

/// How a program was called.
struct Call {
    bool isLong = false;
    unsigned seed = 1;
};

/// Where the books of a program lie: a folder of its own, and the server when there is one.
struct Ground {
    QTemporaryDir folder;
    static std::string server();
    std::string file(const std::string& name) const;
    /// A file, or a book on the server of STRIKEOFF_TEST_SERVER.
    std::string book(const std::string& name) const;
};

std::map<RecordKind, std::string> dumpOf(const Book& book);
/// Opens a book, retrying while its server comes back.
std::unique_ptr<Store> opened(const std::string& path, bool readOnly = false);
/// Findings of verify as lines, blank when there are none.
std::string faultsOf(const Store& store);

/// One edit of three rows that belong together: a customer and two jobs of theirs, all named by the tag.
Edit threeRows(const std::string& tag);
/// How many of the three rows are there.
int rowsOf(const Book& book, const std::string& tag);
/// A CSV of many customers, all named by the tag.
std::string manyCustomers(const std::string& tag, int count);
int customersOf(const Book& book, const std::string& tag);

int damage(const Call& call);
int disks(const Call& call);
int fight(const Call& call);
int kill(const Call& call);
int serverStops(const Call& call);

}

#pragma once

#include "record/kind.h"

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace strikeoff {

class Book;
class Store;

/// The rows of a kind as CSV: a heading of the field names, then the rows in the order of their ids, cells as fileText has them, a
/// reference by the name or number the owner sees. What loadCsv reads back exactly.
std::string dumpCsv(const Book& book, RecordKind kind);

/// What is wrong in a file: where, and what to do.
struct LoadFault {
    std::size_t line = 0;  ///< in the file, from 1
    std::string column;    ///< as the heading of the kind has it; blank when the line as a whole is meant
    std::string message;
};

struct LoadResult {
    std::size_t added = 0;
    std::size_t changed = 0;
    std::size_t unchanged = 0;
    bool stopped = false;           ///< by the progress callback; nothing was changed
    std::vector<LoadFault> faults;  ///< in the order of lines; no more than LoadResult::mostFaults of them are kept
    std::size_t faultCount = 0;     ///< of all faults found

    static constexpr std::size_t mostFaults = 1'000;

    bool done() const { return faultCount == 0 && !stopped; }
    /// The faults as "FILE:LINE: column NAME: message", one a line, the first `most` of them and how many more there are.
    std::string faultText(std::string_view fileName, std::size_t most = 50) const;
};

struct LoadOptions {
    std::function<bool(int percent)> progress;  ///< asked now and then; stops the work by returning false
    bool checkOnly = false;                     ///< find the faults and count the rows, and change nothing
};

/// Adds or updates rows of a kind from CSV, all in one edit or, when any row has a fault, none. Columns stand in any order under the
/// kind's field names (capitals do not matter, a space or dash stands for "_"); those the kind requires must be there. A row whose key
/// is in the book updates that row, columns that the file has not keep their value; any other row is added, with defaults for what is
/// blank or missing and a number from the book where it gives them. `fileName` names the edit in the trail. Throws StorageError.
LoadResult loadCsv(Store& store, RecordKind kind, std::string_view fileName, std::string_view bytes, const LoadOptions& options = {});

}

#pragma once

#include "restore.h"

#include <memory>

namespace strikeoff {

/// How a copy of a book came to be.
enum class CopyOrigin { daily, beforeNewVersion, beforeRestore, own };

/// A copy of a book in a file.
struct BookCopy {
    std::string file;
    CopyOrigin origin{};
    std::string day;  ///< the day it was made, as YYYY-MM-DD
    std::string at;   ///< and when the file was written, local time as YYYY-MM-DDTHH:MM:SS
    std::int64_t bytes = 0;
    bool isSealed = false;
};

/// The copies of a book that are known of, newest first: its daily ones, those kept when it was brought forward or restored, and the owner's own, whose
/// places are given (what is no longer there is left out).
std::vector<BookCopy> copiesOf(const std::string& book, const std::vector<std::string>& own = {});

/// A copy opened to look something up. What had to be made for it (unsealed, or brought forward) goes with it.
struct OpenedCopy {
    std::shared_ptr<void> made;
    std::unique_ptr<Store> store;  ///< read-only
};
/// Opens a copy to be read only, the copy staying as it is. One that is sealed or of an older version is opened as a private working copy beside `besides`
/// (the book), which is gone afterwards. Throws StorageError.
OpenedCopy openCopy(const std::string& copy, const std::string& besides, const AskPassPhrase& askPhrase = {});

/// Whether a file holds a copy of this book, earlier or later, and not another book; a sealed one is taken for a copy, as nobody can see. Not for the file of
/// the open book itself.
bool mayBeCopyOf(const std::string& copy, const Store& store);

/// Removes copies for good, with what lies beside them; the files that could not be removed come back. Only the name is taken: what the disk itself
/// keeps is out of reach.
std::vector<std::string> removeCopies(const std::vector<std::string>& files);

}

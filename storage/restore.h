#pragma once

#include "store.h"

namespace strikeoff {

/// Asks for the pass phrase of a sealed copy; nothing when the owner would rather not.
using AskPassPhrase = std::function<std::optional<std::string>()>;

struct Restored {
    std::vector<VerifyFinding> findings;  ///< what is wrong with the copy; then nothing was done
    std::string kept;                     ///< where the book is now that was there before; blank when there was none
    bool isStopped = false;               ///< the owner stopped it; then nothing was done
};

/// Puts a copy (a book, or one sealed with a pass phrase) in the place of a book. The copy is verified first and stays as it is; a file that is there is kept
/// beside it under another name. A book on a server is kept as a file among its copies, and whoever has it open comes to the new one at once and is told. Ids
/// and numbers that were given out since are not given out again. `progress` gets per cent and stops the work by returning false. Throws StorageError,
/// everything then being as before.
Restored restoreBook(const std::string& copy, const std::string& book, const AskPassPhrase& askPhrase = {}, const AskPassword& askPassword = {},
                     const std::function<bool(int percent)>& progress = {});

/// Writes a sealed copy of an open book into a new file and reads it back. Throws StorageError; leaves nothing half.
void backupSealed(const Store& store, const std::string& file, const std::string& passPhrase);

}

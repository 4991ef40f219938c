#pragma once

#include "store.h"

namespace strikeoff {

/// Writes the demonstration book into a new file and leaves it open. Throws StorageError, also when the file is there already; leaves nothing half
/// written behind.
std::unique_ptr<Store> writeDemonstrationBook(const std::string& path);

}

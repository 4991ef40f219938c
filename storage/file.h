#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace strikeoff {

inline constexpr std::size_t mostBytesInFile = std::size_t{512} << 20;

/// The bytes of a file, at most 512 MiB of them; or nothing, and in fault a line that names the path and the reason (missing, a
/// directory, not readable, too large).
std::optional<std::string> readWholeFile(const std::filesystem::path& path, std::string& fault);

/// What to do when a file of that name is there already.
enum class IfThere { replace, refuse };

/// Writes a file that only its owner may read (mode 0600), whole or not at all: the bytes go to a file beside it, which takes the name
/// once they are on the disk. A file it replaces stays as it was until then; a link is followed; a book or a sealed copy is never replaced. On
/// failure false, and in fault a line that names the path and the reason.
bool writePrivateFile(const std::filesystem::path& path, std::string_view bytes, std::string& fault, IfThere ifThere = IfThere::replace);

}

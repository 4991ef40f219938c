#include "book_header.h"

#include "database.h"
#include "schema.h"
#include "server_address.h"

#include <QFileInfo>

#include <cerrno>
#include <cstdint>
#include <cstring>
#include <sqlite3.h>
#include <string_view>
#include <unistd.h>
#include <vector>

namespace strikeoff {

namespace {

constexpr std::size_t headerSize = 100;
constexpr std::string_view databaseMark{"SQLite format 3\0", 16}, sealedMark = "STRIKEOFF SEALED";

struct Head {
    std::string bytes;     ///< as many of the first hundred as there are
    std::int64_t size = 0; ///< of the file, seen after its bytes
    // Seen between the two: once a log is gone, what was in it is in the file.
    bool hasLog = false;
    bool hasJournal = false;
};

bool hasBytes(const std::string& file) { return QFileInfo{QString::fromStdString(file)}.size() > 0; }

/// Reads through the engine's own file layer. A file opened and closed by other means would take away the locks that this program holds on the same book
/// (POSIX locks go with the first descriptor that is closed), and another program that closes it would then remove the log under our feet.
Head readHead(const std::string& path)
{
    auto* system = sqlite3_vfs_find(nullptr);
    std::vector<char> room(static_cast<std::size_t>(system->mxPathname) + 1);
    const auto failed = [&](const std::string& why) { return StorageError{"cannot read " + path + ": " + why + "; check its permissions"}; };
    if (::access(path.c_str(), R_OK) != 0) throw failed(std::strerror(errno));
    if (system->xFullPathname(system, path.c_str(), static_cast<int>(room.size()), room.data()) != SQLITE_OK) throw failed("its name is too long");
    // The engine reads options behind a database's name, none of which there are.
    std::string name{room.data()};
    name.append(4, '\0');

    std::vector<std::max_align_t> place(static_cast<std::size_t>(system->szOsFile) / sizeof(std::max_align_t) + 1);
    auto* file = reinterpret_cast<sqlite3_file*>(place.data());
    file->pMethods = nullptr;
    const int code = system->xOpen(system, name.c_str(), file, SQLITE_OPEN_READONLY | SQLITE_OPEN_MAIN_DB, nullptr);
    if (code != SQLITE_OK) {
        if (file->pMethods) file->pMethods->xClose(file);
        throw failed(sqlite3_errstr(code));
    }
    Head head;
    head.bytes.assign(headerSize, '\0');
    const int read = file->pMethods->xRead(file, head.bytes.data(), static_cast<int>(headerSize), 0);
    head.hasLog = hasBytes(path + "-wal");
    head.hasJournal = hasBytes(path + "-journal");
    sqlite3_int64 size = 0;
    const int sized = file->pMethods->xFileSize(file, &size);
    file->pMethods->xClose(file);
    if (read != SQLITE_OK && read != SQLITE_IOERR_SHORT_READ) throw failed("the disk did not answer");
    if (sized != SQLITE_OK) throw failed("the disk did not answer");
    head.size = size;
    return head;
}

std::uint32_t bigEndian(std::string_view bytes, std::size_t at)
{
    std::uint32_t value = 0;
    for (auto i = at; i < at + 4; ++i) value = (value << 8) | static_cast<unsigned char>(bytes[i]);
    return value;
}

}

/// Header layout: SQLite's database file format, section 1.3.
void requireBook(const std::string& path)
{
    const QFileInfo info{QString::fromStdString(path)};
    if (info.isDir()) throw StorageError{path + " is a folder; name the book inside it"};
    if (!info.exists()) {
        const auto named = withoutPassword(path);  // what was meant as an address of another kind
        throw StorageError{"there is no book " + named + "; begin one with: strikeoff new " + named};
    }
    if (!info.isFile()) throw StorageError{path + " is a device or a pipe, not a Strikeoff book"};  // which opening could wait for forever
    const auto head = readHead(path);
    const std::string_view header{head.bytes};
    if (header.starts_with(sealedMark)) throw StorageError{path + " is a copy sealed with a pass phrase; bring it back with: strikeoff restore " + path + " BOOK"};
    // With nothing in the file the engine would throw away what is in the log.
    if (head.size == 0) throw StorageError{path + " is empty, and not a Strikeoff book; go back to a copy, or remove it to begin anew"};
    if (head.size < static_cast<std::int64_t>(headerSize) || !header.starts_with(databaseMark)) throw StorageError{path + " is not a Strikeoff book"};
    auto application = static_cast<std::int64_t>(bigEndian(header, 68));
    auto version = static_cast<std::int64_t>(bigEndian(header, 60));
    // A book whose program was killed while it was begun may have its first page in the log alone.
    if (head.hasLog && application == 0) {
        Database database{path, Database::Mode::readOnly};
        application = database.number("PRAGMA application_id");
        version = database.number("PRAGMA user_version");
    }
    if (application != applicationId) throw StorageError{path + " is a database of another program, not a Strikeoff book"};
    requireKnownVersion(path, version);
    if (head.hasLog || head.hasJournal) return;
    std::int64_t pageSize = (static_cast<unsigned char>(header[16]) << 8) | static_cast<unsigned char>(header[17]);
    if (pageSize == 1) pageSize = 65536;
    const std::int64_t pages = bigEndian(header, 28);
    if (bigEndian(header, 24) == bigEndian(header, 92) && pages * pageSize > head.size)
        throw StorageError{path + " is cut short: " + std::to_string(head.size) + " of " + std::to_string(pages * pageSize) + " bytes are there; go back to a copy"};
}

bool holdsBook(const std::string& path)
{
    try {
        const auto head = readHead(path);
        return head.bytes.starts_with(databaseMark) || head.bytes.starts_with(sealedMark);
    } catch (const StorageError&) {
        return false;
    }
}

}

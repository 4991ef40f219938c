#include "restore.h"

#include "carry_on.h"
#include "copies.h"
#include "database.h"
#include "file.h"
#include "replace_shared.h"
#include "schema.h"
#include "sealed_file.h"
#include "server_address.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QTemporaryDir>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <unistd.h>

namespace strikeoff {

namespace {

QString qText(const std::string& text) { return QString::fromStdString(text); }

/// A folder that nobody else sees, in the folder of a file, so that a book never leaves its own disk; gone at the end.
QTemporaryDir besides(const std::string& file)
{
    const auto folder = isServerAddress(file) ? QDir::tempPath() : QFileInfo{qText(file)}.absolutePath();
    return QTemporaryDir{folder + QStringLiteral("/.strikeoff-XXXXXX")};
}

std::string readOrThrow(const std::string& file)
{
    std::string fault;
    auto bytes = readWholeFile(file, fault);
    if (!bytes) throw StorageError{fault};
    return std::move(*bytes);
}

bool looksSealed(const std::string& file)
{
    QFile head{qText(file)};
    if (!head.open(QIODevice::ReadOnly)) throw StorageError{"cannot read " + file + ": " + head.errorString().toStdString() + "; check its name and permissions"};
    return isSealed(head.read(64).toStdString());
}

void writeOrThrow(const std::string& file, std::string_view bytes)
{
    std::string fault;
    if (!writePrivateFile(file, bytes, fault, IfThere::refuse)) throw StorageError{fault};
}

/// A name beside the book that is free: "book.strikeoff.before-restore", then "-2" and so on.
std::string freeName(const std::string& book)
{
    const auto name = book + ".before-restore";
    auto free = name;
    for (int again = 2; QFileInfo::exists(qText(free)) || QFileInfo::exists(qText(free + "-wal")); ++again) free = name + '-' + std::to_string(again);
    return free;
}

[[noreturn]] void failMove(const std::string& book)
{
    throw StorageError{"cannot put the copy in the place of " + book + ": " + std::strerror(errno) + "; check the folder"};
}

/// Whether on a server there is something in that place, which a copy may then replace. Throws when this user may not.
bool isToReplace(const std::string& book, const AskPassword& ask)
{
    {
        Database server{book, Database::Mode::readOnly, ask};
        if (!isThere(server)) return false;
    }
    requireMayReplace(book, ask);
    return true;
}

/// Lets a copy in a file go on from the book it replaces, where that can still be read.
void goOnFrom(const std::string& book, const std::string& made)
{
    Database copy{made, Database::Mode::readWrite};
    try {
        Database before{book, Database::Mode::readOnly};
        if (before.number("PRAGMA user_version") == schemaVersion && before.text("PRAGMA quick_check(1)") == "ok") carryOn(copy, before);
    } catch (const DiskFull&) {
        throw;
    } catch (const StorageError&) {
        // a damaged book is what copies are for
    }
}

/// Brings what is in the log beside a book into the book, which succeeds only when nobody else has it open. A book too damaged for that keeps its log.
void settle(const std::string& book)
{
    try {
        Database database{book, Database::Mode::readWrite};
        if (database.text("PRAGMA journal_mode = DELETE") == "delete") return;
    } catch (const FileDamaged&) {
        return;
    } catch (const FileBusy&) {
        // said below, as where the answer is another one
    }
    throw StorageError{book + " is open in another program; close it there first, nothing was changed"};
}

/// Lets the new file and the book's change names at once, so that at no moment neither is there, or one file goes by both names: what is written into it by one
/// name would be lost on whoever reads it by the other.
std::string replaceKeeping(const std::string& made, const std::string& book)
{
    settle(book);
    const auto kept = freeName(book);
    if (QFileInfo::exists(qText(book + "-wal")) && std::rename((book + "-wal").c_str(), (kept + "-wal").c_str()) != 0) failMove(book);
    ::unlink((book + "-shm").c_str());
    if (std::rename(made.c_str(), kept.c_str()) != 0) failMove(book);
    if (::renameat2(AT_FDCWD, kept.c_str(), AT_FDCWD, book.c_str(), RENAME_EXCHANGE) == 0) return kept;
    // A disk that cannot: one moment without.
    if (std::rename(kept.c_str(), made.c_str()) != 0 || std::rename(book.c_str(), kept.c_str()) != 0 || std::rename(made.c_str(), book.c_str()) != 0) failMove(book);
    return kept;
}

}

Restored restoreBook(const std::string& copy, const std::string& book, const AskPassPhrase& askPhrase, const AskPassword& ask, const std::function<bool(int)>& progress)
{
    const auto askPassword = askedOnce(ask);
    if (isServerAddress(copy)) throw StorageError{"what is restored is a copy in a file; to bring a book from a server, use move"};
    if (QFileInfo{qText(copy)}.absoluteFilePath() == QFileInfo{qText(book)}.absoluteFilePath()) throw StorageError{copy + " is the book itself; name a copy of it"};
    const QFileInfo info{qText(copy)};
    if (info.exists() && !info.isFile() && !info.isDir()) throw StorageError{copy + " is a device or a pipe, not a copy of a book"};  // which reading could wait for forever
    const auto folder = besides(book);
    if (!folder.isValid()) throw StorageError{"cannot write beside " + book + ": " + folder.errorString().toStdString() + "; check that the folder is there and may be written"};
    const auto made = folder.filePath(QStringLiteral("made")).toStdString();
    const auto laterPart = [&](int percent) { return !progress || progress(40 + percent * 3 / 5); };

    const bool isShared = isServerAddress(book);
    const bool replacesShared = isShared && isToReplace(book, askPassword);
    Restored restored;
    if (looksSealed(copy)) {
        const auto phrase = askPhrase ? askPhrase() : std::nullopt;
        if (!phrase) throw StorageError{copy + " is sealed with a pass phrase; run strikeoff at a terminal to be asked for it"};
        writeOrThrow(made, unsealed(readOrThrow(copy), *phrase, copy));
    } else {
        Database old{copy, Database::Mode::readOnly};  // with what is in a log beside it
        copyInto(old, made);
    }
    {
        const auto store = Store::open(made);  // brings an older copy forward, the copy itself staying as it is
        restored.findings = store->verify([&](int percent) {
            if (!restored.isStopped && progress && !progress(isShared ? percent * 2 / 5 : percent)) restored.isStopped = true;
            return !restored.isStopped;
        });
        if (restored.isStopped) {
            restored.findings.clear();
            return restored;
        }
        if (!restored.findings.empty()) return restored;
        if (isShared && !replacesShared) {
            restored.isStopped = !store->copyTo(book, askPassword, laterPart);
            return restored;
        }
    }
    settle(made);
    if (replacesShared) {
        restored.kept = replaceOnServer(made, book, askPassword, laterPart);
        restored.isStopped = restored.kept.empty();
        return restored;
    }
    QFile::setPermissions(qText(made), QFileDevice::ReadOwner | QFileDevice::WriteOwner);
    if (QFileInfo::exists(qText(book))) {
        settle(book);
        goOnFrom(book, made);
        settle(made);
        restored.kept = replaceKeeping(made, book);
    } else if (!QFile::rename(qText(made), qText(book))) {
        failMove(book);
    }
    return restored;
}

void backupSealed(const Store& store, const std::string& file, const std::string& passPhrase)
{
    if (QFileInfo::exists(qText(file))) throw StorageError{file + " is there already; choose another name, nothing was overwritten"};
    // What is not sealed stays on the book's own disk, where the book lies open too.
    const auto folder = besides(store.path());
    if (!folder.isValid()) throw StorageError{"cannot write beside " + store.path() + ": " + folder.errorString().toStdString()};
    const auto plain = folder.filePath(QStringLiteral("plain")).toStdString();
    store.backup(plain);
    const auto bytes = readOrThrow(plain);
    writeOrThrow(file, sealed(bytes, passPhrase));
    if (unsealed(readOrThrow(file), passPhrase, file) != bytes) {
        QFile::remove(qText(file));
        throw StorageError{"the sealed copy " + file + " does not read back as it was written; check the disk"};
    }
}

}

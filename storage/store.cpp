#include "schema.h"
#include "server_address.h"
#include "sql_store.h"

#include "labor/burden.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

namespace strikeoff {

namespace {

std::uint32_t bigEndian(const QByteArray& bytes, qsizetype at)
{
    std::uint32_t value = 0;
    for (qsizetype i = at; i < at + 4; ++i) value = (value << 8) | static_cast<unsigned char>(bytes[i]);
    return value;
}

/// Looks at the file's first bytes before any engine touches it. Header layout: SQLite's database file format, section 1.3.
void requireBook(const std::string& path)
{
    const QFileInfo info{QString::fromStdString(path)};
    if (info.isDir()) throw StorageError{path + " is a folder; name the book inside it"};
    if (!info.exists()) throw StorageError{"there is no book " + path + "; begin one with: strikeoff new " + path};
    QFile file{info.filePath()};
    if (!file.open(QIODevice::ReadOnly)) throw StorageError{"cannot read " + path + ": " + file.errorString().toStdString() + "; check its permissions"};
    const auto header = file.read(100);
    if (header.startsWith("STRIKEOFF SEALED")) throw StorageError{path + " is a copy sealed with a pass phrase; bring it back with: strikeoff restore " + path + " BOOK"};
    if (header.size() < 100 || !header.startsWith(QByteArrayLiteral("SQLite format 3\0"))) throw StorageError{path + " is not a Strikeoff book"};
    if (bigEndian(header, 68) != applicationId) throw StorageError{path + " is a database of another program, not a Strikeoff book"};
    if (bigEndian(header, 60) > schemaVersion)
        throw StorageError{path + " was written by a newer Strikeoff (schema " + std::to_string(bigEndian(header, 60)) + ", this one knows "
                           + std::to_string(schemaVersion) + "); open it with that version"};
    std::int64_t pageSize = (static_cast<unsigned char>(header[16]) << 8) | static_cast<unsigned char>(header[17]);
    if (pageSize == 1) pageSize = 65536;
    const std::int64_t pages = bigEndian(header, 28);
    // With a log beside it, part of the book may still stand there: a program killed while the log was written back leaves it so, and opening mends it.
    const bool hasLog = QFileInfo{info.filePath() + QStringLiteral("-wal")}.size() > 0;
    if (!hasLog && bigEndian(header, 24) == bigEndian(header, 92) && pages * pageSize > file.size())
        throw StorageError{path + " is cut short: " + std::to_string(file.size()) + " of " + std::to_string(pages * pageSize) + " bytes are there; go back to a copy"};
}

}

std::string CommitResult::text() const
{
    std::string text;
    for (const auto& problem : problems) text += problem.message + '\n';
    for (const auto& conflict : conflicts)
        text += "this " + std::string{describe(conflict.mine.kind).label} + (conflict.theirs ? " was changed elsewhere meanwhile; look at both versions and choose\n" : " was removed elsewhere meanwhile\n");
    if (!text.empty()) text.pop_back();
    return text;
}

namespace {

void layOutFile(const std::string& path)
{
    const auto name = QString::fromStdString(path);
    if (QFileInfo::exists(name)) throw StorageError{path + " is there already; choose another name, nothing was overwritten"};
    {
        QFile file{name};
        if (!file.open(QIODevice::WriteOnly | QIODevice::NewOnly))
            throw StorageError{"cannot begin a book at " + path + ": " + file.errorString().toStdString() + "; check that the folder is there and may be written"};
        file.setPermissions(QFileDevice::ReadOwner | QFileDevice::WriteOwner);
    }
    try {
        Database database{path, Database::Mode::readWrite};
        database.run("PRAGMA journal_mode = WAL");
        database.run("PRAGMA synchronous = FULL");
        Transaction transaction{database};
        layOut(database);
        transaction.commit();
    } catch (...) {
        for (const auto* suffix : {"", "-wal", "-shm"}) QFile::remove(name + QString::fromLatin1(suffix));
        throw;
    }
}

void layOutOnServer(const std::string& path, const AskPassword& ask)
{
    Database database{path, Database::Mode::readWrite, ask};
    Transaction transaction{database};
    if (isThere(database)) throw StorageError{"on the server there is a book or something else at " + path + " already; choose another name with ?book=NAME, nothing was overwritten"};
    layOut(database);
    transaction.commit();
}

/// Asks once, however many connections are made meanwhile.
AskPassword askedOnce(const AskPassword& ask)
{
    if (!ask) return {};
    return [ask, kept = std::make_shared<std::optional<std::string>>()](const std::string& book, bool again) {
        if (again || !*kept) *kept = ask(book, again);
        return *kept;
    };
}

}

void Store::create(const std::string& path, const OpenOptions& given)
{
    auto options = given;
    options.readOnly = options.keepDailyCopy = false;
    options.askPassword = askedOnce(given.askPassword);
    if (isServerAddress(path)) layOutOnServer(path, options.askPassword);
    else layOutFile(path);
    Edit edit{"Begin the book"};
    edit.add(Settings{});
    for (const auto& rate : startingBurden()) edit.add(rate);
    const auto begun = open(path, options)->commit(std::move(edit));
    if (!begun.done()) throw StorageError{"cannot begin a book at " + path + ": " + begun.text()};
}

std::unique_ptr<Store> Store::open(const std::string& path, const OpenOptions& options)
{
    if (!isServerAddress(path)) requireBook(path);
    return std::make_unique<SqlStore>(path, options);
}

}

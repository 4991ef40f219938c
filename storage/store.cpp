#include "book_header.h"
#include "schema.h"
#include "server_address.h"
#include "sql_store.h"

#include "labor/burden.h"

#include <QFile>
#include <QFileInfo>

namespace strikeoff {

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

/// Into a new file, in the end named otherwise.
void layOutFile(const std::string& made, const std::string& path)
{
    QFile file{QString::fromStdString(made)};
    if (!file.open(QIODevice::WriteOnly | QIODevice::NewOnly))
        throw StorageError{"cannot begin a book at " + withoutPassword(path) + ": " + file.errorString().toStdString() + "; check that the folder is there and may be written"};
    file.setPermissions(QFileDevice::ReadOwner | QFileDevice::WriteOwner);
    file.close();
    Database database{made, Database::Mode::readWrite};
    Transaction transaction{database};
    layOut(database);
    transaction.commit();
}

void layOutOnServer(const std::string& path, const AskPassword& ask)
{
    Database database{path, Database::Mode::readWrite, ask};
    Transaction transaction{database};
    if (isThere(database)) throw StorageError{"on the server there is a book or something else at " + path + " already; choose another name with ?book=NAME, nothing was overwritten"};
    layOut(database);
    transaction.commit();
}

/// What every book begins with: its settings and the usual burden.
void begin(Store& store)
{
    Edit edit{"Begin the book"};
    edit.add(Settings{});
    for (const auto& rate : startingBurden()) edit.add(rate);
    if (const auto begun = store.commit(std::move(edit)); !begun.done()) throw StorageError{"cannot begin a book at " + store.path() + ": " + begun.text()};
}

/// The book is made under another name and gets its own when it is whole, so that a program killed meanwhile leaves no half book in the way.
void createFile(const std::string& path, const OpenOptions& options)
{
    const auto name = QString::fromStdString(path);
    if (QFileInfo::exists(name)) throw StorageError{path + " is there already; choose another name, nothing was overwritten"};
    const auto part = path + ".part";
    const auto removePart = [&] {
        for (const auto* suffix : {"", "-journal", "-wal", "-shm"}) QFile::remove(QString::fromStdString(part + suffix));
    };
    removePart();
    try {
        layOutFile(part, path);
        {
            SqlStore store{part, options};
            begin(store);
        }
        // All of it in the one file that is renamed, which a disk may have no room for.
        if (Database{part, Database::Mode::readWrite}.text("PRAGMA journal_mode = DELETE") != "delete") throw StorageError{"cannot begin a book at " + path + ": the disk is full; make room and try again"};
        if (!QFile::rename(QString::fromStdString(part), name)) throw StorageError{"cannot begin a book at " + path + ": it cannot be put in its place; check the folder"};
    } catch (...) {
        removePart();
        throw;
    }
}

}

void Store::create(const std::string& path, const OpenOptions& given)
{
    auto options = given;
    options.readOnly = options.keepDailyCopy = false;
    options.askPassword = askedOnce(given.askPassword);
    if (!isServerAddress(path)) return createFile(path, options);
    layOutOnServer(path, options.askPassword);
    open(path, options);
}

std::unique_ptr<Store> Store::open(const std::string& path, const OpenOptions& options)
{
    if (!isServerAddress(path)) requireBook(path);
    auto store = std::make_unique<SqlStore>(path, options);
    // Whoever began it was broken off before its first edit.
    if (!store->isReadOnly() && store->recentTrail(1).empty()) begin(*store);
    return store;
}

}

#include "replace_shared.h"

#include "carry_on.h"
#include "copies.h"
#include "schema.h"
#include "whole_copy.h"

#include <QFile>
#include <QFileInfo>

#include <algorithm>

namespace strikeoff {

namespace {

void requireMayReplace(Database& server)
{
    const auto& book = server.path();
    if (!mayWrite(server)) throw StorageError{"your user may only read " + book + "; going back to a copy is for whoever keeps it on the server, ask them. Nothing was changed"};
    if (server.number(server.dialect().tablesOfOthers()) > 0 || server.number(server.dialect().mayNotMakeRoom()) > 0)
        throw StorageError{"going back to a copy puts new tables in the place of those of " + book + ", which takes whoever owns the book on the server; ask them to do it. Nothing was changed"};
}

/// A free name among the copies of the book.
std::string nameOfKept(const std::string& book)
{
    const auto name = copiesFolder(book) + '/' + utcNow().substr(0, 10) + "-before-restore";
    auto free = name + ".strikeoff";
    for (int again = 2; QFileInfo::exists(QString::fromStdString(free)); ++again) free = name + '-' + std::to_string(again) + ".strikeoff";
    return free;
}

std::string freeRoom(Database& server)
{
    const auto name = server.dialect().schema + "_next";
    auto room = name;
    for (int again = 2; isThere(server, room); ++again) room = name + '_' + std::to_string(again);
    return room;
}

/// The file of what was kept, gone again unless it is to stay.
class Kept {
public:
    explicit Kept(std::string file) : file_{std::move(file)} {}
    ~Kept()
    {
        if (!stays_) QFile::remove(QString::fromStdString(file_));
    }
    Kept(const Kept&) = delete;
    Kept& operator=(const Kept&) = delete;
    const std::string& file() const { return file_; }
    void stay() { stays_ = true; }

private:
    std::string file_;
    bool stays_ = false;
};

}

void requireMayReplace(const std::string& book, const AskPassword& ask)
{
    Database server{book, Database::Mode::readWrite, ask};
    requireBookOnServer(server);
    requireMayReplace(server);
}

std::string replaceOnServer(const std::string& made, const std::string& book, const AskPassword& ask, const std::function<bool(int)>& progress)
{
    const auto share = [&](int from, int to) {
        return [&progress, from, to](int percent) { return !progress || progress(from + percent * (to - from) / 100); };
    };
    Database server{book, Database::Mode::readWrite, ask};
    requireBookOnServer(server);
    requireMayReplace(server);
    if (server.number(server.dialect().version()) != schemaVersion) migrate(server);  // which keeps it as it was as well
    // From here on nobody else writes: what is kept is what was there to the last entry.
    Transaction transaction{server};
    makeCopiesFolder(book);
    Kept kept{nameOfKept(book)};
    {
        Database reader{book, Database::Mode::readOnly, ask};
        if (!copyWhole(reader, kept.file(), {}, share(0, 40))) return {};
    }
    Database copy{made, Database::Mode::readWrite};
    {
        Database before{kept.file(), Database::Mode::readOnly};
        carryOn(copy, before);
    }
    const auto place = server.dialect();
    const auto room = freeRoom(server);
    server.setAside(room);
    if (!fillFrom(copy, server, share(40, 99))) return {};
    for (const auto& statement : place.swapIn(room, server.column(server.dialect().tables()), server.column(place.rightsBeside(room)))) server.run(statement);
    server.run(place.tellOthers());
    try {
        transaction.commit();
    } catch (const ConnectionLost&) {
        kept.stay();  // it may have come through
        throw ConnectionLost{"the connection to " + book + " broke off while the copy was put in its place; when the server is back, look which of the two it is: nothing is half done. What was there is kept at " + kept.file()};
    }
    kept.stay();
    return kept.file();
}

}

#pragma once

#include <string>
#include <vector>

namespace strikeoff {

/// What keeps a book: one file, or a server.
enum class Engine { sqlite, postgresql };

/// What differs between engines in what is said to them, and nothing else.
struct Dialect {
    Engine engine{};
    std::string schema;  ///< the book's own on a server

    /// The words of a schema statement: {id}, {int} and {strict}.
    std::string expanded(std::string statement) const;
    /// A statement with ? for its values, as the engine writes them.
    std::string withPlaces(const std::string& statement) const;

    std::string beginWriting() const;  ///< waits for the one writer there may be
    std::string waitForTurn() const;   ///< blank where beginning to write has done it
    std::string beginReading() const;  ///< one state of the book until the end
    std::string holdStill() const;     ///< so that no copy takes the place of the book meanwhile; blank where a file cannot be replaced while it is read
    std::string setAside(const std::string& room) const;  ///< what follows in the transaction is about that schema
    std::string makeRoom() const;      ///< what comes before the first table, or blank
    std::string markAsBook(long long application) const;
    std::string version() const;
    std::string setVersion(long long version) const;
    std::string looseReferences(bool allowed) const;  ///< blank where tables are never rebuilt
    std::string brokenReferences() const;             ///< the tables that hold some; blank where the engine lets none in
    std::string integrity() const;                    ///< lines other than "ok" are faults; blank where the engine has no such question
    std::string tables() const;
    std::string columnsOf(const std::string& table) const;  ///< name|TEXT or INTEGER|1 when it may not be null
    std::string foreignParts() const;                       ///< triggers and views
    std::string tablesOfOthers() const;               ///< how many tables this user does not own; blank where there are no owners
    std::string mayNotMakeRoom() const;               ///< not 0 where this user may lay out no tables aside and in the book's place
    /// What lays the tables of a schema that was made aside into the book's own place, whose tables go, in order; owners and grants stay as they were. Needs
    /// the answers of `tables` there and of `rightsBeside`.
    std::vector<std::string> swapIn(const std::string& room, std::vector<std::string> tables, const std::vector<std::string>& rights) const;
    std::string rightsBeside(const std::string& room) const;  ///< statements that give the tables made aside the owners and grants of the book's
    /// What takes out of file or tables the bytes of what was overwritten, in order; outside a transaction.
    std::vector<std::string> scrubbing(const std::vector<std::string>& tables) const;
    std::string tellOthers() const;                         ///< that the book changed; blank where they look by themselves
};

/// Whether SQLite's code means that the disk is full.
bool meansFull(int code);
/// What to do about a failure, by the engine's own code and text.
std::string sqliteReason(int code, const std::string& native);
/// By SQLSTATE, blank for a connection that could not be made or broke.
std::string postgresqlReason(const std::string& state, const std::string& native);
/// Whether an SQLSTATE means that the connection is gone.
bool meansLost(const std::string& state);

/// The same for an SQLite book, for tests and tools that hold no connection.
std::string expanded(std::string statement);

}

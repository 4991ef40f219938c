#pragma once

#include "record/check.h"
#include "record/person.h"

#include <functional>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace strikeoff {

/// Disk or database would not do it: names the task, the file and the native reason. What was in the book is unchanged.
class StorageError : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// A book has to be brought forward first, and was opened to look only.
class OlderVersion : public StorageError {
public:
    using StorageError::StorageError;
};

/// The server a book stands on does not answer. What was in the book is unchanged, as far as is known; the next commit or look for news tries again.
class ConnectionLost : public StorageError {
public:
    using StorageError::StorageError;
};

/// Asks the owner for the password of a book on a server; `again` when one was not taken. Nothing when they would rather not. It is never kept.
using AskPassword = std::function<std::optional<std::string>(const std::string& book, bool again)>;

/// A row that somebody else changed since it was looked at: both versions.
struct Conflict {
    std::size_t change = 0;     ///< place in the edit
    Row mine;                   ///< as this edit would have it
    std::optional<Row> theirs;  ///< as the book has it now; nothing when it was removed
};

/// What came of an edit. Done when there are neither problems nor conflicts; then `ids` holds the id of each change's row.
struct CommitResult {
    std::vector<Problem> problems;
    std::vector<Conflict> conflicts;
    std::vector<std::int64_t> ids;
    bool done() const { return problems.empty() && conflicts.empty(); }
    /// The problems and conflicts as sentences, one a line.
    std::string text() const;
};

/// One entry of the trail.
struct TrailEntry {
    std::int64_t id = 0;
    std::string at;    ///< UTC, ISO 8601 to the second
    std::string desk;  ///< who and where
    std::string title;
    std::string how;   ///< "do", "undo" or "redo"; "blot" for a person who was blotted out, "restore" when the book went back to a copy
};

/// What one entry did to one row, values in the form they are stored in.
struct TrailChange {
    TrailEntry entry;
    RecordKind kind{};
    std::int64_t id = 0;
    std::optional<Row> before;
    std::optional<Row> after;
};

/// A fault found by verify: where, what, and what to do.
struct VerifyFinding {
    std::string where;
    std::string what;
    std::string remedy;
};

/// What came of blotting a person out.
struct BlottedOut {
    std::size_t rows = 0;      ///< about the person
    std::size_t mentions = 0;  ///< other rows that named them
    std::size_t steps = 0;     ///< entries of the trail that were rewritten
    std::vector<std::string> stillNaming;  ///< rows that go by the same words in their own right and were left: "job_type Bell stairs"
    std::string remark;        ///< what is left to do so that nothing remains in the file or on the server; blank when all is done
};

struct OpenOptions {
    bool readOnly = false;
    bool keepDailyCopy = false;  ///< keep today's copy beside the book (last 14), once a day
    std::string desk;            ///< who and where, for the trail; user@host when empty
    AskPassword askPassword;     ///< for a book on a server that wants one and finds none in PGPASSWORD or the password file
    std::string now;             ///< UTC time for the trail, fixed (for reproducible books); the clock's when empty
};

/// An open book: the records in memory, the file behind them, and the one road for edits.
class Store {
public:
    /// Creates an empty book with sensible settings; never over an existing one. `path` is a file, or an address on a server (server_address.h). Throws StorageError.
    static void create(const std::string& path, const OpenOptions& options = {});
    /// Opens, checks what the file is, migrates forward (after a copy) and reads it whole. Throws StorageError with a clear line for a missing file, a
    /// directory, something that is no book, a newer book, a damaged or a locked one.
    static std::unique_ptr<Store> open(const std::string& path, const OpenOptions& options = {});
    virtual ~Store() = default;

    virtual const Book& book() const = 0;
    virtual const std::string& path() const = 0;
    virtual bool isReadOnly() const = 0;
    virtual std::string lastCopy() const = 0;  ///< date of the newest daily copy, or empty

    /// Checks an edit on the book as it would be, without writing: every broken rule.
    virtual std::vector<Problem> check(Edit edit) = 0;
    /// Checks, gives ids and numbers, writes rows and trail in one transaction, brings the book up to date and tells the watchers. On problems or
    /// conflicts nothing is written. Throws StorageError (disk full, file locked, …), the book then being as before.
    virtual CommitResult commit(Edit edit) = 0;

    /// Title of what undo (redo) would take back (do again), or empty.
    virtual std::string undoTitle() const = 0;
    virtual std::string redoTitle() const = 0;
    virtual CommitResult undo() = 0;
    virtual CommitResult redo() = 0;

    /// Takes in what other programs committed since; true when something changed (watchers are told).
    virtual bool refresh() = 0;

    /// Called after every change of the book, until the returned handle is dropped.
    using Watch = std::shared_ptr<void>;
    [[nodiscard]] virtual Watch watch(std::function<void()> changed) = 0;

    /// The trail of one row, oldest first; and the newest entries of the whole book, newest first.
    virtual std::vector<TrailChange> trailOf(RecordKind kind, std::int64_t id) const = 0;
    virtual std::vector<TrailEntry> recentTrail(std::size_t most) const = 0;
    /// Rows that were removed and are not in the book now, newest first; bringing one back is an edit like any other.
    virtual std::vector<TrailChange> removedRows(std::size_t most) const = 0;
    virtual CommitResult bringBack(const TrailChange& removed) = 0;
    /// Several in one step that is undone as one, in any order.
    virtual CommitResult bringBack(const std::vector<TrailChange>& removed) = 0;

    /// Blots a person out for good: in the rows about them, where else they are named, and in what the trail kept; figures and days stay (record/person.h).
    /// The trail's chain is made anew from the first entry touched, with an entry that says so; nothing of it can be undone, and no bytes are left behind in
    /// the file. Copies made before still hold the person. Throws StorageError, nothing then being changed.
    virtual BlottedOut blotOut(Person person) = 0;
    /// The entries that blotted somebody out, oldest first.
    virtual std::vector<TrailEntry> blottings() const = 0;

    /// A consistent copy of the open book, read back and checked; never over an existing file. Throws StorageError.
    virtual void backup(const std::string& file) const = 0;
    /// The whole book, trail and numbers included, to a file or a place on a server where there is none; every cell is read back and compared before it
    /// counts, and this book is left as it is. `progress` gets per cent and stops the work by returning false: then nothing is left behind and the answer is
    /// false. Throws StorageError.
    virtual bool copyTo(const std::string& to, const AskPassword& ask = {}, const std::function<bool(int percent)>& progress = {}) const = 0;
    /// Integrity of file and figures; `progress` is asked between steps and stops the work by returning false.
    virtual std::vector<VerifyFinding> verify(const std::function<bool(int percent)>& progress = {}) const = 0;
};

}

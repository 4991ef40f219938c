#pragma once

#include "database.h"
#include "numbers.h"
#include "trail.h"

#include <chrono>
#include <list>
#include <utility>

namespace strikeoff {

/// The store on an SQL engine: see Store for what each call promises.
class SqlStore final : public Store {
public:
    SqlStore(const std::string& path, const OpenOptions& options);

    const Book& book() const override { return book_; }
    const std::string& path() const override { return path_; }
    bool isReadOnly() const override { return options_.readOnly; }
    std::string lastCopy() const override;
    const std::string& copyFault() const { return copyFault_; }

    std::vector<Problem> check(Edit edit) override;
    CommitResult commit(Edit edit) override;
    std::string undoTitle() const override;
    std::string redoTitle() const override;
    CommitResult undo() override;
    CommitResult redo() override;
    bool refresh() override;
    std::string beginning() const;
    int newsSocket() const { return database_.socket(); }
    AskPassword askAsBefore() const { return database_.askAsBefore(); }
    std::optional<TrailEntry> takeReplacement() { return std::exchange(replacement_, std::nullopt); }
    Watch watch(std::function<void()> changed) override;

    std::vector<TrailChange> trailOf(RecordKind kind, std::int64_t id) const override;
    std::vector<TrailEntry> recentTrail(std::size_t most) const override;
    std::vector<TrailChange> removedRows(std::size_t most) const override;
    CommitResult bringBack(const TrailChange& removed) override;
    CommitResult bringBack(const std::vector<TrailChange>& removed) override;

    BlottedOut blotOut(Person person) override;
    std::vector<TrailEntry> blottings() const override;

    void backup(const std::string& file) const override;
    bool copyTo(const std::string& to, const AskPassword& ask, const std::function<bool(int)>& progress) const override;
    std::vector<VerifyFinding> verify(const std::function<bool(int)>& progress) const override;

private:
    /// What kind of step an edit is, for the trail and the undo stacks.
    struct Step {
        std::string how = "do";
        std::optional<std::int64_t> ofEdit;
        Freezing freezing = Freezing::kept;
    };
    CommitResult commitStep(Edit edit, const Step& step);
    CommitResult stepBackOrForth(const UndoStacks::Step& step, bool back);
    std::vector<Conflict> conflictsOf(const Edit& edit) const;
    void refreshOrRefuse();
    void beginWithFile();
    void beginOnServer();
    std::int64_t newestEdit() const;
    void readNewest();
    std::string versionOfData() const;
    static std::string versionAt(std::int64_t entry, const std::string& link);
    static std::string markOf(const std::optional<TrailEntry>& entry);
    void takeInOthers();
    bool wasRewrittenSince();
    void takeInChanges();
    void takeInWhole();
    std::optional<TrailEntry> newestReplacement() const;
    [[noreturn]] void refuseReplaced();
    std::string scrub();
    /// An edit whose commit a server broke off: done or not, which shows when it is back.
    struct Broken {
        Edit edit;
        std::int64_t id = 0;
        std::string link;  ///< in the trail's chain, which no other edit has
        std::vector<std::int64_t> ids;
    };
    void reachServer();
    CommitResult afterBreak(Broken broken);
    std::optional<CommitResult> outcomeOfBroken(const Edit& edit);
    CommitResult writeOut(Edit edit, const Step& step);
    void tell();

    std::string path_;
    OpenOptions options_;
    std::string desk_;
    std::string copyFault_;
    mutable Database database_;
    Book book_;
    Numbers numbers_;
    UndoStacks stacks_;
    std::int64_t lastEdit_ = 0;
    std::string lastLink_;  ///< of the trail's chain
    std::string dataVersion_;
    std::string replacedBy_;  ///< what tells the newest entry that says the book went back to a copy from others; blank when there is none
    std::optional<TrailEntry> replacement_;  ///< that entry, when it was taken in and nobody was told yet
    std::optional<Broken> broken_;
    bool newsWaiting_ = false;
    bool untold_ = false;  ///< others' changes were taken in and the watchers do not know yet, as when the edit that met them failed
    std::chrono::steady_clock::time_point nextTry_{};
    std::list<std::weak_ptr<std::function<void()>>> watchers_;
};

}

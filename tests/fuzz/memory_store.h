#pragma once

#include "numbers.h"
#include "store.h"

namespace strikeoff::fuzz {

/// A store with a book in memory and nothing behind it: the road of an edit without the disk. What it is not made for is refused.
class MemoryStore final : public Store {
public:
    /// Takes the commits made since out again, newest first.
    void takeAllBack()
    {
        for (auto commit = commits_.rbegin(); commit != commits_.rend(); ++commit) takeBack(book_, *commit);
        commits_.clear();
        numbers_ = kept_;
    }
    /// Lets the commits made so far stand.
    void keepAll()
    {
        commits_.clear();
        kept_ = numbers_;
    }
    std::size_t commits() const { return commits_.size(); }

    const Book& book() const override { return book_; }
    const std::string& path() const override { return path_; }
    bool isReadOnly() const override { return false; }
    std::string lastCopy() const override { return {}; }

    std::vector<Problem> check(Edit edit) override
    {
        const auto numbers = numbers_;
        numbers_.resolve(edit, book_);
        numbers_ = numbers;
        const auto outcome = applyEdit(book_, std::move(edit));
        takeBack(book_, outcome.applied);
        return outcome.problems;
    }
    CommitResult commit(Edit edit) override
    {
        const auto numbers = numbers_;
        numbers_.resolve(edit, book_);
        auto outcome = applyEdit(book_, std::move(edit));
        CommitResult result;
        result.problems = std::move(outcome.problems);
        if (!result.done()) {
            numbers_ = numbers;
            return result;
        }
        for (const auto& change : outcome.applied) result.ids.push_back(change.after ? change.after->id : change.before->id);
        commits_.push_back(std::move(outcome.applied));
        return result;
    }

    std::string undoTitle() const override { return {}; }
    std::string redoTitle() const override { return {}; }
    CommitResult undo() override { refuse(); }
    CommitResult redo() override { refuse(); }
    bool refresh() override { return false; }
    Watch watch(std::function<void()>) override { refuse(); }
    std::vector<TrailChange> trailOf(RecordKind, std::int64_t) const override { refuse(); }
    std::vector<TrailEntry> recentTrail(std::size_t) const override { refuse(); }
    std::vector<TrailChange> removedRows(std::size_t) const override { refuse(); }
    CommitResult bringBack(const TrailChange&) override { refuse(); }
    CommitResult bringBack(const std::vector<TrailChange>&) override { refuse(); }
    BlottedOut blotOut(Person) override { refuse(); }
    std::vector<TrailEntry> blottings() const override { return {}; }
    void backup(const std::string&) const override { refuse(); }
    bool copyTo(const std::string&, const AskPassword&, const std::function<bool(int)>&) const override { refuse(); }
    std::vector<VerifyFinding> verify(const std::function<bool(int)>&) const override { refuse(); }

private:
    [[noreturn]] static void refuse() { throw StorageError{"a book in memory has no file behind it"}; }

    std::string path_ = "a book in memory";
    Book book_;
    Numbers numbers_, kept_;
    std::vector<std::vector<Applied>> commits_;
};

}

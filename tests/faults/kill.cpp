#include "bench_of_harm.h"

#include "copy_list.h"
#include "restore.h"

#include <csignal>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace strikeoff::faults {

namespace {

enum class Work { commits, loads, backups, moves, begins, restores, migrations };
constexpr const char* names[]{"commits", "loads", "backups", "moves", "books begun", "restores", "migrations"};
constexpr int loadSize = 600;

std::string tagOf(int round, int step) { return "Round " + std::to_string(round) + " step " + std::to_string(step); }

/// Works until it is killed, reporting every step that was done.
[[noreturn]] void work(Work what, int round, const Ground& ground, const std::string& path, int report)
{
    try {
        std::unique_ptr<Store> store;
        if (what != Work::migrations && what != Work::restores) store = opened(path);
        for (int step = 0;; ++step) {
            const auto tag = tagOf(round, step);
            const auto name = "copy-" + std::to_string(round) + '-' + std::to_string(step);
            switch (what) {
            case Work::commits: require(store->commit(threeRows(tag)).done(), "a plain edit is taken"); break;
            case Work::loads: require(loadCsv(*store, RecordKind::customer, "rows.csv", manyCustomers(tag, loadSize)).done(), "a plain load is taken"); break;
            case Work::backups: store->backup(ground.file(name)); break;
            case Work::moves: store->copyTo(ground.file(name)); break;
            case Work::begins: Store::create(ground.book("begun_" + std::to_string(round) + '_' + std::to_string(step))); break;
            case Work::restores: require(restoreBook(ground.file("copy-" + std::to_string(round)), path).findings.empty(), "a sound copy is taken"); break;
            case Work::migrations: {
                const auto file = ground.file(name);
                std::filesystem::copy_file(std::string{STRIKEOFF_RELEASED_BOOKS} + "/version_2.strikeoff", file + ".making");
                std::filesystem::permissions(file + ".making", std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
                std::filesystem::rename(file + ".making", file);
                opened(file);
            }
            }
            if (::write(report, &step, sizeof step) != sizeof step) _exit(1);
        }
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s, round %d: %s\n", names[static_cast<int>(what)], round, error.what());
    }
    _exit(1);
}

struct Rows {
    std::map<std::string, int> ofTag;
    explicit Rows(const Book& book)
    {
        const auto count = [&](std::string_view text, std::string_view ending) {
            if (text.ends_with(ending)) ++ofTag[std::string{text.substr(0, text.size() - ending.size())}];
        };
        for (const auto& customer : book.all<Customer>()) {
            const std::string name{customer.name};
            // A row of a load ends in its number: "Round 3 step 2 599".
            const auto spaces = std::count(name.begin(), name.end(), ' ');
            count(spaces == 4 ? name.substr(0, name.rfind(' ')) : name, "");
        }
        for (const auto& job : book.all<Job>()) {
            count(job.title, " front");
            count(job.title, " back");
        }
    }
    int operator()(const std::string& tag) const
    {
        const auto found = ofTag.find(tag);
        return found == ofTag.end() ? 0 : found->second;
    }
};

void checkCopies(const Ground& ground, int round, int reported, const std::map<RecordKind, std::string>& whole, bool isOld)
{
    for (int step = 0; step <= reported + 1; ++step) {
        const auto file = ground.file("copy-" + std::to_string(round) + '-' + std::to_string(step));
        const bool isThere = std::filesystem::exists(file);
        if (step <= reported) require(isThere, "a copy that was reported done is there");
        if (!isThere) continue;
        const auto copy = opened(file);
        if (!isOld) require(dumpOf(copy->book()) == whole, "a copy is whole");
        else require(copy->book().all<Visit>().size() == 2, "a book brought forward is whole");
        require(faultsOf(*copy).empty(), "a copy passes verify: " + faultsOf(*copy));
    }
}

/// A copy to go back to, and something entered after it; what the book then holds, with the copy and now.
struct BeforeRestore {
    std::map<RecordKind, std::string> then, now;
    BeforeRestore(const Ground& ground, int round, const std::string& path)
    {
        const auto store = opened(path);
        store->backup(ground.file("copy-" + std::to_string(round)));
        then = dumpOf(store->book());
        require(store->commit(threeRows(tagOf(round, 0))).done(), "a plain edit is taken");
        now = dumpOf(store->book());
    }
};

void checkRestored(const BeforeRestore& before, const std::string& path, const Store& store, int reported)
{
    const auto dump = dumpOf(store.book());
    require(dump == before.then || (reported < 0 && dump == before.now), "the book is the copy, or was not touched");
    for (const auto& copy : copiesOf(path)) require(faultsOf(*opened(copy.file)).empty(), "what was there is kept whole: " + copy.file);
}

void checkBegun(const Ground& ground, int round, int reported)
{
    for (int step = 0; step <= reported + 1; ++step) {
        const auto path = ground.book("begun_" + std::to_string(round) + '_' + std::to_string(step));
        std::unique_ptr<Store> begun;
        try {
            begun = opened(path);
        } catch (const StorageError& error) {
            require(step > reported, std::string{"a book that was reported begun is there: "} + error.what());
            // What was broken off is not in the way of beginning once more; a server may only now get to the last thing it was told, which is as well.
            try {
                Store::create(path);
            } catch (const StorageError&) {
            }
            begun = opened(path);
        }
        require(begun->book().all<Settings>().size() == 1 && faultsOf(*begun).empty(), "a book that is begun is whole: " + faultsOf(*begun));
    }
}

}

int kill(const Call& call)
{
    const bool onServer = !Ground::server().empty();
    const int rounds = call.isLong ? 1000 : 50;
    std::mt19937 random{call.seed};
    int done[7]{}, roundsOf[7]{}, unreported = 0;
    std::unique_ptr<Ground> ground;
    std::string path;
    const int kinds = onServer ? 6 : 7;
    for (int round = 0; round < rounds; ++round) {
        if (round % 20 == 0) {
            ground = std::make_unique<Ground>();
            path = ground->book("kill" + std::to_string(round));
            Store::create(path);
            qputenv("XDG_DATA_HOME", QByteArray::fromStdString(ground->file("data")));  // where the copies of a book on a server go
        }
        const auto what = static_cast<Work>(round % kinds);
        std::optional<BeforeRestore> before;
        if (what == Work::restores) before.emplace(*ground, round, path);
        int ends[2];
        require(pipe(ends) == 0, "a pipe");
        const auto child = fork();
        if (child == 0) {
            close(ends[0]);
            work(what, round, *ground, path, ends[1]);
        }
        close(ends[1]);
        const int mostTime = what != Work::restores ? 150 : onServer ? 3000 : 600;  // which verifies first
        std::this_thread::sleep_for(std::chrono::milliseconds{std::uniform_int_distribution<int>{1, mostTime}(random)});
        ::kill(child, SIGKILL);
        int reported = -1;
        while (::read(ends[0], &reported, sizeof reported) == sizeof reported) {}
        close(ends[0]);
        int status = 0;
        waitpid(child, &status, 0);
        require(WIFSIGNALED(status), "the work goes on until it is killed");
        ++roundsOf[static_cast<int>(what)];
        done[static_cast<int>(what)] += reported + 1;

        const auto store = opened(path);
        require(faultsOf(*store).empty(), "the book passes verify after " + std::string{names[static_cast<int>(what)]} + ": " + faultsOf(*store));
        if (what == Work::commits || what == Work::loads) {
            const Rows rows{store->book()};
            const int full = what == Work::commits ? 3 : loadSize;
            for (int step = 0; step <= reported; ++step) require(rows(tagOf(round, step)) == full, "what was reported done is there: " + tagOf(round, step));
            const int last = rows(tagOf(round, reported + 1));
            require(last == 0 || last == full, "nothing is half there: " + tagOf(round, reported + 1) + " has " + std::to_string(last) + " of " + std::to_string(full));
            unreported += last == full ? 1 : 0;
        } else if (what == Work::begins) {
            checkBegun(*ground, round, reported);
        } else if (what == Work::restores) {
            checkRestored(*before, path, *store, reported);
        } else {
            checkCopies(*ground, round, reported, dumpOf(store->book()), what == Work::migrations);
        }
    }
    std::printf("kill -9, %d rounds on %s:", rounds, onServer ? "a server" : "a file");
    for (int i = 0; i < kinds; ++i) std::printf(" %d %s in %d rounds%s", done[i], names[i], roundsOf[i], i + 1 < kinds ? "," : "");
    std::printf("; all that was reported done is there, nothing half, %d done and not yet reported; verify passes every time\n", unreported);
    return 0;
}

}

#include "bench_of_harm.h"

#include <chrono>
#include <cstdio>
#include <set>
#include <sys/wait.h>
#include <unistd.h>

namespace strikeoff::faults {

namespace {

constexpr std::size_t sharedRows = 12;

int numberIn(const std::string& note) { return note.empty() ? 0 : std::stoi(note); }

/// What one writer did, sent to the parent when it is through.
struct Tally {
    int done = 0;
    int refused = 0;
    int busy = 0;
    int jobs = 0;
};

/// Adds one to a shared row at a time, with a job of its own every fourth time; what is refused is looked at and done anew.
Tally write(const std::string& path, int writer, int edits, unsigned seed)
{
    OpenOptions options;
    options.desk = "writer-" + std::to_string(writer);
    const auto store = Store::open(path, options);
    std::mt19937 random{seed + static_cast<unsigned>(writer)};
    Tally tally;
    while (tally.done < edits) {
        const auto at = std::uniform_int_distribution<std::size_t>{0, sharedRows - 1}(random);
        auto customer = store->book().all<Customer>()[at];
        customer.note = std::to_string(numberIn(customer.note) + 1);
        Edit edit{"One more"};
        edit.change(customer);
        const bool withJob = tally.done % 4 == 0;
        if (withJob) {
            Job job;
            job.title = options.desk + " " + std::to_string(tally.done);
            job.customer = customer.id;
            job.openedOn = *Date::of(2026, 5, 4);
            edit.add(job);
        }
        try {
            const auto result = store->commit(std::move(edit));
            require(result.problems.empty(), "an edit without fault is taken: " + result.text());
            if (result.done()) {
                ++tally.done;
                tally.jobs += withJob ? 1 : 0;
            } else {
                ++tally.refused;
            }
        } catch (const StorageError& error) {
            require(std::string{error.what()}.find("is writing to it") != std::string::npos, std::string{"a writer only ever waits for another: "} + error.what());
            ++tally.busy;
        }
    }
    return tally;
}

}

int fight(const Call& call)
{
    const Ground ground;
    const bool onServer = !Ground::server().empty();
    const int writers = onServer ? 8 : 4;
    const int edits = call.isLong ? (onServer ? 2000 : 500) : 40;
    const auto path = ground.book("fight");
    Store::create(path);
    {
        Edit edit{"Shared rows"};
        for (std::size_t i = 0; i < sharedRows; ++i) {
            Customer customer;
            customer.name = "Shared " + std::to_string(i);
            edit.add(customer);
        }
        require(Store::open(path)->commit(std::move(edit)).done(), "a plain edit");
    }
    const auto begin = std::chrono::steady_clock::now();
    std::vector<std::pair<pid_t, int>> children;
    for (int writer = 0; writer < writers; ++writer) {
        int ends[2];
        require(pipe(ends) == 0, "a pipe");
        const auto child = fork();
        if (child == 0) {
            close(ends[0]);
            try {
                const auto tally = write(path, writer, edits, call.seed);
                _exit(::write(ends[1], &tally, sizeof tally) == sizeof tally ? 0 : 1);
            } catch (const std::exception& error) {
                std::fprintf(stderr, "writer %d: %s\n", writer, error.what());
                _exit(1);
            }
        }
        close(ends[1]);
        children.emplace_back(child, ends[0]);
    }
    Tally all;
    for (const auto& [child, end] : children) {
        Tally tally;
        require(::read(end, &tally, sizeof tally) == sizeof tally, "every writer comes through");
        close(end);
        int status = 0;
        waitpid(child, &status, 0);
        all.done += tally.done;
        all.refused += tally.refused;
        all.busy += tally.busy;
        all.jobs += tally.jobs;
    }
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;

    const auto store = Store::open(path);
    int sum = 0;
    for (std::size_t i = 0; i < sharedRows; ++i) sum += numberIn(store->book().all<Customer>()[i].note);
    require(sum == all.done, "no update is lost: the rows say " + std::to_string(sum) + ", " + std::to_string(all.done) + " were reported done");
    std::set<std::string> numbers;
    for (const auto& job : store->book().all<Job>()) require(numbers.insert(job.number).second, "job number " + job.number + " was given once");
    require(static_cast<int>(numbers.size()) == all.jobs, "every job is there");
    const auto trail = store->recentTrail(static_cast<std::size_t>(all.done) + 100);
    require(static_cast<int>(trail.size()) == all.done + 2, "the trail has every edit: " + std::to_string(trail.size()) + " entries");
    require(faultsOf(*store).empty(), "the book passes verify: " + faultsOf(*store));
    std::printf("%d writers x %d edits on %s: %d done, %d refused for a newer row and done anew, %d told to wait, %d jobs numbered without a clash, %.1f s, verify passes\n", writers,
                edits, onServer ? "a server" : "one file", all.done, all.refused, all.busy, all.jobs, took.count());
    return 0;
}

}

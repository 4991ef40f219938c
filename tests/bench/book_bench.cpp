#include "cost_bench.h"
#include "database.h"
#include "load_bench.h"
#include "made_book.h"
#include "match_bench.h"
#include "pays_bench.h"
#include "season_bench.h"
#include "server_bench.h"
#include "visit_bench.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QProcess>
#include <QTemporaryDir>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <optional>

#include <sqlite3.h>
#include <unistd.h>

using namespace strikeoff;

namespace {

double secondsOf(const std::function<void()>& work)
{
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double medianOf(std::vector<double> figures)
{
    std::nth_element(figures.begin(), figures.begin() + static_cast<std::ptrdiff_t>(figures.size() / 2), figures.end());
    return figures[figures.size() / 2];
}

/// A measure that has no limit of its own is printed without one.
void print(const char* name, double ours, double bare, const char* unit, std::optional<double> limit = {})
{
    std::printf("%-34s ours %10.4f %s   bare %10.4f %s   ratio %5.2f", name, ours, unit, bare, unit, ours / bare);
    if (limit) std::printf("   (at most %.1f)", *limit);
    std::printf("\n");
    std::fflush(stdout);
}

double residentMegabytes()
{
    std::ifstream status{"/proc/self/statm"};
    long all = 0, resident = 0;
    status >> all >> resident;
    return static_cast<double>(resident) * static_cast<double>(sysconf(_SC_PAGESIZE)) / 1e6;
}

struct BareJob { std::int64_t id, revision; std::string number, title; std::int64_t customer, site, lead, type; std::string opened, closed, dropped, reason, lien, note; };
struct BareTicket {
    std::int64_t id, revision, supplier; std::string number, plant, truck, date, mix; std::int64_t yards, batched, arrived, began, ended, slumpOrdered, slump, water, temp;
    std::string options; std::int64_t job, pour, returned; std::string signedBy, note;
};
struct BareHours { std::int64_t id, revision, person; std::string date; std::int64_t job, pour; std::string phase; std::int64_t started, ended, unpaid, minutes; std::string note; };

std::string textAt(sqlite3_stmt* s, int column)
{
    const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(s, column));
    return text ? std::string{text, static_cast<std::size_t>(sqlite3_column_bytes(s, column))} : std::string{};
}
std::int64_t at(sqlite3_stmt* s, int column) { return sqlite3_column_int64(s, column); }

/// The same rows stepped over into plain structs, and nothing else.
std::size_t bareRead(const std::string& path)
{
    sqlite3* db = nullptr;
    sqlite3_open_v2(path.c_str(), &db, SQLITE_OPEN_READWRITE, nullptr);
    std::size_t rows = 0;
    const auto each = [&](const char* sql, const auto& take) {
        sqlite3_stmt* s = nullptr;
        sqlite3_prepare_v2(db, sql, -1, &s, nullptr);
        while (sqlite3_step(s) == SQLITE_ROW) {
            take(s);
            ++rows;
        }
        sqlite3_finalize(s);
    };
    std::vector<BareJob> jobs;
    std::vector<BareTicket> tickets;
    std::vector<BareHours> hours;
    each("SELECT * FROM job ORDER BY id", [&](sqlite3_stmt* s) {
        jobs.push_back({at(s, 0), at(s, 1), textAt(s, 2), textAt(s, 3), at(s, 4), at(s, 5), at(s, 6), at(s, 7), textAt(s, 8), textAt(s, 9), textAt(s, 10), textAt(s, 11), textAt(s, 12), textAt(s, 13)});
    });
    each("SELECT * FROM ticket ORDER BY id", [&](sqlite3_stmt* s) {
        tickets.push_back({at(s, 0), at(s, 1), at(s, 2), textAt(s, 3), textAt(s, 4), textAt(s, 5), textAt(s, 6), textAt(s, 7), at(s, 8), at(s, 9), at(s, 10), at(s, 11), at(s, 12), at(s, 13), at(s, 14),
                           at(s, 15), at(s, 16), textAt(s, 17), at(s, 18), at(s, 19), at(s, 20), textAt(s, 21), textAt(s, 22)});
    });
    each("SELECT * FROM hours ORDER BY id", [&](sqlite3_stmt* s) {
        hours.push_back({at(s, 0), at(s, 1), at(s, 2), textAt(s, 3), at(s, 4), at(s, 5), textAt(s, 6), at(s, 7), at(s, 8), at(s, 9), at(s, 10), textAt(s, 11)});
    });
    sqlite3_close(db);
    return rows;
}

void benchOpening(const std::string& path)
{
    std::vector<double> ours, bare;
    for (int i = 0; i < 5; ++i) {
        bare.push_back(secondsOf([&] { if (bareRead(path) == 0) std::abort(); }));
        std::unique_ptr<Store> store;
        ours.push_back(secondsOf([&] { store = Store::open(path); }));
    }
    print("opening the book", medianOf(ours), medianOf(bare), "s", 2.0);
}

/// Resident memory of a process begun anew that opens the book and nothing else: one that was forked off would carry along what this one has used.
void benchMemory(const std::string& program, const std::string& path)
{
    QProcess child;
    child.start(QString::fromStdString(program), {QStringLiteral("--resident"), QString::fromStdString(path)});
    if (!child.waitForFinished(60'000) || child.exitCode() != 0) std::abort();
    const double megabytes = child.readAllStandardOutput().toDouble();
    print("resident memory of an open book", megabytes, static_cast<double>(QFileInfo{QString::fromStdString(path)}.size()) / 1e6, "MB", 3.0);
}

void benchCommit(const std::string& path)
{
    const auto store = Store::open(path);
    store->backup(path + ".bare");  // a file of its own, so that neither sees the other's writes
    Database bare{path + ".bare", Database::Mode::readWrite};
    bare.run("PRAGMA journal_mode = WAL");
    bare.run("PRAGMA synchronous = FULL");
    bare.run("CREATE TABLE IF NOT EXISTS bare_trail (id INTEGER PRIMARY KEY, at TEXT, desk TEXT, title TEXT, how TEXT, before TEXT, after TEXT)");
    const auto& hours = store->book().all<Hours>();
    std::vector<double> ours, bares;
    for (int i = 0; i < 200; ++i) {
        auto row = hours[static_cast<std::size_t>(i) * 997 % hours.size()];
        row.note = "rain at noon " + std::to_string(i);
        Edit edit{"Change hours"};
        edit.change(row);
        ours.push_back(secondsOf([&] { if (!store->commit(std::move(edit)).done()) std::abort(); }));
        const auto other = hours[static_cast<std::size_t>(i) * 991 % hours.size()].id.value();
        bares.push_back(secondsOf([&] {
            Transaction transaction{bare};
            FastStatement update{bare, "UPDATE hours SET note = note WHERE id = ?"};
            update.bind(1, other);
            update.run();
            FastStatement trail{bare, "INSERT INTO bare_trail (at, desk, title, how, before, after) VALUES "
                                      "('2026-11-25T12:00:00Z', 'owner@desk', 'Change hours', 'do', '{\"note\":null}', '{\"note\":\"rain at noon\"}')"};
            trail.run();
            transaction.commit();
        }));
    }
    print("one edit committed", medianOf(ours) * 1e3, medianOf(bares) * 1e3, "ms", 1.5);
}

/// A letter typed into the filter of the job list, against a bare scan of the same texts.
void benchFilter(const std::string& program, const std::string& path)
{
    QProcess child;
    child.start(QFileInfo{QString::fromStdString(program)}.dir().filePath(QStringLiteral("filter_bench")), {QString::fromStdString(path)});
    if (!child.waitForFinished(300'000) || child.exitCode() != 0) std::abort();
    const auto figures = child.readAllStandardOutput().simplified().split(' ');
    if (figures.size() != 3) std::abort();
    print("a letter in the job list filter", figures[0].toDouble(), figures[2].toDouble(), "ms", 3.0);
    print("the first letter there", figures[1].toDouble(), figures[2].toDouble(), "ms");
}

/// The day's copy and the check of the whole book, made beside the work: how long the window does not answer, against the time they take.
void benchCare(const std::string& program, const std::string& path)
{
    QProcess child;
    child.start(QFileInfo{QString::fromStdString(program)}.dir().filePath(QStringLiteral("care_bench")), {QString::fromStdString(path)});
    if (!child.waitForFinished(600'000) || child.exitCode() != 0) std::abort();
    const auto figures = child.readAllStandardOutput().simplified().split(' ');
    if (figures.size() != 4) std::abort();
    print("the window held by today's copy", figures[0].toDouble(), figures[1].toDouble(), "ms");
    print("the window held by the check", figures[2].toDouble(), figures[3].toDouble(), "ms");
}

/// A picture of 100,000 loads against a mark for each, and the load under the mouse.
void benchCharts(const std::string& program)
{
    QProcess child;
    child.start(QFileInfo{QString::fromStdString(program)}.dir().filePath(QStringLiteral("chart_bench")), QStringList{});
    if (!child.waitForFinished(300'000) || child.exitCode() != 0) std::abort();
    const auto figures = child.readAllStandardOutput().simplified().split(' ');
    if (figures.size() != 3) std::abort();
    print("100,000 loads drawn", figures[0].toDouble(), figures[1].toDouble(), "ms", 1.0);
    print("the load under the mouse", figures[2].toDouble(), figures[1].toDouble(), "ms");
}

void benchLoad(int tickets)
{
    std::vector<double> ours, bare;
    for (int i = 0; i < 3; ++i) {
        const QTemporaryDir folder;
        const auto times = timeLoad(folder.path().toStdString(), tickets);
        ours.push_back(times.ours);
        bare.push_back(times.bare);
    }
    print("loading ticket rows", medianOf(ours), medianOf(bare), "s", 3.0);
}

/// Why every job cost other than it was bid, and the same after one day's sheet changed.
void benchExplain(const std::string& path)
{
    const auto store = Store::open(path);
    addBids(*store);
    const auto times = timeExplain(*store, path);
    print("all jobs explained", times.ours, times.bare, "s", 1.0);
    std::printf("%-34s ours %10.4f s     with a sentence for each part\n", "  ", times.worded);
    std::printf("%-34s ours %10.4f s     1/%.0f of all %zu jobs   (at most 1/200), %zu jobs explained anew\n", "  one day's sheet changed", times.oneDay, times.ours / times.oneDay,
                times.jobs, times.touched);
    std::fflush(stdout);
}

/// All of the page Seasons. What pays is to stay within the same limit together with it.
void benchSeasons(const std::string& path)
{
    const auto store = Store::open(path);
    addPours(*store);
    const auto times = timeSeasons(*store, path);
    print("price and pace of all seasons", times.ours, times.bare, "s", 2.0);
    std::printf("%-34s ours %10.4f s     the prices alone, %zu months\n", "  ", times.price, times.months);
    std::fflush(stdout);
}

/// Which work makes money, and a change of its filter; on a book that has bids, after benchExplain.
void benchPays(const std::string& path)
{
    const auto store = Store::open(path);
    addBills(*store);
    const auto times = timePays(*store, path);
    print("what pays, all groupings", times.ours, times.bare, "s", 2.0);
    std::printf("%-34s ours %10.4f ms    of %zu finished jobs\n", "  grouped or filtered otherwise", times.regroup * 1e3, times.jobs);
    std::fflush(stdout);
}

/// Every line of every statement paired with its ticket, and how that grows with the book.
void benchMatch(int tickets)
{
    const auto times = timeMatch(tickets, 7);
    print("statement lines matched", times.ours, times.bare, "s", 3.0);
    constexpr int few = 1'000;
    const auto small = timeMatch(few, 51);
    const auto exponent = [&](double large, double little) { return std::log(large / little) / std::log(static_cast<double>(tickets) / few); };
    std::printf("%-34s ours %10.4f     bare %10.4f     from %d to %d lines   (at most 1.15)\n", "  growth exponent", exponent(times.ours, small.ours), exponent(times.bare, small.bare), few, tickets);
    std::printf("%-34s %d of %d mistyped numbers found, %d lines wrong\n", "  ", times.near, times.mistyped, times.wrong);
    std::fflush(stdout);
}

/// The same book on a server, begun by tests/server/with_server.
int benchServer(const std::string& path)
{
    const auto server = qEnvironmentVariable("STRIKEOFF_TEST_SERVER").toStdString();
    if (server.empty()) {
        std::fprintf(stderr, "this needs a server: tests/server/with_server bench --server\n");
        return 77;
    }
    const auto address = server + "?book=made";
    std::printf("%-34s ours %10.1f s\n", "moving it to the server", secondsOf([&] { Store::open(path)->copyTo(address); }));
    const auto opening = timeOpeningOnServer(address);
    print("opening the book on a server", opening.ours, opening.bare, "s", 2.5);
    const auto commit = timeCommitOnServer(address);
    print("one edit committed on it", commit.ours * 1e3, commit.bare * 1e3, "ms", 2.0);
    const auto seen = timesToBeSeen(address, 1'000);
    std::printf("%-34s median %8.4f ms   worst %8.4f ms   of %zu\n", "an edit seen at another desk", medianOf(seen) * 1e3, *std::max_element(seen.begin(), seen.end()) * 1e3, seen.size());
    return 0;
}

}

int main(int argc, char** argv)
{
    const QCoreApplication application{argc, argv};
    if (argc > 2 && std::string{argv[1]} == "--resident") {
        const auto store = Store::open(argv[2]);
        std::printf("%.3f\n", residentMegabytes());
        return 0;
    }
    if (argc > 1 && std::string{argv[1]} == "--visits") {
        benchPlans(false);
        return 0;
    }
    if (argc > 1 && std::string{argv[1]} == "--match") {
        benchMatch(100'000);
        return 0;
    }
    MadeSize size;
    if (argc > 1 && std::string{argv[argc - 1]} == "--short") size = {500, 2'500, 15'000};
    QTemporaryDir folder;
    const auto path = folder.filePath(QStringLiteral("made.strikeoff")).toStdString();
    std::printf("making a book of %d jobs, %d tickets, %d hours rows ... ", size.jobs, size.tickets, size.hours);
    std::fflush(stdout);
    std::printf("%.1f s\n", secondsOf([&] { makeBook(path, size); }));
    if (argc > 1 && std::string{argv[1]} == "--care") {
        benchCare(argv[0], path);
        return 0;
    }
    if (argc > 1 && std::string{argv[1]} == "--explain") {
        benchExplain(path);
        return 0;
    }
    if (argc > 1 && std::string{argv[1]} == "--seasons") {
        {
            const auto store = Store::open(path);
            addBids(*store);
        }
        benchSeasons(path);
        return 0;
    }
    if (argc > 1 && std::string{argv[1]} == "--pays") {
        addBids(*Store::open(path));
        benchPays(path);
        return 0;
    }
    if (argc > 1 && std::string{argv[1]} == "--server") return benchServer(path);
    benchOpening(path);
    benchMemory(argv[0], path);
    benchFilter(argv[0], path);
    benchCare(argv[0], path);
    benchCharts(argv[0]);
    benchCommit(path);
    benchLoad(size.tickets);
    benchMatch(size.jobs > 1'000 ? 100'000 : 10'000);
    benchExplain(path);
    benchSeasons(path);
    benchPays(path);
    benchPlans(size.jobs <= 1'000);
    return 0;
}

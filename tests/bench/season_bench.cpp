#include "season_bench.h"
#include "made_book.h"
#include "timing.h"

#include "season/seasons.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>

#include <sqlite3.h>

namespace strikeoff {

namespace {

std::int64_t bareSums(sqlite3* db)
{
    std::int64_t all = 0;
    for (const auto* sql : {"SELECT substr(date, 1, 7), mix, COUNT(*), SUM(yards) FROM ticket GROUP BY 1, 2",
                            "SELECT substr(pour.poured_on, 1, 7), job.job_type, COUNT(*), SUM(pour.area_sqft) FROM pour JOIN job ON job.id = pour.job GROUP BY 1, 2",
                            "SELECT substr(hours.date, 1, 7), job.job_type, COUNT(*), SUM(COALESCE(minutes, ended_at - started_at - COALESCE(unpaid_minutes, 0))) FROM hours JOIN job ON job.id = hours.job GROUP BY 1, 2"}) {
        sqlite3_stmt* statement = nullptr;
        if (sqlite3_prepare_v2(db, sql, -1, &statement, nullptr) != SQLITE_OK) std::abort();
        while (sqlite3_step(statement) == SQLITE_ROW) all += sqlite3_column_int64(statement, 2) + sqlite3_column_int64(statement, 3);
        sqlite3_finalize(statement);
    }
    return all;
}

}

void addPours(Store& store)
{
    const auto& jobs = store.book().all<Job>();
    constexpr std::size_t batch = 10'000;
    for (std::size_t from = 0; from < jobs.size(); from += batch) {
        Edit edit{"Pours"};
        for (auto i = from; i < std::min(from + batch, jobs.size()); ++i) {
            Pour pour;
            pour.job = jobs[i].id;
            pour.pouredOn = jobs[i].openedOn + 10;
            pour.area = Area::ofWhole(600 + static_cast<std::int64_t>(i * 37 % 1'800));
            pour.crewSize = 3 + static_cast<int>(i % 3);
            pour.airTempF = 35 + static_cast<int>(i * 7 % 50);
            edit.add(pour);
        }
        commit(store, std::move(edit));
    }
}

SeasonTimes timeSeasons(const Store& store, const std::string& path)
{
    SeasonTimes times;
    sqlite3* db = nullptr;
    if (sqlite3_open_v2(path.c_str(), &db, SQLITE_OPEN_READONLY, nullptr) != SQLITE_OK) std::abort();
    const SeasonScope scope{.today = *Date::of(2026, 7, 1), .from = {}, .to = {}, .jobType = {}};
    const auto& book = store.book();
    std::vector<double> ours, price, bare;
    for (int i = 0; i < 5; ++i) {
        bare.push_back(seconds([&] { if (bareSums(db) == 0) std::abort(); }));
        ours.push_back(seconds([&] {
            const auto seasons = seasonsOf(book, scope);
            times.months = seasons.price.months.size();
            if (seasons.price.seasons.empty() || seasons.pace.seasons.empty() || seasons.price.carry.empty()) std::abort();
        }));
        price.push_back(seconds([&] { if (priceSeasons(book, scope).months.empty()) std::abort(); }));
    }
    sqlite3_close(db);
    times.ours = median(ours);
    times.price = median(price);
    times.bare = median(bare);
    return times;
}

}

#include "cost_bench.h"
#include "made_book.h"
#include "timing.h"

#include "cost/explanation.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>

#include <sqlite3.h>

namespace strikeoff {

namespace {

void addSheet(Store& store)
{
    Edit edit{"Price sheet"};
    const auto charge = [&](ChargeKind kind, const char* code, const char* meaning, int cents, ChargeUnit unit) -> SheetCharge {
        SheetCharge made;
        made.supplier = store.book().all<Supplier>()[0].id;
        made.effectiveOn = *Date::of(2006, 1, 1);
        made.charge = kind;
        made.code = code;
        made.meaning = meaning;
        made.amount = UnitPrice::ofUnits(cents * 100);
        made.unit = unit;
        made.taxable = kind == ChargeKind::mix;
        return made;
    };
    edit.add(charge(ChargeKind::mix, "3500AE", "3500 psi, air entrained", 150'00, ChargeUnit::perYard));
    edit.add(charge(ChargeKind::mix, "4000AE", "4000 psi, air entrained", 158'00, ChargeUnit::perYard));
    edit.add(charge(ChargeKind::mix, "4500AE", "4500 psi, air entrained", 166'00, ChargeUnit::perYard));
    edit.add(charge(ChargeKind::option, "FIBER", "Fiber, per lb", 5'00, ChargeUnit::perYard));
    edit.add(charge(ChargeKind::load, "ENV", "Washout", 10'00, ChargeUnit::perLoad));
    auto waiting = charge(ChargeKind::waiting, "WAIT", "Waiting", 2'25, ChargeUnit::perMinute);
    waiting.freeMinutes = Quantity::ofWhole(6);
    waiting.freeBasis = FreeBasis::perYard;
    waiting.stepMinutes = 1;
    edit.add(waiting);
    auto shortLoad = charge(ChargeKind::shortLoad, "SHORT", "Under 5 yd", 95'00, ChargeUnit::perLoad);
    shortLoad.toYards = Yards::ofWhole(5);
    edit.add(shortLoad);
    edit.add(charge(ChargeKind::tax, "TAX", "Sales tax", 6'25, ChargeUnit::percent));
    commit(store, std::move(edit));
}

}

void addBids(Store& store)
{
    addSheet(store);
    const auto jobs = store.book().all<Job>().size();
    constexpr std::size_t batch = 4'000;
    for (std::size_t from = 0; from < jobs; from += batch) {
        Edit edit{"Bids"};
        for (auto i = from; i < std::min(from + batch, jobs); ++i) {
            const auto& job = store.book().all<Job>()[i];
            Quote quote;
            quote.job = job.id;
            quote.draftedOn = job.openedOn;
            quote.sentOn = quote.acceptedOn = job.openedOn + 1;
            const auto id = edit.add(quote);
            int position = 0;
            const auto line = [&](CostClass costClass, const char* words, std::int64_t thousandths, const char* unit, int cents, std::optional<Phase> phase = {}, const char* code = "") {
                QuoteLine made;
                made.quote = id;
                made.position = ++position;
                made.costClass = costClass;
                made.phase = phase;
                made.description = words;
                made.code = code;
                made.quantity = Quantity::ofUnits(thousandths);
                made.unit = unit;
                made.unitCost = UnitPrice::ofUnits(cents * 100);
                edit.add(made);
            };
            line(CostClass::concrete, "Concrete, 4000 psi", 30'000 + static_cast<std::int64_t>(i % 40) * 250, "yd", 168'00, {}, "4000AE");
            line(CostClass::concrete, "Delivery", 3'000, "load", 30'00);
            line(CostClass::base, "Crushed base", 20'000, "ton", 22'50);
            line(CostClass::forms, "Forms", 180'000, "ft", 1'30);
            static constexpr std::array phases{Phase::prepForm, Phase::place, Phase::finish, Phase::stripCut};
            for (const auto phase : phases) line(CostClass::labor, "Labor", 60'000, "h", 38'00, phase);
            const auto receipt = [&](CostClass costClass, const char* vendor, std::int64_t thousandths, const char* unit, int cents) {
                Receipt made;
                made.date = job.openedOn + 9;
                made.job = job.id;
                made.costClass = costClass;
                made.vendor = vendor;
                made.quantity = Quantity::ofUnits(thousandths);
                made.unit = unit;
                made.amount = Money::ofCents(cents);
                edit.add(made);
            };
            receipt(CostClass::base, "Quarry", 21'000, "ton", 480'00 + static_cast<int>(i % 50));
            receipt(CostClass::forms, "Lumber yard", 170'000, "ft", 231'00);
            if (i % 3 == 0) receipt(CostClass::pump, "Pumping", 1'000, "ea", 560'00);
        }
        commit(store, std::move(edit));
    }
}

namespace {

std::int64_t bareSums(sqlite3* db)
{
    std::int64_t all = 0;
    for (const auto* sql : {"SELECT job, phase, SUM(COALESCE(minutes, ended_at - started_at - COALESCE(unpaid_minutes, 0))) FROM hours WHERE job IS NOT NULL GROUP BY job, phase",
                            "SELECT job, mix, SUM(yards) FROM ticket WHERE job IS NOT NULL GROUP BY job, mix",
                            "SELECT job, cost_class, SUM(amount) FROM receipt WHERE job IS NOT NULL GROUP BY job, cost_class"}) {
        sqlite3_stmt* statement = nullptr;
        if (sqlite3_prepare_v2(db, sql, -1, &statement, nullptr) != SQLITE_OK) std::abort();
        while (sqlite3_step(statement) == SQLITE_ROW) all += sqlite3_column_int64(statement, 0) + sqlite3_column_int64(statement, 2);
        sqlite3_finalize(statement);
    }
    return all;
}

}

ExplainTimes timeExplain(Store& store, const std::string& path)
{
    ExplainTimes times;
    sqlite3* db = nullptr;
    if (sqlite3_open_v2(path.c_str(), &db, SQLITE_OPEN_READONLY, nullptr) != SQLITE_OK) std::abort();
    const auto& book = store.book();
    times.jobs = book.all<Job>().size();
    const auto all = [&](Words words) {
        CostReckoner reckoner{book};
        Money difference;
        for (const auto& job : book.all<Job>()) difference += explain(reckoner, job, words).difference();
        if (difference.isZero()) std::abort();
    };
    std::vector<double> ours, worded, bare;
    for (int i = 0; i < 3; ++i) {
        bare.push_back(seconds([&] { if (bareSums(db) == 0) std::abort(); }));
        ours.push_back(seconds([&] { all(Words::leftOut); }));
        worded.push_back(seconds([&] { all(Words::written); }));
    }
    sqlite3_close(db);
    times.ours = median(ours);
    times.worded = median(worded);
    times.bare = median(bare);

    CostReckoner reckoner{book};
    std::vector<double> days;
    for (int i = 0; i < 9; ++i) {
        // Every row of a day somewhere in the middle of the book, ten minutes longer.
        const auto day = book.all<Hours>()[book.all<Hours>().size() / 10 * static_cast<std::size_t>(i + 1) - 1].date;
        Edit edit{"A day's sheet"};
        std::vector<Id<Hours>> touched;
        for (const auto& row : book.all<Hours>()) {
            if (row.date != day) continue;
            auto longer = row;
            longer.unpaidMinutes = Minutes::of(20);
            edit.change(longer);
            touched.push_back(row.id);
        }
        commit(store, std::move(edit));
        days.push_back(seconds([&] {
            const auto jobs = reckoner.takeHours(touched);
            times.touched = jobs.size();
            for (const auto job : jobs) explain(reckoner, book.get(job), Words::leftOut);
        }));
    }
    times.oneDay = median(days);
    return times;
}

}

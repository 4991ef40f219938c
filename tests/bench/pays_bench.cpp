#include "pays_bench.h"
#include "made_book.h"
#include "timing.h"

#include "review/what_pays.h"
#include "review/year_bridge.h"

#include <algorithm>
#include <chrono>
#include <cstdlib>

#include <sqlite3.h>

namespace strikeoff {

namespace {

std::int64_t bareSums(sqlite3* db)
{
    std::int64_t all = 0;
    for (const auto* sql :
         {"SELECT substr(h.date, 1, 7), j.job_type, SUM(COALESCE(h.minutes, h.ended_at - h.started_at - COALESCE(h.unpaid_minutes, 0))), COUNT(*) FROM hours h JOIN job j ON j.id = h.job GROUP BY 1, 2",
          "SELECT substr(t.date, 1, 7), j.job_type, SUM(t.yards), COUNT(*) FROM ticket t JOIN job j ON j.id = t.job GROUP BY 1, 2",
          "SELECT substr(r.date, 1, 7), j.job_type, SUM(r.amount), COUNT(*) FROM receipt r JOIN job j ON j.id = r.job GROUP BY 1, 2",
          "SELECT substr(q.sent_on, 1, 7), j.job_type, SUM(l.quantity * l.unit_cost), COUNT(*) FROM quote_line l JOIN quote q ON q.id = l.quote JOIN job j ON j.id = q.job GROUP BY 1, 2",
          "SELECT substr(i.issued_on, 1, 7), j.job_type, SUM(l.quantity * l.unit_price), COUNT(*) FROM invoice_line l JOIN invoice i ON i.id = l.invoice JOIN job j ON j.id = i.job GROUP BY 1, 2",
          "SELECT substr(p.received_on, 1, 7), j.job_type, SUM(s.amount), COUNT(*) FROM payment_share s JOIN payment p ON p.id = s.payment JOIN invoice i ON i.id = s.invoice JOIN job j ON j.id = i.job GROUP BY 1, 2"}) {
        sqlite3_stmt* statement = nullptr;
        if (sqlite3_prepare_v2(db, sql, -1, &statement, nullptr) != SQLITE_OK) std::abort();
        while (sqlite3_step(statement) == SQLITE_ROW) all += sqlite3_column_int64(statement, 2) + sqlite3_column_int64(statement, 3);
        sqlite3_finalize(statement);
    }
    return all;
}

}

void addBills(Store& store)
{
    const auto jobs = store.book().all<Job>().size();
    constexpr std::size_t batch = 4'000;
    for (std::size_t from = 0; from < jobs; from += batch) {
        Edit edit{"Bills"};
        for (auto i = from; i < std::min(from + batch, jobs); ++i) {
            const auto& job = store.book().all<Job>()[i];
            const bool poured = !store.book().referring<&Pour::job>(job.id).empty();
            Pour pour;
            pour.job = job.id;
            pour.plannedOn = pour.pouredOn = job.openedOn + 10;
            pour.area = Area::ofWhole(400 + static_cast<std::int64_t>(i % 600));
            pour.crewSize = 3 + static_cast<std::int32_t>(i % 4);
            if (!poured) edit.add(pour);
            Invoice invoice;
            invoice.job = job.id;
            invoice.kind = InvoiceKind::final;
            invoice.draftedOn = job.openedOn + 20;
            invoice.issuedOn = invoice.draftedOn;
            invoice.dueOn = invoice.draftedOn + 14;
            const auto billed = edit.add(invoice);
            InvoiceLine line;
            line.invoice = billed;
            line.description = "Work as quoted";
            line.unitPrice = UnitPrice::ofWhole(22'000 + static_cast<std::int64_t>(i % 97) * 40);
            line.taxable = false;
            edit.add(line);
            Payment payment;
            payment.customer = job.customer;
            payment.receivedOn = job.openedOn + 40;
            payment.amount = Money::ofWhole(22'000 + static_cast<std::int64_t>(i % 97) * 40);
            const auto received = edit.add(payment);
            PaymentShare share;
            share.payment = received;
            share.invoice = billed;
            share.amount = payment.amount;
            edit.add(share);
        }
        commit(store, std::move(edit));
    }
}

PaysTimes timePays(Store& store, const std::string& path)
{
    PaysTimes times;
    sqlite3* db = nullptr;
    if (sqlite3_open_v2(path.c_str(), &db, SQLITE_OPEN_READONLY, nullptr) != SQLITE_OK) std::abort();
    const auto& book = store.book();
    const auto today = *Date::of(2026, 6, 30);
    std::vector<double> ours, regroup, bare;
    for (int i = 0; i < 3; ++i) {
        bare.push_back(seconds([&] { if (bareSums(db) == 0) std::abort(); }));
        std::optional<FinishedJobs> jobs;
        ours.push_back(seconds([&] {
            CostReckoner reckoner{book};
            jobs = finishedJobs(reckoner, today);
            for (std::size_t by = 0; by < groupingCount; ++by)
                if (whatPays(*jobs, static_cast<Grouping>(by)).groups.empty()) std::abort();
            const auto years = reviewYears(*jobs);
            if (yearBridge(*jobs, reckoner, years[years.size() - 2], years.back(), today).answer.empty()) std::abort();
        }));
        regroup.push_back(seconds([&] { if (whatPays(*jobs, Grouping::town).groups.empty()) std::abort(); }));
        times.jobs = jobs->jobs.size();
    }
    sqlite3_close(db);
    times.ours = median(ours);
    times.regroup = median(regroup);
    times.bare = median(bare);
    return times;
}

}

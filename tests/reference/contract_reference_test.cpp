#include "cost/work_in_progress.h"

#include "domain/book_maker.h"

#include <cmath>

using namespace strikeoff;

// Percentage of completion by cost-to-cost, driven through a job's records: an accepted quote, change orders where price or estimate moved, receipts as
// cost, invoices. Each year sees the book as it stood at that year's end.

namespace {

struct Year {
    std::int64_t costToDate, estimate, price, billedToDate;  ///< whole dollars
};

Money dollarsOf(std::int64_t whole) { return Money::ofWhole(whole); }

/// What each year's end says of the contract.
std::vector<CostToCost> contract(const std::vector<Year>& years)
{
    BookMaker maker;
    const auto job = maker.job("A long contract");
    const auto quote = maker.add(Quote{.number = "Q1", .job = job, .draftedOn = on("2020-01-02"), .sentOn = on("2020-01-02"), .acceptedOn = on("2020-01-02")});
    maker.change(job, [](Job& row) { row.openedOn = on("2020-01-02"); });
    maker.add(QuoteLine{.quote = quote,
                        .costClass = CostClass::equipment,
                        .description = "all of it",
                        .unitCost = UnitPrice::ofWhole(years.front().estimate),
                        .unitPrice = UnitPrice::ofWhole(years.front().price)});
    std::vector<CostToCost> ends;
    Year before{0, years.front().estimate, years.front().price, 0};
    int year = 2020;
    for (const auto& now : years) {
        const auto day = *Date::of(year, 6, 30);
        const bool last = &now == &years.back();
        if (now.costToDate != before.costToDate)
            maker.add(Receipt{.number = "R" + std::to_string(year), .date = day, .job = job, .costClass = CostClass::equipment, .amount = dollarsOf(now.costToDate - before.costToDate)});
        if (now.price != before.price || (now.estimate != before.estimate && !last))
            maker.add(ChangeOrder{.job = job,
                                  .number = year - 2019,
                                  .askedOn = day,
                                  .description = "estimate and price of the year",
                                  .costClass = CostClass::equipment,
                                  .cost = dollarsOf(last ? 0 : now.estimate - before.estimate),
                                  .price = dollarsOf(now.price - before.price),
                                  .acceptedOn = day});
        if (now.billedToDate != before.billedToDate) {
            const auto invoice = maker.add(Invoice{.number = "I" + std::to_string(year), .job = job, .kind = InvoiceKind::progress, .draftedOn = day, .issuedOn = day, .dueOn = day + 30});
            maker.add(InvoiceLine{.invoice = invoice, .description = "work", .unitPrice = UnitPrice::ofWhole(now.billedToDate - before.billedToDate)});
        }
        if (last) maker.change(job, [&](Job& row) { row.closedOn = day; });
        CostReckoner reckoner{maker.book};
        const auto work = workInProgress(reckoner, *Date::of(year, 12, 31));
        if (work.jobs.empty()) ends.push_back(costToCost(dollarsOf(now.price), dollarsOf(now.costToDate), dollarsOf(now.costToDate), dollarsOf(now.billedToDate)));  // complete and billed
        else ends.push_back(work.jobs.front().part);
        before = now;
        ++year;
    }
    return ends;
}

/// To the whole dollar, as the sources print it.
std::int64_t whole(Money money) { return divideHalfUp(money.cents(), 100); }

std::vector<std::int64_t> earnedByYear(const std::vector<CostToCost>& ends)
{
    std::vector<std::int64_t> earned;
    Money before;
    for (const auto& end : ends) {
        earned.push_back(whole(end.earned - before));
        before = end.earned;
    }
    return earned;
}

}

TEST_CASE("a contract's receipts by cost-to-cost while its estimate moves", "[contract]")
{
    // Source: 26 CFR 1.460-4(h), example 1, first table: factors 25.00 %, 66.67 %, 100 %.
    const auto ends = contract({{200'000, 800'000, 1'000'000, 0}, {600'000, 900'000, 1'000'000, 0}, {750'000, 750'000, 1'000'000, 0}});
    CHECK(ends[0].complete == percent("25"));
    CHECK(std::lround(ends[1].complete.toDouble() * 100) == 6667);
    CHECK(ends[2].complete == percent("100"));
    CHECK(earnedByYear(ends) == std::vector<std::int64_t>{250'000, 416'667, 333'333});
    // The same table's gross income: receipts less the year's cost.
    CHECK(earnedByYear(ends)[0] - 200'000 == 50'000);
    CHECK(earnedByYear(ends)[1] - 400'000 == 16'667);
    CHECK(earnedByYear(ends)[2] - 150'000 == 183'333);
}

TEST_CASE("a contract whose price moves with its cost", "[contract]")
{
    // Source: 26 CFR 1.460-4(h), second table: price 1,000,000 + 70 % of (estimate − 600,000).
    const auto ends = contract({{200'000, 600'000, 1'000'000, 0}, {300'000, 400'000, 860'000, 0}, {700'000, 700'000, 1'070'000, 0}});
    CHECK(earnedByYear(ends) == std::vector<std::int64_t>{333'333, 311'667, 425'000});
}

TEST_CASE("a contract of three years with what was billed for it", "[contract]")
{
    // Source: a textbook problem sheet on long-term contracts (cost-to-cost): 40, 85 and 100 %; revenue 600,000, 675,000, 225,000; profit 200,000, 140,000, 90,000.
    const auto ends = contract({{400'000, 1'000'000, 1'500'000, 300'000}, {935'000, 1'100'000, 1'500'000, 900'000}, {1'070'000, 1'070'000, 1'500'000, 1'500'000}});
    CHECK(ends[0].complete == percent("40"));
    CHECK(ends[1].complete == percent("85"));
    CHECK(ends[2].complete == percent("100"));
    CHECK(earnedByYear(ends) == std::vector<std::int64_t>{600'000, 675'000, 225'000});
    // Computed from the same inputs with billings of 300,000, 900,000 and 1,500,000 to date: what is earned and not billed yet.
    CHECK(whole(ends[0].underBilled()) == 300'000);
    CHECK(whole(ends[1].underBilled()) == 375'000);
    CHECK(whole(ends[2].underBilled()) == 0);
}

TEST_CASE("a contract whose price is cut in its second year", "[contract]")
{
    // Source: inputs of a textbook problem (price 7,000,000, cut to 6,700,000 from the second year), results computed from them.
    const auto ends = contract({{2'500'000, 6'000'000, 7'000'000, 2'100'000}, {5'800'000, 6'200'000, 6'700'000, 5'200'000}, {6'210'000, 6'210'000, 6'700'000, 6'500'000}});
    CHECK(std::lround(ends[0].complete.toDouble() * 100) == 4167);
    CHECK(std::lround(ends[1].complete.toDouble() * 100) == 9355);
    CHECK(whole(ends[0].earned) == 2'916'667);
    CHECK(whole(ends[1].earned) == 6'267'742);
    CHECK(whole(ends[2].earned) == 6'700'000);
    CHECK(whole(ends[0].underBilled()) == 816'667);
    CHECK(whole(ends[1].underBilled()) == 1'067'742);
    CHECK(whole(ends[2].underBilled()) == 200'000);
}

#include "domain/season/season_books.h"

#include "job/steps.h"
#include "quantity/words.h"
#include "season/seasons.h"

using namespace strikeoff;

namespace {

SeasonScope until(std::string_view day) { return {.today = on(day), .from = {}, .to = {}, .jobType = {}}; }

/// One supplier with a sheet, and loads to put on it.
struct Yard {
    BookMaker maker;
    Id<Supplier> supplier = maker.add(Supplier{.name = "Northgate"});

    void mix(const std::string& code, std::string_view from, std::string_view price, const std::string& meaning = {}) { mixOf(supplier, code, from, price, meaning); }
    void mixOf(Id<Supplier> whose, const std::string& code, std::string_view from, std::string_view price, const std::string& meaning = {})
    {
        maker.add(SheetCharge{.supplier = whose, .effectiveOn = on(from), .charge = ChargeKind::mix, .code = code, .meaning = meaning, .amount = each(price)});
    }
    void perLoad(std::string_view from, std::string_view price)
    {
        maker.add(SheetCharge{.supplier = supplier, .effectiveOn = on(from), .charge = ChargeKind::load, .code = "ENV", .amount = each(price), .unit = ChargeUnit::perLoad});
    }
    Id<Ticket> load(std::string_view day, const std::string& mix, int yards, const std::string& options = {})
    {
        return maker.add(Ticket{.supplier = supplier, .number = std::to_string(5000 + maker.book.all<Ticket>().size()), .date = on(day), .mix = mix, .yards = Yards::ofWhole(yards), .options = options});
    }
};

}

TEST_CASE("a month's base price is the mix alone, its delivered price everything on the tickets, by the yard", "[season]")
{
    Yard yard;
    yard.mix("4000", "2026-01-01", "160.00");
    yard.mix("4500", "2026-01-01", "170.00");
    yard.perLoad("2026-01-01", "30.00");
    yard.load("2026-03-03", "4000", 10);
    yard.load("2026-03-20", "4500", 5);
    yard.load("2026-04-02", "4000", 6);
    yard.load("2026-04-03", "no such mix", 6);  // has no price
    yard.load("2026-06-03", "4000", 6);         // after the day asked for
    const auto prices = priceSeasons(yard.maker.book, until("2026-05-31"));
    REQUIRE(prices.months.size() == 2);
    const auto& march = prices.months[0];
    CHECK(march.tickets == 2);
    CHECK(march.yards == Yards::ofWhole(15));
    CHECK(march.paid == usd("2510.00"));  // 1,600 + 30 + 850 + 30
    CHECK(march.base == usd("163.33"));   // 2,450 / 15
    CHECK(march.delivered == usd("167.33"));
    CHECK(prices.months[1].delivered == usd("165.00"));
    CHECK(prices.tickets.size() == 3);
    CHECK(prices.tickets[0].base == 160.0);
    CHECK(prices.tickets[0].delivered == 163.0);
    CHECK(prices.tickets[0].expected);
    CHECK(prices.seasons.empty());
    CHECK(prices.carry.empty());
    CHECK(prices.missing == "What a season does to the price needs more records a month to tell months from what was in them.");
    CHECK(prices.answer == "A delivered yard cost $165.00 in April 2026.");
}

TEST_CASE("a statement's bill counts before the sheet, and what it bills for the mix is the base price", "[season]")
{
    Yard yard;
    yard.mix("4000", "2026-01-01", "160.00");
    const auto ticket = yard.load("2026-03-03", "4000", 10);
    const auto statement = yard.maker.add(Statement{.supplier = yard.supplier, .number = "S1", .date = on("2026-03-31")});
    yard.maker.add(StatementLine{.statement = statement, .line = 1, .ticketNumber = yard.maker.book.get(ticket).number, .date = on("2026-03-03"), .code = "4000", .quantity = Quantity::ofWhole(10), .amount = usd("1650.00")});
    yard.maker.add(StatementLine{.statement = statement, .line = 2, .ticketNumber = yard.maker.book.get(ticket).number, .date = on("2026-03-03"), .code = "WAIT", .description = "Waiting", .amount = usd("90.00")});
    const auto prices = priceSeasons(yard.maker.book, until("2026-04-30"));
    REQUIRE(prices.months.size() == 1);
    CHECK(prices.months[0].base == usd("165.00"));
    CHECK(prices.months[0].delivered == usd("174.00"));
    CHECK_FALSE(prices.tickets[0].expected);
}

TEST_CASE("pouring more of a dear mix is no inflation, and a new sheet is", "[season]")
{
    Yard yard;
    yard.mix("3500", "2025-01-01", "150.00");
    yard.mix("4500", "2025-01-01", "200.00");
    yard.mix("3500", "2026-01-01", "165.00");
    yard.mix("4500", "2026-01-01", "220.00");
    for (int month = 1; month <= 12; ++month) {
        const auto day = Date::of(2025, month, 10)->text();
        yard.load(day, "3500", 13 - month);  // cheap at first, dear at last
        yard.load(day, "4500", month);
    }
    yard.load("2026-02-10", "4500", 9);  // the cheap mix is not bought this month
    const auto prices = priceSeasons(yard.maker.book, until("2026-03-31"));
    REQUIRE(prices.months.size() == 13);
    CHECK(*prices.months[11].delivered > *prices.months[0].delivered);
    for (std::size_t i = 0; i < 12; ++i) CHECK(*prices.months[i].fixedMixIndex == Approx(100));
    // Both mixes went up a tenth, so whatever the basket, a tenth it is.
    CHECK(*prices.months[12].fixedMixIndex == Approx(110));
    CHECK(*prices.months[12].laspeyres == Approx(110));
    CHECK(*prices.months[12].paasche == Approx(110));
    REQUIRE(prices.sheets.size() == 2);
    CHECK_FALSE(prices.sheets[0].mixPercent);
    CHECK(prices.sheets[1].on == on("2026-01-01"));
    CHECK(*prices.sheets[1].mixPercent == Approx(10));
    CHECK(prices.sheets[1].mixes == 2);
}

TEST_CASE("the index weighs baskets as Fisher does: the geometric mean of last year's and this month's", "[season]")
{
    Yard yard;
    yard.mix("A", "2025-01-01", "100.00");
    yard.mix("B", "2025-01-01", "100.00");
    yard.mix("A", "2026-01-01", "100.00");
    yard.mix("B", "2026-01-01", "120.00");
    yard.load("2025-06-10", "A", 9);
    yard.load("2025-06-10", "B", 3);
    yard.load("2026-02-10", "A", 4);
    yard.load("2026-02-10", "B", 4);
    const auto prices = priceSeasons(yard.maker.book, until("2026-03-31"));
    const auto& last = prices.months.back();
    CHECK(*last.laspeyres == Approx(105));  // 9 at 100 and 3 at 120 against 12 at 100
    CHECK(*last.paasche == Approx(110));    // 4 and 4
    CHECK(*last.fixedMixIndex == Approx(std::sqrt(105.0 * 110.0)));
}

TEST_CASE("two suppliers are held against each other on the same loads", "[season]")
{
    Yard yard;
    const auto other = yard.maker.add(Supplier{.name = "Kettle Hill"});
    yard.mix("4000", "2026-01-01", "160.00", "4000 psi, air entrained");
    yard.mix("SPECIAL", "2026-01-01", "190.00");
    yard.mixOf(other, "K40", "2026-01-01", "155.00", "4000 psi");
    yard.load("2026-03-03", "4000", 10);
    yard.load("2026-03-04", "4000", 5);
    yard.load("2026-03-05", "SPECIAL", 5);  // the other sheet has none of the like
    const auto prices = priceSeasons(yard.maker.book, until("2026-04-30"));
    REQUIRE(prices.suppliers.size() == 2);
    CHECK(prices.suppliers[0].supplier->name == "Kettle Hill");
    CHECK(prices.suppliers[0].perYard == usd("155.00"));
    CHECK(prices.suppliers[1].perYard == usd("160.00"));
    CHECK(prices.suppliers[0].loads == 2);
    CHECK(prices.suppliers[0].yards == Yards::ofWhole(15));
}

TEST_CASE("the southern half has its winter from June to August", "[season]")
{
    CHECK(seasonOf(1, false) == Season::winter);
    CHECK(seasonOf(12, false) == Season::winter);
    CHECK(seasonOf(3, false) == Season::spring);
    CHECK(seasonOf(11, false) == Season::fall);
    CHECK(seasonOf(6, true) == Season::winter);
    CHECK(seasonOf(12, true) == Season::summer);
    SeasonBook made{3};
    made.southern = true;
    made.put(Settings{.southernHalf = true});
    made.seasons = {0.12, -0.02, -0.08, -0.02};
    made.perMonth = 12;
    made.makeLevels();
    made.makeTickets();
    const auto prices = priceSeasons(made.book, SeasonScope{.today = made.lastDay(), .from = {}, .to = {}, .jobType = {}});
    REQUIRE(prices.seasons.size() == seasonCount);
    CHECK(prices.seasons[0].season == Season::winter);
    CHECK(prices.seasons[0].percent.value == Approx(12.7).margin(3));
    CHECK(prices.seasonsShow);
    CHECK(prices.answer.find("winter yards cost") != std::string::npos);
}

TEST_CASE("an odd ticket pulls neither trend nor season", "[season]")
{
    SeasonBook made{11};
    made.makeLevels();
    made.makeTickets();
    const auto scope = SeasonScope{.today = made.lastDay(), .from = {}, .to = {}, .jobType = {}};
    const auto before = priceSeasons(made.book, scope);
    // A slip of the pen: a load of a tenth of a yard at a full load's bill.
    const auto statement = made.put(Statement{.supplier = Id<Supplier>{1}, .number = "S2", .date = made.lastDay()});
    const auto ticket = made.put(Ticket{.supplier = Id<Supplier>{1}, .number = "99", .date = made.lastDay() - 60, .mix = "4000", .yards = Yards::ofUnits(100)});
    made.put(StatementLine{.statement = statement, .line = 1, .ticketNumber = "99", .amount = usd("1600.00"), .ticket = ticket});
    const auto after = priceSeasons(made.book, scope);
    CHECK(after.odd == before.odd + 1);
    CHECK(after.trendPercent->value == Approx(before.trendPercent->value).margin(0.05));
    for (std::size_t i = 0; i < seasonCount; ++i) CHECK(after.seasons[i].percent.value == Approx(before.seasons[i].percent.value).margin(0.05));
    const auto odd = std::find_if(after.tickets.begin(), after.tickets.end(), [&](const auto& each) { return each.ticket->id == ticket; });
    CHECK(odd->odd);
}

TEST_CASE("open quotes are held against what their month is reckoned to cost", "[season]")
{
    SeasonBook made{21};
    made.makeLevels();
    made.makeTickets();
    const auto customer = made.put(Customer{.name = "Quill"});
    const auto month = monthOfNumber(SeasonBook::firstMonth + made.months + 2);
    const auto quoteAt = [&](const char* number, std::string_view unitCost) {
        const auto job = made.put(Job{.number = number, .title = "Patio", .customer = customer, .openedOn = made.lastDay() - 5});
        const auto quote = made.put(Quote{.number = number, .job = job, .draftedOn = made.lastDay() - 4, .sentOn = made.lastDay() - 3, .pourMonth = month});
        made.put(QuoteLine{.quote = quote, .position = 1, .costClass = CostClass::concrete, .description = "Concrete 4000 psi", .quantity = Quantity::ofWhole(10), .unit = "yd", .unitCost = each(unitCost)});
        made.put(QuoteLine{.quote = quote, .position = 2, .costClass = CostClass::concrete, .description = "Delivery", .quantity = Quantity::ofWhole(2), .unit = "load", .unitCost = each("25.00")});
        return quote;
    };
    const auto low = quoteAt("Q1", "120.00");
    quoteAt("Q2", "400.00");
    const auto prices = priceSeasons(made.book, SeasonScope{.today = made.lastDay(), .from = {}, .to = {}, .jobType = {}});
    REQUIRE(prices.openQuotes.size() == 2);
    CHECK(prices.openQuotes[0].quote->id == low);
    CHECK(prices.openQuotes[0].carried == usd("125.00"));  // (1,200 + 50) / 10
    CHECK(prices.openQuotes[0].tooLow());
    CHECK_FALSE(prices.openQuotes[1].tooLow());
    CHECK(prices.openQuotes[0].month == month);
}

TEST_CASE("an empty book says what it waits for", "[season]")
{
    const Book book;
    const auto seasons = seasonsOf(book, until("2026-04-30"));
    CHECK(seasons.answer == "No priced ticket and no pour with its hours yet: price and pace show here month by month.");
    CHECK(seasons.price.answer == "No priced ticket yet: prices show here month by month.");
    CHECK(seasons.pace.answer == "No pour with its area and hours yet: the crew's pace shows here month by month.");
    CHECK_FALSE(seasons.price.missing.empty());
}

TEST_CASE("an effect in words says more or less, and from what to what", "[season]")
{
    CHECK(percentInWords({4.12, 2.9, 5.3}) == "4.1% more (2.9% to 5.3%)");
    CHECK(percentInWords({-2.0, -3.5, 0.5}) == "2.0% less (\u22120.5% to 3.5%)");
}

TEST_CASE("pace is added up by month, season, phase, type, crew and air", "[season]")
{
    BookMaker maker;
    const auto patio = maker.add(JobType{.name = "Patio"});
    const auto person = maker.add(CrewMember{.name = "Ada"});
    const auto pour = [&](const std::string& title, std::optional<Id<JobType>> type, std::string_view day, int area, int placing, int finishing, int crew, int air) {
        const auto job = maker.job(title);
        if (type) maker.change(job, [&](Job& record) { record.jobType = type; });
        maker.add(Pour{.job = job, .pouredOn = on(day), .area = Area::ofWhole(area), .airTempF = air, .crewSize = crew});
        maker.add(Hours{.person = person, .date = on(day), .job = job, .phase = Phase::place, .minutes = Minutes::of(placing)});
        if (finishing > 0) maker.add(Hours{.person = person, .date = on(day) + 1, .job = job, .phase = Phase::finish, .minutes = Minutes::of(finishing)});
    };
    pour("A", patio, "2026-04-03", 400, 600, 600, 4, 55);
    pour("B", {}, "2026-04-20", 200, 600, 0, 3, 61);
    pour("C", patio, "2026-07-06", 600, 1200, 600, 4, 84);
    const auto unknown = maker.job("D");
    maker.add(Pour{.job = unknown, .pouredOn = on("2026-07-07")});
    const auto pace = paceSeasons(maker.book, until("2026-08-31"));
    REQUIRE(pace.months.size() == 2);
    CHECK(pace.leftOut == 1);
    CHECK(pace.months[0].jobs == 2);
    CHECK(pace.months[0].sum.areaSqft == 600);
    CHECK(pace.months[0].sum.minutes == Minutes::of(1800));
    CHECK(*pace.months[0].sum.sqftPerCrewHour == Approx(20));
    CHECK_FALSE(pace.months[0].sum.low);  // two pours have no spread worth showing
    REQUIRE(pace.byType.size() == 2);
    CHECK(pace.byType[0].type->name == "Patio");
    CHECK(*pace.byType[0].sum.sqftPerCrewHour == Approx(20));  // 1,000 sq ft in 50 hours
    CHECK(pace.byType[1].type == nullptr);
    REQUIRE(pace.bySeason.size() == 2);
    CHECK(pace.bySeason[0].season == Season::spring);
    REQUIRE(pace.byPhase.size() == 2);
    CHECK(pace.byPhase[1].phase == Phase::finish);
    CHECK(pace.byPhase[1].sum.pours == 2);
    CHECK(*pace.byPhase[1].sum.sqftPerCrewHour == Approx(50));  // 1,000 sq ft in 20 hours
    REQUIRE(pace.byCrewSize.size() == 2);
    CHECK(pace.byCrewSize[0].crewSize == 3);
    REQUIRE(pace.byAirTemp.size() == 3);
    CHECK(pace.byAirTemp[0].fromF == 50);
    CHECK(pace.byAirTemp[2].fromF == 80);
    CHECK(pace.pours[1].runningMedian == Approx(20));  // of 20, 20 and 20 sq ft an hour
    CHECK(pace.answer == "The crew made 20.0 sq ft a crew-hour in July 2026 (one pour).");
    // A type's own pours alone.
    CHECK(paceSeasons(maker.book, SeasonScope{.today = on("2026-08-31"), .from = {}, .to = {}, .jobType = patio}).pours.size() == 2);
    CHECK(paceSeasons(maker.book, SeasonScope{.today = on("2026-08-31"), .from = on("2026-05-01"), .to = {}, .jobType = {}}).pours.size() == 1);
    CHECK_FALSE(hoursToCarry(maker.book, pace, patio, 500, on("2026-09-10")));  // two pours are no history
}

TEST_CASE("hours to carry follow type, size and season, and say what they rest on", "[season]")
{
    SeasonBook made{5};
    made.seasons = {-0.2, 0.02, 0.1, 0.08};
    made.memory = 0;
    made.perMonth = 12;
    made.makeLevels();
    made.makePours();
    const auto pace = paceSeasons(made.book, SeasonScope{.today = made.lastDay(), .from = {}, .to = {}, .jobType = {}});
    const Id<JobType> driveway{1}, steps{3};
    const auto summer = hoursToCarry(made.book, pace, driveway, 500, on("2026-07-10"));
    const auto winter = hoursToCarry(made.book, pace, driveway, 500, on("2026-01-10"));
    const auto dear = hoursToCarry(made.book, pace, steps, 500, on("2026-07-10"));
    const auto large = hoursToCarry(made.book, pace, driveway, 1000, on("2026-07-10"));
    REQUIRE((summer && winter && dear && large));
    CHECK(winter->hours.value > summer->hours.value);
    CHECK(dear->hours.value > 1.3 * summer->hours.value);  // 8 sq ft an hour where driveways make 14
    CHECK(large->hours.value < 2 * summer->hours.value);   // a large slab goes faster by the square foot
    CHECK(large->hours.value > 1.5 * summer->hours.value);
    CHECK(summer->hours.low < summer->hours.value);
    CHECK(summer->words.find("crew-hours") != std::string::npos);
    CHECK(summer->words.find("500 sq ft of Driveway in July 2026") != std::string::npos);
}

TEST_CASE("a quote drafted from a takeoff is told what its month's yard and hours are reckoned to be", "[season][quotes]")
{
    SeasonBook made{9};
    made.makeLevels();
    made.makeTickets();
    made.makePours();
    const auto today = made.lastDay();
    const auto job = made.put(Job{.number = "1", .title = "Walk", .customer = Id<Customer>{1}, .jobType = Id<JobType>{1}, .openedOn = today});
    made.put(TakeoffSection{.job = job, .name = "Walk", .length = TapeLength::ofInches(40 * 12), .width = TapeLength::ofInches(12 * 12), .thickness = TapeLength::ofInches(4)});
    made.put(Pour{.job = job, .plannedOn = today + 45});
    const auto step = draftQuote(made.book, made.book.get(job), today);
    REQUIRE(step.possible());
    const auto said = [&](std::string_view words) {
        return std::any_of(step.remarks.begin(), step.remarks.end(), [&](const std::string& remark) { return remark.find(words) != std::string::npos; });
    };
    const auto prices = priceSeasons(made.book, SeasonScope{.today = today, .from = {}, .to = {}, .jobType = {}});
    const auto* carry = carryFor(prices, today + 45);
    REQUIRE(carry);
    CHECK(said("costs " + dollars(Money::ofCents(std::llround(carry->delivered.value * 100))) + " in " + shownMonth(today + 45)));
    CHECK(said("this draft carries $"));
    // The type has no pace of its own, so the hours come from the pours: none were reckoned before.
    CHECK(said("The crew's own pace says"));
    std::int64_t hours = 0;
    for (const auto& change : step.edit->changes())
        if (change.row.kind == RecordKind::quoteLine)
            if (const auto line = recordOf<QuoteLine>(change.row); line.costClass == CostClass::labor) hours += line.quantity.units();
    const auto pace = paceSeasons(made.book, SeasonScope{.today = today, .from = {}, .to = {}, .jobType = {}});
    const auto expected = hoursToCarry(made.book, pace, Id<JobType>{1}, 480, today + 45);
    REQUIRE(expected);
    CHECK(static_cast<double>(hours) / 1000 >= expected->hours.value);
    CHECK(static_cast<double>(hours) / 1000 < expected->hours.value + 0.251);
}

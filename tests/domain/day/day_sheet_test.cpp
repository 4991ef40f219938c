#include "day/day_sheet.h"

#include "domain/book_maker.h"

using namespace strikeoff;

namespace {

const Date today = on("2026-11-25");  // a Wednesday

std::vector<DayItem> section(const DaySheet& sheet, DaySection wanted)
{
    std::vector<DayItem> items;
    for (const auto& item : sheet.items)
        if (item.section == wanted) items.push_back(item);
    return items;
}

struct Outfit {
    BookMaker maker;
    Id<Customer> customer = maker.add(Customer{.name = "Hollis Farm", .phone = "555-0142"});
    Id<Job> job = maker.job("Alder Court driveway", customer);
    Id<Supplier> supplier = maker.add(Supplier{.name = "Northgate"});

    DaySheet sheet() const { return daySheet(maker.book, today); }
    std::vector<DayItem> items(DaySection wanted) const { return section(sheet(), wanted); }
    Id<Pour> pour(std::optional<Date> planned, std::optional<Date> poured = {}, std::int32_t sequence = 1)
    {
        return maker.add(Pour{.job = job, .sequence = sequence, .plannedOn = planned, .pouredOn = poured});
    }
    void forecast(Date date, int low, int high, int rain)
    {
        maker.add(DayForecast{.date = date, .lowF = low, .highF = high, .rainChance = rain});
    }
};

}

TEST_CASE("an empty day says so, and unknown weather is never fine", "[day]")
{
    const auto sheet = daySheet(Book{}, today);
    CHECK(sheet.answer == "Nothing needs you today.");
    CHECK(sheet.weather == "No forecast is entered for Wed Nov 25: the weather is unknown");
    CHECK(sheet.items.empty());
    CHECK(sheet.tomorrow.empty());
    CHECK(sheet.warnings.empty());
}

TEST_CASE("pours stand at their time, and one nobody marked as poured rolls forward", "[day]")
{
    Outfit outfit;
    auto& maker = outfit.maker;
    maker.change(outfit.pour(today), [&](Pour& row) {
        row.plannedAt = at("10:30");
        row.orderedYards = Yards::ofUnits(12'500);
        row.mix = "4000AE";
        row.supplier = outfit.supplier;
    });
    const auto walk = maker.job("Walk");
    maker.add(Pour{.job = walk, .plannedOn = today, .plannedAt = at("07:00")});
    const auto missed = outfit.pour(today - 5, std::nullopt, 2);
    const auto dropped = maker.job("Dropped");
    maker.add(Pour{.job = dropped, .plannedOn = today});
    maker.change(dropped, [](Job& row) { row.droppedOn = today; });

    const auto items = outfit.items(DaySection::pours);
    REQUIRE(items.size() == 3);
    CHECK(items[0].what == "Pour Alder Court driveway, pour 2");
    CHECK(items[0].late);
    CHECK(items[0].why == "planned for Fri Nov 20 and not marked as poured; no yards ordered yet, no supplier named");
    CHECK(items[0].verb == "Done");
    CHECK(items[0].kind == RecordKind::pour);
    CHECK(items[0].id == missed.value());
    CHECK(items[1].what == "Pour Walk, pour 1");
    CHECK(items[2].at == at("10:30"));
    // No forecast: what is said of the broom is wide, and says why.
    CHECK(items[2].why.find("12.5 yd\u00b3 of 4000AE, two loads, Northgate; broom about ") == 0);
    CHECK(items[2].why.find(", as the weather is not known)") != std::string::npos);
    CHECK_FALSE(items[2].late);

    maker.change(missed, [](Pour& row) { row.pouredOn = today - 4; });
    CHECK(outfit.items(DaySection::pours).size() == 2);
}

TEST_CASE("return visits say why today, and a missed one never drops off", "[day]")
{
    Outfit outfit;
    auto& maker = outfit.maker;
    const auto pour = outfit.pour(std::nullopt, today - 70);
    const auto product = maker.add(FinishingProduct{.name = "Slab Guard", .waitMostHours = 720});
    maker.add(Visit{.job = outfit.job,
                    .pour = pour,
                    .kind = VisitKind::seal,
                    .due = today,
                    .tooLate = today + 2,
                    .plannedOn = today,
                    .plannedAt = at("14:00"),
                    .product = product});
    const auto strip = maker.add(Visit{.job = outfit.job, .pour = pour, .kind = VisitKind::strip, .due = today - 5});
    maker.add(Visit{.job = outfit.job, .kind = VisitKind::walkThrough, .due = today + 20});
    maker.add(Visit{.job = outfit.job,
                    .pour = pour,
                    .kind = VisitKind::cut,
                    .due = today - 400,
                    .tooLate = today - 399,
                    .plannedOn = today + 3});
    maker.add(Visit{.job = outfit.job, .pour = pour, .kind = VisitKind::resealCall, .due = today - 1});

    const auto dropped = maker.job("Dropped");
    maker.add(Visit{.job = dropped, .kind = VisitKind::strip, .due = today});
    maker.change(dropped, [](Job& row) { row.droppedOn = today; });

    const auto items = outfit.items(DaySection::visits);
    REQUIRE(items.size() == 3);
    CHECK(items[0].what == "Strip Alder Court driveway, pour 1");
    CHECK(items[0].why == "due Fri Nov 20, five days late");
    CHECK(items[0].late);
    CHECK(items[0].id == strip.value());
    CHECK(items[1].what == "Cut Alder Court driveway, pour 1");
    CHECK(items[1].why == "too late since Oct 22, 2025: do it all the same, or leave it out and say why; due Oct 21, 2025, 400 days late; planned for Sat Nov 28");
    CHECK(items[2].what == "Seal Alder Court driveway, pour 1");
    CHECK(items[2].why == "due today; planned for today; too late from Fri Nov 27; the product waits at most 30 days");
    CHECK(items[2].at == at("14:00"));
    CHECK_FALSE(items[2].late);

    maker.change(strip, [](Visit& row) { row.doneOn = today; });
    CHECK(outfit.items(DaySection::visits).size() == 2);

    const auto calls = outfit.items(DaySection::calls);
    REQUIRE(calls.size() == 1);
    CHECK(calls[0].what == "Call Hollis Farm about resealing Alder Court driveway, 555-0142");
    CHECK(calls[0].why == "poured in September 2026; call due yesterday");
}

TEST_CASE("tonight's load-out is for tomorrow's pours and visits", "[day]")
{
    Outfit outfit;
    auto& maker = outfit.maker;
    const auto product = maker.add(FinishingProduct{.name = "Slab Guard",
                                                    .kind = ProductKind::cureAndSeal,
                                                    .coverageBroom = Quantity::ofWhole(250),
                                                    .onHandGallons = Quantity::ofWhole(1)});
    const auto pour = outfit.pour(today + 1);
    maker.change(pour, [&](Pour& row) {
        row.product = product;
        row.area = Area::ofWhole(400);
        row.sawJoint = Quantity::ofWhole(40);
        row.plannedAt = at("07:30");
    });
    maker.add(Visit{.job = outfit.job, .kind = VisitKind::cut, .due = today + 1});
    maker.add(Visit{.job = outfit.job, .kind = VisitKind::seal, .due = today + 1, .plannedOn = today + 9});

    const auto sheet = outfit.sheet();
    const auto items = section(sheet, DaySection::loadOut);
    REQUIRE(items.size() == 2);
    CHECK(items[0].what == "Load for pouring Alder Court driveway, pour 1");
    CHECK(items[0].at == at("07:30"));
    CHECK(
        items[0].why ==
        "1.7 gal of Slab Guard, saw and blade for 40 ft of joint, water, placing and finishing tools, cones, plastic, sprayer and cleaner");
    CHECK(items[1].what == "Load to cut joints at Alder Court driveway");
    CHECK(items[1].why == "saw and blade for 40 ft of joint and water");
    // The list of the whole run has each thing once, and the product in what it comes in.
    std::vector<std::string> list;
    for (const auto& one : sheet.loadOut.items) list.push_back(one.text());
    CHECK(list == std::vector<std::string>{"1.7 gal of Slab Guard (1.7 gal needed with 5 % spare; only 1 gal in the shop)",
                                           "Saw and blade for 40 ft of joint", "Water (for wet cutting)", "Placing and finishing tools",
                                           "Cones (to keep people off the slab)", "Plastic (covers for rain and the first night)",
                                           "Sprayer (with a spare tip)", "Cleaner (for the slab and the sprayer)"});
    REQUIRE(sheet.loadOut.cautions.size() == 3);
    CHECK(sheet.loadOut.cautions[0] == "Wet concrete burns skin and eyes: gloves, boots, eye wash; the mix's safety data sheet governs.");
    CHECK(sheet.loadOut.cautions[1] == "Slab Guard: the label governs. Gloves, eye protection, fresh air.");
    CHECK(sheet.loadOut.cautions[2].starts_with("Dry cutting makes silica dust"));
    CHECK(sheet.items.front().section == DaySection::loadOut);

    REQUIRE(sheet.tomorrow.size() == 3);
    CHECK(sheet.tomorrow[0].what == "Pour Alder Court driveway, pour 1");
    CHECK_FALSE(sheet.tomorrow[0].late);
    CHECK(sheet.tomorrow[1].why.find("due tomorrow; too late from Sat Nov 28; joints are ready from ") == 0);  // by the pour planned for tomorrow
    CHECK(sheet.answer == "No pour, visit or call today; two stops to load tonight.");
}

TEST_CASE("the weather is one line, with warnings where a pour or a seal meets it", "[day]")
{
    Outfit outfit;
    auto& maker = outfit.maker;
    outfit.pour(today);
    const auto warnings = [&] { return outfit.sheet().warnings; };
    CHECK(warnings() == std::vector<std::string>{"Pour Alder Court driveway, pour 1 today: no forecast is entered, so the weather "
                                                 "is unknown; look it up before the trucks are ordered"});

    const auto forecast =
        maker.add(DayForecast{.date = today, .lowF = 39, .highF = 52, .rainChance = 50, .rainFrom = at("14:00"), .windMph = 8});
    CHECK(outfit.sheet().weather == "Low 39 \u00b0F, high 52 \u00b0F, rain 50 % from 2:00 pm, wind 8 mph");
    CHECK(warnings() ==
          std::vector<std::string>{
              "Pour Alder Court driveway, pour 1 today: the low of 39 \u00b0F needs a cold-weather plan: concrete at 55 \u00b0F or "
              "over, kept so for three days; never place on frozen ground",
              "Pour Alder Court driveway, pour 1 today: the humidity is unknown, so how fast the surface dries is too",
              "Pour Alder Court driveway, pour 1 today: rain 50 % from 2:00 pm; have covers ready or choose another day"});
    maker.change(forecast, [](DayForecast& row) {
        row.lowF = 40;
        row.rainChance = 49;
        row.humidity = 60;
    });
    CHECK(warnings().empty());
    outfit.forecast(today + 1, 31, 45, 60);
    CHECK(warnings() ==
          std::vector<std::string>{
              "Pour Alder Court driveway, pour 1 today: the low of the next day is 31 \u00b0F; have the slab covered overnight, "
              "concrete at 55 \u00b0F or over, kept so for three days"});
    maker.change(forecast, [](DayForecast& row) {
        row.lowF.reset();
        row.rainChance.reset();
    });
    CHECK(outfit.sheet().weather == "Low unknown, high 52 \u00b0F, rain unknown, wind 8 mph, humidity 60 %");
    CHECK(warnings().size() == 2);

    Outfit sealing;
    const auto product = sealing.maker.add(FinishingProduct{.name = "Slab Guard", .lowestAirF = 50, .dryHours = 24});
    sealing.maker.add(Visit{.job = sealing.job, .kind = VisitKind::seal, .due = today + 1, .product = product});
    sealing.forecast(today + 1, 31, 45, 60);
    CHECK(sealing.sheet().warnings ==
          std::vector<std::string>{
              "Seal Alder Court driveway tomorrow: no hour passes: the air is under the 50 \u00b0F it needs all day"});
    sealing.maker.book.erase(RecordKind::forecast, 1);
    sealing.forecast(today + 1, 51, 65, 60);
    CHECK(sealing.sheet().warnings == std::vector<std::string>{"Seal Alder Court driveway tomorrow: no hour passes: rain 60 %"});
}

TEST_CASE("leads wait for their call, on the day set or two days after nobody called", "[day]")
{
    Outfit outfit;
    auto& maker = outfit.maker;
    maker.add(Lead{.number = "L1",
                   .receivedOn = today - 9,
                   .name = "Ada Brandt",
                   .phone = "555-0111",
                   .calledOn = today - 8,
                   .nextCallOn = today});
    maker.add(Lead{.number = "L2", .receivedOn = today - 2, .name = "Ines Cole"});
    maker.add(Lead{.number = "L3", .receivedOn = today - 1, .name = "Too fresh"});
    maker.add(
        Lead{.number = "L4", .receivedOn = today - 9, .name = "Called since", .calledOn = today - 1, .nextCallOn = today - 1});
    maker.add(
        Lead{.number = "L5", .receivedOn = today - 9, .name = "Went elsewhere", .nextCallOn = today - 1, .lostOn = today - 2});
    maker.add(Lead{.number = "L6", .receivedOn = today - 9, .name = "Later", .nextCallOn = today + 4});
    const auto old = maker.add(Lead{.number = "L7", .receivedOn = today - 200, .name = "Old"});
    maker.add(Lead{.number = "L8", .receivedOn = today - 100, .name = "Also old"});
    maker.add(Lead{.number = "L10", .receivedOn = today - 9, .name = "Jon Weir", .calledOn = today - 8, .nextCallOn = today - 1});
    const auto quoted = maker.add(Lead{.number = "L9", .receivedOn = today - 100, .name = "Has a folder"});
    maker.change(outfit.job, [&](Job& row) { row.lead = quoted; });

    const auto items = outfit.items(DaySection::calls);
    REQUIRE(items.size() == 4);
    CHECK(items[0].what == "Call Ines Cole");
    CHECK(items[0].why == "asked two days ago and was never called");
    CHECK(items[0].late);
    CHECK(items[1].what == "Call Jon Weir");
    CHECK(items[1].why == "was to be called yesterday");
    CHECK(items[2].what == "Call or give up two old leads");
    CHECK(items[2].id == old.value());
    CHECK(items[3].what == "Call Ada Brandt, 555-0111");
    CHECK(items[3].why == "to be called today");
    CHECK(items[3].verb == "Call");
    CHECK_FALSE(items[3].late);
}

TEST_CASE("a quote without an answer asks for a call after a week", "[day]")
{
    Outfit outfit;
    auto& maker = outfit.maker;
    const auto quote = maker.add(
        Quote{.number = "Q1012", .job = outfit.job, .draftedOn = today - 9, .sentOn = today - 6, .validUntil = today + 20});
    maker.quoteLine(quote, CostClass::concrete, "700", "1000");
    CHECK(outfit.items(DaySection::calls).empty());
    maker.change(quote, [](Quote& row) { row.sentOn = today - 7; });
    auto items = outfit.items(DaySection::calls);
    REQUIRE(items.size() == 1);
    CHECK(items[0].what == "Call Hollis Farm about quote Q1012, 555-0142");
    CHECK(items[0].why == "sent seven days ago for $1,000.00, no answer; it holds until Tue Dec 15");
    CHECK(items[0].kind == RecordKind::quote);

    const auto lead = maker.add(
        Lead{.number = "L1", .receivedOn = today - 20, .name = "Hollis Farm", .calledOn = today - 2, .nextCallOn = today + 5});
    maker.change(outfit.job, [&](Job& row) { row.lead = lead; });
    CHECK(outfit.items(DaySection::calls).empty());  // they asked to be called later
    maker.change(lead, [](Lead& row) { row.nextCallOn = today; });
    items = outfit.items(DaySection::calls);
    REQUIRE(items.size() == 1);
    CHECK(items[0].kind == RecordKind::lead);
    maker.change(lead, [](Lead& row) { row.nextCallOn.reset(); });
    maker.change(quote, [](Quote& row) { row.acceptedOn = today; });
    CHECK(outfit.items(DaySection::calls).empty());
}

TEST_CASE("paper: pours without tickets or hours, statements to check, tickets without a job", "[day]")
{
    Outfit outfit;
    auto& maker = outfit.maker;
    const auto pour = outfit.pour(std::nullopt, today - 2);
    outfit.pour(std::nullopt, today - 30, 2);
    outfit.pour(std::nullopt, today - 61, 3);
    maker.add(
        Ticket{.supplier = outfit.supplier, .number = "4411", .date = today - 30, .yards = Yards::ofWhole(5), .job = outfit.job});
    maker.add(Ticket{.supplier = outfit.supplier, .number = "4500", .date = today - 1, .yards = Yards::ofUnits(5'250)});
    maker.add(Statement{
        .supplier = outfit.supplier, .number = "S10", .date = today - 20, .total = usd("4120"), .discountUntil = today + 3});
    maker.add(Statement{.supplier = outfit.supplier, .number = "S09", .date = today - 50, .approvedOn = today - 40});

    auto items = outfit.items(DaySection::paper);
    REQUIRE(items.size() == 5);
    CHECK(items[0].what == "Put the visits of Alder Court driveway on the list");
    CHECK(items[0].why == "poured, and nobody has written down what it needs: strip and walk-through");
    CHECK(items[0].id == outfit.job.value());
    items.erase(items.begin());
    CHECK(items[0].what == "Enter the tickets of Alder Court driveway, pour 1");
    CHECK(items[0].why == "poured Mon Nov 23, no ticket entered");
    CHECK(items[0].verb == "Enter");
    CHECK(items[0].id == pour.value());
    CHECK(items[1].what == "Enter the hours of Alder Court driveway, pour 1");
    CHECK(items[2].what == "Check statement S10 of Northgate");
    CHECK(items[2].why == "dated Thu Nov 5, $4,120.00; not approved; the discount runs until Sat Nov 28");
    CHECK(items[3].what == "Give ticket 4500 its job");
    CHECK(items[3].why == "yesterday, 5.25 yd\u00b3, Northgate");

    maker.add(Ticket{.supplier = outfit.supplier, .number = "4499", .date = today - 2, .yards = Yards::ofWhole(5), .pour = pour});
    const auto person = maker.add(CrewMember{.name = "Ada"});
    maker.add(Hours{.person = person, .date = today - 2, .job = outfit.job, .minutes = Minutes::of(60)});
    CHECK(outfit.items(DaySection::paper).size() == 3);
}

TEST_CASE("money: invoices past due, statements to pay, jobs poured and not billed", "[day]")
{
    Outfit outfit;
    auto& maker = outfit.maker;
    maker.add(Settings{.lateChargeMonthly = percent("1.5")});
    const auto other = maker.job("Barn apron", outfit.customer);
    const auto late = maker.invoice(other, "I1001", InvoiceKind::final, "2026-10-20", "2026-11-13");
    maker.invoiceLine(late, "1000");
    maker.invoiceLine(maker.invoice(maker.job("Walk"), "I1002", InvoiceKind::final, "2026-11-11", "2026-11-25"), "400");
    maker.invoiceLine(maker.invoice(maker.job("Stoop"), "I1003", InvoiceKind::final, "2026-11-20", "2026-12-04"), "700");
    maker.add(Statement{.supplier = outfit.supplier,
                        .number = "S10",
                        .date = today - 20,
                        .total = usd("4120"),
                        .dueOn = today + 15,
                        .discountUntil = today + 3,
                        .approvedOn = today - 1});
    const auto statement =
        maker.add(Statement{.supplier = outfit.supplier, .number = "S09", .date = today - 50, .dueOn = today - 1});
    maker.add(StatementLine{.statement = statement, .line = 1, .amount = usd("90")});
    maker.add(
        Statement{.supplier = outfit.supplier, .number = "S08", .date = today - 80, .dueOn = today - 50, .paidOn = today - 50});
    const auto quote = maker.acceptedQuote(outfit.job, "Q1");
    maker.quoteLine(quote, CostClass::concrete, "500", "900");
    outfit.pour(std::nullopt, today - 70);
    maker.add(Pour{.job = maker.job("Poured just now"), .pouredOn = today});

    const auto items = outfit.items(DaySection::money);
    REQUIRE(items.size() == 5);
    CHECK(items[0].what == "Invoice I1001, Hollis Farm: $1,000.00");
    CHECK(items[0].why == "twelve days past due; 555-0142; late charge so far $5.92");  // 1000 × 18 % × 12 / 365
    CHECK(items[0].verb == "Call");
    CHECK(items[0].late);
    CHECK(items[1].what == "Pay Northgate, statement S09: $90.00");
    CHECK(items[1].why == "was due yesterday; not approved yet");
    CHECK(items[1].late);
    CHECK(items[2].why == "due today");
    CHECK(items[3].what == "Pay Northgate, statement S10: $4,120.00");
    CHECK(items[3].why == "pay by Sat Nov 28 to keep the discount; due Thu Dec 10");
    CHECK(items[4].what == "Bill Alder Court driveway: $900.00 before tax");
    CHECK(items[4].kind == RecordKind::job);
    CHECK(outfit.sheet().answer == "No pour, visit or call today; five papers wait and $1,000.00 is past due.");
}

TEST_CASE("a lien notice stands on the sheet two weeks ahead while money is open", "[day]")
{
    Outfit outfit;
    outfit.maker.change(outfit.job, [](Job& row) { row.lienNoticeDue = today + 15; });
    CHECK(outfit.items(DaySection::money).empty());
    outfit.maker.change(outfit.job, [](Job& row) { row.lienNoticeDue = today + 14; });
    const auto items = outfit.items(DaySection::money);
    REQUIRE(items.size() == 1);
    CHECK(items[0].what == "Lien notice for Alder Court driveway");
    CHECK(items[0].why == "to be given by Wed Dec 9 as you entered it; state law sets the day, so ask a lawyer");
}

TEST_CASE("the sheet runs from load-out to money and says it in one sentence", "[day]")
{
    Outfit outfit;
    auto& maker = outfit.maker;
    maker.invoiceLine(maker.invoice(maker.job("Walk"), "I1002", InvoiceKind::final, "2026-10-01", "2026-10-15"), "412.50");
    maker.add(Lead{.number = "L2", .receivedOn = today - 3, .name = "Ines Cole"});
    maker.add(Ticket{.supplier = outfit.supplier, .number = "4500", .date = today - 1, .yards = Yards::ofWhole(5)});
    maker.add(Visit{.job = outfit.job, .kind = VisitKind::strip, .due = today});
    outfit.pour(today);
    outfit.pour(today + 1, std::nullopt, 2);
    const auto sheet = outfit.sheet();
    std::vector<DaySection> order;
    for (const auto& item : sheet.items) order.push_back(item.section);
    CHECK(order == std::vector{DaySection::loadOut, DaySection::pours, DaySection::visits, DaySection::calls, DaySection::paper,
                               DaySection::money});
    CHECK(sheet.answer ==
          "One pour, one return visit and one call today; one stop to load tonight, one paper waits and $412.50 is past due.");
}

TEST_CASE("frost in the ground, drying, heat and wind are warned of before a pour", "[day]")
{
    const auto warnings = [](std::initializer_list<DayForecast> days) {
        Outfit outfit;
        const auto pour = outfit.pour(today);
        outfit.maker.change(pour, [](Pour& row) { row.plannedAt = at("08:00"); });
        for (const auto& day : days) outfit.maker.add(day);
        std::string all;
        for (const auto& warning : outfit.sheet().warnings) all += warning + '\n';
        return all;
    };
    const auto day = [](int after, int low, int high, int wind, int humidity) {
        return DayForecast{.date = today + after, .lowF = low, .highF = high, .rainChance = 0, .windMph = wind, .humidity = humidity};
    };
    const auto has = [](const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; };

    const auto frost = warnings({day(-3, 10, 25, 3, 60), day(-2, 8, 24, 3, 60), day(-1, 12, 28, 3, 60), day(0, 20, 45, 3, 60), day(1, 30, 45, 3, 60)});
    CHECK(has(frost, "the ground is likely frozen by then"));
    const auto thawed = warnings({day(-3, 38, 55, 3, 60), day(-2, 36, 52, 3, 60), day(-1, 34, 50, 3, 60), day(0, 31, 50, 3, 60), day(1, 36, 50, 3, 60)});
    CHECK_FALSE(has(thawed, "the ground"));
    const auto unknown = warnings({day(0, 31, 50, 3, 60), day(1, 36, 50, 3, 60)});
    CHECK(has(unknown, "the three days before are not all entered, so frost in the ground is unknown; probe before placing"));

    const auto dry = warnings({day(0, 60, 95, 20, 15), day(1, 60, 95, 5, 40)});
    CHECK(has(dry, "the surface may dry faster than it bleeds"));
    CHECK(has(dry, "where 0.2 is the alarm"));
    CHECK(warnings({day(0, 60, 72, 2, 80), day(1, 60, 72, 2, 80)}).empty());
    CHECK(has(warnings({day(0, 75, 96, 3, 60), day(1, 75, 96, 3, 60)}), "heat index up to 116"));
    CHECK(has(warnings({day(0, 5, 41, 15, 60), day(1, 20, 45, 5, 60)}), "wind chill down to \u221213 \u00b0F"));
}

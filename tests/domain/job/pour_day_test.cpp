#include "domain/take_step.h"

#include "job/pour_day.h"
#include "job/stage.h"
#include "job/steps.h"

using namespace strikeoff;

namespace {

const Date today = on("2026-11-02");

/// A shop with Decembers behind it: 500 sq ft from 8:00, broomed at 16:00 in air of 38 °F, three people on the slab until then.
struct Shop : BookMaker {
    Id<JobType> type;
    Id<Job> job;
    std::vector<Id<CrewMember>> crew;

    explicit Shop(int pours)
    {
        Settings settings;
        settings.laborRate = UnitPrice::ofWhole(40);
        add(settings);
        type = add(JobType{.name = "Patio", .pace = Quantity::ofWhole(20)});
        for (const auto* name : {"Ada", "Ben", "Cal"}) crew.push_back(add(CrewMember{.name = name}));
        for (int i = 0; i < pours; ++i) {
            const auto done = BookMaker::job("Patio " + std::to_string(i));
            change(done, [&](Job& row) { row.jobType = type; });
            const auto day = on("2025-12-01") + i;
            const auto pour = add(Pour{.job = done, .pouredOn = day, .placedAt = at("08:00"), .broomedAt = at("16:00"), .area = Area::ofWhole(500), .airTempF = 38});
            for (const auto person : crew) {
                add(Hours{.person = person, .date = day, .job = done, .pour = pour, .phase = Phase::place, .minutes = Minutes::of(3 * 60)});
                add(Hours{.person = person, .date = day, .job = done, .pour = pour, .phase = Phase::finish, .minutes = Minutes::of(5 * 60)});
                add(Hours{.person = person, .date = day, .job = done, .pour = pour, .phase = Phase::seal, .minutes = Minutes::of(30)});
            }
        }
        job = BookMaker::job("Slab");
        change(job, [&](Job& row) { row.jobType = type; });
        add(TakeoffSection{.job = job, .name = "Slab", .length = TapeLength::ofFeet(50), .width = TapeLength::ofFeet(10), .thickness = TapeLength::ofInches(4)});
    }
    const Job& folder() const { return book.get(job); }
};

struct Drafted {
    Quantity slab, all;
    std::string said;
};
Drafted draft(Shop& shop, const char* pourOn)
{
    shop.add(Pour{.job = shop.job, .plannedOn = on(pourOn)});
    const auto step = draftQuote(shop.book, shop.folder(), today);
    REQUIRE(step.possible());
    Drafted drafted;
    for (const auto& change : step.edit->changes()) {
        if (change.row.kind != RecordKind::quoteLine) continue;
        const auto line = recordOf<QuoteLine>(change.row);
        if (line.costClass != CostClass::labor) continue;
        drafted.all += line.quantity;
        if (line.phase == Phase::place || line.phase == Phase::finish) drafted.slab += line.quantity;
    }
    for (const auto& remark : step.remarks) drafted.said += remark + "\n";
    take(shop.book, step);
    return drafted;
}

}

TEST_CASE("a winter quote carries the hours the crew waits for the broom, and says so", "[job][quotes][setting]")
{
    Shop shop{12};
    const auto ahead = pourDayAhead(shop.book, shop.folder(), on("2026-12-09"), 500);
    REQUIRE(ahead);
    CHECK(ahead->people == Approx(3));  // 24 crew-hours over 8
    CHECK(ahead->peopleFrom == 12);
    CHECK(ahead->finish.ownPours == 12);
    // Twelve pours alike say eight hours; the table's own opinion counts like two more.
    CHECK(ahead->hours > 21);
    CHECK(ahead->hours < 27);
    CHECK(ahead->low < ahead->hours);
    CHECK(ahead->high > ahead->hours);

    const auto drafted = draft(shop, "2026-12-09");
    CHECK(drafted.slab.toDouble() >= ahead->hours);
    CHECK(drafted.slab.toDouble() < ahead->hours + 0.25);
    CHECK(drafted.all > Quantity::ofWhole(25));  // 500 sq ft at 20 an hour
    CHECK(drafted.said.find("Pour day in December 2026") != std::string::npos);
    CHECK(drafted.said.find("h more are carried for finishing") != std::string::npos);

    const auto* quote = currentQuote(shop.book, shop.job);
    REQUIRE(quote);
    const auto note = pourDayNote(shop.book, *quote, today);
    CHECK(note.find("This quote carries " + drafted.slab.shown(2) + " h for placing and finishing.") != std::string::npos);
    // What was carried before is told, not changed.
    for (const auto* line : shop.book.referring<&QuoteLine::quote>(quote->id))
        if (line->phase == Phase::finish) shop.change(line->id, [](QuoteLine& row) { row.quantity = Quantity::ofWhole(1); });
    CHECK(pourDayNote(shop.book, *quote, today).find(" h fewer.") != std::string::npos);
}

TEST_CASE("a pour day that the pace holds anyway changes nothing, and one nobody can tell is not guessed", "[job][quotes][setting]")
{
    Shop slow{12};
    slow.change(slow.type, [](JobType& row) { row.pace = Quantity::ofWhole(5); });
    const auto held = draft(slow, "2026-12-09");
    CHECK(held.all == Quantity::ofWhole(100));
    CHECK(held.said.find("which holds that day") != std::string::npos);

    Shop july{12};  // no pour of that month has its air written down
    CHECK_FALSE(pourDayAhead(july.book, july.folder(), on("2027-07-06"), 500));
    CHECK(draft(july, "2027-07-06").all == Quantity::ofWhole(25));

    Shop few{2};
    CHECK_FALSE(pourDayAhead(few.book, few.folder(), on("2026-12-09"), 500));
    CHECK_FALSE(pourDayAhead(slow.book, slow.folder(), on("2026-12-09"), 5000));  // no slab of such a size so far
}

TEST_CASE("a pour says when it will be broomed, was, or what is missing for that", "[job][setting]")
{
    Shop shop{4};
    const auto next = shop.add(Pour{.job = shop.job});
    const auto note = [&] { return broomNote(shop.book, shop.book.get(next)); };
    CHECK(note().starts_with("Give the pour a day"));
    shop.change(next, [](Pour& row) { row.plannedOn = on("2026-12-09"); });
    CHECK(note().find("the weather not known") != std::string::npos);
    CHECK(note().find("4 pours of your own") == std::string::npos);  // small counts are words
    CHECK(note().find("four pours of your own") != std::string::npos);
    CHECK(note().find("No hour is given for the start") != std::string::npos);
    shop.change(next, [](Pour& row) {
        row.pouredOn = on("2026-12-09");
        row.placedAt = at("08:00");
        row.broomedAt = at("13:42");
    });
    CHECK(note() == "Broomed at 1:42 pm, 5:42 h after placing began. With its air temperature it would count among the pours of your own that estimates rest on.");
    shop.change(next, [](Pour& row) { row.airTempF = 45; });
    CHECK(note() == "Broomed at 1:42 pm, 5:42 h after placing began. Estimates for later pours rest on it.");
}

#include "job/stage.h"

#include "domain/book_maker.h"

using namespace strikeoff;

namespace {

struct Run {
    BookMaker maker;
    Id<Job> job = maker.job("Alder Court driveway");

    Stage stage() const { return stageOf(maker.book, maker.book.get(job)); }
    std::string next() const { return nextThing(maker.book, maker.book.get(job), stage()); }
    void hours(Phase phase)
    {
        const auto person = maker.add(CrewMember{.name = "Hand " + std::to_string(maker.book.all<CrewMember>().size())});
        maker.add(Hours{.person = person, .date = on("2026-03-25"), .job = job, .phase = phase, .minutes = Minutes::of(60)});
    }
};

}

TEST_CASE("a job runs from measuring to paid by its records alone", "[job]")
{
    Run run;
    auto& maker = run.maker;
    CHECK(run.stage() == Stage::measuring);
    CHECK(run.next() == "measure it");
    maker.add(TakeoffSection{.job = run.job,
                             .name = "slab",
                             .length = TapeLength::ofFeet(40),
                             .width = TapeLength::ofFeet(10),
                             .thickness = TapeLength::ofInches(4)});
    CHECK(run.stage() == Stage::measuring);
    CHECK(run.next() == "write the quote");

    const auto quote = maker.add(Quote{.number = "Q1012", .job = run.job, .draftedOn = on("2026-03-03"), .deposit = percent("30")});
    maker.quoteLine(quote, CostClass::concrete, "700", "1000");
    CHECK(run.stage() == Stage::drafted);
    CHECK(run.next() == "send quote Q1012");
    maker.change(quote, [](Quote& row) { row.sentOn = on("2026-03-04"); });
    CHECK(run.stage() == Stage::quoted);
    CHECK(run.next() == "call back about quote Q1012");
    maker.change(quote, [](Quote& row) { row.acceptedOn = on("2026-03-10"); });
    CHECK(run.stage() == Stage::awarded);
    CHECK(run.next() == "bill the deposit");
    const auto deposit =
        maker.add(Invoice{.number = "I1001", .job = run.job, .kind = InvoiceKind::deposit, .draftedOn = on("2026-03-11")});
    maker.invoiceLine(deposit, "300");
    CHECK(run.next() == "issue invoice I1001");
    maker.change(deposit, [](Invoice& row) {
        row.issuedOn = on("2026-03-11");
        row.dueOn = on("2026-03-12");
    });
    CHECK(run.stage() == Stage::awarded);
    CHECK(run.next() == "set a pour date");

    const auto pour = maker.add(Pour{.job = run.job, .plannedOn = on("2026-03-26")});
    CHECK(run.stage() == Stage::planned);
    CHECK(run.next() == "pour on Thu Mar 26");
    run.hours(Phase::travel);
    CHECK(run.stage() == Stage::planned);  // the drive to measure is no work yet
    run.hours(Phase::prepForm);
    CHECK(run.stage() == Stage::inWork);
    maker.change(pour, [](Pour& row) { row.pouredOn = on("2026-03-26"); });
    CHECK(run.stage() == Stage::poured);
    CHECK(run.next() == "enter the tickets, then bill it");
    maker.add(Ticket{.supplier = maker.add(Supplier{.name = "Northgate"}),
                     .number = "4411",
                     .date = on("2026-03-26"),
                     .yards = Yards::ofUnits(5'250),
                     .pour = pour});
    CHECK(run.next() == "bill it");

    const auto seal = maker.add(Visit{.job = run.job, .pour = pour, .kind = VisitKind::seal, .due = on("2026-04-20")});
    const auto reseal = maker.add(Visit{.job = run.job, .pour = pour, .kind = VisitKind::resealCall, .due = on("2028-04-20")});
    CHECK(run.stage() == Stage::returning);
    CHECK(run.next() == "seal by Mon Apr 20");
    maker.change(seal, [](Visit& row) { row.doneOn = on("2026-04-18"); });
    CHECK(run.stage() == Stage::poured);  // the reseal call holds nothing open

    const auto final = maker.invoice(run.job, "I1002", InvoiceKind::final, "2026-04-19", "2026-05-03");
    maker.invoiceLine(final, "700");
    CHECK(run.stage() == Stage::billed);
    CHECK(run.next() == "collect $1,000.00, due Mar 12, 2026");
    maker.paid(deposit, "2026-03-15", "300");
    CHECK(run.stage() == Stage::billed);
    maker.paid(final, "2026-05-01", "700");
    CHECK(run.stage() == Stage::paid);
    CHECK(run.next() == "close the folder");
    CHECK_FALSE(isOpenStage(run.stage()));

    maker.change(run.job, [](Job& row) { row.closedOn = on("2026-05-02"); });
    CHECK(run.stage() == Stage::closed);
    CHECK(run.next() == "call about resealing by Apr 20, 2028");
    maker.change(reseal, [](Visit& row) { row.doneOn = on("2028-04-20"); });
    CHECK(run.next() == "");
}

TEST_CASE("a dropped job is dropped whatever else is on file", "[job]")
{
    Run run;
    run.maker.acceptedQuote(run.job, "Q1001");
    run.maker.change(run.job, [](Job& row) { row.droppedOn = on("2026-03-20"); });
    CHECK(run.stage() == Stage::dropped);
    CHECK(run.next() == "");
}

TEST_CASE("a job is declined when every quote's newest revision was turned down or the lead was lost", "[job]")
{
    Run run;
    auto& maker = run.maker;
    const auto first =
        maker.add(Quote{.number = "Q1001", .job = run.job, .draftedOn = on("2026-03-03"), .sentOn = on("2026-03-04")});
    maker.change(first, [](Quote& row) { row.declinedOn = on("2026-03-06"); });
    CHECK(run.stage() == Stage::declined);
    const auto revised = maker.add(Quote{.number = "Q1001", .issue = 2, .job = run.job, .draftedOn = on("2026-03-07")});
    CHECK(run.stage() == Stage::drafted);
    CHECK(run.next() == "send quote Q1001 revision 2");
    maker.change(revised, [](Quote& row) { row.sentOn = on("2026-03-08"); });
    CHECK(run.stage() == Stage::quoted);
    maker.change(revised, [](Quote& row) { row.declinedOn = on("2026-03-09"); });
    CHECK(run.stage() == Stage::declined);
    run.hours(Phase::prepForm);
    CHECK(run.stage() == Stage::declined);

    Run other;
    const auto lead =
        other.maker.add(Lead{.number = "L1", .receivedOn = on("2026-03-01"), .name = "Ada Brandt", .lostOn = on("2026-03-05")});
    other.maker.change(other.job, [&](Job& row) { row.lead = lead; });
    CHECK(other.stage() == Stage::declined);
}

TEST_CASE("holes in the book do not hold a job back", "[job]")
{
    SECTION("a ticket without quote or pour")
    {
        Run run;
        run.maker.add(Ticket{.supplier = run.maker.add(Supplier{.name = "Northgate"}),
                             .number = "7",
                             .date = on("2026-03-26"),
                             .yards = Yards::ofWhole(5),
                             .job = run.job});
        CHECK(run.stage() == Stage::poured);
    }
    SECTION("work begun on a quote nobody marked as accepted")
    {
        Run run;
        run.maker.add(Quote{.number = "Q1001", .job = run.job, .draftedOn = on("2026-03-03"), .sentOn = on("2026-03-04")});
        run.maker.add(Pour{.job = run.job, .plannedOn = on("2026-03-30")});
        CHECK(run.stage() == Stage::quoted);  // a day pencilled in wins no job
        run.hours(Phase::prepForm);
        CHECK(run.stage() == Stage::inWork);
    }
    SECTION("a pour planned without any quote")
    {
        Run run;
        run.maker.add(Pour{.job = run.job, .plannedOn = on("2026-03-30")});
        CHECK(run.stage() == Stage::planned);
    }
    SECTION("a final invoice although the pour was never marked as poured")
    {
        Run run;
        const auto pour = run.maker.add(Pour{.job = run.job, .plannedOn = on("2026-03-30")});
        const auto final = run.maker.invoice(run.job, "I1001", InvoiceKind::final, "2026-04-01", "2026-04-15");
        run.maker.invoiceLine(final, "700");
        CHECK(run.stage() == Stage::billed);
        run.maker.change(pour, [](Pour& row) { row.plannedOn = on("2026-04-20"); });
        CHECK(run.stage() == Stage::planned);  // there is another pour to come
    }
    SECTION("all of the price paid up front")
    {
        Run run;
        const auto quote = run.maker.acceptedQuote(run.job, "Q1001");
        run.maker.quoteLine(quote, CostClass::concrete, "500", "700");
        const auto deposit = run.maker.invoice(run.job, "I1001", InvoiceKind::deposit, "2026-03-11", "2026-03-11");
        run.maker.invoiceLine(deposit, "700");
        run.maker.paid(deposit, "2026-03-11", "700");
        CHECK(run.stage() == Stage::awarded);
        const auto pour = run.maker.add(Pour{.job = run.job, .plannedOn = on("2026-03-30")});
        CHECK(run.stage() == Stage::planned);
        run.maker.change(pour, [](Pour& row) { row.pouredOn = on("2026-03-30"); });
        CHECK(run.stage() == Stage::paid);
    }
}

TEST_CASE("a second pour keeps a job in work, and open visits come before billed and paid", "[job]")
{
    Run run;
    auto& maker = run.maker;
    const auto first = maker.add(Pour{.job = run.job, .sequence = 1, .pouredOn = on("2026-03-26")});
    const auto second = maker.add(Pour{.job = run.job, .sequence = 2});
    CHECK(run.stage() == Stage::inWork);
    CHECK(run.next() == "set a date for pour 2");
    maker.change(second, [](Pour& row) { row.plannedOn = on("2026-04-02"); });
    CHECK(run.next() == "pour 2 on Thu Apr 2");
    maker.change(second, [](Pour& row) { row.pouredOn = on("2026-04-02"); });
    const auto strip = maker.add(Visit{.job = run.job, .pour = first, .kind = VisitKind::strip, .plannedOn = on("2026-04-03")});
    CHECK(run.next() == "strip the forms on Fri Apr 3");
    const auto final = maker.invoice(run.job, "I1001", InvoiceKind::final, "2026-04-05", "2026-04-19");
    maker.invoiceLine(final, "900");
    maker.paid(final, "2026-04-06", "900");
    CHECK(run.stage() == Stage::returning);
    maker.change(strip, [](Visit& row) {
        row.waivedOn = on("2026-04-07");
        row.waivedReason = "owner kept the forms";
    });
    CHECK(run.stage() == Stage::paid);
}

TEST_CASE("retainage that is held keeps a job from being paid", "[job]")
{
    Run run;
    auto& maker = run.maker;
    maker.add(Pour{.job = run.job, .pouredOn = on("2026-03-26")});
    const auto final = maker.add(Invoice{.number = "I1001",
                                         .job = run.job,
                                         .draftedOn = on("2026-04-01"),
                                         .issuedOn = on("2026-04-01"),
                                         .dueOn = on("2026-04-15"),
                                         .retainage = percent("10")});
    maker.invoiceLine(final, "5000");
    maker.paid(final, "2026-04-10", "4500");
    CHECK(run.stage() == Stage::billed);
    CHECK(run.next() == "bill the retainage, $500.00");
    const auto release = maker.invoice(run.job, "I1002", InvoiceKind::retainage, "2026-06-01", "2026-06-15");
    maker.invoiceLine(release, "500", false);
    maker.paid(release, "2026-06-10", "500");
    CHECK(run.stage() == Stage::paid);
}

#include "domain/take_step.h"

#include "billing/billing.h"
#include "job/papers.h"
#include "job/stage.h"
#include "job/steps.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>

using namespace strikeoff;

namespace {

const Date today = on("2026-06-10");

/// The small job of common practice: a slab 40 by 10 ft at 4 in.
struct SlabJob : BookMaker {
    Id<JobType> type;
    Id<Job> job;

    SlabJob()
    {
        Settings settings;
        settings.laborRate = UnitPrice::ofWhole(40);
        settings.taxRate = percent("6.25");
        settings.quoteTerms = "Pay on time.";
        add(settings);
        type = add(JobType{.name = "Patio", .pace = Quantity::ofWhole(40)});
        job = BookMaker::job("Slab");
        change(job, [&](Job& row) { row.jobType = type; });
        add(TakeoffSection{.job = job, .name = "Slab", .length = TapeLength::ofFeet(40), .width = TapeLength::ofFeet(10), .thickness = TapeLength::ofInches(4)});
    }

    Id<Supplier> sheet()
    {
        const auto supplier = add(Supplier{.name = "Tallow Creek Ready Mix"});
        add(SheetCharge{.supplier = supplier, .effectiveOn = on("2026-01-01"), .code = "4000AE", .meaning = "4,000 psi, air", .amount = each("160")});
        add(SheetCharge{.supplier = supplier, .effectiveOn = on("2026-01-01"), .charge = ChargeKind::load, .code = "ENV", .amount = each("12.50"), .unit = ChargeUnit::perLoad});
        return supplier;
    }
    const Job& folder() const { return book.get(job); }
    std::vector<const QuoteLine*> lines() const { return book.referring<&QuoteLine::quote>(currentQuote(book, job)->id); }
};

const QuoteLine* lineOf(const std::vector<const QuoteLine*>& lines, CostClass costClass)
{
    const auto found = std::find_if(lines.begin(), lines.end(), [&](const auto* line) { return line->costClass == costClass; });
    return found == lines.end() ? nullptr : *found;
}

}

TEST_CASE("a lead becomes a customer and a job in one step", "[job]")
{
    BookMaker maker;
    const auto type = maker.add(JobType{.name = "Driveway"});
    const auto id = maker.add(Lead{.number = "L1", .receivedOn = on("2026-06-08"), .name = "Nora Bell", .phone = "555-0134", .town = "Millbrook", .jobType = type});
    take(maker.book, takeUpLead(maker.book, maker.book.get(id), today));

    REQUIRE(maker.book.all<Job>().size() == 1);
    const auto& job = *maker.book.all<Job>().begin();
    CHECK(job.title == "Driveway in Millbrook");
    CHECK(job.lead == id);
    CHECK(job.jobType == type);
    CHECK(job.openedOn == today);
    const auto& customer = maker.book.get(job.customer);
    CHECK(customer.name == "Nora Bell");
    CHECK(customer.phone == "555-0134");
    CHECK(maker.book.get(id).customer == customer.id);

    const auto again = takeUpLead(maker.book, maker.book.get(id), today);
    CHECK_FALSE(again.possible());
    CHECK(again.obstacle.find(job.number) != std::string::npos);
}

TEST_CASE("a lead of somebody known goes to the customer there is, a namesake's does not", "[job]")
{
    BookMaker maker;
    const auto known = maker.add(Customer{.name = "Nora Bell", .phone = "555-0134", .town = "Millbrook"});
    const auto same = maker.add(Lead{.number = "L1", .receivedOn = today, .name = "Nora Bell", .phone = "555-0134", .wish = "a walk along the garage\nsoon"});
    take(maker.book, takeUpLead(maker.book, maker.book.get(same), today));
    CHECK(maker.book.all<Customer>().size() == 1);
    CHECK(maker.book.all<Job>().begin()->customer == known);
    CHECK(maker.book.all<Job>().begin()->title == "a walk along the garage");

    const auto other = maker.add(Lead{.number = "L2", .receivedOn = today, .name = "Nora Bell", .phone = "555-0155", .town = "Ashford"});
    take(maker.book, takeUpLead(maker.book, maker.book.get(other), today));
    REQUIRE(maker.book.all<Customer>().size() == 2);
    CHECK(maker.book.get(*maker.book.get(other).customer).name == "Nora Bell, Ashford");
}

TEST_CASE("a lead that was lost opens no job", "[job]")
{
    BookMaker maker;
    const auto id = maker.add(Lead{.number = "L1", .receivedOn = today, .name = "Nora Bell", .lostOn = today});
    const auto step = takeUpLead(maker.book, maker.book.get(id), today);
    CHECK_FALSE(step.possible());
    CHECK(step.obstacle.find("lost") != std::string::npos);
}

TEST_CASE("a quote from the takeoff carries the ordered yards at the sheet in force and hours by pace", "[job]")
{
    SlabJob slab;
    slab.sheet();
    take(slab.book, draftQuote(slab.book, slab.folder(), today));

    const auto* quote = currentQuote(slab.book, slab.job);
    REQUIRE(quote);
    CHECK(quote->draftedOn == today);
    CHECK(quote->taxRate == percent("6.25"));
    CHECK(quote->terms == "Pay on time.");
    CHECK(quote->scope.find("400 sq ft") != std::string::npos);
    const auto lines = slab.lines();

    // Common practice, no source: 40 × 10 ft at 4 in is 4.94 yd³, at 5 % ordered as 5¼ yd³.
    const auto* concrete = lineOf(lines, CostClass::concrete);
    REQUIRE(concrete);
    CHECK(concrete->quantity == Quantity::ofUnits(5'250));
    CHECK(concrete->unitCost == each("160"));
    CHECK(concrete->code == "4000AE");
    Money concreteCost;
    Quantity hours;
    for (const auto* line : lines) {
        if (line->costClass == CostClass::concrete) concreteCost += line->cost();
        if (line->costClass != CostClass::labor) continue;
        hours += line->quantity;
        CHECK(line->phase);
        CHECK(line->unitCost == each("40"));
    }
    CHECK(concreteCost == usd("852.50"));  // 5.25 × 160 and one load's 12.50
    CHECK(hours == Quantity::ofWhole(10));  // 400 ft² at 40 ft² a crew-hour

    const auto* base = lineOf(lines, CostClass::base);
    REQUIRE(base);
    CHECK(base->quantity == Quantity::ofWhole(400));
    const auto* forms = lineOf(lines, CostClass::forms);
    REQUIRE(forms);
    CHECK(forms->quantity == Quantity::ofWhole(100));  // round 40 × 10
}

TEST_CASE("what has no price is said, and an earlier quote's price is taken up", "[job]")
{
    SlabJob slab;
    const auto first = draftQuote(slab.book, slab.folder(), today);
    const auto says = [](const Step& step, const char* words) {
        return std::any_of(step.remarks.begin(), step.remarks.end(), [&](const auto& remark) { return remark.find(words) != std::string::npos; });
    };
    CHECK(says(first, "No price sheet is in force"));
    CHECK(says(first, "Base has no price"));
    take(slab.book, first);
    CHECK(lineOf(slab.lines(), CostClass::concrete)->unitCost == UnitPrice{});

    const auto base = lineOf(slab.lines(), CostClass::base)->id;
    slab.change(base, [](QuoteLine& line) { line.unitCost = each("1.15"); });
    const auto again = draftQuote(slab.book, slab.folder(), today);
    CHECK_FALSE(says(again, "Base has no price"));
    take(slab.book, again);
    CHECK(slab.book.all<Quote>().size() == 1);  // the draft was filled anew
    CHECK(lineOf(slab.lines(), CostClass::base)->unitCost == each("1.15"));
}

TEST_CASE("a sealer is reckoned from area, coats and coverage", "[job]")
{
    SlabJob slab;
    const auto product = slab.add(FinishingProduct{.name = "Clear sealer", .coverageBroom = Quantity::ofWhole(150), .coats = 2, .pricePerGallon = each("31")});
    slab.change(slab.type, [&](JobType& type) { type.product = product; });
    take(slab.book, draftQuote(slab.book, slab.folder(), today));
    const auto* sealer = lineOf(slab.lines(), CostClass::sealer);
    REQUIRE(sealer);
    CHECK(sealer->quantity == Quantity::ofUnits(5'400));  // 400 × 2 / 150 = 5.33, up to the next tenth
    CHECK(sealer->unitCost == each("31"));
}

TEST_CASE("a quote runs from draft over sent to accepted, and never backwards", "[job]")
{
    SlabJob slab;
    slab.sheet();
    CHECK_FALSE(draftQuote(slab.book, slab.book.get(slab.BookMaker::job("Bare")), today).possible());  // nothing measured
    take(slab.book, startQuote(slab.book, slab.folder(), today));
    const auto id = currentQuote(slab.book, slab.job)->id;
    CHECK_FALSE(sendQuote(slab.book, slab.book.get(id), today).possible());  // no lines
    CHECK_FALSE(startQuote(slab.book, slab.folder(), today).possible());     // one draft at a time
    take(slab.book, draftQuote(slab.book, slab.folder(), today));
    CHECK_FALSE(acceptQuote(slab.book, slab.book.get(id), today).possible());
    CHECK_FALSE(reviseQuote(slab.book, slab.book.get(id), today).possible());
    take(slab.book, sendQuote(slab.book, slab.book.get(id), today));
    CHECK(slab.book.get(id).sentOn == today);
    CHECK(slab.book.get(id).validUntil == today + 30);
    CHECK_FALSE(sendQuote(slab.book, slab.book.get(id), today).possible());

    take(slab.book, reviseQuote(slab.book, slab.book.get(id), today + 2));
    const auto* second = currentQuote(slab.book, slab.job);
    CHECK(second->issue == 2);
    CHECK(second->number == slab.book.get(id).number);
    CHECK_FALSE(second->sentOn);
    CHECK(slab.book.referring<&QuoteLine::quote>(second->id).size() == slab.book.referring<&QuoteLine::quote>(id).size());
    CHECK(totalOf(slab.book, *second).net == totalOf(slab.book, slab.book.get(id)).net);

    take(slab.book, sendQuote(slab.book, *second, today + 2));
    take(slab.book, acceptQuote(slab.book, *currentQuote(slab.book, slab.job), today + 9));
    CHECK(stageOf(slab.book, slab.folder()) == Stage::awarded);
    CHECK_FALSE(declineQuote(slab.book, *currentQuote(slab.book, slab.job), "", today + 9).possible());
    CHECK_FALSE(draftQuote(slab.book, slab.folder(), today + 9).possible());
    CHECK_FALSE(startQuote(slab.book, slab.folder(), today + 9).possible());
}

TEST_CASE("a declined quote keeps its reason and can be revised", "[job]")
{
    SlabJob slab;
    take(slab.book, draftQuote(slab.book, slab.folder(), today));
    take(slab.book, sendQuote(slab.book, *currentQuote(slab.book, slab.job), today));
    CHECK_FALSE(declineQuote(slab.book, *currentQuote(slab.book, slab.job), "", today + 3).possible());
    take(slab.book, declineQuote(slab.book, *currentQuote(slab.book, slab.job), "too late in the year", today + 3));
    CHECK(stageOf(slab.book, slab.folder()) == Stage::declined);
    CHECK(currentQuote(slab.book, slab.job)->declinedReason == "too late in the year");
    take(slab.book, draftQuote(slab.book, slab.folder(), today + 5));
    CHECK(currentQuote(slab.book, slab.job)->issue == 2);
    CHECK(currentQuote(slab.book, slab.job)->declinedReason.empty());
}

TEST_CASE("a job is dropped with its reason, and not while money is owed", "[job]")
{
    SlabJob slab;
    CHECK_FALSE(dropJob(slab.book, slab.folder(), "", today).possible());
    take(slab.book, dropJob(slab.book, slab.folder(), "sold the house", today));
    CHECK(stageOf(slab.book, slab.folder()) == Stage::dropped);
    CHECK(slab.folder().droppedReason == "sold the house");
    CHECK_FALSE(dropJob(slab.book, slab.folder(), "again", today).possible());

    const auto billed = slab.BookMaker::job("Walk");
    slab.invoiceLine(slab.invoice(billed, "I1001", InvoiceKind::final, "2026-05-01", "2026-05-15"), "500");
    CHECK_FALSE(dropJob(slab.book, slab.book.get(billed), "changed their mind", today).possible());
}

TEST_CASE("reasons given before are there to choose from, the most frequent first", "[job]")
{
    SlabJob slab;
    CHECK(reasonsGiven(slab.book).empty());
    int number = 1;
    for (const auto* reason : {"timing", "price", "price", ""})
        slab.add(Lead{.number = "L" + std::to_string(number++), .receivedOn = today, .name = "Asker", .lostOn = today, .lostReason = reason});
    CHECK(reasonsGiven(slab.book) == std::vector<std::string>{"price", "timing"});
}

TEST_CASE("the invoice of a job is drafted, issued and paid", "[job]")
{
    SlabJob slab;
    slab.sheet();
    CHECK_FALSE(writeInvoice(slab.book, slab.folder(), InvoiceKind::final, today).possible());
    take(slab.book, draftQuote(slab.book, slab.folder(), today));
    take(slab.book, sendQuote(slab.book, *currentQuote(slab.book, slab.job), today));
    take(slab.book, acceptQuote(slab.book, *currentQuote(slab.book, slab.job), today));
    CHECK(paperOfNextThing(slab.book, slab.folder(), stageOf(slab.book, slab.folder())) == PaperKind::invoices);  // the deposit

    auto pour = proposedPour(slab.book, slab.folder());
    CHECK(pour.sequence == 1);
    CHECK(pour.orderedYards == Yards::ofUnits(5'250));
    CHECK(pour.mix == "4000AE");
    REQUIRE(pour.supplier);
    const auto pourId = slab.add(pour);
    CHECK(proposedPour(slab.book, slab.folder()).sequence == 2);
    CHECK_FALSE(proposedPour(slab.book, slab.folder()).orderedYards);  // all of it is ordered
    take(slab.book, finishPour(slab.book, slab.book.get(pourId), today + 4));
    CHECK(stageOf(slab.book, slab.folder()) == Stage::returning);  // what the pour needs is on the list
    for (int i = 1; i <= slab.book.lastId(RecordKind::visit); ++i) slab.change(Id<Visit>{i}, [](Visit& row) { row.doneOn = today + 5; });
    CHECK(stageOf(slab.book, slab.folder()) == Stage::poured);

    take(slab.book, writeInvoice(slab.book, slab.folder(), InvoiceKind::final, today + 5));
    const auto& draft = *slab.book.all<Invoice>().begin();
    CHECK_FALSE(writeInvoice(slab.book, slab.folder(), InvoiceKind::deposit, today + 5).possible());  // one draft at a time
    const auto days = *draft.dueOn - draft.draftedOn;
    take(slab.book, issueInvoice(slab.book, draft, today + 8));
    const auto& invoice = *slab.book.all<Invoice>().begin();
    CHECK(invoice.issuedOn == today + 8);
    CHECK(invoice.dueOn == today + 8 + days);
    CHECK_FALSE(issueInvoice(slab.book, invoice, today + 9).possible());
    CHECK_FALSE(closeJob(slab.book, slab.folder(), today + 9).possible());  // money is owed

    Step pay;
    pay.edit = Edit{"Enter payment"};
    Payment payment{.customer = slab.folder().customer, .receivedOn = today + 12, .amount = totalOf(slab.book, invoice).balance};
    payment.id = pay.edit->add(payment);
    addShares(*pay.edit, slab.book, payment);
    take(slab.book, pay);
    CHECK(totalOf(slab.book, *slab.book.all<Invoice>().begin()).balance == Money{});
    CHECK(stageOf(slab.book, slab.folder()) == Stage::paid);
    take(slab.book, closeJob(slab.book, slab.folder(), today + 13));
    CHECK(stageOf(slab.book, slab.folder()) == Stage::closed);
}

TEST_CASE("the run of papers says of each whether it is blank, in work or done", "[job]")
{
    SlabJob slab;
    slab.sheet();
    const auto papers = [&] { return folderPapers(slab.book, slab.folder(), jobCost(slab.book, slab.folder())); };
    const auto paper = [&](PaperKind kind) { return papers()[static_cast<std::size_t>(kind)]; };
    CHECK(paper(PaperKind::lead).state == PaperState::blank);
    CHECK(paper(PaperKind::takeoff).state == PaperState::done);
    CHECK(paper(PaperKind::takeoff).figure == "400 sq ft");
    CHECK(paper(PaperKind::takeoff).detail == "order 5.25 yd\u00b3");
    CHECK(paper(PaperKind::quote).state == PaperState::blank);
    CHECK(paper(PaperKind::result).state == PaperState::blank);

    take(slab.book, draftQuote(slab.book, slab.folder(), today));
    CHECK(paper(PaperKind::quote).state == PaperState::inWork);
    CHECK(paper(PaperKind::quote).detail == "draft, not sent");
    take(slab.book, sendQuote(slab.book, *currentQuote(slab.book, slab.job), today));
    take(slab.book, acceptQuote(slab.book, *currentQuote(slab.book, slab.job), today));
    CHECK(paper(PaperKind::quote).state == PaperState::done);
    slab.add(proposedPour(slab.book, slab.folder()));
    CHECK(paper(PaperKind::pours).state == PaperState::inWork);
    slab.add(Receipt{.number = "R1", .date = today, .job = slab.job, .costClass = CostClass::base, .vendor = "Pit", .amount = usd("118.40")});
    CHECK(paper(PaperKind::work).figure == "$118.40");
    CHECK(paper(PaperKind::work).state == PaperState::inWork);
    CHECK(paper(PaperKind::result).state == PaperState::inWork);
    CHECK(paper(PaperKind::result).detail == "so far");

    const auto answer = jobAnswer(slab.book, jobCost(slab.book, slab.folder()));
    CHECK(answer.find("cost $118.40") != std::string::npos);
    CHECK(answer.find("Next: ") != std::string::npos);
}

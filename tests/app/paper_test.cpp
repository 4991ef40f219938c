#include "app/paper_sample.h"

#include "paper/papers.h"
#include "paper/takeoff_plan.h"

#include "domain/cost/story.h"

#include <catch2/catch.hpp>

using namespace strikeoff;
using strikeoff::sample::day;
using strikeoff::sample::Outfit;
using strikeoff::sample::put;

namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// The block of a type, the first of them.
template <class Block>
const Block& blockOf(const PaperDocument& paper, std::size_t which = 0)
{
    for (const auto& block : paper.blocks)
        if (const auto* found = std::get_if<Block>(&block); found && which-- == 0) return *found;
    FAIL("the paper lacks a block");
    throw std::logic_error{"not reached"};
}

std::string factOf(const std::vector<PaperFact>& facts, const std::string& label)
{
    for (const auto& fact : facts)
        if (fact.label == label) return fact.text;
    return "none";
}

/// Sum of a table's last column, rows of sums left out.
Money lastColumn(const PaperTable& table)
{
    Money sum;
    for (const auto& row : table.rows)
        if (row.manner == PaperRowManner::plain) sum += Money::ofUnits(readDecimal(row.cells.back(), Money::scale).value());
    return sum;
}

}

TEST_CASE("a quote shows the customer neither what work costs us nor the mark-up, our codes or our notes", "[paper]")
{
    const Outfit outfit;
    const auto& book = outfit.book;
    const auto text = plainText(quotePaper(book, book.get(outfit.quote)));
    INFO(text);
    const auto& quote = book.get(outfit.quote);
    for (const auto* line : book.referring<&QuoteLine::quote>(outfit.quote)) {
        CHECK_FALSE(holds(text, line->unitCost.shown()));
        CHECK_FALSE(holds(text, line->cost().shown()));
        CHECK_FALSE(holds(text, line->unitCost.text()));
        // Alone, the price of a line without a price of its own gives the cost away to who guesses the mark-up.
        if (!line->unitPrice && line->costClass != CostClass::base) CHECK_FALSE(holds(text, line->price(quote.markup).shown()));
    }
    CHECK_FALSE(holds(text, quote.markup.text()));
    for (const auto* secret : {"4000AE", "haggles", "mean dog", "downspout", "neighbor wants"}) CHECK_FALSE(holds(text, secret));
}

TEST_CASE("a quote adds lines without a price of their own up by class and keeps the priced ones as they are", "[paper]")
{
    const Outfit outfit;
    const auto paper = quotePaper(outfit.book, outfit.book.get(outfit.quote));
    const auto& lines = blockOf<PaperTable>(paper, 1);
    REQUIRE(lines.rows.size() == 5);
    // By hand: 6.75 × 163.77 = 1,105.45 and 37.25 % of it 411.78; 6.75 × 9.13 = 61.63 and 22.96: 1,517.23 + 84.59.
    CHECK(lines.rows[0].cells == std::vector<std::string>{"Concrete", "", "", "", "1,601.82"});
    CHECK(lines.rows[0].below == "4,000 psi air-entrained mix; Fiber in all loads");
    CHECK(lines.rows[3].cells == std::vector<std::string>{"Penetrating sealer, one coat", "518", "sf", "0.85", "440.30"});
    CHECK(lines.rows[4].cells == std::vector<std::string>{"Sod stripped and hauled off", "1", "load", "375.00", "375.00"});
    // What stands on the lines is what is asked for: 6.75 % of 4,972.06 is 335.61.
    CHECK(lastColumn(lines) == Money::ofCents(4'972'06));
    CHECK(factOf(lines.totals, "Price before tax") == "4,972.06");
    CHECK(factOf(lines.totals, "Sales tax, 6.75% of taxable lines") == "335.61");
    CHECK(factOf(lines.totals, "Price in all") == "$5,307.67");
    CHECK(lines.totals.back().strong);
}

TEST_CASE("a quote carries what a customer signs for", "[paper]")
{
    Outfit outfit;
    auto& book = outfit.book;
    auto quote = book.get(outfit.quote);
    auto paper = quotePaper(book, quote);
    auto text = plainText(paper);
    for (const auto* part : {"Wrenfield Flatwork", "418 Quarry Lane, Maple Ferry, OH 45999", "License FW-20417", "Odalys Prentiss-Marlowe", "Work at", "Strip the sod", "Valid until  Jun 6, 2026",
                             "Permit fees, moving of sprinkler lines", "Weather moves the pour", "a deposit of $1,592.30 (30%)", "burns skin and eyes", "silica dust", "June 2026",
                             "I accept quote Q1012, revision 2 at $5,307.67"})
        CHECK(holds(text, part));
    CHECK(blockOf<PaperSignatures>(paper).signers.size() == 2);
    CHECK(blockOf<PaperHeading>(paper).state.empty());

    quote.sentOn.reset();
    CHECK(blockOf<PaperHeading>(quotePaper(book, quote)).state == "Draft, not sent");
    quote.declinedOn = day(2026, 5, 20);
    paper = quotePaper(book, quote);
    CHECK(blockOf<PaperHeading>(paper).state == "Declined May 20, 2026");
    CHECK_FALSE(holds(plainText(paper), "I accept"));

    auto newer = book.get(outfit.quote);
    newer.issue = 3;
    put(book, newer, 2);
    CHECK(blockOf<PaperHeading>(quotePaper(book, book.get(outfit.quote))).state == "Replaced by revision 3");
    // The newer one has no lines yet: nothing to sign.
    text = plainText(quotePaper(book, book.get(Id<Quote>{2})));
    CHECK(holds(text, "No price is set yet."));
    CHECK_FALSE(holds(text, "I accept"));
}

TEST_CASE("a customer who is exempt sees it on the paper", "[paper]")
{
    Outfit outfit;
    auto customer = outfit.book.get(outfit.customer);
    customer.taxExempt = true;
    outfit.book.put(rowOf(customer));
    const auto paper = quotePaper(outfit.book, outfit.book.get(outfit.quote));
    CHECK(factOf(blockOf<PaperTable>(paper, 1).totals, "Sales tax: exempt") == "0.00");
    CHECK(factOf(blockOf<PaperTable>(paper, 1).totals, "Price in all") == "$4,972.06");
}

TEST_CASE("the sections of a quote stand with size, thickness and area, what is taken out as less", "[paper]")
{
    Outfit outfit;
    TakeoffSection torn;
    torn.job = outfit.job;
    torn.position = 6;
    torn.name = "Apron";
    torn.length = TapeLength::ofFeet(20);
    put(outfit.book, torn, 6);
    const auto paper = quotePaper(outfit.book, outfit.book.get(outfit.quote));
    const auto& rows = blockOf<PaperTable>(paper).rows;
    REQUIRE(rows.size() == 7);
    CHECK(rows[0].cells == std::vector<std::string>{"Patio", "40' \u00d7 10'", "4\"", "Broom", "400.0"});
    // By hand: 22 × 4 + 4 × 11.5 = 134; π × 2.5² = 19.63; (8 + 5.5) / 2 × 4.2917 = 28.97.
    CHECK(rows[1].cells[4] == "134.0");
    CHECK(rows[2].cells[0] == "Fire pit opening (taken out)");
    CHECK(rows[2].cells[4] == "\u221219.6");
    CHECK(rows[3].cells[4] == "29.0");
    CHECK(rows[4].cells[4] == "\u2013");
    CHECK(rows[5].cells == std::vector<std::string>{"Apron", "20' \u00d7 not recorded", "\u2013", "Broom", "\u2013"});
    CHECK(rows[6].cells == std::vector<std::string>{"Area in all", "", "", "", "543.3"});
}

TEST_CASE("a takeoff is drawn with the lengths that were measured", "[paper]")
{
    const Outfit outfit;
    const auto plan = planOf(sectionsOf(outfit.book, outfit.job));
    REQUIRE(plan.shapes.size() == 4);  // the thickened edge has no outline
    const auto words = [](const PlanShape& shape) {
        std::vector<std::string> all;
        for (const auto& dimension : shape.dimensions) all.push_back(dimension.text);
        return all;
    };
    CHECK(words(plan.shapes[0]) == std::vector<std::string>{"40'", "10'"});
    // Common practice, no source: joints every 10 ft make four square panels of a slab 40 by 10 at 4 in, so three lines of joint.
    CHECK(plan.shapes[0].joints.size() == 3);
    CHECK(words(plan.shapes[1]) == std::vector<std::string>{"22'", "4'", "18'", "11'\u00a06\"", "4'", "15'\u00a06\""});
    CHECK(plan.shapes[2].deduct);
    CHECK(plan.shapes[2].joints.empty());
    CHECK(words(plan.shapes[2]) == std::vector<std::string>{"5' across"});
    CHECK(words(plan.shapes[3]) == std::vector<std::string>{"8'", "5'\u00a06\"", "4'\u00a03-1/2\""});
    CHECK(plan.shapes[3].captions == std::vector<std::string>{"29.0 sq ft, 5\" thick"});
}

TEST_CASE("an invoice takes off retainage, payments and credits of up to the day", "[paper]")
{
    const Outfit outfit;
    const auto& invoice = outfit.book.get(outfit.invoice);
    const auto paper = invoicePaper(outfit.book, invoice, day(2026, 7, 10));
    // By hand: lines 5,657.70; 6.75 % of the taxable 5,612.70 is 378.86; 5 % of the lines 282.89.
    const auto& totals = blockOf<PaperTable>(paper).totals;
    CHECK(lastColumn(blockOf<PaperTable>(paper)) == Money::ofCents(5'657'70));
    CHECK(factOf(totals, "Sum of lines") == "5,657.70");
    CHECK(factOf(totals, "Sales tax, 6.75% of taxable lines") == "378.86");
    CHECK(factOf(totals, "Total") == "$6,036.56");
    CHECK(factOf(totals, "Less retainage held back, 5% before tax") == "\u2212282.89");
    CHECK(factOf(totals, "Less payment Jun 30, 2026, Check 2210") == "\u22122,000.00");
    CHECK(factOf(totals, "Less credit C1003, Jul 2, 2026") == "\u221285.00");
    CHECK(factOf(totals, "Amount due") == "$3,668.67");
    CHECK(factOf(blockOf<PaperFigures>(paper).figures, "Amount due") == "$3,668.67");
    CHECK(factOf(blockOf<PaperFigures>(paper).figures, "Due") == "Jul 5, 2026");
    CHECK(blockOf<PaperHeading>(paper).state == "Past due by 5 days");
    const auto text = plainText(paper);
    CHECK(holds(text, "Make checks out to Wrenfield Flatwork and mail them to 418 Quarry Lane"));
    CHECK(holds(text, "Write I1031 on the payment"));
    for (const auto* secret : {"owes us", "bounced", "haggles"}) CHECK_FALSE(holds(text, secret));

    const auto before = invoicePaper(outfit.book, invoice, day(2026, 6, 25));
    CHECK(factOf(blockOf<PaperTable>(before).totals, "Amount due") == "$5,753.67");
    CHECK_FALSE(holds(plainText(before), "payment Jun 30"));
    CHECK(blockOf<PaperHeading>(before).state.empty());
}

TEST_CASE("an invoice says when it is a draft, paid or overpaid", "[paper]")
{
    Outfit outfit;
    auto invoice = outfit.book.get(outfit.invoice);
    invoice.issuedOn.reset();
    outfit.book.put(rowOf(invoice));
    const auto draft = invoicePaper(outfit.book, invoice, day(2026, 7, 10));
    CHECK(blockOf<PaperHeading>(draft).state == "Draft, not issued");
    CHECK(factOf(blockOf<PaperTable>(draft).totals, "Amount due") == "$5,753.67");

    invoice.issuedOn = day(2026, 6, 21);
    outfit.book.put(rowOf(invoice));
    auto share = outfit.book.get(Id<PaymentShare>{1});
    share.amount = Money::ofCents(5'668'67);
    outfit.book.put(rowOf(share));
    const auto paid = invoicePaper(outfit.book, invoice, day(2026, 7, 10));
    CHECK(blockOf<PaperHeading>(paid).state == "Paid in full");
    CHECK(factOf(blockOf<PaperFigures>(paid).figures, "Amount due") == "$0.00");
    CHECK_FALSE(holds(plainText(paid), "How to pay"));

    share.amount = Money::ofCents(5'700'00);
    outfit.book.put(rowOf(share));
    CHECK(factOf(blockOf<PaperFigures>(invoicePaper(outfit.book, invoice, day(2026, 7, 10))).figures, "In your favor") == "$31.33");
}

TEST_CASE("a change order shows its price and the job's, never its cost", "[paper]")
{
    Outfit outfit;
    auto second = outfit.book.get(outfit.change);
    second.acceptedOn = day(2026, 6, 10);
    outfit.book.put(rowOf(second));
    second.number = 2;
    second.acceptedOn.reset();
    second.price = Money::ofCents(-40'00);
    second.description = "Leave out the joint sealant.";
    put(outfit.book, second, 2);
    const auto paper = changeOrderPaper(outfit.book, outfit.book.get(Id<ChangeOrder>{2}));
    const auto text = plainText(paper);
    INFO(text);
    CHECK(holds(text, "Leave out the joint sealant."));
    CHECK(holds(text, "Quote Q1012, revision 2  4,972.06"));
    CHECK(holds(text, "Change order 1, accepted Jun 10, 2026  260.00"));
    CHECK(holds(text, "This change order  \u221240.00"));
    CHECK(holds(text, "Price of the job with this change  $5,192.06"));
    CHECK(holds(text, "at \u2212$40.00 before sales tax"));
    CHECK_FALSE(holds(text, "153.29"));
    CHECK_FALSE(holds(text, "did it cheap"));
    CHECK(blockOf<PaperSignatures>(paper).signers.size() == 2);
}

TEST_CASE("a statement of account runs to the balance that is owed, with its age", "[paper]")
{
    const Outfit outfit;
    const auto paper = accountPaper(outfit.book, outfit.book.get(outfit.customer), day(2026, 7, 10));
    const auto& lines = blockOf<PaperTable>(paper);
    REQUIRE(lines.rows.size() == 3);
    CHECK(lines.rows.back().cells.back() == "3,668.67");
    CHECK(factOf(blockOf<PaperFigures>(paper).figures, "Balance") == "$3,668.67");
    CHECK(blockOf<PaperTable>(paper, 1).rows.front().cells == std::vector<std::string>{"0.00", "3,668.67", "0.00", "0.00", "0.00"});

    const auto early = accountPaper(outfit.book, outfit.book.get(outfit.customer), day(2026, 5, 1));
    CHECK(holds(plainText(early), "Nothing was billed or received up to this day."));
}

TEST_CASE("a credit note tells what is still due after it", "[paper]")
{
    const Outfit outfit;
    const auto text = plainText(creditPaper(outfit.book, outfit.book.get(outfit.credit)));
    INFO(text);
    CHECK(holds(text, "The gate post that was scraped"));
    CHECK(holds(text, "This credit  \u221285.00"));
    CHECK(holds(text, "Still due  $3,668.67"));
}

TEST_CASE("what is for ourselves says so", "[paper]")
{
    Story story;
    story.carried(CostClass::forms, "forms", "1", "job", "100");
    story.receipt(CostClass::forms, "130");
    story.ticket("401", "5");
    CostReckoner reckoner{story.maker.book};
    auto text = plainText(costPaper(reckoner, story.maker.book.get(story.job), day(2026, 6, 12)));
    INFO(text);
    CHECK(holds(text, "not for the customer"));
    CHECK(holds(text, "Forms  receipts against the bid +30.00  100.00  130.00  30.00"));
    CHECK(holds(text, "receipts against the bid +30.00"));
    CHECK(holds(text, "Not in the cost: one ticket without a price."));
    CHECK(holds(text, "is expected to cost"));

    const Outfit outfit;
    DaySheet sheet;
    sheet.date = day(2026, 6, 12);
    sheet.answer = "One pour today.";
    sheet.items = {{DaySection::pours, ClockTime::of(7, 30), "Pour the patio", "first truck", "Open", RecordKind::pour, 1, false},
                   {DaySection::calls, {}, "Call back", "three days old", "Call", RecordKind::lead, 1, true}};
    text = plainText(daySheetPaper(outfit.book.settings(), sheet));
    CHECK(holds(text, "For ourselves"));
    CHECK(holds(text, "7:30 am  Pour the patio  first truck"));
    CHECK(holds(text, "Late: three days old"));
    CHECK(holds(text, "Wet concrete burns"));
}

TEST_CASE("text that looks like markup, a query or a formula stands on papers as it is", "[paper]")
{
    Outfit outfit;
    const std::string odd = "<b>Bold & Sons</b> '; DROP TABLE customer; -- =SUM(A1:A9) &amp; %1 \\n";
    auto customer = outfit.book.get(outfit.customer);
    customer.name = odd;
    outfit.book.put(rowOf(customer));
    auto job = outfit.book.get(outfit.job);
    job.title = odd;
    outfit.book.put(rowOf(job));
    for (const auto& paper : {quotePaper(outfit.book, outfit.book.get(outfit.quote)), invoicePaper(outfit.book, outfit.book.get(outfit.invoice), day(2026, 7, 10)),
                              changeOrderPaper(outfit.book, outfit.book.get(outfit.change)), creditPaper(outfit.book, outfit.book.get(outfit.credit)),
                              accountPaper(outfit.book, customer, day(2026, 7, 10))})
        CHECK(holds(plainText(paper), odd));
}

TEST_CASE("papers come out of a book with hardly anything in it", "[paper]")
{
    Book book;
    put(book, Customer{}, 1);
    Job job;
    job.customer = Id<Customer>{1};
    put(book, job, 1);
    Quote quote;
    quote.job = Id<Job>{1};
    put(book, quote, 1);
    Invoice invoice;
    invoice.job = Id<Job>{1};
    put(book, invoice, 1);
    ChangeOrder change;
    change.job = Id<Job>{1};
    put(book, change, 1);
    CHECK(holds(plainText(quotePaper(book, quote)), "see Settings"));
    CHECK(holds(plainText(changeOrderPaper(book, book.get(Id<ChangeOrder>{1}))), "Price of the job with this change  $0.00"));
    CHECK(holds(plainText(invoicePaper(book, book.get(Id<Invoice>{1}), day(2026, 1, 1))), "Draft, not issued"));
    CHECK(holds(plainText(tablePaper(book.settings(), "Jobs", {}, {{"No."}}, {})), "There are no rows."));
}

#include "ready_mix/claims.h"

#include "domain/book_maker.h"

#include <catch2/catch.hpp>

#include <map>

using namespace strikeoff;

namespace {

/// A supplier with a sheet, tickets and a statement; June 2026.
struct Desk {
    BookMaker maker;
    Id<Supplier> supplier = maker.add(Supplier{.name = "Lindmoor Ready Mix", .address = "2 Pit Road", .accountNumber = "4471", .termsDays = 30, .discountDays = 10});
    Id<Statement> statement;
    int lines = 0;

    Desk()
    {
        maker.add(Settings{.outfitName = "Brackwater Flatwork", .outfitTown = "Brackwater"});
        charge(ChargeKind::mix, "4000AE", "170", ChargeUnit::perYard, true);
        charge(ChargeKind::load, "ENV", "12", ChargeUnit::perLoad, false);
        charge(ChargeKind::tax, "TAX", "6.25", ChargeUnit::percent, false);
        charge(ChargeKind::discount, "DISC", "2", ChargeUnit::percent, false);
        statement = maker.add(Statement{.supplier = supplier, .number = "S6", .date = on("2026-06-30")});
    }
    void charge(ChargeKind kind, const char* code, const char* amount, ChargeUnit unit, bool taxable)
    {
        maker.add(SheetCharge{.supplier = supplier, .effectiveOn = on("2026-01-01"), .charge = kind, .code = code, .amount = each(amount), .unit = unit, .taxable = taxable});
    }
    Id<Ticket> ticket(const char* number, const char* yards, const char* date = "2026-06-12")
    {
        return maker.add(Ticket{.supplier = supplier, .number = number, .date = on(date), .mix = "4000AE", .yards = Yards::parse(yards).value()});
    }
    Id<StatementLine> line(const char* number, const char* code, const char* quantity, const char* price, const char* amount, const char* date = "2026-06-12")
    {
        return maker.add(StatementLine{.statement = statement, .line = ++lines, .ticketNumber = number, .date = on(date), .code = code,
                                       .quantity = *quantity ? Quantity::parse(quantity) : std::nullopt, .unitPrice = *price ? UnitPrice::parse(price) : std::nullopt, .amount = usd(amount)});
    }
    const Book& book() const { return maker.book; }
    StatementCheck check() const { return checkStatement(book(), book().get(statement)); }
    /// Applies a step as the store would; its new rows get the next ids and numbers.
    void take(Step step)
    {
        INFO(step.obstacle);
        REQUIRE(step.possible());
        for (auto& change : step.edit->changes())
            if (change.what == ChangeType::add) {
                change.row.id = maker.book.lastId(change.row.kind) + 1 + added_[change.row.kind]++;
                if (change.row.kind == RecordKind::claim) change.row.set("number", "D" + std::to_string(1000 + change.row.id));
            }
        added_.clear();
        const auto outcome = applyEdit(maker.book, *step.edit);
        for (const auto& problem : outcome.problems) FAIL(problem.field << ": " << problem.message);
    }

private:
    std::map<RecordKind, std::int64_t> added_;
};

const LineFinding& at(const StatementCheck& check, int line)
{
    for (const auto& finding : check.lines)
        if (finding.line && finding.line->line == line) return finding;
    throw DomainError{"no such line"};
}

/// One load with an old price and its tax, one that is right.
Desk withOldPrice()
{
    Desk desk;
    desk.ticket("48213", "9.5");
    desk.ticket("48260", "4", "2026-06-15");
    desk.line("48213", "4000AE", "9.5", "176", "1672.00");  // $57.00 more than the sheet makes it
    desk.line("48213", "TAX", "", "", "104.50");            // 6.25 % on that
    desk.line("48260", "4000AE", "4", "170", "680.00", "2026-06-15");
    desk.line("48260", "TAX", "", "", "42.50", "2026-06-15");
    return desk;
}

}

TEST_CASE("a statement is approved with one claim a load, over what is disputed to the cent", "[claims]")
{
    auto desk = withOldPrice();
    auto check = desk.check();
    CHECK(at(check, 1).finding == Finding::priceOff);
    CHECK(at(check, 1).why == "Jun 12, 2026, ticket 48213: mix 4000AE billed at $176.00; the sheet of Jan 1, 2026 says $170.00: $1,672.00 billed, $1,615.00 due.");
    CHECK(at(check, 2).finding == Finding::taxOff);
    CHECK(at(check, 2).follows);
    CHECK(check.disputed == usd("60.56"));  // 57.00 and its tax: 104.50 less 6.25 % of 1,615.00 = 100.94
    CHECK(check.linesOpen == 2);
    CHECK(check.pay.pay == usd("2438.44"));
    CHECK(check.pay.earlyUntil == on("2026-07-10"));
    CHECK(check.pay.discount == usd("45.90"));  // 2 % of 1,615.00 and of 680.00

    desk.take(approveStatement(desk.book(), desk.book().get(desk.statement), on("2026-07-03")));
    REQUIRE(desk.book().all<Claim>().size() == 1);
    const auto& claim = desk.book().all<Claim>()[0];
    CHECK(claim.amount == usd("60.56"));
    CHECK(claim.openedOn == on("2026-07-03"));
    CHECK(claim.reason.find("$176.00") != std::string::npos);
    CHECK(claim.reason.find("With the tax on it.") != std::string::npos);
    check = desk.check();
    CHECK(at(check, 1).state == FindingState::claimed);
    CHECK(at(check, 2).state == FindingState::claimed);
    CHECK(check.linesOpen == 0);
    CHECK(check.isOpen());
    CHECK(check.claimsOpen.size() == 1);
    CHECK_FALSE(approveStatement(desk.book(), desk.book().get(desk.statement), on("2026-07-04")).possible());
}

TEST_CASE("a credit line closes the claim it answers, and one that is short leaves the rest open", "[claims]")
{
    auto desk = withOldPrice();
    desk.take(approveStatement(desk.book(), desk.book().get(desk.statement), on("2026-07-03")));
    const auto july = desk.maker.add(Statement{.supplier = desk.supplier, .number = "S7", .date = on("2026-07-31")});
    const auto credit = desk.maker.add(StatementLine{.statement = july, .line = 1, .ticketNumber = "48213", .date = on("2026-07-20"), .description = "Credit", .amount = usd("-57.00")});
    auto check = checkStatement(desk.book(), desk.book().get(july));
    CHECK(at(check, 1).finding == Finding::credit);
    REQUIRE(at(check, 1).suggested);  // same ticket
    CHECK(check.billed == usd("-57.00"));
    CHECK(check.agreed == usd("-57.00"));

    const auto claimId = desk.book().all<Claim>()[0].id;
    desk.take(creditClaim(desk.book(), desk.book().get(claimId), desk.book().get(credit)));
    CHECK(desk.book().get(claimId).creditedOn == on("2026-07-31"));
    CHECK(desk.book().get(claimId).amount == usd("57.00"));
    REQUIRE(desk.book().all<Claim>().size() == 2);
    const auto& rest = desk.book().all<Claim>()[1];
    CHECK(rest.amount == usd("3.56"));
    CHECK_FALSE(rest.creditedOn.has_value());
    CHECK_FALSE(creditClaim(desk.book(), rest, desk.book().get(credit)).possible());  // that credit is used up
    // What was held back in June is not taken off again in July.
    check = checkStatement(desk.book(), desk.book().get(july));
    CHECK(check.pay.settled == usd("57.00"));
    CHECK(check.pay.pay == Money{});

    CHECK_FALSE(letClaimGo(desk.book(), rest, "  ", on("2026-08-02")).possible());
    desk.take(letClaimGo(desk.book(), rest, "not worth a call", on("2026-08-02")));
    CHECK_FALSE(desk.check().isOpen());
}

TEST_CASE("a line can be let stand with a reason, and that can be taken back", "[claims]")
{
    auto desk = withOldPrice();
    const auto& line = *at(desk.check(), 1).line;
    desk.take(letStand(desk.book(), line, "they told me of the raise"));
    auto check = desk.check();
    CHECK(at(check, 1).state == FindingState::letStand);
    CHECK(at(check, 1).agreed == usd("1672.00"));
    CHECK(at(check, 2).finding == Finding::agrees);  // tax on what stands
    CHECK(check.disputed == Money{});
    CHECK_FALSE(check.isOpen());
    desk.take(letStand(desk.book(), desk.book().get(line.id), ""));
    CHECK(desk.check().disputed == usd("60.56"));
}

TEST_CASE("what needs the owner's eye keeps a statement from being approved until it is paired or parted by hand", "[claims]")
{
    Desk desk;
    const auto first = desk.ticket("48213", "9.5");
    desk.ticket("48273", "9.5");
    desk.line("48223", "4000AE", "9.5", "170", "1615.00");  // a digit away from both
    desk.line("48223", "ENV", "1", "12", "12.00");
    auto check = desk.check();
    CHECK(at(check, 1).finding == Finding::needsYourEye);
    CHECK(at(check, 1).candidates.size() == 2);
    CHECK(check.needsEye == usd("1627.00"));
    CHECK(check.unbilled.empty());
    const auto approval = approveStatement(desk.book(), desk.book().get(desk.statement), on("2026-07-03"));
    CHECK_FALSE(approval.possible());
    CHECK(approval.obstacle.find("Two lines need your eye") == 0);

    const auto lines = linesOfLoad(desk.book(), *at(check, 1).line);
    REQUIRE(lines.size() == 2);
    desk.take(pairByHand(desk.book(), lines, desk.book().get(first)));
    check = desk.check();
    CHECK(at(check, 1).how == PairedHow::hand);
    CHECK(at(check, 1).finding == Finding::agrees);
    REQUIRE(check.unbilled.size() == 1);
    CHECK(check.unbilled[0].ticket->number == "48273");
    CHECK(check.unbilled[0].expected == usd("1727.94"));  // 1,615.00 and 12.00 and 6.25 % of the mix

    desk.take(partByHand(desk.book(), linesOfLoad(desk.book(), *at(check, 1).line)));
    check = desk.check();
    CHECK(at(check, 1).finding == Finding::noTicket);
    CHECK(check.disputed == usd("1627.00"));
    desk.take(forgetPairing(desk.book(), linesOfLoad(desk.book(), *at(check, 1).line)));
    CHECK(at(desk.check(), 1).finding == Finding::needsYourEye);
}

TEST_CASE("the letter is polite and has every line with ticket, date, billed, expected and why", "[claims]")
{
    auto desk = withOldPrice();
    const auto letter = letterFor(desk.book(), desk.check(), on("2026-07-03"));
    REQUIRE(letter);
    CHECK(letter->subject == "Statement S6 of Jun 30, 2026, our account 4471");
    CHECK(letter->asked == usd("60.56"));
    REQUIRE(letter->lines.size() == 2);
    CHECK(letter->lines[0].ticket == "48213");
    CHECK(letter->lines[0].why == "Mix 4000AE billed at $176.00; the sheet of Jan 1, 2026 says $170.00: $1,672.00 billed, $1,615.00 due.");
    const auto text = letter->text();
    CHECK(text.find("48213     Jun 12, 2026    1,672.00    1,615.00       57.00\n") != std::string::npos);
    CHECK(text.find("Please credit it on the next statement") != std::string::npos);
    CHECK(text.find("Brackwater Flatwork") == 0);
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find('\n', at), text.size());
        CHECK(end - at <= 90);  // mail folds at 78 columns; a letter of more than one byte counts as such here
        at = end + 1;
    }
    Desk fine;
    CHECK_FALSE(letterFor(fine.book(), fine.check(), on("2026-07-03")).has_value());
}

TEST_CASE("a statement can be reopened while nothing came of its claims, and is paid once approved", "[claims]")
{
    auto desk = withOldPrice();
    CHECK_FALSE(payStatement(desk.book(), desk.book().get(desk.statement), on("2026-07-10")).possible());
    desk.take(approveStatement(desk.book(), desk.book().get(desk.statement), on("2026-07-03")));
    desk.take(reopenStatement(desk.book(), desk.book().get(desk.statement)));
    CHECK(desk.book().all<Claim>().empty());
    CHECK_FALSE(desk.book().get(desk.statement).approvedOn.has_value());
    desk.take(approveStatement(desk.book(), desk.book().get(desk.statement), on("2026-07-03")));
    desk.take(payStatement(desk.book(), desk.book().get(desk.statement), on("2026-07-10")));
    CHECK(desk.book().get(desk.statement).paidOn == on("2026-07-10"));
    CHECK_FALSE(reopenStatement(desk.book(), desk.book().get(desk.statement)).possible());
}

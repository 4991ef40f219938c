#include "ready_mix/ticket_stack.h"

#include "domain/book_maker.h"
#include "ready_mix/expected_charge.h"
#include "ready_mix/ticket_warnings.h"

using namespace strikeoff;

namespace {

/// A supplier with a sheet, a job with one pour that is done.
struct Yard {
    BookMaker maker;
    Date today = on("2026-06-13");
    Id<Supplier> supplier = maker.add(Supplier{.name = "Tamarack Ready Mix"});
    Id<Job> job = maker.job("Patio");
    Id<Pour> pour = maker.add(Pour{.job = job, .pouredOn = on("2026-06-12"), .supplier = supplier, .mix = "4000AE", .slumpOrdered = Quantity::ofUnits(4500)});

    Yard()
    {
        const auto add = [&](ChargeKind kind, const char* code, ChargeUnit unit) {
            maker.add(SheetCharge{.supplier = supplier, .effectiveOn = on("2026-01-01"), .charge = kind, .code = code, .amount = each("10"), .unit = unit});
        };
        add(ChargeKind::mix, "3000", ChargeUnit::perYard);
        add(ChargeKind::mix, "4000", ChargeUnit::perYard);
        add(ChargeKind::mix, "4000AE", ChargeUnit::perYard);
        add(ChargeKind::option, "ACC", ChargeUnit::perYard);
        add(ChargeKind::option, "FIBER", ChargeUnit::perYard);
        add(ChargeKind::option, "FLYASH", ChargeUnit::perYard);
        add(ChargeKind::winter, "HEAT", ChargeUnit::perYard);
        add(ChargeKind::waiting, "WAIT", ChargeUnit::perMinute);
    }
    const Book& book() { return maker.book; }
    TicketReading read(const TypedTicket& typed) { return readStack(book(), std::span{&typed, 1}, today).front(); }
    TypedTicket begun(std::string_view field, std::string_view text)
    {
        auto typed = firstOfStack(book(), today);
        typed["number"] = "48213";
        typed["yards"] = "9 1/2";
        typed[std::string{field}] = text;
        return typed;
    }
    std::string completed(std::string_view field, std::string_view text) { return completedText(book(), begun(field, text), field, today); }
};

}

TEST_CASE("a stack begins with the last pour that has no ticket, and the pour fills in what it knows", "[ready_mix][stack]")
{
    Yard yard;
    const auto first = firstOfStack(yard.book(), yard.today);
    CHECK(typedText(first, "job") == "1001");
    CHECK(typedText(first, "pour") == "1");
    CHECK(typedText(first, "supplier") == "Tamarack Ready Mix");
    CHECK(typedText(first, "date") == "Jun 12, 2026");
    CHECK(typedText(first, "mix") == "4000AE");
    CHECK(typedText(first, "slump_ordered_in") == "4.5");
    CHECK(typedText(first, "number").empty());

    yard.maker.add(Ticket{.supplier = yard.supplier, .number = "1", .date = on("2026-06-12"), .yards = Yards::ofWhole(5), .job = yard.job, .pour = yard.pour});
    CHECK(firstOfStack(yard.book(), yard.today) == TypedTicket{{"date", "Jun 13, 2026"}});
}

TEST_CASE("the next ticket takes over what a stack has in common and nothing of the load's own", "[ready_mix][stack]")
{
    Yard yard;
    auto above = yard.begun("truck", "14");
    above["plant"] = "North";
    above["arrived_at"] = "742";
    above["options"] = "ACC=1";
    auto wanted = firstOfStack(yard.book(), yard.today);
    wanted["plant"] = "North";
    CHECK(nextOfStack(above) == wanted);
}

TEST_CASE("a row that holds only what was carried over is not begun", "[ready_mix][stack]")
{
    Yard yard;
    const auto untouched = yard.read(firstOfStack(yard.book(), yard.today));
    CHECK_FALSE(untouched.begun);
    CHECK(untouched.says().empty());
    auto typed = firstOfStack(yard.book(), yard.today);
    typed["truck"] = "14";
    const auto reading = yard.read(typed);
    CHECK(reading.begun);
    CHECK_FALSE(reading.canBeSaved());
    CHECK(reading.says() == "Still needed: Ticket and Yards.");
}

TEST_CASE("times and yards are read as they are typed", "[ready_mix][stack]")
{
    Yard yard;
    auto typed = yard.begun("batched_at", "705");
    typed["arrived_at"] = "742";
    typed["discharge_ended_at"] = "8:26a";
    const auto reading = yard.read(typed);
    REQUIRE(reading.canBeSaved());
    CHECK(reading.says().empty());
    CHECK(reading.ticket.yards == Yards::ofUnits(9500));
    CHECK(reading.ticket.batchedAt == at("07:05"));
    CHECK(reading.ticket.arrivedAt == at("07:42"));
    CHECK(reading.ticket.dischargeEndedAt == at("08:26"));
    CHECK(reading.ticket.supplier == yard.supplier);
    CHECK(reading.ticket.pour == yard.pour);
    CHECK(reading.ticket.mix == "4000AE");
}

TEST_CASE("a mix is known by its first letters, and what fits several is asked again", "[ready_mix][stack]")
{
    Yard yard;
    CHECK(yard.completed("mix", "3") == "3000");
    CHECK(yard.completed("mix", "4000a") == "4000AE");
    CHECK(yard.completed("mix", "4000") == "4000");  // the whole code goes before a longer one
    CHECK(yard.completed("mix", "4") == "4");
    CHECK(yard.read(yard.begun("mix", "4")).says() == "Mix: \u201c4\u201d fits 4000 and 4000AE; type more of it.");
    CHECK(yard.completed("mix", "grout") == "GROUT");  // paper may carry what the sheet has not
}

TEST_CASE("options are typed short and kept as tickets keep them", "[ready_mix][stack]")
{
    Yard yard;
    CHECK(yard.completed("options", "a 2 fib") == "ACC=2;FIBER");
    CHECK(yard.completed("options", "acc=1.5; heat") == "ACC=1.5;HEAT");
    CHECK(yard.completed("options", "ACC 1 1/2, fib 1") == "ACC=1.5;FIBER=1");
    CHECK(yard.completed("options", "acc 2%") == "ACC=2");
    CHECK(yard.completed("options", "wait") == "WAIT");  // no option: taken as a code of its own
    CHECK(yard.read(yard.begun("options", "f")).says() == "Options: \u201cf\u201d fits FIBER and FLYASH; type more of it.");
    CHECK(yard.read(yard.begun("options", "2")).says() == "Options: \u201c2\u201d stands without an option before it; write it like ACC=2.");
    CHECK(yard.read(yard.begun("options", "acc=")).says() == "Options: an option and its amount are written like ACC=2.");
    CHECK(parseOptions(yard.completed("options", "a 2 fib")).has_value());
}

TEST_CASE("a supplier is known by first letters and a job by its digits", "[ready_mix][stack]")
{
    Yard yard;
    CHECK(yard.completed("supplier", "tam") == "Tamarack Ready Mix");
    CHECK(yard.completed("job", "1001") == "1001");
    yard.maker.add(Supplier{.name = "Tamworth Sand"});
    CHECK(yard.completed("supplier", "tam") == "tam");
    CHECK(yard.completed("supplier", "tama") == "Tamarack Ready Mix");
    CHECK_FALSE(yard.read(yard.begun("supplier", "tam")).canBeSaved());
}

TEST_CASE("another job takes its own pour along", "[ready_mix][stack]")
{
    Yard yard;
    const auto walk = yard.maker.job("Walk");
    yard.maker.add(Pour{.job = walk, .pouredOn = on("2026-06-11"), .mix = "3000"});
    auto typed = yard.begun("truck", "14");
    typeInto(yard.book(), typed, "job", "1002", yard.today);
    CHECK(typedText(typed, "pour") == "1");
    CHECK(typedText(typed, "mix") == "3000");
    CHECK(typedText(typed, "date") == "Jun 11, 2026");
    CHECK(typedText(typed, "supplier") == "Tamarack Ready Mix");  // that pour names none, so it stays
    CHECK(typedText(typed, "number") == "48213");
    typeInto(yard.book(), typed, "mix", "4000a", yard.today);
    typeInto(yard.book(), typed, "job", "1002", yard.today);  // the same again brings nothing back
    CHECK(typedText(typed, "mix") == "4000AE");
    typeInto(yard.book(), typed, "mix", "  ", yard.today);
    CHECK_FALSE(typed.contains("mix"));
}

TEST_CASE("a fault names its field and loses nothing of the row", "[ready_mix][stack]")
{
    Yard yard;
    auto typed = yard.begun("arrived_at", "quarter past");
    const auto reading = yard.read(typed);
    CHECK_FALSE(reading.canBeSaved());
    REQUIRE(reading.faults.size() == 1);
    CHECK(reading.faults[0].field == "arrived_at");
    CHECK(reading.says().starts_with("Arrived: \u201cquarter past\u201d is not understood"));
    CHECK(reading.ticket.number == "48213");
    CHECK(yard.completed("arrived_at", "quarter past") == "quarter past");
    const auto far = yard.read(yard.begun("concrete_temp_f", "900"));
    REQUIRE(far.faults.size() == 1);
    CHECK(far.faults[0].field == "concrete_temp_f");
}

TEST_CASE("what looks wrong about a ticket is said and may be overruled", "[ready_mix][stack]")
{
    Yard yard;
    auto typed = yard.begun("yards", "11");
    typed["date"] = "6/10";
    typed["arrived_at"] = "8:26";
    typed["discharge_ended_at"] = "7:41";
    const auto reading = yard.read(typed);
    CHECK(reading.canBeSaved());
    REQUIRE(reading.warnings.size() == 3);
    CHECK(reading.warnings[0] == "The ticket is of Jun 10, 2026, the pour of Jun 12, 2026.");
    CHECK(reading.warnings[1] == "11.00 yd\u00b3 is more than a truck holds (10.00).");
    CHECK(reading.warnings[2] == "The times are out of order: arrived 8:26 am, empty 7:41 am.");
}

TEST_CASE("a number is used once: in the book, and in the stack", "[ready_mix][stack]")
{
    Yard yard;
    yard.maker.add(Ticket{.supplier = yard.supplier, .number = "T-048213", .date = on("2026-05-01"), .yards = Yards::ofWhole(5)});
    const std::vector stack{yard.begun("truck", "3"), yard.begun("truck", "4")};
    const auto readings = readStack(yard.book(), stack, yard.today);
    CHECK(readings[0].warnings == std::vector<std::string>{"Ticket T-048213 of May 1, 2026 has this number already."});
    REQUIRE(readings[1].warnings.size() == 2);
    CHECK(readings[1].warnings[1] == "Row 1 of this stack has the number 48213 too.");
    CHECK(readings[1].canBeSaved());
}

TEST_CASE("a stack says where it stands", "[ready_mix][stack]")
{
    Yard yard;
    const auto says = [&](const std::vector<TypedTicket>& stack) { return stackAnswer(readStack(yard.book(), stack, yard.today)); };
    CHECK(says({firstOfStack(yard.book(), yard.today)}) == "No ticket typed yet.");
    CHECK(says({yard.begun("truck", "3")}) == "One ticket in the stack, 9.50 yd\u00b3; ready to save.");
    CHECK(says({yard.begun("yards", "9"), yard.begun("number", "48214"), yard.begun("arrived_at", "x")})
          == "Three tickets in the stack, 28.00 yd\u00b3; one not ready to save; look again at one.");
}

TEST_CASE("the number after another keeps its letters and zeros", "[ready_mix][stack]")
{
    CHECK(numberAfter("48213") == "48214");
    CHECK(numberAfter("A-0099") == "A-0100");
    CHECK(numberAfter("T999") == "T1000");
    CHECK(numberAfter("48213B").empty());
    CHECK(numberAfter("").empty());
}

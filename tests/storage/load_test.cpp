#include "storage/loading.h"

#include "record/field_text.h"

#include <random>
#include <set>

using namespace strikeoff;
using namespace strikeoff::test;

namespace {

/// A supplier, a customer and job 501 with one pour, for tickets to belong to.
void layGround(Store& store)
{
    loaded(store, RecordKind::supplier, "name\nTamarack Ready Mix\n");
    loaded(store, RecordKind::customer, "name\nR. Alder\n");
    loaded(store, RecordKind::job, "number,title,customer,opened_on\n501,Patio,R. Alder,2026-05-04\n");
    loaded(store, RecordKind::pour, "job,sequence,poured_on\n501,1,2026-05-11\n");
}

constexpr std::string_view goodTicket = "supplier,number,date,yards,job,pour\nTamarack Ready Mix,48213,2026-05-11,9.5,501,1\n";

/// What a load that must fail says; the book and its dump are as before.
LoadResult refused(Store& store, RecordKind kind, std::string_view csv)
{
    const auto before = dumpOf(store.book());
    const auto trail = store.recentTrail(1);
    auto result = loadCsv(store, kind, "rows.csv", csv);
    CHECK_FALSE(result.done());
    CHECK(result.added + result.changed + result.unchanged == 0);
    CHECK(dumpOf(store.book()) == before);
    CHECK(store.recentTrail(1).front().id == trail.front().id);
    REQUIRE_FALSE(result.faults.empty());
    return result;
}

void checkFault(const LoadResult& result, std::size_t line, std::string_view column, const std::string& words,
                std::size_t place = 0)
{
    INFO(result.faultText("rows.csv"));
    REQUIRE(result.faults.size() > place);
    CHECK(result.faults[place].line == line);
    CHECK(result.faults[place].column == column);
    CHECK_THAT(result.faults[place].message, Catch::Contains(words));
}

}

TEST_CASE("a file adds what is new, changes what differs and leaves the rest alone", "[load]")
{
    Folder folder;
    const auto store = folder.fresh();
    auto result =
        loaded(*store, RecordKind::customer, "name,phone,terms_days\r\nR. Alder,555-0101,14\r\nBirch & Sons,555-0102,\r\n");
    CHECK(result.added == 2);

    result = loaded(*store, RecordKind::customer, "Name,Phone\nR. Alder,555-0101\nBirch & Sons,555-0199\nC. Cedar,\n");
    CHECK(result.added == 1);
    CHECK(result.changed == 1);
    CHECK(result.unchanged == 1);
    const auto& customers = store->book().all<Customer>();
    REQUIRE(customers.size() == 3);
    CHECK(customers[0].termsDays == 14);  // a column that the file has not keeps its value
    CHECK(customers[1].phone == "555-0199");
    CHECK(customers[0].revision == 1);
    CHECK(customers[1].revision == 2);

    // Nothing differs: no edit is made.
    const auto trail = store->recentTrail(1).front().id;
    CHECK(loaded(*store, RecordKind::customer, dumpCsv(store->book(), RecordKind::customer)).unchanged == 3);
    CHECK(store->recentTrail(1).front().id == trail);

    // A blank cell clears; one that has a default takes it again.
    loaded(*store, RecordKind::customer, "name,terms_days\nR. Alder,\n");
    CHECK_FALSE(store->book().all<Customer>()[0].termsDays);
    CHECK(store->undoTitle() == "Load customers from rows.csv");
    REQUIRE(store->undo().done());
    CHECK(store->book().all<Customer>()[0].termsDays == 14);
}

TEST_CASE("headings match in any order and spelling, and a number left blank is given by the book", "[load]")
{
    Folder folder;
    const auto store = folder.fresh();
    layGround(*store);
    loaded(
        *store, RecordKind::receipt,
        "\xEF\xBB\xBF"
        "Cost Class, Amount ,DATE,paid-on,number,job\nsteel,120.40,2026-05-10,2026-05-12,,501\npump,95,2026-05-11,,,501\nforms,30,2026-05-12,,R7,\n");
    const auto& receipts = store->book().all<Receipt>();
    REQUIRE(receipts.size() == 3);
    CHECK(receipts[0].number == "R1001");
    CHECK(receipts[1].number == "R1002");
    CHECK(receipts[2].number == "R7");
    CHECK(receipts[0].amount == Money::ofCents(120'40));
    CHECK(receipts[0].paidOn == Date::of(2026, 5, 12));
    CHECK_FALSE(receipts[1].paidOn);
    CHECK_FALSE(receipts[2].job);
}

TEST_CASE("a spreadsheet's semicolons, tabs and empty rows are read", "[load]")
{
    Folder folder;
    const auto store = folder.fresh();
    CHECK(loaded(*store, RecordKind::customer, "name;phone\nR. Alder;555-0101\n;\n\n").added == 1);
    CHECK(loaded(*store, RecordKind::customer, "name\tphone\nB. Birch\t555-0102\n").added == 1);
    CHECK(store->book().all<Customer>()[1].phone == "555-0102");
}

TEST_CASE("the headings of price sheets, tickets and hours that suppliers and crews use load as they are", "[load]")
{
    Folder folder;
    const auto store = folder.fresh();
    layGround(*store);
    loaded(*store, RecordKind::crewMember, "name\nDana Fir\n");
    CHECK(
        loaded(
            *store, RecordKind::priceSheet,
            "supplier,effective_on,charge,code,meaning,amount,unit,from_yards,to_yards,free_minutes,free_basis,step_minutes,season_from,season_to,only_when_ordered,taxable\n"
            "Tamarack Ready Mix,2026-01-01,mix,4000AE,4000 psi air,168.50,per_yard,,,,,,,,,yes\n"
            "Tamarack Ready Mix,2026-01-01,short_load,SHORT,under 4 yd,40,per_yard_under,,4,,,,,,,\n"
            "Tamarack Ready Mix,2026-01-01,waiting,WAIT,waiting,2.25,per_minute,,,5,per_yard,5,,,,no\n"
            "Tamarack Ready Mix,2026-01-01,winter,HEAT,hot water,6,per_yard,,,,,,11-15,03-31,yes,no\n"
            "Tamarack Ready Mix,2026-01-01,tax,TAX,sales tax,7.25,percent,,,,,,,,,\n")
            .added
        == 5);
    CHECK(
        loaded(
            *store, RecordKind::ticket,
            "supplier,number,plant,truck,date,mix,yards,batched_at,arrived_at,discharge_began_at,discharge_ended_at,slump_ordered_in,slump_in,water_added_gal,concrete_temp_f,options,job,pour,returned_yards,note\n"
            "Tamarack Ready Mix,48213,North,27,2026-05-11,4000AE,9.5,07:05,7:41,07:48,08:26,5,5.5,,72,ACC=1;FIBER=1.5,501,1,,\"wet, but legible\"\n")
            .added
        == 1);
    CHECK(loaded(*store, RecordKind::hours,
                 "person,date,job,pour,phase,started_at,ended_at,unpaid_minutes,minutes,note\n"
                 "Dana Fir,2026-05-11,501,1,place,07:00,15:30,30,,\n"
                 "Dana Fir,2026-05-12,,,shop,,,,120,\n").added == 2);
    const auto& ticket = store->book().all<Ticket>()[0];
    CHECK(ticket.pour == store->book().all<Pour>()[0].id);
    CHECK(ticket.arrivedAt == ClockTime::of(7, 41));
    CHECK_FALSE(ticket.waterAdded);
    CHECK(store->book().all<Hours>()[0].worked() == Minutes::of(480));
    const auto& winter = store->book().all<SheetCharge>()[3];
    CHECK(winter.onlyWhenOrdered);
    CHECK(winter.seasonTo == MonthDay::of(3, 31));
}

TEST_CASE("a wrong heading is named with the columns there are", "[load][bad]")
{
    Folder folder;
    const auto store = folder.fresh();
    layGround(*store);
    auto result = refused(*store, RecordKind::ticket, "supplier,number,date,yards,colour\nTamarack Ready Mix,1,2026-05-11,4,red\n");
    checkFault(result, 1, "", "colour");
    checkFault(result, 1, "", "batched_at");
    checkFault(refused(*store, RecordKind::ticket, "supplier,number,date,,yards\nTamarack Ready Mix,1,2026-05-11,x,4\n"), 1, "",
               "column 4 has no name");
    checkFault(refused(*store, RecordKind::ticket, "supplier,number,date,yards,Yards\n"), 1, "yards", "twice");
    result = refused(*store, RecordKind::ticket, "supplier,date\nTamarack Ready Mix,2026-05-11\n");
    checkFault(result, 1, "number", "missing from the heading");
    checkFault(result, 1, "yards", "missing from the heading", 1);
    checkFault(refused(*store, RecordKind::ticket, ""), 1, "", "empty");
    checkFault(refused(*store, RecordKind::ticket, "\n \n"), 1, "", "empty");
}

TEST_CASE("every bad row is named with its line and column, and nothing is loaded", "[load][bad]")
{
    Folder folder;
    const auto store = folder.fresh();
    layGround(*store);
    loaded(*store, RecordKind::ticket, goodTicket);
    const auto heading = std::string{"supplier,number,date,yards,job,pour,note\n"};
    const auto oneRow = [&](std::string_view row) {
        return refused(*store, RecordKind::ticket, heading + std::string{row} + '\n');
    };

    checkFault(oneRow("Tamarack Ready Mix,1,2026-02-31,4,501,1,"), 2, "date", "2026-02-31");
    checkFault(oneRow("Tamarack Ready Mix,1,2026-05-11,-4,501,1,"), 2, "yards", "zero or more");
    checkFault(oneRow("Tamarack Ready Mix,1,2026-05-11,0,501,1,"), 2, "yards", "more than zero");
    checkFault(oneRow("Tamarack Ready Mix,1,2026-05-11,9 1/2,501,1,"), 2, "yards", "9 1/2");
    checkFault(oneRow("Tamarack Ready Mix,1,2026-05-11,,501,1,"), 2, "yards", "missing");
    checkFault(oneRow("Nobody Ready Mix,1,2026-05-11,4,501,1,"), 2, "supplier", "Nobody Ready Mix");
    checkFault(oneRow("Tamarack Ready Mix,1,2026-05-11,4,777,1,"), 2, "job", "777");
    checkFault(oneRow("Tamarack Ready Mix,1,2026-05-11,4,501,9,"), 2, "pour", "9");
    checkFault(oneRow("Tamarack Ready Mix,1,2026-05-11,4"), 2, "", "4 cells and the heading 7");
    checkFault(oneRow("Tamarack Ready Mix,1,2026-05-11,4,501,1,far, too, much"), 2, "", "9 cells");
    checkFault(oneRow("Tamarack Ready Mix,1,2026-05-11,4,501,1,it\"s"), 2, "note", "quote");
    checkFault(oneRow("Tamarack Ready Mix,1,2026-05-11,4,501,1,\"no end"), 2, "note", "never closed");

    SECTION("a price no one charges")
    {
        const auto sheet = std::string{"supplier,effective_on,charge,code,amount,unit\n"};
        checkFault(refused(*store, RecordKind::priceSheet, sheet + "Tamarack Ready Mix,2026-01-01,mix,4000AE,1e99,per_yard\n"), 2,
                   "amount", "1e99");
        checkFault(
            refused(*store, RecordKind::priceSheet, sheet + "Tamarack Ready Mix,2026-01-01,mix,4000AE,99999999999,per_yard\n"), 2,
            "amount", "or less");
        checkFault(refused(*store, RecordKind::priceSheet, sheet + "Tamarack Ready Mix,2026-01-01,gravel,4000AE,9,per_yard\n"), 2,
                   "charge", "short_load");
    }
    SECTION("quoted line breaks count as lines of the file")
    {
        const auto result = refused(
            *store, RecordKind::ticket,
            heading
                + "Tamarack Ready Mix,1,2026-05-11,4,501,1,\"two\nlines\"\r\nTamarack Ready Mix,2,2026-05-11,4,501,1,\"a\r\nb\"\nTamarack Ready Mix,3,2026-13-11,4,501,1,\n");
        checkFault(result, 6, "date", "2026-13-11");
    }
    SECTION("Latin-1 bytes")
    {
        checkFault(oneRow("Tamarack Ready Mix,1,2026-05-11,4,501,1,Se\xF1or"), 2, "note", "UTF-8");
        checkFault(refused(*store, RecordKind::ticket, "supplier,number,date,yards,Notiz\xFC\n"), 1, "5", "UTF-8");
    }
    SECTION("a line of 50 MB")
    {
        const auto result = oneRow("Tamarack Ready Mix,1,2026-05-11,4,501,1," + std::string(std::size_t{50} << 20, 'x'));
        checkFault(result, 2, "", "longer than");
        CHECK(result.faultText("rows.csv").size() < 300);
    }
    SECTION("a number that stands twice")
    {
        checkFault(
            oneRow(
                "Tamarack Ready Mix,1,2026-05-11,4,501,1,\nTamarack Ready Mix,2,2026-05-11,4,501,1,\nTamarack Ready Mix,1,2026-05-11,5,501,1,"),
            4, "date", "repeats line 2");
        checkFault(oneRow("Tamarack Ready Mix,48213,2026-05-11,4,501,1,\nTamarack Ready Mix,48213,2026-05-11,5,501,1,"), 3,
                   "date", "repeats line 2");
    }
    SECTION("faults of every sort come out at once, in the order of lines")
    {
        const auto result = refused(
            *store, RecordKind::ticket,
            heading
                + "Tamarack Ready Mix,1,2026-05-11,0,501,1,\nTamarack Ready Mix,2,2026-05-11,-1,501,1,\nTamarack Ready Mix,3,2026-02-31,x,501,1,\nTamarack Ready Mix,4,2026-05-11,4,501,1,\n");
        REQUIRE(result.faults.size() == 4);
        checkFault(result, 2, "yards", "more than zero", 0);
        checkFault(result, 3, "yards", "zero or more", 1);
        checkFault(result, 4, "date", "2026-02-31", 2);
        checkFault(result, 4, "yards", "x", 3);
    }
    SECTION("a rule between rows is told at every line that breaks it")
    {
        const auto result = refused(
            *store, RecordKind::ticket,
            heading
                + "Tamarack Ready Mix,1,2026-05-11,0,501,1,\nTamarack Ready Mix,2,2026-05-11,4,501,1,\nTamarack Ready Mix,3,2026-05-11,20000,501,1,\n");
        checkFault(result, 2, "yards", "more than zero", 0);
        checkFault(result, 4, "yards", "or less", 1);
    }
    SECTION("a long list is cut and counted")
    {
        std::string rows = heading;
        for (int i = 0; i < 3000; ++i) rows += "Tamarack Ready Mix," + std::to_string(i) + ",2026-05-11,x,501,1,\n";
        const auto result = refused(*store, RecordKind::ticket, rows);
        CHECK(result.faultCount == 3000);
        CHECK(result.faults.size() == LoadResult::mostFaults);
        const auto text = result.faultText("rows.csv");
        CHECK(std::count(text.begin(), text.end(), '\n') == 51);
        CHECK_THAT(text, Catch::StartsWith("rows.csv:2: column yards: ") && Catch::EndsWith("and 2950 more\n"));
    }
}

TEST_CASE("papers that left the house refuse a load that would change them", "[load][frozen]")
{
    Folder folder;
    const auto store = folder.fresh();
    layGround(*store);
    loaded(*store, RecordKind::quote, "number,issue,job,drafted_on,sent_on\nQ1,1,501,2026-05-04,2026-05-05\n");
    loaded(*store, RecordKind::quoteLine,
           "quote,position,cost_class,description,quantity,unit_cost\nQ1/1,1,concrete,4000AE,5.25,170\n");
    checkFault(
        refused(*store, RecordKind::quote, "number,issue,job,drafted_on,sent_on,scope\nQ1,1,501,2026-05-04,2026-05-05,more\n"), 2,
        "sent_on", "new revision");
    checkFault(refused(*store, RecordKind::quoteLine, "quote,position,cost_class,description\nQ1/1,2,steel,mesh\n"), 2, "quote",
               "new revision");
    // The answer to a sent quote is no change of it.
    CHECK(loaded(*store, RecordKind::quote, "number,issue,job,drafted_on,accepted_on\nQ1,1,501,2026-05-04,2026-05-09\n").changed
          == 1);
}

TEST_CASE("a load can be looked at first, and stopped", "[load]")
{
    Folder folder;
    const auto store = folder.fresh();
    layGround(*store);
    const auto before = dumpOf(store->book());
    LoadOptions look;
    look.checkOnly = true;
    CHECK(loadCsv(*store, RecordKind::ticket, "rows.csv", goodTicket, look).added == 1);
    CHECK(dumpOf(store->book()) == before);

    std::string rows = "supplier,number,date,yards\n";
    for (int i = 0; i < 5000; ++i) rows += "Tamarack Ready Mix," + std::to_string(i) + ",2026-05-11,4\n";
    LoadOptions stopping;
    std::vector<int> percents;
    stopping.progress = [&](int percent) {
        percents.push_back(percent);
        return percents.size() < 4;
    };
    const auto stopped = loadCsv(*store, RecordKind::ticket, "rows.csv", rows, stopping);
    CHECK(stopped.stopped);
    CHECK_FALSE(stopped.done());
    CHECK(stopped.added == 0);
    CHECK(percents.size() == 4);
    CHECK(dumpOf(store->book()) == before);

    percents.clear();
    stopping.progress = [&](int percent) {
        percents.push_back(percent);
        return true;
    };
    CHECK(loadCsv(*store, RecordKind::ticket, "rows.csv", rows, stopping).added == 5000);
    CHECK(std::is_sorted(percents.begin(), percents.end()));
    CHECK(percents.back() == 100);
}

TEST_CASE("a load of many rows is undone and redone as it was, also after reopening and later changes", "[load][undo]")
{
    Folder folder;
    auto store = folder.fresh();
    layGround(*store);
    std::string rows = "supplier,number,date,yards,mix,job,pour\n";
    for (int i = 0; i < 600; ++i)
        rows += "Tamarack Ready Mix," + std::to_string(i) + ",2026-05-11," + std::to_string(4 + i % 7) + ".25,4000AE,501,1\n";
    const auto other = Store::open(store->path());
    std::vector<std::map<RecordKind, std::string>> states{dumpOf(store->book())};
    CHECK(loaded(*store, RecordKind::ticket, rows).added == 600);
    states.push_back(dumpOf(store->book()));
    // What another program has open sees all of them.
    CHECK(refreshedSoon(*other));
    CHECK(dumpOf(other->book()) == states.back());

    auto changed = store->book().all<Ticket>()[300];
    const auto id = changed.id.value();
    changed.note = "two hours late";
    changed.mix = "4500AE";
    Edit change{"Correct a ticket"};
    change.change(changed);
    REQUIRE(store->commit(std::move(change)).done());
    states.push_back(dumpOf(store->book()));
    Edit removal{"Remove tickets"};
    removal.remove(store->book().all<Ticket>()[300]);
    removal.remove(store->book().all<Ticket>()[10]);
    REQUIRE(store->commit(std::move(removal)).done());
    states.push_back(dumpOf(store->book()));

    const auto trail = store->trailOf(RecordKind::ticket, id);
    REQUIRE(trail.size() == 3);
    CHECK(trail[0].entry.title == "Load tickets from rows.csv");
    CHECK_FALSE(trail[0].before);
    CHECK(recordOf<Ticket>(*trail[0].after).mix == "4000AE");
    CHECK(recordOf<Ticket>(*trail[0].after).note.empty());
    CHECK(recordOf<Ticket>(*trail[1].after).mix == "4500AE");
    CHECK(recordOf<Ticket>(*trail[2].before).note == "two hours late");

    for (int round = 0; round < 2; ++round) {
        const auto path = store->path();
        store.reset();
        store = Store::open(path);
        for (auto state = states.rbegin() + 1; state != states.rend(); ++state) {
            REQUIRE(store->undo().done());
            CHECK(dumpOf(store->book()) == *state);
        }
        for (auto state = states.begin() + 1; state != states.end(); ++state) {
            REQUIRE(store->redo().done());
            CHECK(dumpOf(store->book()) == *state);
        }
    }
    CHECK(store->verify().empty());
}

TEST_CASE("the book's own numbers keep clear of those in the same file", "[load]")
{
    Folder folder;
    const auto store = folder.fresh();
    layGround(*store);
    loaded(*store, RecordKind::receipt,
           "number,cost_class,amount,date\n,steel,1,2026-05-10\nR1001,pump,2,2026-05-10\n,forms,3,2026-05-10\n");
    const auto& receipts = store->book().all<Receipt>();
    REQUIRE(receipts.size() == 3);
    CHECK(receipts[0].number == "R1002");
    CHECK(receipts[1].number == "R1001");
    CHECK(receipts[2].number == "R1003");
    CHECK(store->verify().empty());
}

#include "storage/loading.h"

#include "database.h"
#include "person_account.h"

#include "quantity/letters.h"

#include <QFile>

using namespace strikeoff;
using namespace strikeoff::test;

namespace {

Date day(const char* iso) { return *Date::parse(iso); }

/// A book that names Honora Quill wherever it can: in her own rows, in rows under her jobs, in somebody else's note, in titles, in what was changed and what
/// was removed, and in rows that came in a run.
struct Written {
    Folder folder;
    std::unique_ptr<Store> store;
    Id<Customer> honora, other;
    Id<Job> job;
    Id<Invoice> invoice;
    Id<Lead> lead;
    std::int64_t removedSite = 0;

    std::vector<std::int64_t> commit(Edit edit)
    {
        const auto result = store->commit(std::move(edit));
        INFO(result.text());
        REQUIRE(result.done());
        return result.ids;
    }

    Written()
    {
        store = folder.fresh();
        std::string rows = "name,phone,note\n";
        for (int i = 0; i < 250; ++i) rows += "Customer " + std::to_string(i) + ",555-01" + std::to_string(10 + i % 20) + ",from the old ledger\n";
        rows += "Honora Quill,555-0142,pays late; ask for Honora\n";
        loaded(*store, RecordKind::customer, rows);
        for (const auto& customer : store->book().all<Customer>()) (customer.name == "Honora Quill" ? honora : other) = customer.id;

        Edit begin{"Called Honora Quill"};
        Lead asked;
        asked.receivedOn = day("2026-03-02");
        asked.name = "HONORA QUILL";
        asked.phone = "555-0142";
        asked.wish = "a walk for the Quills";
        lead = begin.add(asked);
        Site site;
        site.name = "88 Sorrel Bend, Alder Falls";
        site.customer = honora;
        site.address = "88 Sorrel Bend";
        site.town = "Alder Falls, OR 97000";
        site.latitude = Degrees::ofUnits(45'123'456);
        site.longitude = Degrees::ofUnits(-122'654'321);
        site.driveMinutes = Minutes::of(25);
        const auto where = begin.add(site);
        Job walk;
        walk.title = "Front walk for Honora";
        walk.customer = honora;
        walk.site = where;
        walk.openedOn = day("2026-03-09");
        walk.note = "Mrs. Quill works nights";
        job = begin.add(walk);
        Invoice bill;
        bill.job = job;
        bill.draftedOn = day("2026-05-01");
        bill.heading = "Walk at 88 Sorrel Bend";
        bill.note = "call Honora first";
        invoice = begin.add(bill);
        InvoiceLine line;
        line.invoice = invoice;
        line.description = "Broom-finished walk for Honora Quill, 4 in";
        line.unitPrice = UnitPrice::ofWhole(2400);
        begin.add(line);
        Payment paid;
        paid.customer = honora;
        paid.receivedOn = day("2026-05-20");
        paid.amount = Money::ofCents(120'000);
        paid.reference = "check 1187, H. Quill";
        begin.add(paid);
        Receipt gravel;
        gravel.date = day("2026-04-02");
        gravel.job = std::nullopt;
        gravel.amount = Money::ofCents(4'500);
        gravel.description = "gravel, half of it went to Honora Quill\xE2\x80\x99s walk";
        begin.add(gravel);
        const auto ids = commit(std::move(begin));
        lead = Id<Lead>{ids[0]};
        job = Id<Job>{ids[2]};
        invoice = Id<Invoice>{ids[3]};

        auto issued = store->book().get(invoice);
        issued.issuedOn = day("2026-05-02");
        issued.dueOn = day("2026-05-16");
        Edit issue{"Issue the invoice"};
        issue.change(issued);
        commit(std::move(issue));

        auto person = store->book().get(honora);
        person.name = "Honora Quill-Mabry";
        person.email = "honora@example.com";
        Edit rename{"Change customer Honora Quill-Mabry"};
        rename.change(person);
        commit(std::move(rename));

        auto neighbor = store->book().get(other);
        neighbor.note = "sister of Honora Quill-Mabry, 555-0142";
        Edit note{"Note"};
        note.change(neighbor);
        commit(std::move(note));

        Edit add{"Enter site"};
        Site old;
        old.name = "Quill rental on Foxtail Row";
        old.customer = honora;
        removedSite = (add.add(old), commit(std::move(add)).front());
        Edit remove{"Remove site Quill rental on Foxtail Row"};
        remove.remove(store->book().get(Id<Site>{removedSite}));
        commit(std::move(remove));
        REQUIRE(store->verify().empty());
    }
};

std::string bytesOf(const std::string& file)
{
    std::string bytes;
    for (const auto* beside : {"", "-wal", "-shm"}) {
        QFile read{QString::fromStdString(file + beside)};
        if (read.open(QIODevice::ReadOnly)) bytes += read.readAll().toStdString();
    }
    return bytes;
}

/// Every text that a book's tables hold.
std::string wholeText(const std::string& path)
{
    Database database{path, Database::Mode::readOnly};
    std::string text;
    for (const auto& table : database.column(database.dialect().tables()))
        for (const auto& column : database.column(database.dialect().columnsOf(table))) {
            if (column.find("|TEXT|") == std::string::npos) continue;
            const auto name = column.substr(0, column.find('|'));
            for (const auto& cell : database.column("SELECT " + name + " FROM " + table + " WHERE " + name + " IS NOT NULL")) text += cell + '\n';
        }
    return text;
}

const char* const traces[] = {"honora", "quill", "555-0142", "sorrel", "foxtail", "works nights", "pays late", "check 1187"};

}

TEST_CASE("who is blotted out is gone from every table, and the figures stay", "[store][blot]")
{
    Written w;
    const auto before = w.store->book();
    const auto out = w.store->blotOut({RecordKind::customer, w.honora.value()});
    CHECK(out.rows >= 7);
    CHECK(out.mentions == 2);  // the gravel and the sister
    CHECK(out.stillNaming.empty());
    CHECK(out.remark.empty());

    const auto& book = w.store->book();
    CHECK(book.get(w.honora).name == blottedName(w.honora.value()));
    CHECK(book.get(w.honora).phone.empty());
    CHECK(book.get(w.lead).name == "Blotted out");
    CHECK(book.get(w.lead).receivedOn == day("2026-03-02"));
    const auto& site = *book.referring<&Site::customer>(w.honora).front();
    CHECK(site.address.empty());
    CHECK_FALSE(site.latitude);
    CHECK(site.driveMinutes == Minutes::of(25));
    CHECK(book.get(w.job).number == before.get(w.job).number);
    CHECK(book.get(w.invoice).issuedOn == day("2026-05-02"));
    const auto& line = *book.referring<&InvoiceLine::invoice>(w.invoice).front();
    CHECK(line.unitPrice == UnitPrice::ofWhole(2400));
    CHECK(line.description == "Broom-finished walk for (blotted out), 4 in");
    CHECK(book.all<Payment>()[0].amount == Money::ofCents(120'000));
    CHECK(book.get(w.other).note == "sister of (blotted out), (blotted out)");
    CHECK(book.count(RecordKind::customer) == before.count(RecordKind::customer));
    for (const auto& customer : book.all<Customer>())
        if (customer.id != w.honora && customer.id != w.other) CHECK(customer.phone == before.get(customer.id).phone);

    const auto text = lowered(wholeText(w.folder.file()));
    for (const auto* trace : traces) {
        INFO(trace);
        CHECK(text.find(trace) == std::string::npos);
    }
    CHECK(text.find("blotted out") != std::string::npos);
}

TEST_CASE("the trail is whole after somebody was blotted out, says so, and still finds tampering", "[store][blot][verify]")
{
    Written w;
    const auto head = [&] {
        Database database{w.folder.file(), Database::Mode::readOnly};
        return database.text("SELECT chain FROM edit ORDER BY id DESC LIMIT 1");
    };
    const auto endedIn = head();
    w.store->blotOut({RecordKind::customer, w.honora.value()});
    for (const auto& finding : w.store->verify()) FAIL_CHECK(finding.where << ": " << finding.what);
    const auto blottings = w.store->blottings();
    REQUIRE(blottings.size() == 1);
    CHECK_THAT(blottings[0].title, Catch::StartsWith("Blot out customer " + std::to_string(w.honora.value()) + ";") && Catch::Contains("ended in " + endedIn));
    CHECK(blottings[0].how == "blot");

    // Work goes on, in this program and the next.
    Edit after{"Enter customer"};
    Customer next;
    next.name = "Ines Talbot";
    after.add(next);
    w.commit(std::move(after));
    w.store.reset();
    const auto again = Store::open(w.folder.file());
    CHECK(again->verify().empty());
    const auto nothing = again->blotOut({RecordKind::customer, w.honora.value()});
    CHECK(nothing.rows + nothing.mentions + nothing.steps == 0);
    CHECK(again->blottings().size() == 1);
    {
        Database database{w.folder.file(), Database::Mode::readWrite};
        database.run("UPDATE edit SET title = 'Nothing happened' WHERE how = 'blot'");
    }
    CHECK_FALSE(again->verify().empty());
    CHECK_THROWS_WITH(again->blotOut({RecordKind::customer, w.other.value()}), Catch::Contains("fault"));
}

TEST_CASE("undo, redo and bringing back bring nobody back who was blotted out", "[store][blot]")
{
    Written w;
    w.store->blotOut({RecordKind::customer, w.honora.value()});
    CHECK(w.store->undoTitle().find("Blot out") == std::string::npos);
    int steps = 0;
    while (!w.store->undoTitle().empty() && w.store->undo().done() && ++steps < 20) {
        const auto text = lowered(wholeText(w.folder.file()));
        for (const auto* trace : traces) CHECK(text.find(trace) == std::string::npos);
    }
    CHECK(steps >= 4);
    while (!w.store->redoTitle().empty() && w.store->redo().done() && --steps > -20) {}
    for (const auto& removed : w.store->removedRows(100)) w.store->bringBack(removed);
    const auto text = lowered(wholeText(w.folder.file()));
    for (const auto* trace : traces) CHECK(text.find(trace) == std::string::npos);
    CHECK(w.store->verify().empty());
}

TEST_CASE("no bytes of who was blotted out are left in the file or its log", "[sqlite][blot]")
{
    if (!Folder::server().empty()) return;
    Written w;
    REQUIRE(lowered(bytesOf(w.folder.file())).find("honora") != std::string::npos);
    w.store->blotOut({RecordKind::customer, w.honora.value()});
    const auto open = lowered(bytesOf(w.folder.file()));
    for (const auto* trace : traces) {
        INFO(trace);
        CHECK(open.find(trace) == std::string::npos);
    }
    w.store.reset();
    const auto closed = lowered(bytesOf(w.folder.file()));
    for (const auto* trace : traces) CHECK(closed.find(trace) == std::string::npos);
}

TEST_CASE("another program that holds the book open takes the blotting in, and a form of it meets both versions", "[store][blot]")
{
    Written w;
    const auto second = Store::open(w.folder.file());
    auto stale = second->book().get(w.honora);
    w.store->blotOut({RecordKind::customer, w.honora.value()});
    CHECK(refreshedSoon(*second));
    CHECK(second->book().get(w.honora).name == blottedName(w.honora.value()));
    CHECK(second->book().get(w.other).note.find("Honora") == std::string::npos);
    CHECK(second->undoTitle() == w.store->undoTitle());
    stale.phone = "555-0142";
    Edit late{"Phone"};
    late.change(stale);
    CHECK(second->commit(std::move(late)).conflicts.size() == 1);
    Edit after{"Enter customer"};
    Customer next;
    next.name = "Ines Talbot";
    after.add(next);
    REQUIRE(second->commit(std::move(after)).done());
    CHECK(second->verify().empty());
    CHECK(refreshedSoon(*w.store));
    CHECK(w.store->verify().empty());
}

TEST_CASE("a name that begins a line of somebody else's note is blotted out of the trail too", "[store][blot]")
{
    Written w;
    for (const auto* text : {"the gate is hers:\nHonora Quill", "key with\tHonora Quill", "say \"Honora Quill\""}) {
        auto neighbor = w.store->book().get(w.other);
        neighbor.note = text;
        Edit note{"Note"};
        note.change(neighbor);
        w.commit(std::move(note));
    }
    w.store->blotOut({RecordKind::customer, w.honora.value()});
    CHECK(lowered(wholeText(w.folder.file())).find("honora") == std::string::npos);
    for (const auto& finding : w.store->verify()) FAIL_CHECK(finding.where << ": " << finding.what);
}

TEST_CASE("a text that begins with a byte-order mark is the same in book and trail after somebody was blotted out of it", "[store][blot]")
{
    Written w;
    auto neighbor = w.store->book().get(w.other);
    neighbor.note = "\xEF\xBB\xBFsister of Honora Quill";
    neighbor.town = "\xEF\xBB\xBFMaple Bend";
    Edit note{"Note"};
    note.change(neighbor);
    w.commit(std::move(note));
    w.store->blotOut({RecordKind::customer, w.honora.value()});
    CHECK(w.store->book().get(w.other).town == "\xEF\xBB\xBFMaple Bend");
    for (const auto& finding : w.store->verify()) FAIL_CHECK(finding.where << ": " << finding.what);
}

TEST_CASE("work goes on in a book out of which somebody could not be blotted", "[store][blot]")
{
    Written w;
    const auto second = Store::open(w.folder.file());
    Edit lead{"Enter lead"};
    Lead asked;
    asked.name = "Ines Talbot";
    asked.receivedOn = day("2026-06-01");
    lead.add(asked);
    const auto same = lead;
    REQUIRE(second->commit(std::move(lead)).done());
    CHECK_THROWS_AS(w.store->blotOut({RecordKind::customer, 999'999}), StorageError);
    const auto ids = w.commit(same);
    CHECK(w.store->book().get(Id<Lead>{ids.front()}).number == "L1003");
    CHECK(w.store->verify().empty());
}

TEST_CASE("of a crew member the hours and the pay stay", "[store][blot]")
{
    const Folder folder;
    const auto store = folder.fresh();
    Edit edit{"Enter crew member Lemuel Oxbow"};
    CrewMember member;
    member.name = "Lemuel Oxbow";
    member.role = "finisher";
    member.phone = "555-0121";
    member.hiredOn = day("2024-04-01");
    member.compClass = "5221";
    member.note = "his wife is Petra, 555-0122";
    const auto person = edit.add(member);
    PayRate rate;
    rate.person = person;
    rate.fromDate = day("2024-04-01");
    rate.hourlyRate = UnitPrice::ofWhole(31);
    rate.note = "as agreed with Lemuel";
    edit.add(rate);
    Hours hours;
    hours.person = person;
    hours.date = day("2026-05-04");
    hours.phase = Phase::shop;
    hours.minutes = Minutes::of(480);
    hours.note = "Lemuel left early";
    edit.add(hours);
    const auto result = store->commit(std::move(edit));
    INFO(result.text());
    REQUIRE(result.done());
    const Id<CrewMember> id{result.ids[0]};
    store->blotOut({RecordKind::crewMember, id.value()});
    const auto& kept = store->book().get(id);
    CHECK(kept.name == blottedName(id.value()));
    CHECK(kept.hiredOn == day("2024-04-01"));
    CHECK(kept.compClass == "5221");
    CHECK(kept.note.empty());
    CHECK(store->book().all<PayRate>()[0].hourlyRate == UnitPrice::ofWhole(31));
    CHECK(store->book().all<Hours>()[0].minutes == Minutes::of(480));
    const auto text = lowered(wholeText(folder.file()));
    for (const auto* trace : {"lemuel", "oxbow", "petra", "555-0121"}) CHECK(text.find(trace) == std::string::npos);
    CHECK(store->verify().empty());
}

TEST_CASE("an account to a person holds what is theirs and what was changed, and nothing of the crew", "[store][blot]")
{
    Written w;
    Edit edit{"Hours"};
    CrewMember member;
    member.name = "Lemuel Oxbow";
    Hours hours;
    hours.person = edit.add(member);
    hours.job = w.job;
    hours.date = day("2026-05-04");
    hours.minutes = Minutes::of(480);
    edit.add(hours);
    w.commit(std::move(edit));
    const auto text = personAccount(*w.store, {RecordKind::customer, w.honora.value()});
    CHECK_THAT(text, Catch::StartsWith("What this book holds about Honora Quill-Mabry\n") && Catch::Contains("E-mail: honora@example.com") && Catch::Contains("Mrs. Quill works nights")
                         && Catch::Contains("Drive: 25 min") && Catch::Contains("Unit price: $2,400") && Catch::Contains("Amount: $1,200.00") && Catch::Contains("sister of Honora Quill-Mabry")
                         && Catch::Contains("Name: Honora Quill \u2192 Honora Quill-Mabry"));
    CHECK_THAT(text, !Catch::Contains("Oxbow") && !Catch::Contains("Customer 7,"));
    CHECK(personAccount(*w.store, {RecordKind::customer, 999'999}).empty());

    // Named by where a site of hers was before.
    auto site = *w.store->book().referring<&Site::customer>(w.honora).front();
    site.address = "90 Sorrel Bend";
    site.name = "90 Sorrel Bend, Alder Falls";
    Edit moved{"Number"};
    moved.change(site);
    auto receipt = w.store->book().all<Receipt>()[0];
    receipt.note = "left at 88 Sorrel Bend";
    moved.change(receipt);
    w.commit(std::move(moved));
    CHECK_THAT(personAccount(*w.store, {RecordKind::customer, w.honora.value()}), Catch::Contains("left at 88 Sorrel Bend"));
    CHECK_THAT(blottingWords(*w.store, {RecordKind::customer, w.honora.value()}), Catch::Equals("one customer, one site, one lead, one job, one invoice, one payment, two records under them and two other records that name them"));
    CHECK(findPerson(w.store->book(), RecordKind::customer, "Honora Quill-Mabry") == Person{RecordKind::customer, w.honora.value()});
    CHECK(findPerson(w.store->book(), RecordKind::customer, std::to_string(w.honora.value())) == Person{RecordKind::customer, w.honora.value()});
    CHECK_FALSE(findPerson(w.store->book(), RecordKind::customer, "Nobody"));
}

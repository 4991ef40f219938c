#include "database.h"
#include "storage/place.h"
#include "store.h"
#include "store_state.h"

#include "record/field_text.h"

#include <QDir>
#include <QFile>

#include <catch2/catch.hpp>

#include <csignal>
#include <random>

#include <sys/resource.h>

using namespace strikeoff;
using namespace strikeoff::test;

namespace {

Date day(const char* iso) { return *Date::parse(iso); }

/// Everything an owner could see of a book, as text.
std::string contents(const Book& book)
{
    std::string text;
    for (const auto& kind : allKinds())
        for (std::size_t i = 0; i < book.count(kind.kind); ++i) {
            text += std::string{kind.name} + ':';
            for (const auto& field : kind.fields) text += fileText(book, kind, field, book.at(kind.kind, i)) + '|';
            text += '\n';
        }
    return text;
}

Id<Customer> addCustomer(Store& store, const char* name)
{
    Edit edit{std::string{"Add "} + name};
    Customer customer;
    customer.name = name;
    edit.add(customer);
    const auto result = store.commit(std::move(edit));
    INFO(result.text());
    REQUIRE(result.done());
    return Id<Customer>{result.ids.at(0)};
}

Id<Job> addJob(Store& store, Id<Customer> customer, const char* title)
{
    Edit edit{std::string{"Open "} + title};
    Job job;
    job.title = title;
    job.customer = customer;
    job.openedOn = day("2026-05-04");
    edit.add(job);
    const auto result = store.commit(std::move(edit));
    INFO(result.text());
    REQUIRE(result.done());
    return Id<Job>{result.ids.at(0)};
}


/// While it lives no file may grow past a megabyte, which stands in for a full disk: a write past it fails in the same way.
class FullDisk {
public:
    FullDisk()
    {
        std::signal(SIGXFSZ, SIG_IGN);
        getrlimit(RLIMIT_FSIZE, &before_);
        auto small = before_;
        small.rlim_cur = 1'000'000;
        setrlimit(RLIMIT_FSIZE, &small);
    }
    ~FullDisk() { setrlimit(RLIMIT_FSIZE, &before_); }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;

private:
    rlimit before_{};
};

}

TEST_CASE("what was committed is there after reopening", "[store]")
{
    const Folder folder;
    std::string before;
    {
        auto store = folder.fresh();
        const auto customer = addCustomer(*store, "Merle Ostrander");
        addJob(*store, customer, "Patio behind the kitchen");
        before = contents(store->book());
    }
    const auto store = Store::open(folder.file());
    CHECK(contents(store->book()) == before);
    CHECK(store->book().all<Job>()[0].number == "1001");
    CHECK(store->verify({}).empty());
}

TEST_CASE("a book is private to its owner", "[sqlite][store]")
{
    const Folder folder;
    const auto store = folder.fresh();
    const auto others = QFileDevice::ReadGroup | QFileDevice::WriteGroup | QFileDevice::ReadOther | QFileDevice::WriteOther;
    CHECK((QFile::permissions(QString::fromStdString(folder.file())) & others) == QFileDevice::Permissions{});
}

TEST_CASE("a broken rule leaves book and file as they were", "[store]")
{
    const Folder folder;
    auto store = folder.fresh();
    const auto before = contents(store->book());
    Edit edit{"Add a nameless customer"};
    edit.add(Customer{});
    const auto result = store->commit(std::move(edit));
    REQUIRE(result.problems.size() == 1);
    CHECK(result.problems[0].field == "name");
    CHECK(result.problems[0].message == "Name is missing; fill it in");
    CHECK(contents(store->book()) == before);
    CHECK(contents(Store::open(folder.file())->book()) == before);
}

TEST_CASE("rows of one edit may refer to each other", "[store]")
{
    const Folder folder;
    auto store = folder.fresh();
    Edit edit{"Customer with job"};
    Customer customer;
    customer.name = "Ines Talbot";
    Job job;
    job.title = "Walk";
    job.customer = edit.add(customer);
    job.openedOn = day("2026-05-04");
    edit.add(job);
    REQUIRE(store->commit(std::move(edit)).done());
    const auto& kept = store->book().all<Job>()[0];
    CHECK(store->book().get(kept.customer).name == "Ines Talbot");
}

TEST_CASE("undo and redo walk the same road, also after reopening", "[store][undo]")
{
    const Folder folder;
    auto store = folder.fresh();
    const auto empty = contents(store->book());
    addCustomer(*store, "Merle Ostrander");
    const auto one = contents(store->book());
    addCustomer(*store, "Ines Talbot");
    const auto two = contents(store->book());
    CHECK(store->undoTitle() == "Add Ines Talbot");
    store = Store::open(folder.file());
    REQUIRE(store->undo().done());
    CHECK(contents(store->book()) == one);
    CHECK(store->redoTitle() == "Add Ines Talbot");
    store = Store::open(folder.file());
    REQUIRE(store->undo().done());
    CHECK(contents(store->book()) == empty);
    REQUIRE(store->redo().done());
    REQUIRE(store->redo().done());
    CHECK(contents(store->book()) == two);
    CHECK(store->redoTitle().empty());
}

TEST_CASE("numbers never repeat, not even after an undo, and the trail explains the gap", "[store][numbers]")
{
    const Folder folder;
    auto store = folder.fresh();
    const auto customer = addCustomer(*store, "Merle Ostrander");
    addJob(*store, customer, "First");
    REQUIRE(store->undo().done());
    addJob(*store, customer, "Second");
    REQUIRE(store->book().all<Job>().size() == 1);
    CHECK(store->book().all<Job>()[0].number == "1002");
    Edit own{"A number of the owner's"};
    Job job;
    job.number = "1010";
    job.title = "Third";
    job.customer = customer;
    job.openedOn = day("2026-05-04");
    own.add(job);
    REQUIRE(store->commit(std::move(own)).done());
    addJob(*store, customer, "Fourth");
    CHECK(store->book().all<Job>()[2].number == "1011");
    CHECK(store->verify({}).empty());
}

TEST_CASE("any run of edits undone gives the book it began with", "[store][undo][property]")
{
    const Folder folder;
    auto store = folder.fresh();
    std::mt19937 random{20261125};
    const auto pick = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
    for (int i = 0; i < 6; ++i) addCustomer(*store, ("Customer " + std::to_string(i)).c_str());
    const auto start = contents(store->book());
    int done = 0;
    for (int i = 0; i < 150; ++i) {
        const auto& book = store->book();
        Edit edit{"Step " + std::to_string(i)};
        const auto& customers = book.all<Customer>();
        const auto& jobs = book.all<Job>();
        switch (pick(5)) {
        case 0: {
            Customer customer;
            customer.name = "New " + std::to_string(i) + "; DROP TABLE job; \"'";
            Job job;
            job.title = "Job " + std::to_string(i);
            job.customer = edit.add(customer);
            job.openedOn = day("2026-05-04") + static_cast<int>(pick(90));
            edit.add(job);
            break;
        }
        case 1: {
            auto customer = customers[pick(customers.size())];
            customer.note = "Line one\nline two " + std::to_string(i);
            customer.termsDays = pick(2) == 0 ? std::nullopt : std::optional{static_cast<std::int32_t>(pick(60))};
            edit.change(customer);
            break;
        }
        case 2:
            if (!jobs.empty()) edit.remove(jobs[pick(jobs.size())]);
            break;
        case 3:
            if (!jobs.empty()) {
                auto job = jobs[pick(jobs.size())];
                job.title += " again";
                edit.change(job);
                Pour pour;
                pour.job = job.id;
                pour.sequence = static_cast<std::int32_t>(1 + pick(3));
                pour.orderedYards = Yards::ofUnits(5250);
                edit.add(pour);
            }
            break;
        default:
            if (pick(2) == 0) store->undo();
            else store->redo();
            continue;
        }
        if (!edit.empty() && store->commit(std::move(edit)).done()) ++done;
    }
    CHECK(done > 40);
    const auto end = contents(store->book());
    int undone = 0;
    while (contents(store->book()) != start && !store->undoTitle().empty()) {
        REQUIRE(store->undo().done());
        ++undone;
    }
    CHECK(contents(store->book()) == start);
    for (int i = 0; i < undone; ++i) REQUIRE(store->redo().done());
    CHECK(contents(store->book()) == end);
    CHECK(contents(Store::open(folder.file())->book()) == end);
    CHECK(store->verify({}).empty());
}

TEST_CASE("a second program sees the first one's changes and cannot overwrite a newer row", "[store][two]")
{
    const Folder folder;
    auto first = folder.fresh();
    const auto id = addCustomer(*first, "Merle Ostrander");
    auto second = Store::open(folder.file());
    int told = 0;
    const auto watch = second->watch([&] { ++told; });

    auto seen = second->book().get(id);
    auto mine = first->book().get(id);
    mine.phone = "555-0142";
    Edit edit{"Phone"};
    edit.change(mine);
    REQUIRE(first->commit(std::move(edit)).done());

    seen.phone = "555-0177";
    Edit late{"Another phone"};
    late.change(seen);
    const auto result = second->commit(std::move(late));
    REQUIRE(result.conflicts.size() == 1);
    CHECK(recordOf<Customer>(result.conflicts[0].mine).phone == "555-0177");
    REQUIRE(result.conflicts[0].theirs);
    CHECK(recordOf<Customer>(*result.conflicts[0].theirs).phone == "555-0142");
    CHECK(second->book().get(id).phone == "555-0142");
    CHECK(told == 1);
    addCustomer(*first, "Ines Talbot");
    CHECK(refreshedSoon(*second));
    CHECK(second->book().all<Customer>().size() == 2);
    CHECK_FALSE(second->refresh());
    const auto job = addJob(*second, id, "Seen by both");
    CHECK(refreshedSoon(*first));
    CHECK(first->book().get(job).number == "1001");
}

TEST_CASE("what others did is told to the watchers also when the edit that met it could not be written", "[sqlite][store][two]")
{
    const Folder folder;
    auto first = folder.fresh();
    auto second = Store::open(folder.file());
    int told = 0;
    const auto watch = second->watch([&] { ++told; });
    Edit much{"Much"};
    for (int i = 0; i < 3000; ++i) {
        Customer customer;
        customer.name = "Customer " + std::to_string(i);
        customer.note = std::string(2000, 'n');
        much.add(customer);
    }
    addCustomer(*first, "Merle Ostrander");
    const auto message = messageOf([&] {
        const FullDisk full;
        second->commit(much);
    });
    REQUIRE_FALSE(message.empty());
    CHECK(second->book().all<Customer>().size() == 1);
    CHECK(second->refresh());
    CHECK(told == 1);
    CHECK_FALSE(second->refresh());
}

TEST_CASE("the trail tells who changed what from what, and a removed row comes back", "[store][trail]")
{
    const Folder folder;
    auto store = folder.fresh();
    const auto id = addCustomer(*store, "Merle Ostrander");
    auto customer = store->book().get(id);
    customer.phone = "555-0142";
    Edit edit{"Phone"};
    edit.change(customer);
    REQUIRE(store->commit(std::move(edit)).done());
    Edit remove{"Remove Merle Ostrander"};
    remove.remove(store->book().get(id));
    REQUIRE(store->commit(std::move(remove)).done());

    const auto trail = store->trailOf(RecordKind::customer, id.value());
    REQUIRE(trail.size() == 3);
    CHECK_FALSE(trail[0].before);
    CHECK(recordOf<Customer>(*trail[1].before).phone.empty());
    CHECK(recordOf<Customer>(*trail[1].after).phone == "555-0142");
    CHECK(recordOf<Customer>(*trail[1].after).name == "Merle Ostrander");
    CHECK(trail[1].entry.title == "Phone");
    CHECK_FALSE(trail[2].after);

    const auto removed = store->removedRows(10);
    REQUIRE(removed.size() == 1);
    REQUIRE(store->bringBack(removed[0]).done());
    CHECK(store->book().get(id).phone == "555-0142");
    CHECK(store->removedRows(10).empty());
}

TEST_CASE("a row that others name is not removed", "[store]")
{
    const Folder folder;
    auto store = folder.fresh();
    const auto customer = addCustomer(*store, "Merle Ostrander");
    addJob(*store, customer, "Patio");
    Edit edit{"Remove"};
    edit.remove(store->book().get(customer));
    const auto result = store->commit(std::move(edit));
    REQUIRE(result.problems.size() == 1);
    CHECK(result.problems[0].message == "this Customer is still named by Job 1001; remove or change those first");
}

TEST_CASE("a sent quote and an issued invoice stay as they are", "[store][frozen]")
{
    const Folder folder;
    auto store = folder.fresh();
    const auto job = addJob(*store, addCustomer(*store, "Merle Ostrander"), "Patio");
    Edit draft{"Quote"};
    Quote quote;
    quote.job = job;
    quote.draftedOn = day("2026-05-05");
    QuoteLine line;
    line.quote = draft.add(quote);
    line.description = "Concrete";
    line.unitCost = UnitPrice::ofWhole(165);
    draft.add(line);
    const auto drafted = store->commit(std::move(draft));
    REQUIRE(drafted.done());
    auto sent = store->book().get(Id<Quote>{drafted.ids[0]});
    CHECK(sent.number == "Q1001");
    sent.sentOn = day("2026-05-06");
    Edit send{"Send quote"};
    send.change(sent);
    REQUIRE(store->commit(std::move(send)).done());

    auto changed = store->book().get(sent.id);
    changed.scope = "more for the same money";
    Edit edit{"Change"};
    edit.change(changed);
    CHECK(store->commit(std::move(edit)).text() == "this quote was sent and stays as it is; make a new revision");
    Edit lines{"Add a line"};
    QuoteLine more;
    more.quote = sent.id;
    more.position = 2;
    more.description = "Extra";
    lines.add(more);
    CHECK(store->commit(std::move(lines)).text() == "the quote was sent and stays as it is; make a new revision");
    auto accepted = store->book().get(sent.id);
    accepted.acceptedOn = day("2026-05-10");
    Edit accept{"Accept"};
    accept.change(accepted);
    CHECK(store->commit(std::move(accept)).done());
    REQUIRE(store->undo().done());
    REQUIRE(store->undo().done());  // takes back the sending itself
    CHECK_FALSE(store->book().get(sent.id).sentOn);
}

TEST_CASE("a superseded price sheet stays as it is; a new sheet is entered whole", "[store][frozen]")
{
    const Folder folder;
    auto store = folder.fresh();
    Edit edit{"Sheets"};
    Supplier supplier;
    supplier.name = "Tamarack Ready Mix";
    SheetCharge charge;
    charge.supplier = edit.add(supplier);
    charge.code = "4000AE";
    charge.amount = UnitPrice::ofWhole(158);
    charge.effectiveOn = day("2025-01-01");
    edit.add(charge);
    charge.effectiveOn = day("2026-01-01");
    charge.amount = UnitPrice::ofWhole(165);
    edit.add(charge);
    const auto result = store->commit(std::move(edit));
    REQUIRE(result.done());
    auto old = store->book().get(Id<SheetCharge>{result.ids[1]});
    old.amount = UnitPrice::ofWhole(1);
    Edit change{"Change last year"};
    change.change(old);
    CHECK(store->commit(std::move(change)).text() == "the sheet of Jan 1, 2025 was superseded by the one of Jan 1, 2026 and stays as it is; enter a new sheet");
    auto current = store->book().get(Id<SheetCharge>{result.ids[2]});
    current.amount = UnitPrice::ofWhole(166);
    Edit correct{"Correct this year"};
    correct.change(current);
    CHECK(store->commit(std::move(correct)).done());
}

TEST_CASE("what is no book is refused in a clear line", "[sqlite][store][bad]")
{
    const Folder folder;
    CHECK(messageOf([&] { Store::open(folder.file("none.strikeoff")); }).find("there is no book") != std::string::npos);
    CHECK(messageOf([&] { Store::open(folder.dir.path().toStdString()); }).find("is a folder") != std::string::npos);
    QFile text{QString::fromStdString(folder.file("notes.txt"))};
    REQUIRE(text.open(QIODevice::WriteOnly));
    text.write(QByteArray(5000, 'x'));
    text.close();
    CHECK(messageOf([&] { Store::open(folder.file("notes.txt")); }).find("is not a Strikeoff book") != std::string::npos);
    CHECK(messageOf([&] { Store::create(folder.file("notes.txt")); }).find("is there already") != std::string::npos);
    CHECK(messageOf([&] { Store::create(folder.file("no/such/folder.strikeoff")); }).find("cannot begin a book") != std::string::npos);
}

TEST_CASE("a newer book and one cut short are refused, and stay as they are", "[sqlite][store][bad]")
{
    const Folder folder;
    {
        auto store = folder.fresh();
        for (int i = 0; i < 50; ++i) addCustomer(*store, ("Customer " + std::to_string(i)).c_str());
    }
    const auto name = QString::fromStdString(folder.file());
    QFile file{name};
    REQUIRE(file.open(QIODevice::ReadWrite));
    const auto whole = file.readAll();
    file.seek(60);
    file.write(QByteArray::fromHex("00000063"));
    file.close();
    CHECK(messageOf([&] { Store::open(folder.file()); }).find("newer Strikeoff") != std::string::npos);
    REQUIRE(file.open(QIODevice::ReadWrite));
    file.seek(0);
    file.write(whole);
    file.resize(whole.size() / 2);
    file.close();
    CHECK(messageOf([&] { Store::open(folder.file()); }).find("cut short") != std::string::npos);
    CHECK(QFileInfo{name}.size() == whole.size() / 2);
}

TEST_CASE("a file locked by another program is said, and nothing is lost", "[sqlite][store][bad]")
{
    const Folder folder;
    auto store = folder.fresh();
    const auto before = contents(store->book());
    Edit edit{"Add"};
    Customer customer;
    customer.name = "Ines Talbot";
    edit.add(customer);
    {
        Database other{folder.file(), Database::Mode::readWrite};
        const Transaction held{other};
        CHECK(messageOf([&] { store->commit(edit); }).find("another program is writing to it") != std::string::npos);
        CHECK(contents(store->book()) == before);
    }
    CHECK(store->commit(edit).done());
}

TEST_CASE("a disk that takes no more is said, and book and file stay whole", "[sqlite][store][bad]")
{
    const Folder folder;
    auto store = folder.fresh();
    addCustomer(*store, "Merle Ostrander");
    const auto before = contents(store->book());
    Edit edit{"Much"};
    for (int i = 0; i < 3000; ++i) {
        Customer customer;
        customer.name = "Customer " + std::to_string(i);
        customer.note = std::string(2000, 'n');
        edit.add(customer);
    }
    const auto message = messageOf([&] {
        const FullDisk full;
        store->commit(edit);
    });
    CHECK(message.find("cannot write to") != std::string::npos);
    CHECK(contents(store->book()) == before);
    CHECK(contents(Store::open(folder.file())->book()) == before);
    CHECK(store->commit(edit).done());
    CHECK(store->verify({}).empty());
}

TEST_CASE("what a book begins with is not taken back by undo", "[store]")
{
    const Folder folder;
    auto store = folder.fresh();
    CHECK(store->undoTitle().empty());
    addCustomer(*store, "Merle Ostrander");
    REQUIRE(store->undo().done());
    CHECK(store->undoTitle().empty());
    CHECK(store->undo().ids.empty());
    CHECK(store->book().all<Settings>().size() == 1);
    CHECK(Store::open(folder.file())->undoTitle().empty());
}

TEST_CASE("the daily copy is kept once a day, the last fourteen, and opens", "[sqlite][store][copies]")
{
    const Folder folder;
    {
        auto store = folder.fresh();
        addCustomer(*store, "Merle Ostrander");
    }
    for (int i = 1; i <= 16; ++i) {
        OpenOptions options;
        options.keepDailyCopy = true;
        options.now = "2026-11-" + std::string{i < 10 ? "0" : ""} + std::to_string(i) + "T20:00:00Z";
        CHECK(Store::open(folder.file(), options)->lastCopy() == options.now.substr(0, 10));
        Store::open(folder.file(), options);
    }
    const QDir copies{folder.dir.filePath(QStringLiteral("book.copies"))};
    const auto names = copies.entryList(QDir::Files, QDir::Name);
    REQUIRE(names.size() == 14);
    CHECK(names.first() == QStringLiteral("2026-11-03.strikeoff"));
    OpenOptions look;
    look.readOnly = true;
    const auto copy = Store::open(copies.filePath(names.last()).toStdString(), look);
    CHECK(copy->book().all<Customer>().size() == 1);
    Edit edit{"Try"};
    edit.add(Customer{});
    CHECK(messageOf([&] { copy->commit(std::move(edit)); }).find("to look only") != std::string::npos);
}

TEST_CASE("a book opens although today's copy cannot be kept, and says so", "[sqlite][store][copies]")
{
    const Folder folder;
    folder.fresh();
    QFile inTheWay{folder.dir.filePath(QStringLiteral("book.copies"))};
    REQUIRE(inTheWay.open(QIODevice::WriteOnly));
    OpenOptions options;
    options.keepDailyCopy = true;
    const auto store = Store::open(folder.file(), options);
    CHECK(copyFault(*store).find("daily copies") != std::string::npos);
    CHECK(newsSocket(*store) == -1);
    addCustomer(*store, "Merle Ostrander");
    CHECK(copyFault(*Store::open(folder.file())).empty());
}

TEST_CASE("a backup is a whole book and never goes over a file", "[store][copies]")
{
    const Folder folder;
    auto store = folder.fresh();
    addCustomer(*store, "Merle Ostrander");
    store->backup(folder.ownFile("copy.strikeoff"));
    CHECK(contents(Store::open(folder.ownFile("copy.strikeoff"))->book()) == contents(store->book()));
    CHECK(messageOf([&] { store->backup(folder.ownFile("copy.strikeoff")); }).find("is there already") != std::string::npos);
}

#include "storage/loading.h"

#include "copies.h"
#include "copy_list.h"
#include "database.h"
#include "restore.h"
#include "schema.h"
#include "store_state.h"

#include <QDir>
#include <QFile>

#include <cstdlib>
#include <poll.h>

using namespace strikeoff;
using namespace strikeoff::test;

// These need a server: they run where STRIKEOFF_TEST_SERVER names one, see tests/server/with_server.

namespace {

void control(const char* what)
{
    const auto command = qEnvironmentVariable("STRIKEOFF_TEST_SERVER_CONTROL").toStdString() + ' ' + what + " >/dev/null 2>&1";
    REQUIRE(std::system(command.c_str()) == 0);
}

/// A book on the server with a customer and a job that were in when the copy was made, and what came after.
struct Shop {
    Folder folder;
    std::string book = folder.file(), copy = folder.ownFile("copy.strikeoff");
    std::unique_ptr<Store> store;
    Id<Customer> merle{1};
    std::map<RecordKind, std::string> dumpThen;

    Shop()
    {
        qputenv("XDG_DATA_HOME", folder.dir.filePath(QStringLiteral("data")).toUtf8());
        store = folder.fresh();
        addCustomer(*store, "Merle Ostrander");
        addJob(*store, "Patio");
        store->backup(copy);
        dumpThen = dumpOf(store->book());
        rename(*store, "Written over by mistake");
        addJob(*store, "Walk");
    }
    ~Shop() { qunsetenv("XDG_DATA_HOME"); }
    Shop(const Shop&) = delete;
    Shop& operator=(const Shop&) = delete;

    static void addCustomer(Store& into, const char* name)
    {
        Edit edit{std::string{"Add "} + name};
        Customer customer;
        customer.name = name;
        edit.add(customer);
        REQUIRE(into.commit(std::move(edit)).done());
    }
    std::string addJob(Store& into, const char* title) const
    {
        Edit edit{std::string{"Open "} + title};
        Job job;
        job.customer = merle;
        job.title = title;
        job.openedOn = *Date::parse("2026-05-04");
        edit.add(job);
        const auto result = into.commit(std::move(edit));
        REQUIRE(result.done());
        return std::string{into.book().get(Id<Job>{result.ids[0]}).number};
    }
    void rename(Store& in, const char* name) const
    {
        auto row = in.book().get(merle);
        row.name = name;
        Edit edit{"Rename"};
        edit.change(row);
        REQUIRE(in.commit(std::move(edit)).done());
    }
    std::string nameIn(const Store& in) const { return std::string{in.book().get(merle).name}; }
    std::size_t keptCopies() const { return copiesOf(book).size(); }
    std::vector<std::string> schemas() const
    {
        Database database{book, Database::Mode::readOnly};
        return database.column("SELECT nspname FROM pg_namespace WHERE nspname LIKE '" + database.dialect().schema + "%'");
    }
};

}

TEST_CASE("a shared book goes back to a copy, what was there is kept, and other desks come to it whole", "[.][server][back]")
{
    Shop shop;
    const auto other = Store::open(shop.book);
    const auto before = dumpOf(other->book());
    int told = 0;
    const auto watch = other->watch([&] { ++told; });

    const auto restored = restoreBook(shop.copy, shop.book);
    CHECK(restored.findings.empty());
    CHECK_FALSE(restored.isStopped);

    // The other desk is told by the server, and has all of the copy and nothing else.
    pollfd news{newsSocket(*other), POLLIN, 0};
    REQUIRE(poll(&news, 1, 2000) == 1);
    REQUIRE(other->refresh());
    CHECK(told == 1);
    CHECK(dumpOf(other->book()) == shop.dumpThen);
    CHECK(other->book().count(RecordKind::job) == 1);
    const auto entry = takeReplacement(*other);
    REQUIRE(entry);
    CHECK_THAT(entry->title, Catch::Contains("Go back to the copy of"));
    CHECK_FALSE(takeReplacement(*other));  // said once
    CHECK(other->verify().empty());

    // What was there is a copy among the others that opens.
    const auto copies = copiesOf(shop.book);
    REQUIRE(copies.size() == 1);
    CHECK(copies[0].file == restored.kept);
    CHECK(copies[0].origin == CopyOrigin::beforeRestore);
    OpenOptions look;
    look.readOnly = true;
    CHECK(dumpOf(Store::open(restored.kept, look)->book()) == before);

    // No number and no id is given twice, and the work goes on at both desks.
    CHECK(shop.addJob(*other, "Steps") == "1003");
    REQUIRE(refreshedSoon(*shop.store));
    CHECK(dumpOf(shop.store->book()) == dumpOf(other->book()));
    CHECK(shop.store->verify().empty());
    CHECK(shop.schemas().size() == 1);  // nothing is left aside
    // And forth again, to what was kept.
    CHECK(restoreBook(restored.kept, shop.book).findings.empty());
    REQUIRE(refreshedSoon(*other));
    CHECK(dumpOf(other->book()) == before);
    CHECK(copiesOf(shop.book).size() == 2);
    CHECK(shop.addJob(*other, "Stoop") == "1004");
    CHECK(other->verify().empty());
}

TEST_CASE("what another desk saves upon a book that went back meanwhile is refused once, and nothing is overwritten unseen", "[.][server][back]")
{
    Shop shop;
    auto open = shop.store->book().get(shop.merle);  // in a form of this desk, as it was before
    restoreBook(shop.copy, shop.book);
    open.phone = "555-0177";
    const auto save = [&] {
        Edit edit{"Change customer"};
        edit.change(open);
        return shop.store->commit(std::move(edit));
    };
    CHECK_THAT(messageOf([&] { save(); }), Catch::Contains("went back to a copy meanwhile") && Catch::Contains("nothing was saved"));
    CHECK(dumpOf(shop.store->book()) == shop.dumpThen);
    // The row is another one now, so that both versions are shown.
    const auto again = save();
    REQUIRE(again.conflicts.size() == 1);
    CHECK(again.conflicts[0].theirs->value("name") == Value{std::string{"Merle Ostrander"}});
    open = shop.store->book().get(shop.merle);
    CHECK(save().done());

    const auto late = Store::open(shop.book);
    REQUIRE(late->undoTitle() == "Change customer");
    restoreBook(shop.copy, shop.book);
    CHECK_THAT(messageOf([&] { late->undo(); }), Catch::Contains("went back to a copy meanwhile"));
    CHECK(late->undoTitle() == "Open Patio");
    CHECK(late->undo().done());
    CHECK(late->verify().empty());
}

TEST_CASE("a restore of a shared book that fails half way leaves everything as it was", "[.][server][back]")
{
    Shop shop;
    const auto before = dumpOf(shop.store->book());
    const auto isAsBefore = [&] {
        const auto now = Store::open(shop.book);
        CHECK(dumpOf(now->book()) == before);
        CHECK(now->verify().empty());
        CHECK(shop.keptCopies() == 0);
        CHECK(shop.schemas().size() == 1);
    };
    // Stopped at every place that asks.
    int asks = 0;
    restoreBook(shop.folder.ownFile("copy.strikeoff"), shop.folder.file("elsewhere"), {}, {}, [&](int) { return ++asks > 0; });
    for (int stopAt = 1, ran = 0; ran < 20; stopAt += std::max(asks / 6, 1), ++ran) {
        int asked = 0;
        if (!restoreBook(shop.copy, shop.book, {}, {}, [&](int) { return ++asked < stopAt; }).isStopped) break;
        isAsBefore();
    }
    CHECK(shop.nameIn(*Store::open(shop.book)) == "Merle Ostrander");  // the last one came through
    restoreBook(copiesOf(shop.book)[0].file, shop.book);
    for (const auto& copy : copiesOf(shop.book)) QFile::remove(QString::fromStdString(copy.file));
    REQUIRE(refreshedSoon(*shop.store));

    // The server goes down in the middle.
    bool crashed = false;
    const auto message = messageOf([&] {
        restoreBook(shop.copy, shop.book, {}, {}, [&](int percent) {
            if (percent >= 70 && !crashed) {
                control("crash");
                crashed = true;
            }
            return true;
        });
    });
    CHECK(crashed);
    CHECK_FALSE(message.empty());
    control("start");
    isAsBefore();

    // A copy with a fault is not taken.
    {
        Database database{shop.copy, Database::Mode::readWrite};
        database.run("UPDATE customer SET name = 'Tampered with'");
    }
    CHECK_FALSE(restoreBook(shop.copy, shop.book).findings.empty());
    isAsBefore();
    CHECK_THAT(messageOf([&] { restoreBook(shop.folder.ownFile("none.strikeoff"), shop.book); }), Catch::Contains("cannot read"));
    isAsBefore();
}

TEST_CASE("who may only read, and who does not own a shared book, is told so and changes nothing; grants stay", "[.][server][back]")
{
    Shop shop;
    const auto before = dumpOf(shop.store->book());
    const auto user = "clerk" + std::to_string(getpid());
    Database keeper{shop.book, Database::Mode::readWrite};
    const auto& schema = keeper.dialect().schema;
    keeper.run("CREATE USER " + user + " PASSWORD '" + qgetenv("PGPASSWORD").toStdString() + "'");
    auto theirs = shop.book;
    const auto begin = theirs.find("://") + 3;
    theirs.replace(begin, theirs.find('@') - begin, user);
    keeper.run("GRANT USAGE ON SCHEMA " + schema + " TO " + user + "; GRANT SELECT ON ALL TABLES IN SCHEMA " + schema + " TO " + user);
    CHECK_THAT(messageOf([&] { restoreBook(shop.copy, theirs); }), Catch::Contains("may only read") && Catch::Contains("Nothing was changed"));
    keeper.run("GRANT INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA " + schema + " TO " + user);
    CHECK_THAT(messageOf([&] { restoreBook(shop.copy, theirs); }), Catch::Contains("whoever owns the book"));
    CHECK(dumpOf(Store::open(shop.book)->book()) == before);

    const auto desk = Store::open(theirs);
    CHECK(restoreBook(shop.copy, shop.book).findings.empty());
    REQUIRE(refreshedSoon(*desk));
    CHECK(dumpOf(desk->book()) == shop.dumpThen);
    CHECK_FALSE(Store::open(theirs)->isReadOnly());
    shop.rename(*desk, "Merle J. Ostrander");  // may write as before
    CHECK(Store::open(shop.book)->verify().empty());
    keeper.run("DROP OWNED BY " + user + "; DROP USER " + user);
}

TEST_CASE("a desk that reads while a copy takes the place of the book sees one of the two, whole", "[.][server][back]")
{
    Shop shop;
    const auto before = dumpOf(shop.store->book());
    std::atomic<bool> ended{false};
    std::atomic<int> reads{0}, others{0};
    std::thread reader{[&] {
        while (!ended) {
            try {
                const auto seen = dumpOf(Store::open(shop.book)->book());
                ++reads;
                if (seen != before && seen != shop.dumpThen) ++others;
            } catch (const std::exception&) {
                ++others;
            }
        }
    }};
    std::string kept;
    for (int i = 0; i < 6; ++i) kept = restoreBook(i % 2 == 0 ? shop.copy : kept, shop.book).kept;
    ended = true;
    reader.join();
    CHECK(reads > 5);
    CHECK(others == 0);
}

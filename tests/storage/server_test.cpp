#include "storage/loading.h"

#include "copies.h"
#include "database.h"
#include "schema.h"
#include "schema_steps.h"
#include "server_address.h"
#include "store_state.h"

#include <QDir>
#include <QFile>

#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <netinet/in.h>
#include <poll.h>
#include <sstream>
#include <sys/socket.h>

using namespace strikeoff;
using namespace strikeoff::test;

// These need a server: they run where STRIKEOFF_TEST_SERVER names one, see tests/server/with_server.

namespace {

Edit adding(const char* name)
{
    Edit edit{std::string{"Add "} + name};
    Customer customer;
    customer.name = name;
    edit.add(customer);
    return edit;
}

void control(const char* what)
{
    const auto command = qEnvironmentVariable("STRIKEOFF_TEST_SERVER_CONTROL").toStdString() + ' ' + what + " >/dev/null 2>&1";
    REQUIRE(std::system(command.c_str()) == 0);
}

/// A variable of the environment for the length of a block.
class Variable {
public:
    Variable(const char* name, const char* value) : name_{name}, before_{qgetenv(name)}
    {
        if (value) qputenv(name, value);
        else qunsetenv(name);
    }
    ~Variable() { qputenv(name_, before_); }
    Variable(const Variable&) = delete;
    Variable& operator=(const Variable&) = delete;

private:
    const char* name_;
    QByteArray before_;
};

/// The address of a book as another user of the server sees it.
std::string as(const std::string& user, std::string address)
{
    const auto begin = address.find("://") + 3;
    return address.replace(begin, address.find('@') - begin, user);
}

}

TEST_CASE("a book on a server is begun once and found again", "[.][server]")
{
    const Folder folder;
    CHECK_THAT(messageOf([&] { Store::open(folder.file()); }), Catch::Contains("there is no book") && Catch::Contains("strikeoff new"));
    folder.fresh();
    CHECK_THAT(messageOf([&] { Store::create(folder.file()); }), Catch::Contains("already"));
    auto elsewhere = folder.file();
    elsewhere.replace(elsewhere.find("/postgres?"), 10, "/no_such_database?");
    CHECK_THAT(messageOf([&] { Store::open(elsewhere); }), Catch::Contains("no_such_database"));
}

TEST_CASE("the password is asked for when the server wants one, tried again when it was wrong, and never said", "[.][server]")
{
    const Folder folder;
    folder.fresh();
    const auto right = qgetenv("PGPASSWORD").toStdString();
    const Variable none{"PGPASSWORD", nullptr};
    CHECK_THAT(messageOf([&] { Store::open(folder.file()); }), Catch::Contains("asks for a password") && Catch::Contains("PGPASSWORD"));
    std::vector<bool> asked;
    OpenOptions options;
    options.askPassword = [&](const std::string&, bool again) -> std::optional<std::string> {
        asked.push_back(again);
        return asked.size() == 1 ? "not-the-one" : right;
    };
    CHECK(Store::open(folder.file(), options)->book().all<Customer>().empty());
    CHECK(asked == std::vector<bool>{false, true});
    options.askPassword = [](const std::string&, bool) { return std::optional<std::string>{"not-the-one"}; };
    const auto refused = messageOf([&] { Store::open(folder.file(), options); });
    CHECK_THAT(refused, Catch::Contains("did not take the password") && !Catch::Contains("not-the-one"));
    options.askPassword = [](const std::string&, bool) { return std::optional<std::string>{}; };
    CHECK_THAT(messageOf([&] { Store::open(folder.file(), options); }), Catch::Contains("asks for a password"));
}

TEST_CASE("TLS that the address demands and the server does not have is refused", "[.][server]")
{
    const Folder folder;
    folder.fresh();
    CHECK_THAT(messageOf([&] { Store::open(folder.file() + "&sslmode=require"); }), Catch::Contains("SSL"));
    CHECK(Store::open(folder.file() + "&sslmode=disable")->book().all<Customer>().empty());
}

TEST_CASE("a desk is told of what another one did, and looks only then", "[.][server]")
{
    const Folder folder;
    const auto first = folder.fresh();
    const auto second = Store::open(folder.file());
    CHECK_FALSE(second->refresh());
    REQUIRE(first->commit(adding("Merle Ostrander")).done());
    // Whoever waits at the connection is told at once.
    pollfd news{newsSocket(*second), POLLIN, 0};
    REQUIRE(poll(&news, 1, 2000) == 1);
    REQUIRE(second->refresh());
    CHECK(second->book().all<Customer>().size() == 1);
    CHECK_FALSE(first->refresh());  // its own
    // What was committed before anyone looked is taken in by a commit too, and numbers do not clash.
    REQUIRE(second->commit(adding("Ines Talbot")).done());
    CHECK(second->book().all<Customer>().size() == 2);
}

TEST_CASE("a user with the grant to read gets a book to look at", "[.][server]")
{
    const Folder folder;
    const auto store = folder.fresh();
    REQUIRE(store->commit(adding("Merle Ostrander")).done());
    const auto user = "looker" + std::to_string(getpid());
    Database keeper{folder.file(), Database::Mode::readWrite};
    keeper.run("CREATE USER " + user + " PASSWORD '" + qgetenv("PGPASSWORD").toStdString() + "'");
    const auto theirs = as(user, folder.file());
    CHECK_THAT(messageOf([&] { Store::open(theirs); }), Catch::Contains("may not look into"));
    keeper.run("GRANT USAGE ON SCHEMA " + keeper.dialect().schema + " TO " + user);
    keeper.run("GRANT SELECT ON ALL TABLES IN SCHEMA " + keeper.dialect().schema + " TO " + user);
    const auto look = Store::open(theirs);
    CHECK(look->isReadOnly());
    CHECK(look->book().all<Customer>().size() == 1);
    CHECK_THAT(messageOf([&] { look->commit(adding("Ines Talbot")); }), Catch::Contains("to look only"));
    CHECK(look->verify().empty());
    keeper.run("GRANT INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA " + keeper.dialect().schema + " TO " + user);
    const auto write = Store::open(theirs);
    CHECK_FALSE(write->isReadOnly());
    CHECK(write->commit(adding("Ines Talbot")).done());
}

TEST_CASE("a book on a server that only follows another one is looked at, and what is new there is taken in", "[.][server]")
{
    const Folder folder;
    const auto store = folder.fresh();
    REQUIRE(store->commit(adding("Merle Ostrander")).done());
    const std::unique_ptr<FILE, int (*)(FILE*)> control{popen((qEnvironmentVariable("STRIKEOFF_TEST_SERVER_CONTROL").toStdString() + " follow").c_str(), "r"), pclose};
    std::array<char, 200> line{};
    REQUIRE((control && std::fgets(line.data(), line.size(), control.get())));
    auto path = folder.file();
    path.replace(0, path.find('?'), std::string{line.data(), std::strcspn(line.data(), "\n")});
    const auto follower = Store::open(path);
    CHECK(follower->isReadOnly());
    CHECK(follower->book().all<Customer>().size() == 1);
    CHECK(follower->verify().empty());
    REQUIRE(store->commit(adding("Ines Talbot")).done());
    CHECK(refreshedSoon(*follower));
    CHECK(follower->book().all<Customer>().size() == 2);
    CHECK_FALSE(follower->refresh());
    CHECK_THAT(messageOf([&] { follower->commit(adding("Lemuel Oxbow")); }), Catch::Contains("to look only"));
}

TEST_CASE("a server that stops is said, and when it is back the same edit is saved once", "[.][server]")
{
    const Folder folder;
    const auto store = folder.fresh();
    REQUIRE(store->commit(adding("Merle Ostrander")).done());
    const auto before = dumpOf(store->book());
    control("crash");
    CHECK_THAT(messageOf([&] { store->commit(adding("Ines Talbot")); }), Catch::Contains("what you type stays"));
    CHECK(dumpOf(store->book()) == before);
    CHECK_THROWS_AS(store->refresh(), ConnectionLost);
    control("start");
    REQUIRE(store->commit(adding("Ines Talbot")).done());
    CHECK(store->book().all<Customer>().size() == 2);
    CHECK(Store::open(folder.file())->book().all<Customer>().size() == 2);
    CHECK(store->verify().empty());
}

TEST_CASE("a server that lets everybody wait is not waited for at every look for news", "[.][server]")
{
    const Folder folder;
    folder.fresh();
    const auto store = Store::open(folder.file() + "&connect_timeout=4");
    control("stop");
    // In its place somebody who takes calls and never answers, as a firewall may.
    const auto address = readServerAddress(folder.file());
    sockaddr_in place{};
    place.sin_family = AF_INET;
    place.sin_port = htons(static_cast<std::uint16_t>(std::stoi(address.port)));
    place.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    const int silent = ::socket(AF_INET, SOCK_STREAM, 0);
    const int yes = 1;
    setsockopt(silent, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    REQUIRE(::bind(silent, reinterpret_cast<const sockaddr*>(&place), sizeof place) == 0);
    REQUIRE(::listen(silent, 5) == 0);
    while (messageOf([&] { store->refresh(); }).empty()) {}  // until it is noticed
    const auto begin = std::chrono::steady_clock::now();
    for (int i = 0; i < 3; ++i) CHECK_THROWS_AS(store->refresh(), ConnectionLost);
    CHECK(std::chrono::steady_clock::now() - begin < std::chrono::seconds{1});
    ::close(silent);
    control("start");
}

TEST_CASE("a desk that is cut off in the middle of writing does not keep the others waiting for hours", "[.][server]")
{
    const Folder folder;
    folder.fresh();
    Database database{folder.file(), Database::Mode::readWrite};
    // The server asks whether the desk is still there, and lets go of its turn when it is not.
    const auto seconds = [&](const char* setting) { return std::stoi(database.text(std::string{"SELECT setting FROM pg_settings WHERE name = '"} + setting + "'")); };
    CHECK(seconds("tcp_keepalives_idle") + seconds("tcp_keepalives_interval") * seconds("tcp_keepalives_count") <= 120);
    CHECK(seconds("tcp_keepalives_idle") > 0);
}

TEST_CASE("a book goes to the server and back with its trail, numbers and undo", "[.][server]")
{
    const Folder folder;
    const auto file = folder.ownFile("kitchen.strikeoff");
    Store::create(file);
    const auto at = Store::open(file);
    REQUIRE(at->commit(adding("Merle Ostrander")).done());
    std::string rows = "name\n";
    for (int i = 0; i < 300; ++i) rows += "Customer " + std::to_string(i) + '\n';
    loaded(*at, RecordKind::customer, rows);
    REQUIRE(at->undo().done());
    const auto dump = dumpOf(at->book());

    REQUIRE(at->copyTo(folder.file("office")));
    CHECK_THAT(messageOf([&] { at->copyTo(folder.file("office")); }), Catch::Contains("already"));
    const auto office = Store::open(folder.file("office"));
    CHECK(dumpOf(office->book()) == dump);
    CHECK(office->verify().empty());
    CHECK(office->redoTitle() == at->redoTitle());
    CHECK(office->recentTrail(10).size() == at->recentTrail(10).size());
    REQUIRE(office->redo().done());
    REQUIRE(office->copyTo(folder.ownFile("home.strikeoff")));
    const auto home = Store::open(folder.ownFile("home.strikeoff"));
    CHECK(dumpOf(home->book()) == dumpOf(office->book()));
    CHECK(home->book().all<Customer>().size() == 301);
    CHECK(home->verify().empty());
    CHECK(dumpOf(Store::open(file)->book()) == dump);  // where it came from
    // Stopped half way nothing is left behind.
    int asked = 0;
    CHECK_FALSE(office->copyTo(folder.ownFile("stopped.strikeoff"), {}, [&](int) { return ++asked < 40; }));
    CHECK_FALSE(QFile::exists(QString::fromStdString(folder.ownFile("stopped.strikeoff"))));
    CHECK_FALSE(office->copyTo(folder.file("stopped"), {}, [&](int) { return false; }));
    CHECK_THAT(messageOf([&] { Store::open(folder.file("stopped")); }), Catch::Contains("there is no book"));
}

TEST_CASE("a desk keeps a copy of each day of a book on a server, the last fourteen, as a file that opens", "[.][server]")
{
    const Folder folder;
    const auto data = folder.dir.filePath(QStringLiteral("data")).toUtf8();
    const Variable home{"XDG_DATA_HOME", data.constData()};
    REQUIRE(folder.fresh()->commit(adding("Merle Ostrander")).done());
    OpenOptions options;
    options.keepDailyCopy = true;
    for (int day = 10; day < 26; ++day) {
        options.now = "2026-11-" + std::to_string(day) + "T20:00:00Z";
        const auto store = Store::open(folder.file(), options);
        CHECK(store->lastCopy() == options.now.substr(0, 10));
        CHECK(copyFault(*store).empty());
    }
    const QDir copies{QString::fromStdString(copiesFolder(folder.file()))};
    CHECK(copies.path().startsWith(QString::fromUtf8(data)));
    const auto names = copies.entryList(QDir::Files, QDir::Name);
    REQUIRE(names.size() == 14);
    CHECK(dumpOf(Store::open(copies.filePath(names.last()).toStdString())->book()) == dumpOf(Store::open(folder.file())->book()));
}

TEST_CASE("a book on a server that comes forward is kept as it was beside it", "[.][server]")
{
    const Folder folder;
    const auto path = folder.file();
    REQUIRE(folder.fresh()->commit(adding("Merle Ostrander")).done());
    const auto schema = readServerAddress(path).schema;
    {
        // Version 3 taken back by hand.
        Database database{path, Database::Mode::readWrite};
        for (const auto& statement : schemaStep3()) {
            std::istringstream words{statement};
            std::string alter, table, name, add, column, what;
            words >> alter >> table >> name >> add >> column >> what;
            if (alter == "ALTER") database.run("ALTER TABLE " + name + " DROP COLUMN " + what);
            else database.run("DROP TABLE " + name);
        }
        database.run("UPDATE about_book SET version = 2");
    }
    const auto store = Store::open(path);
    REQUIRE(store->book().all<Customer>().size() == 1);
    Database database{path, Database::Mode::readOnly};
    const auto kept = schema.substr(0, 40) + "_before_" + std::to_string(schemaVersion);
    CHECK(database.number("SELECT version FROM " + kept + ".about_book") == 2);
    CHECK(database.text("SELECT name FROM " + kept + ".customer") == "Merle Ostrander");
    CHECK(database.number("SELECT count(*) FROM " + kept + ".edit_change") == database.number("SELECT count(*) FROM edit_change"));
    CHECK(database.number("SELECT count(*) FROM pg_attribute WHERE attrelid = '" + kept + ".edit'::regclass AND attname = 'chain' AND NOT attisdropped") == 0);
}

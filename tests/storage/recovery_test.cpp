#include "database.h"
#include "schema.h"
#include "storage/loading.h"

#include <QFile>
#include <QFileInfo>

#include <sys/wait.h>

using namespace strikeoff;
using namespace strikeoff::test;

namespace {

constexpr const char* besides[]{"", "-wal", "-journal"};

/// What a program that is killed leaves on the disk: the file with its log or journal as they are at that moment, without what desks share in memory.
std::string asLeft(const Folder& folder, const std::string& path, const char* name)
{
    const auto left = folder.ownFile(name);
    for (const auto* suffix : besides) {
        const auto from = QString::fromStdString(path + suffix), to = QString::fromStdString(left + suffix);
        QFile::remove(to);
        if (QFileInfo::exists(from)) REQUIRE(QFile::copy(from, to));
    }
    return left;
}

void add(Store& store, const std::string& name)
{
    Customer customer;
    customer.name = name;
    Edit edit{"Add a customer"};
    edit.add(customer);
    REQUIRE(store.commit(std::move(edit)).done());
}

std::size_t customersOf(const std::string& path, bool readOnly = false)
{
    OpenOptions options;
    options.readOnly = readOnly;
    const auto store = Store::open(path, options);
    CHECK(store->verify({}).empty());
    return store->book().all<Customer>().size();
}

qint64 sizeOf(const std::string& file) { return QFileInfo{QString::fromStdString(file)}.size(); }

}

TEST_CASE("a book whose program was killed while the log was written back opens whole", "[sqlite][recovery]")
{
    const Folder folder;
    const auto path = folder.ownFile("book.strikeoff");
    Store::create(path);
    const auto store = Store::open(path);
    const auto sizeBefore = sizeOf(path);
    for (int i = 0; i < 200; ++i) add(*store, "Customer " + std::to_string(i));
    const auto withLog = asLeft(folder, path, "left.strikeoff");
    Database{path, Database::Mode::readWrite}.run("PRAGMA wal_checkpoint(PASSIVE)");
    QFile whole{QString::fromStdString(path)};
    REQUIRE(whole.open(QIODevice::ReadOnly));
    const auto written = whole.readAll();
    REQUIRE(written.size() > sizeBefore);
    // The pages are written back in their order; the first of them says at once how many there will be.
    for (const auto bytes : {qint64{4096}, (sizeBefore + written.size()) / 2 / 4096 * 4096, qint64{written.size() - 4096}}) {
        for (const bool readOnly : {true, false}) {
            const auto half = asLeft(folder, withLog, "half.strikeoff");
            QFile file{QString::fromStdString(half)};
            REQUIRE(file.open(QIODevice::ReadWrite));
            file.write(written.left(bytes));
            file.close();
            CHECK(customersOf(half, readOnly) == 200);
        }
    }
}

TEST_CASE("a book whose first page is in the log alone is one all the same, and its beginning is made up for", "[sqlite][recovery]")
{
    const Folder folder;
    const auto path = folder.ownFile("book.strikeoff");
    QFile empty{QString::fromStdString(path)};
    REQUIRE(empty.open(QIODevice::WriteOnly));
    empty.close();
    Database database{path, Database::Mode::readWrite};
    database.run("PRAGMA journal_mode = WAL");
    Transaction transaction{database};
    layOut(database);
    transaction.commit();
    const auto left = asLeft(folder, path, "left.strikeoff");
    REQUIRE(sizeOf(left) == 4096);
    REQUIRE(sizeOf(left + "-wal") > 4096);

    const auto store = Store::open(left);
    CHECK(store->book().all<Settings>().size() == 1);
    CHECK(store->recentTrail(5).size() == 1);
    CHECK(store->verify({}).empty());
}

TEST_CASE("a book that is newer only by its log is refused, and stays as it is", "[sqlite][recovery]")
{
    const Folder folder;
    const auto path = folder.ownFile("book.strikeoff");
    Store::create(path);
    const auto store = Store::open(path);
    add(*store, "Merle Ostrander");
    Database{path, Database::Mode::readWrite}.run("PRAGMA user_version = " + std::to_string(schemaVersion + 1));
    const auto left = asLeft(folder, path, "left.strikeoff");
    CHECK(messageOf([&] { Store::open(left); }).find("newer Strikeoff") != std::string::npos);
    OpenOptions look;
    look.readOnly = true;
    CHECK(messageOf([&] { Store::open(left, look); }).find("newer Strikeoff") != std::string::npos);
}

TEST_CASE("what was half written by way of a journal is taken back, also by a desk that only looks", "[sqlite][recovery]")
{
    const Folder folder;
    const auto path = folder.ownFile("book.strikeoff");
    Store::create(path);
    {
        const auto store = Store::open(path);
        for (int i = 0; i < 300; ++i) add(*store, "Customer " + std::to_string(i));
    }
    Database database{path, Database::Mode::readWrite};
    database.run("PRAGMA journal_mode = DELETE");
    database.run("PRAGMA cache_size = 1");  // pages go to the file before the end of the transaction
    Transaction transaction{database};
    database.run("UPDATE customer SET name = 'Half ' || id, note = hex(zeroblob(2000))");
    for (const bool readOnly : {true, false}) {
        const auto left = asLeft(folder, path, "left.strikeoff");
        REQUIRE(sizeOf(left + "-journal") > 0);
        REQUIRE(sizeOf(left) > sizeOf(path) - 1);
        CHECK(customersOf(left, readOnly) == 300);
    }
}

TEST_CASE("a file that was emptied is refused and its log kept", "[sqlite][recovery]")
{
    const Folder folder;
    const auto path = folder.ownFile("book.strikeoff");
    Store::create(path);
    const auto store = Store::open(path);
    add(*store, "Merle Ostrander");
    const auto left = asLeft(folder, path, "left.strikeoff");
    REQUIRE(QFile::resize(QString::fromStdString(left), 0));
    const auto log = sizeOf(left + "-wal");
    REQUIRE(log > 0);
    CHECK(messageOf([&] { Store::open(left); }).find("is empty") != std::string::npos);
    CHECK(sizeOf(left + "-wal") == log);
}

TEST_CASE("opening a book once more leaves it locked against being closed for good by another program", "[sqlite][recovery]")
{
    // POSIX takes all locks of a program on a file away when it closes any descriptor of it. The other program would then think itself the last one, and
    // remove the log that the first goes on writing to: what is reported done would be gone.
    const Folder folder;
    const auto path = folder.ownFile("book.strikeoff");
    Store::create(path);
    int go[2], done[2];
    REQUIRE(pipe(go) == 0);
    REQUIRE(pipe(done) == 0);
    char byte = 0;
    const auto child = fork();
    if (child == 0) {
        bool wrote = false;
        if (::read(go[0], &byte, 1) == 1) {
            Database other{path, Database::Mode::readWrite};
            other.run("UPDATE settings SET revision = revision");
            wrote = true;
        }
        _exit(wrote && ::write(done[1], "d", 1) == 1 ? 0 : 1);
    }
    const auto store = Store::open(path);
    add(*store, "Before");
    {
        OpenOptions look;
        look.readOnly = true;
        Store::open(path, look);
    }
    REQUIRE(::write(go[1], "g", 1) == 1);
    REQUIRE(::read(done[0], &byte, 1) == 1);
    int status = 0;
    waitpid(child, &status, 0);
    REQUIRE(status == 0);
    add(*store, "After");
    CHECK(sizeOf(path + "-wal") > 0);
    CHECK(customersOf(asLeft(folder, path, "left.strikeoff")) == 2);
    for (const int end : {go[0], go[1], done[0], done[1]}) close(end);
}

#include "storage/loading.h"

#include "database.h"
#include "file.h"
#include "restore.h"
#include "sealed_file.h"

#include <QFile>

#include <filesystem>
#include <fstream>

using namespace strikeoff;
using namespace strikeoff::test;

// These are about files, whatever engine the other tests run on.

namespace {

const std::string phrase = "gravel under the north stoop";

std::unique_ptr<Store> bookWith(const std::string& path, const char* customer)
{
    Store::create(path);
    auto store = Store::open(path);
    Edit edit{"Add"};
    Customer row;
    row.name = customer;
    edit.add(row);
    REQUIRE(store->commit(std::move(edit)).done());
    return store;
}

std::string firstCustomer(const std::string& path) { return std::string{Store::open(path)->book().all<Customer>()[0].name}; }

}

TEST_CASE("a copy takes the place of a book, and the book that was there is kept", "[sqlite][restore]")
{
    const Folder folder;
    const auto book = folder.ownFile("book.strikeoff"), copy = folder.ownFile("copy.strikeoff");
    {
        const auto store = bookWith(book, "Merle Ostrander");
        store->backup(copy);
        auto merle = store->book().all<Customer>()[0];
        merle.name = "Written over by mistake";
        Edit edit{"Mistake"};
        edit.change(merle);
        REQUIRE(store->commit(std::move(edit)).done());
        // Open in a window it is left alone.
        CHECK_THAT(messageOf([&] { restoreBook(copy, book); }), Catch::Contains("open in another program"));
        CHECK(firstCustomer(book) == "Written over by mistake");
    }
    const auto restored = restoreBook(copy, book);
    CHECK(restored.findings.empty());
    CHECK(restored.kept == book + ".before-restore");
    CHECK(firstCustomer(book) == "Merle Ostrander");
    CHECK(firstCustomer(restored.kept) == "Written over by mistake");
    CHECK(firstCustomer(copy) == "Merle Ostrander");
    // A second time the first one kept stays.
    CHECK(restoreBook(copy, book).kept == book + ".before-restore-2");
    CHECK(firstCustomer(book + ".before-restore") == "Written over by mistake");
    // Where there is no book it is simply put there.
    CHECK(restoreBook(copy, folder.ownFile("new.strikeoff")).kept.empty());
    CHECK(firstCustomer(folder.ownFile("new.strikeoff")) == "Merle Ostrander");
    const auto others = QFileDevice::ReadGroup | QFileDevice::WriteGroup | QFileDevice::ReadOther | QFileDevice::WriteOther;
    CHECK((QFile::permissions(QString::fromStdString(book)) & others) == QFileDevice::Permissions{});
    for (const auto& entry : std::filesystem::directory_iterator{folder.dir.path().toStdString()}) CHECK_FALSE(entry.is_directory());
}

TEST_CASE("a book that went back to a copy gives no number and no id a second time, and its trail says what happened", "[sqlite][restore]")
{
    const Folder folder;
    const auto book = folder.ownFile("book.strikeoff"), copy = folder.ownFile("copy.strikeoff");
    const auto openJob = [](Store& store) {
        Edit edit{"Open job"};
        Job job;
        job.customer = store.book().all<Customer>()[0].id;
        job.title = "Patio";
        job.openedOn = *Date::parse("2026-05-04");
        edit.add(job);
        const auto result = store.commit(std::move(edit));
        REQUIRE(result.done());
        return store.book().get(Id<Job>{result.ids[0]});
    };
    {
        const auto store = bookWith(book, "Merle Ostrander");
        openJob(*store);
        store->backup(copy);
        CHECK(openJob(*store).number == "1002");
        CHECK(openJob(*store).number == "1003");
    }
    CHECK(restoreBook(copy, book).findings.empty());
    const auto store = Store::open(book);
    CHECK(store->book().count(RecordKind::job) == 1);
    CHECK_THAT(store->recentTrail(1)[0].title, Catch::Contains("Go back to the copy of"));
    CHECK(store->undoTitle() == "Open job");
    const auto job = openJob(*store);
    CHECK(job.number == "1004");
    CHECK(job.id == Id<Job>{4});
    for (const auto& finding : store->verify()) FAIL_CHECK(finding.where << ": " << finding.what);
}

TEST_CASE("a damaged book is no hindrance, a damaged copy changes nothing", "[sqlite][restore]")
{
    const Folder folder;
    const auto book = folder.ownFile("book.strikeoff"), copy = folder.ownFile("copy.strikeoff");
    bookWith(book, "Merle Ostrander")->backup(copy);
    std::string fault;
    auto bytes = *readWholeFile(book, fault);
    const auto harm = [](const std::string& path, std::string content) {
        std::fill(content.begin() + 4096, content.begin() + 9000, 'x');
        std::ofstream{path, std::ios::binary | std::ios::trunc} << content;
    };
    harm(book, bytes);
    const auto restored = restoreBook(copy, book);
    CHECK(restored.findings.empty());
    CHECK(QFile::exists(QString::fromStdString(restored.kept)));
    CHECK(firstCustomer(book) == "Merle Ostrander");

    {
        Database database{copy, Database::Mode::readWrite};
        database.run("UPDATE customer SET name = 'Tampered with'");
    }
    CHECK_FALSE(restoreBook(copy, book).findings.empty());
    CHECK(firstCustomer(book) == "Merle Ostrander");
    harm(copy, bytes);
    bool found = false;
    const auto refused = messageOf([&] { found = !restoreBook(copy, book).findings.empty(); });
    CHECK((found || refused.find("damaged") != std::string::npos));
    CHECK(firstCustomer(book) == "Merle Ostrander");
    CHECK_THAT(messageOf([&] { restoreBook(folder.ownFile("none.strikeoff"), book); }), Catch::Contains("cannot read") && Catch::Contains("none.strikeoff"));
    CHECK_THAT(messageOf([&] { restoreBook(book, book); }), Catch::Contains("the book itself"));
}

TEST_CASE("an open book is not taken for a damaged one, whatever its name", "[sqlite][restore]")
{
    const Folder folder;
    const auto copy = folder.ownFile("copy.strikeoff");
    bookWith(folder.ownFile("other.strikeoff"), "Merle Ostrander")->backup(copy);
    for (const auto* name : {"damaged.strikeoff", "no book.strikeoff"}) {
        const auto book = folder.ownFile(name);
        const auto open = bookWith(book, "Ines Talbot");
        CHECK_THAT(messageOf([&] { restoreBook(copy, book); }), Catch::Contains("open in another program"));
        CHECK(firstCustomer(book) == "Ines Talbot");
    }
}

TEST_CASE("no file is written over a book or a sealed copy, also by way of a link", "[sqlite][restore][file]")
{
    const Folder folder;
    const auto book = folder.ownFile("book.strikeoff"), link = folder.ownFile("link.csv"), sealedCopy = folder.ownFile("copy.sealed");
    const auto open = bookWith(book, "Merle Ostrander");
    std::filesystem::create_symlink(book, link);
    std::ofstream{sealedCopy} << "STRIKEOFF SEALED 1\nand so on";
    for (const auto& path : {book, link, sealedCopy}) {
        std::string fault;
        CHECK_FALSE(writePrivateFile(path, "name\nInes Talbot\n", fault));
        CHECK_THAT(fault, Catch::Contains("nothing is written over"));
    }
    CHECK(firstCustomer(book) == "Merle Ostrander");
}

TEST_CASE("a copy of an older version is brought forward where it goes and stays as it was", "[sqlite][restore]")
{
    const Folder folder;
    const auto copy = folder.ownFile("old.strikeoff"), book = folder.ownFile("book.strikeoff");
    REQUIRE(QFile::copy(QStringLiteral(STRIKEOFF_RELEASED_BOOKS "/version_1.strikeoff"), QString::fromStdString(copy)));
    std::string fault;
    const auto before = *readWholeFile(copy, fault);
    CHECK(restoreBook(copy, book).findings.empty());
    CHECK(Store::open(book)->book().all<Customer>().size() == 1);
    CHECK(*readWholeFile(copy, fault) == before);
}

TEST_CASE("a sealed copy opens with its pass phrase and with no other", "[sqlite][restore][sealed]")
{
    const Folder folder;
    const auto book = folder.ownFile("book.strikeoff"), copy = folder.ownFile("copy.sealed");
    const auto store = bookWith(book, "Merle Ostrander");
    CHECK_THAT(messageOf([&] { backupSealed(*store, copy, "short"); }), Catch::Contains("at least 10 characters"));
    CHECK_FALSE(QFile::exists(QString::fromStdString(copy)));
    backupSealed(*store, copy, phrase);
    CHECK_THAT(messageOf([&] { backupSealed(*store, copy, phrase); }), Catch::Contains("is there already"));
    std::string fault;
    const auto bytes = *readWholeFile(copy, fault);
    CHECK(isSealed(bytes));
    CHECK(bytes.find("Merle") == std::string::npos);
    CHECK(bytes.find("SQLite") == std::string::npos);
    CHECK_THAT(messageOf([&] { Store::open(copy); }), Catch::Contains("sealed"));

    const auto to = folder.ownFile("restored.strikeoff");
    CHECK_THAT(messageOf([&] { restoreBook(copy, to); }), Catch::Contains("sealed with a pass phrase"));
    CHECK_THAT(messageOf([&] { restoreBook(copy, to, [] { return std::optional<std::string>{"gravel under the south stoop"}; }); }), Catch::Contains("does not fit"));
    CHECK_FALSE(QFile::exists(QString::fromStdString(to)));
    CHECK(restoreBook(copy, to, [] { return std::optional{phrase}; }).findings.empty());
    CHECK(firstCustomer(to) == "Merle Ostrander");
}

TEST_CASE("whatever is changed in a sealed copy, it is refused", "[sqlite][sealed]")
{
    std::string bytes;
    for (int i = 0; i < 70'000; ++i) bytes += static_cast<char>(i * 7 + i / 251);
    const auto whole = sealed(bytes, phrase);
    REQUIRE(unsealed(whole, phrase, "it") == bytes);
    CHECK(unsealed(sealed("", phrase), phrase, "it").empty());
    CHECK(sealed(bytes, phrase) != whole);  // a salt of its own each time
    const std::size_t head = 19 + 16 + 16;  // mark, salt, costs
    for (const auto place : {std::size_t{20}, head - 8, head + 3, head + 40, whole.size() - 30, whole.size() - 1}) {
        auto harmed = whole;
        harmed[place] = static_cast<char>(harmed[place] ^ 1);
        INFO(place);
        CHECK_THROWS_AS(unsealed(harmed, phrase, "it"), StorageError);
    }
    const std::size_t firstPart = head + 24 + 65536 + 17;
    CHECK_THROWS_AS(unsealed(whole.substr(0, firstPart), phrase, "it"), StorageError);  // ends between two parts
    CHECK_THROWS_AS(unsealed(whole + 'x', phrase, "it"), StorageError);
    CHECK_THROWS_AS(unsealed(whole.substr(0, 60), phrase, "it"), StorageError);
    CHECK_THROWS_AS(unsealed("SQLite format 3", phrase, "it"), StorageError);
    auto greedy = whole;
    for (std::size_t i = head - 8; i < head; ++i) greedy[i] = '\x7f';  // asks for more memory than there is
    CHECK_THAT(messageOf([&] { unsealed(greedy, phrase, "it"); }), Catch::Contains("its head is damaged"));
}

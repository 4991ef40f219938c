#include "storage/loading.h"

#include "copy_list.h"

#include <QDir>
#include <QFile>

#include <fstream>

using namespace strikeoff;
using namespace strikeoff::test;

namespace {

const std::string phrase = "gravel under the north stoop";

void addCustomer(Store& store, const char* name)
{
    Edit edit{"Add"};
    Customer row;
    row.name = name;
    edit.add(row);
    REQUIRE(store.commit(std::move(edit)).done());
}

}

TEST_CASE("the copies of a book are listed with day, kind and size, the newest first", "[sqlite][copies]")
{
    const Folder folder;
    const auto book = folder.ownFile("book.strikeoff");
    Store::create(book);
    OpenOptions options;
    options.keepDailyCopy = true;
    for (const auto* now : {"2026-05-01T08:00:00Z", "2026-05-02T08:00:00Z"}) {
        options.now = now;
        Store::open(book, options);
    }
    const auto own = folder.ownFile("stick.strikeoff"), sealed = folder.ownFile("sealed.strikeoff");
    {
        const auto store = Store::open(book);
        store->backup(own);
        backupSealed(*store, sealed, phrase);
    }
    restoreBook(own, book);
    QFile other{QString::fromStdString(folder.ownFile("book.strikeoff.txt"))};
    REQUIRE(other.open(QIODevice::WriteOnly));

    const auto copies = copiesOf(book, {own, sealed, folder.ownFile("gone.strikeoff"), own});
    REQUIRE(copies.size() == 5);
    int daily = 0, sealedOnes = 0, kept = 0;
    for (const auto& copy : copies) {
        CHECK(copy.bytes > 1000);
        daily += copy.origin == CopyOrigin::daily;
        sealedOnes += copy.isSealed;
        kept += copy.origin == CopyOrigin::beforeRestore;
    }
    CHECK(daily == 2);
    CHECK(sealedOnes == 1);
    CHECK(kept == 1);
    CHECK(copies[3].day == "2026-05-02");
    CHECK(copies[4].day == "2026-05-01");
    CHECK(removeCopies({copies[3].file, copies[4].file, folder.ownFile("never there")}).empty());
    CHECK(copiesOf(book).size() == 1);
}

TEST_CASE("what is no copy of a book is not taken for one", "[sqlite][copies]")
{
    const Folder folder;
    const auto book = folder.ownFile("book.strikeoff"), copy = folder.ownFile("copy.strikeoff"), other = folder.ownFile("other.strikeoff"), letter = folder.ownFile("letter.txt");
    OpenOptions later;
    later.now = "2026-05-04T07:00:00Z";
    Store::create(book);
    Store::create(other, later);
    std::ofstream{letter} << "Dear Merle";
    const auto store = Store::open(book);
    addCustomer(*store, "Merle Ostrander");
    store->backup(copy);
    addCustomer(*store, "Ines Talbot");
    store->blotOut({RecordKind::customer, 1});
    CHECK(mayBeCopyOf(copy, *store));
    CHECK_FALSE(mayBeCopyOf(other, *store));
    CHECK_FALSE(mayBeCopyOf(letter, *store));
    CHECK_FALSE(mayBeCopyOf(folder.ownFile("never there"), *store));
}

TEST_CASE("a copy is looked into without being changed, also a sealed one and one of an older version", "[sqlite][copies]")
{
    const Folder folder;
    const auto book = folder.ownFile("book.strikeoff"), plain = folder.ownFile("plain.strikeoff"), sealed = folder.ownFile("sealed.strikeoff");
    Store::create(book);
    {
        const auto store = Store::open(book);
        addCustomer(*store, "Merle Ostrander");
        store->backup(plain);
        backupSealed(*store, sealed, phrase);
        addCustomer(*store, "Ines Talbot");
    }
    const auto bytes = [](const std::string& file) {
        QFile read{QString::fromStdString(file)};
        REQUIRE(read.open(QIODevice::ReadOnly));
        return read.readAll();
    };
    const auto before = bytes(plain), beforeSealed = bytes(sealed);
    {
        const auto opened = openCopy(plain, book);
        CHECK(opened.store->isReadOnly());
        CHECK(opened.store->book().count(RecordKind::customer) == 1);
        const auto unsealed = openCopy(sealed, book, [] { return phrase; });
        CHECK(unsealed.store->isReadOnly());
        CHECK(unsealed.store->book().all<Customer>()[0].name == "Merle Ostrander");
        CHECK_THROWS_WITH(openCopy(sealed, book, [] { return std::optional<std::string>{"other words altogether"}; }), Catch::Contains("pass phrase does not fit"));
        CHECK_THROWS_WITH(openCopy(sealed, book), Catch::Contains("sealed with a pass phrase"));
    }
    const auto old = std::string{STRIKEOFF_RELEASED_BOOKS} + "/version_1.strikeoff";
    const auto beforeOld = bytes(old);
    CHECK(openCopy(old, book).store->book().count(RecordKind::customer) > 0);
    CHECK(bytes(plain) == before);
    CHECK(bytes(sealed) == beforeSealed);
    CHECK(bytes(old) == beforeOld);
    CHECK(QDir{folder.dir.path()}.entryList({QStringLiteral(".strikeoff-*")}, QDir::AllEntries | QDir::Hidden).isEmpty());
    CHECK_THROWS_AS(openCopy(folder.ownFile("never there"), book), StorageError);
}

#include "app/commands.h"

#include "file.h"
#include "store.h"

#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QFile>

#include <catch2/catch.hpp>

#include <sys/stat.h>

using namespace strikeoff;
using test::run;

namespace {

struct Kitchen {
    QTemporaryDir folder;
    std::string path(const char* name) const { return folder.filePath(QString::fromUtf8(name)).toStdString(); }
    std::string book() const { return path("book.strikeoff"); }
    Kitchen()
    {
        REQUIRE(run({"new", book()}).status == 0);
        load("customer", "name,phone,note\nHonora Quill,555-0142,works nights\nInes Talbot,,sister of Honora Quill\n");
        load("crew_member", "name,phone\nLemuel Oxbow,555-0121\n");
        load("job", "number,title,customer,opened_on\n1001,Walk,Honora Quill,2026-05-04\n");
        load("hours", "person,date,job,phase,minutes,note\nLemuel Oxbow,2026-05-05,1001,place,480,Lemuel drove\n");
    }
    void load(const char* kind, std::string_view csv) const
    {
        std::string fault;
        REQUIRE(writePrivateFile(path("rows.csv"), csv, fault));
        const auto printed = run({"load", book(), kind, path("rows.csv")});
        INFO(kind << ": " << printed.err);
        REQUIRE(printed.status == 0);
    }
};

}

TEST_CASE("all that is held about a person is written to a file of the owner's own", "[command][person]")
{
    const Kitchen kitchen;
    CHECK(run({"person", kitchen.book()}).status == 2);
    CHECK(run({"person", kitchen.book(), "--customer", "Honora Quill", "--crew", "Lemuel Oxbow"}).status == 2);
    CHECK_THAT(run({"person", kitchen.book(), "--customer", "Nobody"}).err, Catch::Contains("there is no customer"));
    const auto shown = run({"person", kitchen.book(), "--customer", "Honora Quill"});
    CHECK(shown.status == 0);
    CHECK_THAT(shown.out, Catch::Contains("Phone: 555-0142") && Catch::Contains("works nights") && Catch::Contains("Job 1001") && Catch::Contains("sister of Honora Quill") && !Catch::Contains("Lemuel"));
    const auto file = kitchen.path("honora.txt");
    CHECK(run({"person", kitchen.book(), "--customer", "1", "--file", file}).status == 0);
    struct stat status {};
    REQUIRE(::stat(file.c_str(), &status) == 0);
    CHECK((status.st_mode & 0777) == 0600);
    CHECK(run({"person", kitchen.book(), "--customer", "1", "--file", file}).status == 1);  // never over a file
    CHECK_THAT(run({"person", kitchen.book(), "--crew", "Lemuel Oxbow"}).out, Catch::Contains("Minutes: 480") && !Catch::Contains("Honora"));
}

TEST_CASE("blotting out says first what it would do, and then does it for good", "[command][person]")
{
    const Kitchen kitchen;
    {
        OpenOptions options;
        options.keepDailyCopy = true;
        Store::open(kitchen.book(), options);
    }
    const auto asked = run({"blot", kitchen.book(), "--customer", "Honora Quill"});
    CHECK(asked.status == 3);
    CHECK_THAT(asked.out, Catch::Contains("one customer, one job") && Catch::Contains("It cannot be undone.") && Catch::Contains("book.copies/") && Catch::Contains("payroll") && Catch::Contains("--for-good"));
    CHECK_THAT(run({"dump", kitchen.book(), "customer"}).out, Catch::Contains("Honora Quill"));
    const auto done = run({"blot", kitchen.book(), "--customer", "Honora Quill", "--for-good", "--copies-too"});
    INFO(done.err);
    CHECK(done.status == 0);
    CHECK_THAT(done.out, Catch::Contains("Blotted out 1 was Honora Quill") && Catch::Contains("removed"));
    CHECK_THAT(run({"dump", kitchen.book(), "customer"}).out, !Catch::Contains("Honora") && Catch::Contains("Blotted out 1") && Catch::Contains("sister of (blotted out)"));
    CHECK_THAT(run({"dump", kitchen.book(), "hours"}).out, Catch::Contains("480") && Catch::Contains("Lemuel Oxbow"));
    QFile copy{kitchen.folder.filePath(QStringLiteral("book.copies"))};
    CHECK(QDir{copy.fileName()}.entryList(QDir::Files).isEmpty());
    const auto verified = run({"verify", kitchen.book()});
    CHECK(verified.status == 0);
    CHECK_THAT(verified.out, Catch::Contains("Blot out customer 1; the trail was made anew from entry") && Catch::Contains("The book is sound"));
}

TEST_CASE("what is held about a person is written as JSON too, for another program to read", "[command][person]")
{
    const Kitchen kitchen;
    kitchen.load("customer", "name,phone,note\nHonora Quill,555-0143,\"works \"\"nights\"\"\"\n");
    const auto shown = run({"person", kitchen.book(), "--customer", "Honora Quill", "--json"});
    REQUIRE(shown.status == 0);
    const auto document = QJsonDocument::fromJson(QByteArray::fromStdString(shown.out));
    REQUIRE(document.isObject());
    CHECK(document["person"].toString() == QStringLiteral("Honora Quill"));
    const auto records = document["records"].toArray();
    REQUIRE(records.size() == 2);
    CHECK(records[0]["kind"].toString() == QStringLiteral("customer"));
    CHECK(records[0]["fields"]["phone"].toString() == QStringLiteral("555-0143"));
    CHECK(records[0]["fields"]["note"].toString() == QStringLiteral("works \"nights\""));
    CHECK(records[1]["key"].toString() == QStringLiteral("1001"));
    CHECK(records[1]["fields"]["opened_on"].toString() == QStringLiteral("2026-05-04"));
    CHECK(document["named_elsewhere"][0]["text"].toString() == QStringLiteral("sister of Honora Quill"));
    const auto changes = document["changes"].toArray();
    REQUIRE(changes.size() == 2);
    CHECK(changes[0]["field"].toString() == QStringLiteral("phone"));
    CHECK(changes[0]["before"].toString() == QStringLiteral("555-0142"));
    CHECK_FALSE(shown.out.find("Lemuel") != std::string::npos);
}

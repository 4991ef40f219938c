#include "app/commands.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include <catch2/catch.hpp>

#include <fstream>

using namespace strikeoff;
using test::run;

namespace {

/// The book of a small outfit as files are loaded: two sites, a strip and a walk-through.
struct Files {
    QTemporaryDir dir;
    std::string book = path("visits.strikeoff");

    Files()
    {
        REQUIRE(run({"new", book}).status == 0);
        load("customer", "name,town\nNora Bell,Orchard\nIvo Lark,Orchard\n");
        load("site", "name,customer,town,latitude,longitude\nAlder Court,Nora Bell,Orchard,43.10,-40.10\nMill Lane,Ivo Lark,Orchard,43.12,-40.12\n");
        load("job", "number,title,customer,site,opened_on\n1001,Drive,Nora Bell,Alder Court,2026-06-01\n1002,Walk,Ivo Lark,Mill Lane,2026-06-01\n");
        load("visit", "job,kind,not_before,due,too_late,minutes\n1001,strip,2026-06-15,2026-06-16,2026-06-20,60\n1002,walk_through,2026-06-12,2026-06-19,2026-06-30,30\n");
    }
    std::string path(const char* name) const { return dir.filePath(QString::fromLatin1(name)).toStdString(); }
    void load(const std::string& kind, const std::string& rows) const
    {
        const auto file = path((kind + ".csv").c_str());
        std::ofstream{file} << rows;
        const auto loaded = run({"load", book, kind, file});
        INFO(loaded.err);
        REQUIRE(loaded.status == 0);
    }
};

}

TEST_CASE("visits prints the plan a helper can go by, and the same as JSON", "[command][visits]")
{
    Files files;
    const auto text = run({"visits", files.book, "--from", "2026-06-12"});
    INFO(text.err);
    REQUIRE(text.status == 0);
    CHECK_THAT(text.out, Catch::StartsWith("Two visits in one run over the next 14 days") && Catch::Contains("Alder Court") && Catch::Contains("no plan does better"));

    const auto json = run({"visits", files.book, "--from", "2026-06-12", "--days", "7", "--json"});
    REQUIRE(json.status == 0);
    const auto plan = QJsonDocument::fromJson(QByteArray::fromStdString(json.out)).object();
    for (const auto* key : {"visits", "days", "late_days", "drive_minutes", "proven_optimal", "bound"}) CHECK(plan.contains(QLatin1String{key}));
    CHECK(plan["days"].toArray().size() == 7);
    CHECK(plan["proven_optimal"].toBool());
    const auto visits = plan["visits"].toArray();
    REQUIRE(visits.size() == 2);
    for (const auto& value : visits) {
        const auto visit = value.toObject();
        for (const auto* key : {"job", "pour", "kind", "not_before", "due", "too_late", "state", "minutes", "load_out", "planned_on", "planned_at", "stop", "blocked", "why"})
            CHECK(visit.contains(QLatin1String{key}));
        CHECK(visit["planned_on"].toString() == "2026-06-15");  // the first day on which both can be
    }
    const auto monday = plan["days"].toArray()[3].toObject();
    CHECK(monday["date"].toString() == "2026-06-15");
    CHECK(monday["stops"].toArray().size() == 2);
    CHECK(monday["site_minutes"].toInt() == 90);
    CHECK(monday["drive_minutes"].toInt() == plan["drive_minutes"].toInt());
}

TEST_CASE("visits refuses a day or a count that is none, with the remedy", "[command][visits]")
{
    Files files;
    CHECK(run({"visits", files.book, "--from", "2026-06-31"}).status == 2);
    CHECK_THAT(run({"visits", files.book, "--days", "0"}).err, Catch::Contains("1 to 60"));
    CHECK_THAT(run({"visits", files.book, "--days", "many"}).err, Catch::Contains("--days 14"));
}

TEST_CASE("visits writes its plan as a calendar, and says what is short and what is not on the list", "[command][visits]")
{
    Files files;
    const auto calendar = files.path("visits.ics");
    const auto text = run({"visits", files.book, "--from", "2026-06-12", "--ics", calendar});
    REQUIRE(text.status == 0);
    CHECK_THAT(text.out, Catch::EndsWith("Written: " + calendar + "\n"));
    std::ifstream file{calendar};
    const std::string written{std::istreambuf_iterator<char>{file}, {}};
    CHECK_THAT(written, Catch::StartsWith("BEGIN:VCALENDAR\r\n") && Catch::Contains("SUMMARY:Strip Drive\r\n") && Catch::Contains("DTSTART:20260615T"));
    CHECK(run({"visits", files.book, "--ics", files.path("no such folder/visits.ics")}).status == 1);
    CHECK(run({"visits", files.book, "--ics="}).status == 2);

    files.load("pour", "job,sequence,poured_on,area_sqft\n1001,1,2026-06-11,400\n");
    files.load("finishing_product", "name,kind,coverage_broom,on_hand_gallons,counted_on,can_gallons\nGuard,penetrating,200,1,2026-06-01,5\n");
    files.load("forecast", "date,low_f,high_f,rain_chance_pct\n2026-06-12,60,80,0\n2026-06-13,60,80,0\n2026-06-14,60,80,0\n2026-06-15,60,80,0\n2026-06-16,60,80,0\n");
    files.load("visit", "job,pour,kind,not_before,due,product\n1001,1,seal,2026-06-12,2026-06-20,Guard\n");
    const auto more = run({"visits", files.book, "--from", "2026-06-12"});
    CHECK_THAT(more.out, Catch::Contains("Guard runs short on") && Catch::Contains("buy one can of 5 gal"));
    const auto plan = QJsonDocument::fromJson(QByteArray::fromStdString(run({"visits", files.book, "--from", "2026-06-12", "--json"}).out)).object();
    REQUIRE(plan["shortages"].toArray().size() == 1);
    CHECK(plan["shortages"].toArray()[0].toObject()["to_buy_gallons"].toString() == "5");
    files.load("pour", "job,sequence,poured_on,area_sqft,saw_joint_ft\n1002,1,2026-06-11,400,60\n");
    CHECK_THAT(run({"visits", files.book, "--from", "2026-06-12"}).out, Catch::Contains("not on the list yet: walk-through, strip and cut."));
}

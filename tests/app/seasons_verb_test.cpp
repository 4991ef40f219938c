#include "app/commands.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include <catch2/catch.hpp>

using strikeoff::test::run;

namespace {

QStringList keysOf(const QJsonValue& value) { return value.toObject().keys(); }  // in the order of letters

}

TEST_CASE("seasons prints months, seasons, trend and what to carry, and the same as JSON", "[command][seasons]")
{
    const QTemporaryDir folder;
    const auto book = folder.filePath(QStringLiteral("demo.strikeoff")).toStdString();
    REQUIRE(run({"demo", book}).status == 0);

    const auto printed = run({"seasons", book, "--date", "2026-11-25"});
    REQUIRE(printed.status == 0);
    for (const auto* part : {"a yard (", "Price of a yard", "What a season does to the price", "Carry next", "December 2026", "Pace", "What a season does to the pace"}) {
        INFO(part);
        CHECK(printed.out.find(part) != std::string::npos);
    }

    const auto json = QJsonDocument::fromJson(QByteArray::fromStdString(run({"seasons", book, "--date", "2026-11-25", "--json"}).out)).object();
    CHECK(json.keys() == QStringList{"carry", "pace", "pace_season", "price", "price_season", "price_trend_pct_per_year"});
    CHECK(keysOf(json["price"].toArray()[0]) == QStringList{"base", "delivered", "fixed_mix_index", "month", "tickets", "yards"});
    CHECK(keysOf(json["price_trend_pct_per_year"]) == QStringList{"estimate", "high", "low"});
    CHECK(keysOf(json["price_season"].toArray()[0]) == QStringList{"effect_pct", "high", "low", "season"});
    CHECK(keysOf(json["pace"].toArray()[0]) == QStringList{"area_sqft", "crew_minutes", "high", "jobs", "low", "month", "sqft_per_crew_hour"});
    CHECK(keysOf(json["pace_season"].toArray()[0]) == QStringList{"effect_pct", "high", "low", "season"});
    CHECK(keysOf(json["carry"].toArray()[0]) == QStringList{"delivered", "high", "low", "month"});

    const auto carry = json["carry"].toArray();
    REQUIRE(carry.size() == 9);
    CHECK(carry[0]["month"].toString() == QStringLiteral("2026-12"));
    CHECK(carry[8]["month"].toString() == QStringLiteral("2027-08"));
    for (const auto& month : carry) {
        const auto figure = [&](const char* name) { return month.toObject()[QLatin1String{name}].toString().toDouble(); };
        CHECK(figure("low") < figure("delivered"));
        CHECK(figure("delivered") < figure("high"));
        CHECK(figure("low") > 100);
        CHECK(figure("high") < 300);
    }
    CHECK(json["price_season"].toArray().size() == 4);
    CHECK(json["price_season"].toArray()[0].toObject()["season"].toString() == QStringLiteral("winter"));

    // Seen from a year before, what came later is not known.
    const auto before = QJsonDocument::fromJson(QByteArray::fromStdString(run({"seasons", book, "--date", "2025-11-25", "--json"}).out)).object();
    CHECK(before["price"].toArray().size() < json["price"].toArray().size());
    CHECK(before["carry"].toArray()[0].toObject()["month"].toString() == QStringLiteral("2025-12"));
}

TEST_CASE("seasons of an empty book says what it waits for", "[command][seasons]")
{
    const QTemporaryDir folder;
    const auto book = folder.filePath(QStringLiteral("new.strikeoff")).toStdString();
    REQUIRE(run({"new", book}).status == 0);
    const auto printed = run({"seasons", book});
    CHECK(printed.status == 0);
    CHECK(printed.out.find("No priced ticket and no pour with its hours yet") == 0);
    const auto json = QJsonDocument::fromJson(QByteArray::fromStdString(run({"seasons", book, "--json"}).out)).object();
    CHECK(json["price_trend_pct_per_year"].isNull());
    CHECK(json["price"].toArray().isEmpty());
}

#include "app/commands.h"
#include "verbs/demonstration_book.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include <catch2/catch.hpp>

using namespace strikeoff;
using test::run;

namespace {

QJsonObject jsonOf(const std::string& text)
{
    QJsonParseError error;
    const auto document = QJsonDocument::fromJson(QByteArray::fromStdString(text), &error);
    INFO(text.substr(0, 400));
    REQUIRE(error.error == QJsonParseError::NoError);
    return document.object();
}

double dollarsOf(const QJsonValue& value)
{
    REQUIRE(value.isString());
    return Money::parse(value.toString().toStdString()).value().toDouble();
}

/// The demonstration book, written once.
const std::string& demonstration()
{
    static QTemporaryDir dir;
    static const std::string path = [] {
        auto file = dir.filePath(QStringLiteral("demo.strikeoff")).toStdString();
        writeDemonstrationBook(file);
        return file;
    }();
    return path;
}

}

TEST_CASE("pays ranks the job types with raw value, estimate and interval side by side", "[command][pays]")
{
    const auto printed = run({"pays", demonstration(), "--json"});
    CHECK(printed.status == 0);
    const auto json = jsonOf(printed.out);
    const auto types = json[QLatin1String{"types"}].toArray();
    REQUIRE(types.size() >= 6);
    double last = 1e9;
    for (const auto& each : types) {
        const auto type = each.toObject();
        INFO(type[QLatin1String{"type"}].toString().toStdString());
        const auto figure = type[QLatin1String{"per_crew_hour"}].toObject();
        const double estimate = dollarsOf(figure[QLatin1String{"estimate"}]);
        CHECK(dollarsOf(figure[QLatin1String{"low"}]) < estimate);
        CHECK(estimate < dollarsOf(figure[QLatin1String{"high"}]));
        CHECK(estimate <= last);
        last = estimate;
        // The raw value is what its own sums say.
        const double hours = type[QLatin1String{"crew_minutes"}].toDouble() / 60;
        CHECK(dollarsOf(figure[QLatin1String{"raw"}]) == Approx(dollarsOf(type[QLatin1String{"gross_profit"}]) / hours).margin(0.006));
        const double chance = type[QLatin1String{"chance_of_loss"}].toDouble(-1);
        CHECK(chance >= 0);
        CHECK(chance <= 1);
        CHECK(type[QLatin1String{"driver"}].isString());
    }
    for (const auto& each : json[QLatin1String{"left_out"}].toArray()) {
        CHECK_FALSE(each.toObject()[QLatin1String{"job"}].toString().isEmpty());
        CHECK_FALSE(each.toObject()[QLatin1String{"why"}].toString().isEmpty());
    }
}

TEST_CASE("pays groups the same jobs otherwise, and its year bridge adds up", "[command][pays]")
{
    int jobs = 0, others = 0;
    for (const auto& each : jsonOf(run({"pays", demonstration(), "--json"}).out)[QLatin1String{"types"}].toArray()) jobs += each.toObject()[QLatin1String{"jobs"}].toInt();
    const auto bySeason = jsonOf(run({"pays", demonstration(), "--by", "season", "--json"}).out);
    for (const auto& each : bySeason[QLatin1String{"types"}].toArray()) others += each.toObject()[QLatin1String{"jobs"}].toInt();
    CHECK(jobs == others);
    CHECK(jobs > 150);
    const auto years = bySeason[QLatin1String{"years"}].toObject();
    const auto cents = [](const QJsonValue& value) { return Money::parse(value.toString().toStdString()).value().cents(); };
    auto sum = cents(years[QLatin1String{"before"}].toObject()[QLatin1String{"profit"}]);
    for (const auto& step : years[QLatin1String{"steps"}].toArray()) sum += cents(step.toObject()[QLatin1String{"amount"}]);
    CHECK(sum == cents(years[QLatin1String{"after"}].toObject()[QLatin1String{"profit"}]));
    const auto text = run({"pays", demonstration()}).out;
    CHECK_THAT(text, Catch::Contains(" pays best, $") && Catch::Contains("Per crew-h $") && Catch::Contains("Job left out") && Catch::Contains("What moved the profit"));
}

TEST_CASE("pays refuses what it cannot group by, and says what it can", "[command][pays]")
{
    const auto wrong = run({"pays", demonstration(), "--by", "moon"});
    CHECK(wrong.status == 2);
    CHECK_THAT(wrong.err, Catch::Contains("job_type, lead_source, size, season, supplier, crew_size, town"));
    CHECK(run({"pays", demonstration(), "--from", "2026-02-30"}).status == 2);
    CHECK(run({"pays", demonstration(), "--from", "2026-05-01", "--to", "2026-04-01"}).status == 2);
}

TEST_CASE("charge answers from the book's history and says when there is not enough", "[command][charge]")
{
    const auto json = jsonOf(run({"charge", demonstration(), "--type", "patio", "--area", "450", "--thickness", "4", "--month", "4", "--per-hour", "60", "--json"}).out);
    CHECK(json[QLatin1String{"jobs_of_type"}].toInt() >= 8);
    const auto cost = json[QLatin1String{"cost"}].toObject();
    const double estimate = dollarsOf(cost[QLatin1String{"estimate"}]);
    CHECK(dollarsOf(cost[QLatin1String{"low"}]) < estimate);
    CHECK(estimate < dollarsOf(cost[QLatin1String{"high"}]));
    const double hours = json[QLatin1String{"crew_hours"}].toObject()[QLatin1String{"estimate"}].toDouble();
    CHECK(dollarsOf(json[QLatin1String{"price_for_profit"}]) == Approx(estimate + 60 * hours).margin(2));
    double parts = 0;
    for (const auto& part : json[QLatin1String{"parts"}].toArray()) parts += dollarsOf(part.toObject()[QLatin1String{"amount"}]);
    CHECK(parts == Approx(estimate).margin(0.02));
    const auto cheap = jsonOf(run({"charge", demonstration(), "--type", "Patio", "--area", "450", "--thickness", "4", "--month", "2027-04", "--price", "2000", "--json"}).out);
    CHECK(cheap[QLatin1String{"chance_of_loss"}].toDouble() > 0.9);

    CHECK_THAT(run({"charge", demonstration(), "--type", "Patio", "--area", "450", "--thickness", "4", "--month", "4"}).out, Catch::StartsWith("Charge $") && Catch::Contains("Concrete"));
    CHECK_THAT(run({"charge", demonstration(), "--type", "Moat", "--area", "450", "--thickness", "4", "--month", "4"}).err, Catch::Contains("the types are Patio"));
    CHECK(run({"charge", demonstration(), "--type", "Patio", "--area", "none", "--thickness", "4", "--month", "4"}).status == 2);
    CHECK(run({"charge", demonstration(), "--type", "Patio", "--area", "450", "--thickness", "4", "--month", "13"}).status == 2);
    CHECK_THAT(run({"charge", demonstration(), "--type", "Patio"}).err, Catch::Contains("--area is missing"));

    QTemporaryDir dir;
    const auto empty = dir.filePath(QStringLiteral("new.strikeoff")).toStdString();
    REQUIRE(run({"new", empty}).status == 0);
    CHECK_THAT(run({"pays", empty}).out, Catch::StartsWith("No finished job has hours, a bid and a bill yet."));
}

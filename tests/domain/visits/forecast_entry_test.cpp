#include "domain/take_step.h"

#include "visits/forecast_entry.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

const Date today = on("2026-11-25");

std::vector<ForecastReading> read(const std::vector<TypedRow>& rows)
{
    std::vector<ForecastReading> readings;
    for (const auto& row : rows) readings.push_back(readForecast(row, today));
    return readings;
}

void save(Book& book, const std::vector<TypedRow>& rows)
{
    Step step;
    step.edit = forecastEdit(book, read(rows));
    take(book, step);
}

}

TEST_CASE("two weeks of weather are typed, kept and typed over", "[visits][forecast]")
{
    Book book;
    auto rows = forecastRows(book, today);
    REQUIRE(rows.size() == 14);
    CHECK(forecastAnswer(read(rows), today) == "None of 14 days has a forecast; the weather of today and others is unknown.");
    rows[0]["low_f"] = "28";
    rows[0]["high_f"] = "41";
    rows[0]["rain_chance_pct"] = "60";
    rows[0]["rain_from"] = "2p";
    rows[0]["rain_to"] = "1730";
    rows[3]["low_f"] = "-4";
    save(book, rows);
    REQUIRE(book.all<DayForecast>().size() == 2);
    const auto* first = forecastOn(book, today);
    REQUIRE(first);
    CHECK(first->lowF == 28);
    CHECK(first->rainFrom == at("14:00"));
    CHECK(first->rainTo == at("17:30"));
    CHECK_FALSE(first->windMph);  // not typed is not recorded
    CHECK(forecastOn(book, today + 3)->lowF == -4);
    CHECK_FALSE(forecastOn(book, today + 1));

    rows = forecastRows(book, today);
    CHECK(rows[0]["rain_from"] == "14:00");
    CHECK(forecastEdit(book, read(rows)).empty());  // nothing typed, nothing written
    rows[0]["wind_mph"] = "12";
    rows[3].erase("low_f");
    save(book, rows);
    CHECK(book.all<DayForecast>().size() == 1);  // a cleared day is unknown again
    CHECK(forecastOn(book, today)->windMph == 12);
    CHECK(forecastAnswer(read(rows), today) == "One of 14 days has a forecast; the weather of tomorrow and others is unknown.");
}

TEST_CASE("a day that cannot be right says so in words", "[visits][forecast]")
{
    const auto says = [](TypedRow row) {
        row["date"] = "2026-11-25";
        return readForecast(row, today).says();
    };
    CHECK(says({{"low_f", "28"}, {"high_f", "41"}}).empty());
    CHECK(says({{"low_f", "41"}, {"high_f", "28"}}) == "High: the high is below the low; correct one of them.");
    CHECK_FALSE(says({{"low_f", "cold"}}).empty());
    CHECK_FALSE(says({{"rain_chance_pct", "140"}}).empty());
    CHECK_FALSE(says({{"rain_from", "25:00"}}).empty());
    CHECK_FALSE(readForecast({}, today).faults.empty());  // no day
    CHECK(readForecast({{"date", "2026-11-25"}}, today).blank);
}

TEST_CASE("rows copied from elsewhere land on their days", "[visits][forecast]")
{
    Book book;
    auto rows = forecastRows(book, today);
    auto pasted = pasteForecast(rows, "date,low_f,high_f,rain_chance_pct,rain_from,rain_to,wind_mph,humidity_pct\n2026-11-27,30,45,20,,,8,70\n2026-11-28,31,46,80,9:00,15:00,9,85\n", 0, "low_f", today);
    CHECK(pasted.taken == 2);
    CHECK(pasted.remark.empty());
    CHECK(rows[2]["high_f"] == "45");
    CHECK(rows[3]["rain_from"] == "9:00");
    CHECK(rows[3]["humidity_pct"] == "85");
    CHECK(rows[0].size() == 1);

    // Cells alone go down from where the paste was made, units and all.
    pasted = pasteForecast(rows, "28\u00b0\t41\u00b0F\t60%\r\n29\t42\t10 %\r\n", 5, "low_f", today);
    CHECK(pasted.taken == 2);
    CHECK(rows[5]["low_f"] == "28");
    CHECK(rows[5]["high_f"] == "41");
    CHECK(rows[5]["rain_chance_pct"] == "60");
    CHECK(rows[6]["rain_chance_pct"] == "10");
    pasted = pasteForecast(rows, "12 70", 0, "wind_mph", today);
    CHECK(rows[0]["wind_mph"] == "12");
    CHECK(rows[0]["humidity_pct"] == "70");
    pasted = pasteForecast(rows, "2026-12-01\t33\t51\n", 0, "low_f", today);
    CHECK(rows[6]["high_f"] == "51");

    pasted = pasteForecast(rows, "date\tlow_f\thigh_f\n", 0, "low_f", today);
    CHECK(pasted.taken == 0);
    CHECK(pasted.remark == "Only headings were copied; copy the days below them too.");
    pasted = pasteForecast(rows, "date,low_f\n2026-11-20,3\n2026-13-41,4\n2026-11-26,5\n", 0, "low_f", today);
    CHECK(pasted.taken == 1);
    CHECK(rows[1]["low_f"] == "5");
    CHECK(pasted.remark == "One line is outside the days shown and left out; one line has a date that cannot be read (write 2026-11-25).");
    CHECK(pasteForecast(rows, "\n\n", 0, "low_f", today).taken == 0);
    CHECK(pasteForecast(rows, "1\n2\n3", 13, "low_f", today).remark == "Two lines are outside the days shown and left out.");
}

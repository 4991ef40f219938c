#include "domain/season/season_books.h"

#include "season/seasons.h"

#include <numeric>

using namespace strikeoff;

namespace {

constexpr int seeds = 500;

SeasonScope scopeOf(const SeasonBook& made) { return {.today = made.lastDay(), .from = {}, .to = {}, .jobType = {}}; }

double percentOf(double logarithm) { return 100 * std::expm1(logarithm); }

}

TEST_CASE("Trend, seasons and months ahead of books with known prices hold the truth four times in five", "[season][coverage]")
{
    Coverage trend, seasons, carry;
    int shown = 0, odd = 0;
    for (unsigned seed = 1; seed <= seeds; ++seed) {
        SeasonBook made{seed};
        made.makeLevels();
        made.makeTickets();
        const auto prices = priceSeasons(made.book, scopeOf(made));
        INFO("seed " << seed << ": " << prices.missing);
        REQUIRE(prices.trendPercent);
        trend.ask(*prices.trendPercent, percentOf(made.trend));
        REQUIRE(prices.seasons.size() == seasonCount);
        for (const auto& effect : prices.seasons) seasons.ask(effect.percent, percentOf(made.seasons[static_cast<std::size_t>(effect.season)]));
        REQUIRE(prices.carry.size() == 9);
        for (int i = 0; i < SeasonBook::ahead; ++i) carry.ask(prices.carry[static_cast<std::size_t>(i)].delivered, made.deliveredAt(made.months + i));
        shown += prices.seasonsShow ? 1 : 0;
        odd += prices.odd;
    }
    WARN("price of a yard in " << seeds << " books, 80 % intervals hold: trend " << trend.percent() << " %, seasons " << seasons.percent() << " %, carry next " << carry.percent()
                               << " %; a season shows in " << 100.0 * shown / seeds << " %, " << static_cast<double>(odd) / seeds << " odd tickets a book");
    for (const auto& each : {trend, seasons, carry}) {
        CHECK(each.percent() >= 75);
        CHECK(each.percent() <= 85);
    }
    CHECK(shown > 0.9 * seeds);
    CHECK(odd > 2 * seeds);  // one load in fifty was billed at three times its price
}

TEST_CASE("Seasons and hours to carry of books with known paces hold the truth four times in five", "[season][coverage]")
{
    Coverage seasons, hours;
    int shown = 0, asked = 0;
    for (unsigned seed = 1; seed <= seeds; ++seed) {
        SeasonBook made{7'000 + seed};
        made.seasons = {-0.2, 0.02, 0.1, 0.08};
        made.trend = 0.02;
        made.monthSd = 0.05;
        made.makeLevels();
        made.makePours();
        const auto pace = paceSeasons(made.book, scopeOf(made));
        INFO("seed " << seed << ": " << pace.missing);
        REQUIRE(pace.seasons.size() == seasonCount);
        for (const auto& effect : pace.seasons) seasons.ask(effect.percent, percentOf(made.seasons[static_cast<std::size_t>(effect.season)]));
        shown += pace.seasonsShow ? 1 : 0;
        for (int i = 0; i < SeasonBook::ahead; ++i) {
            const std::size_t type = static_cast<std::size_t>(i) % 3;
            const double area = 300 + 60 * i;
            const auto carry = hoursToCarry(made.book, pace, Id<JobType>{static_cast<std::int64_t>(type) + 1}, area, monthOfNumber(SeasonBook::firstMonth + made.months + i));
            ++asked;
            if (carry) hours.ask(carry->hours, area / (made.paceOf(type, area, made.months + i) * std::exp(SeasonBook::paceSpread * made.noise())));
        }
    }
    WARN("pace in " << seeds << " books, 80 % intervals hold: seasons " << seasons.percent() << " %, hours of the next job " << hours.percent() << " %; a season shows in " << 100.0 * shown / seeds << " %");
    CHECK(hours.asked > 0.95 * asked);
    for (const auto& each : {seasons, hours}) {
        CHECK(each.percent() >= 75);
        CHECK(each.percent() <= 85);
    }
}

TEST_CASE("In books without a season none shows more than one time in five", "[season][coverage]")
{
    int prices = 0, paces = 0;
    for (unsigned seed = 1; seed <= seeds; ++seed) {
        SeasonBook made{20'000 + seed};
        made.seasons = {};
        made.monthSd = 0.02;
        made.makeLevels();
        made.makeTickets();
        made.makePours();
        const auto seasons = seasonsOf(made.book, scopeOf(made));
        prices += seasons.price.seasonsShow ? 1 : 0;
        paces += seasons.pace.seasonsShow ? 1 : 0;
    }
    WARN("books without a season: one shows in price in " << 100.0 * prices / seeds << " %, in pace in " << 100.0 * paces / seeds << " % of " << seeds);
    CHECK(prices <= 0.2 * seeds);
    CHECK(paces <= 0.2 * seeds);
    CHECK(prices > 0);
}

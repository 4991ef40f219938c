#include "review/charge.h"

#include "domain/review/made_jobs.h"
#include "review/price_to_win.h"

#include <iomanip>
#include <iostream>
#include <random>

using namespace strikeoff;

namespace {

/// A shop whose costs are known: hours, other cost and yards go by area with lognormal noise; concrete costs $170 a yard in every month.
struct Shop {
    std::mt19937_64 engine;
    std::normal_distribution<double> normal;
    MadeJobs made{{"Patio", "Walk"}};
    ChargePrices prices;

    explicit Shop(unsigned seed) : engine{seed}
    {
        for (int month = 1; month <= 12; ++month) prices.past.push_back({*Date::of(2026, month, 1), 170, 10});
    }
    struct Cost {
        double hours, concrete, other;
        double total() const { return hours * 40 + concrete + other; }
    };
    Cost cost(std::size_t type, double area, double thickness, int month)
    {
        const double season = month == 12 || month <= 2 ? 1.25 : 1;
        return {0.12 * std::pow(area, 0.9) * (type == 1 ? 1.2 : 1) * season * std::exp(0.2 * normal(engine)), area * thickness / 324 * 170 * 1.05 * std::exp(0.05 * normal(engine)),
                1.1 * area * std::exp(0.3 * normal(engine))};
    }
    void job(std::size_t type)
    {
        const double area = 250 * std::exp(0.6 * normal(engine));
        const int month = 1 + static_cast<int>(engine() % 12);
        const auto spent = cost(type, area, 4, month);
        const auto money = [](double dollars) { return Money::ofCents(std::llround(dollars * 100)); };
        auto& made_ = made.add(type, "2026-06-01", area, money(spent.total() * 1.4), money(spent.concrete), money(spent.hours * 40), static_cast<int>(std::lround(spent.hours * 60)));
        made_.day = *Date::of(2026, month, 15);
        made_.volumeYards = area * 4 / 324;
        made_.yards = made_.volumeYards * 1.05;
        made_.byClass[static_cast<std::size_t>(CostClass::base)] = money(spent.other);
        made_.cost += money(spent.other);
    }
    void quote(double area, double price, bool won, std::size_t type = 0)
    {
        AnsweredQuote quote;
        quote.keys[0] = static_cast<std::uint16_t>(type);
        quote.day = on("2026-05-01");
        quote.areaSqft = area;
        quote.price = Money::ofCents(std::llround(price * 100));
        quote.won = won;
        made.jobs.quotes.push_back(quote);
    }
    Charge charge(double area, int month, std::optional<Money> price = {}, std::optional<Money> perHour = {})
    {
        return chargeFor(made.jobs, {Id<JobType>{1}, area, 4, month, perHour, price}, prices, false, on("2026-12-31"));
    }
};

}

TEST_CASE("concrete goes by what the seasons expect of the month asked, else by the last twelve months", "[review]")
{
    Shop shop{7};
    for (int i = 0; i < 40; ++i) shop.job(0);
    const auto concrete = [&](int month) { return shop.charge(300, month).parts.at(0).amount; };
    const auto before = concrete(4);
    shop.prices.ahead.push_back({*Date::of(2027, 4, 1), 187, 0});
    // A yard is expected to cost a tenth more in April, 187 against 170; nothing is known of May.
    CHECK(concrete(4) == Approx(before * 1.1));
    CHECK(concrete(5) == Approx(before));
}

TEST_CASE("the cost of a job to be priced holds what the next one costs eight times in ten", "[review][simulation]")
{
    int held = 0, hours = 0, all = 0, lost = 0;
    double said = 0, bias = 0;
    for (unsigned seed = 1; seed <= 500; ++seed) {
        Shop shop{seed};
        for (int i = 0; i < 40; ++i) shop.job(i % 4 == 0 ? 1 : 0);
        const double area = 150 + seed;
        const int month = 1 + static_cast<int>(seed % 12);
        const auto asked = shop.charge(area, month);
        REQUIRE(asked.missing.empty());
        const auto price = Money::ofCents(std::llround(asked.cost.value * 110));
        const auto charge = shop.charge(area, month, price);
        const auto next = shop.cost(0, area, 4, month);
        held += charge.cost.low <= next.total() && next.total() <= charge.cost.high;
        hours += charge.hours.low <= next.hours && next.hours <= charge.hours.high;
        said += charge.chanceOfLoss;
        lost += next.total() > price.toDouble();
        bias += charge.cost.value / next.total() - 1;
        ++all;
    }
    std::cout << "What to charge, 500 seeds: cost held " << std::fixed << std::setprecision(1) << 100.0 * held / all << " %, hours held " << 100.0 * hours / all << " %; lost at 10 % over cost "
              << 100.0 * lost / all << " % of the time, said " << 100 * said / all << " %; cost off by " << 100 * bias / all << " % on average\n";
    CHECK(held >= 0.75 * all);
    CHECK(held <= 0.85 * all);
    CHECK(hours >= 0.75 * all);
    CHECK(hours <= 0.85 * all);
    CHECK(std::abs(said - lost) / all < 0.05);
    CHECK(std::abs(bias) / all < 0.05);
}

TEST_CASE("the price brings the profit chosen, and its parts are the cost", "[review]")
{
    Shop shop{7};
    for (int i = 0; i < 40; ++i) shop.job(0);
    const auto charge = shop.charge(400, 6, {}, Money::ofWhole(55));
    CHECK(charge.priceForProfit == std::ceil(charge.cost.value + 55 * charge.hours.value));
    double parts = 0;
    for (const auto& part : charge.parts) parts += part.amount;
    CHECK(parts == Approx(charge.cost.value));
    CHECK(charge.parts[0].amount == Approx(400 * 4 / 324.0 * 170 * 1.05).epsilon(0.03));
    CHECK(shop.charge(400, 1).hours.value > 1.1 * charge.hours.value);  // winter hours are longer by a quarter
    const auto typed = shop.charge(400, 6, Money::ofWhole(10));
    CHECK(typed.chanceOfLoss > 0.99);
    CHECK(typed.answer.find("loses money with a chance of more than ninety-nine in a hundred") != std::string::npos);
    CHECK(charge.answer.starts_with("Charge $"));
    CHECK(charge.answer.find("for $55 per crew-hour: Patio of 400 ft\u00b2 costs $") != std::string::npos);
}

TEST_CASE("too little history is said, with what is there and what is needed", "[review]")
{
    Shop shop{1};
    for (int i = 0; i < 7; ++i) shop.job(0);
    for (int i = 0; i < 20; ++i) shop.job(1);
    const auto few = shop.charge(400, 6);
    CHECK(few.answer == "Not enough history: seven finished jobs of the type with area, hours, tickets and takeoff, and eight are needed.");
    shop.job(0);
    const auto enough = shop.charge(400, 6);
    CHECK(enough.missing.empty());
    CHECK_FALSE(enough.chanceOfWinning);
    CHECK(enough.winning == "Not enough history for a chance of winning: no quotes won and none lost, and ten of each are needed.");
}

TEST_CASE("a dearer price is won less often where quotes show it", "[review]")
{
    Shop shop{3};
    std::uniform_real_distribution<double> even;
    for (int i = 0; i < 300; ++i) {
        const double area = 250 * std::exp(0.6 * shop.normal(shop.engine));
        const double above = 0.15 * shop.normal(shop.engine);
        shop.quote(area, 12 * area * std::exp(above), even(shop.engine) < 1 / (1 + std::exp(-(0.4 - 6 * above))));
    }
    const auto usual = chanceToWin(shop.made.jobs, 0, 400, 4800);
    const auto dear = chanceToWin(shop.made.jobs, 0, 400, 4800 * std::exp(0.2));
    REQUIRE(usual.chance);
    REQUIRE(dear.chance);
    CHECK(usual.chance->value == Approx(1 / (1 + std::exp(-0.4))).margin(0.06));       // 0.599
    CHECK(dear.chance->value == Approx(1 / (1 + std::exp(0.8))).margin(0.08));         // 0.310
    CHECK(usual.won + usual.lost == 300);
    CHECK(dear.words.find("% above what is usual") != std::string::npos);
}

TEST_CASE("where dearer quotes were not lost more often, that is said", "[review]")
{
    Shop shop{4};
    for (int i = 0; i < 60; ++i) shop.quote(300 + 50 * (i % 5), (300 + 50 * (i % 5)) * (10 + i * 0.05), i % 3 != 0 || i > 40);
    const auto win = chanceToWin(shop.made.jobs, 0, 400, 9000);
    REQUIRE(win.chance);
    CHECK(win.chance->value == Approx(static_cast<double>(win.won) / 60));
    CHECK(win.words.find("not lost more often") != std::string::npos);
}

#include "domain/book_maker.h"
#include "visits/setting.h"


#include <cmath>

using namespace strikeoff;

namespace {

/// A shop whose pours under steady weather are broomed so many hours after placing.
struct Shop {
    BookMaker maker;
    Id<Job> job = maker.job("Drive");
    int pours = 0;

    Date addPour(double hours, int airF = 60)
    {
        const auto date = on("2026-04-01") + pours;
        maker.add(Pour{.job = job,
                       .sequence = ++pours,
                       .pouredOn = date,
                       .placedAt = at("08:00"),
                       .broomedAt = *ClockTime::ofMinutes(480 + std::llround(hours * 60)),
                       .area = Area::ofWhole(400),
                       .airTempF = airF,
                       .concreteTempF = 65});
        return date;
    }
    Pour planned(std::string_view options = "")
    {
        return Pour{.job = job,
                    .sequence = 900,
                    .plannedOn = on("2026-06-01"),
                    .plannedAt = at("08:00"),
                    .optionsOrdered = std::string{options},
                    .area = Area::ofWhole(400),
                    .airTempF = 60,
                    .concreteTempF = 65};
    }
    FinishEstimate estimate(const Pour& pour)
    {
        const Weather weather{maker.book};
        return FinishEstimator{maker.book, weather}.estimate(pour).value();
    }
};

double hoursOf(const FinishEstimate& estimate, Moment moment) { return static_cast<double>((moment - estimate.placing).count()) / 60; }

}

TEST_CASE("without pours of its own the finish goes by the table, and says so", "[visits][setting]")
{
    Shop shop;
    const auto estimate = shop.estimate(shop.planned());
    CHECK(estimate.ownPours == 0);
    CHECK(estimate.early < estimate.broom);
    CHECK(estimate.broom < estimate.late);
    CHECK(estimate.sentence.find("by the setting table alone, as no pour of your own has its times and air recorded") != std::string::npos);
    // To ten minutes: an estimate to the minute would claim too much.
    const auto rounded = [](Moment moment) { return ClockTime::ofMinutes((moment.at().minutes() + 5) / 10 * 10)->shown(); };
    CHECK(estimate.sentence.find("Broom about " + rounded(estimate.broom) + ", four times in five between " + rounded(estimate.early) + " and " + rounded(estimate.late)) == 0);
    CHECK(estimate.inShort == "broom about " + rounded(estimate.broom) + " (" + rounded(estimate.early) + " to " + rounded(estimate.late) + ")");
}

TEST_CASE("the shop's own pours draw the estimate to what they took, and narrow it", "[visits][setting]")
{
    Shop shop;
    const auto before = shop.estimate(shop.planned());
    const double table = hoursOf(before, before.broom);
    for (int i = 0; i < 4; ++i) shop.addPour(table * 1.3);
    const auto few = shop.estimate(shop.planned());
    CHECK(few.ownPours == 4);
    CHECK(hoursOf(few, few.broom) > table * 1.1);
    CHECK(hoursOf(few, few.broom) < table * 1.3);
    for (int i = 0; i < 30; ++i) shop.addPour(table * (i % 2 ? 1.25 : 1.35));
    const auto many = shop.estimate(shop.planned());
    CHECK(many.ownPours == 34);
    CHECK(hoursOf(many, many.broom) == Approx(table * 1.3).epsilon(0.03));
    CHECK((many.late - many.early).count() < (before.late - before.early).count());
    CHECK(many.sentence.find("34 pours of your own") != std::string::npos);
}

TEST_CASE("only the newest forty pours speak, and slips of the pen do not", "[visits][setting]")
{
    Shop shop;
    const auto before = shop.estimate(shop.planned());
    const double table = hoursOf(before, before.broom);
    for (int i = 0; i < 5; ++i) shop.addPour(table * 2);
    for (int i = 0; i < 40; ++i) shop.addPour(table);
    const auto newest = shop.estimate(shop.planned());
    CHECK(newest.ownPours == 40);
    CHECK(hoursOf(newest, newest.broom) == Approx(table).epsilon(0.02));

    Shop other;
    other.addPour(0.25);  // broomed a quarter of an hour after placing: morning written for afternoon
    CHECK(other.estimate(other.planned()).ownPours == 0);
    other.maker.add(Pour{.job = other.job, .sequence = 500, .pouredOn = on("2026-05-01"), .placedAt = at("08:00"), .broomedAt = at("12:00")});
    CHECK(other.estimate(other.planned()).ownPours == 0);  // its air is not known
}

TEST_CASE("the range of the correction is that of a normal sample with a prior", "[visits][setting]")
{
    // Gelman and others, Bayesian Data Analysis, section 3.3: with prior mean 0 counting like 2, 6 degrees and spread 0.2, and data y, the next y is a
    // Student t about n ybar / (2 + n) with 6 + n degrees.
    FinishCorrection correction;
    const double y[]{0.1, 0.3, 0.2};
    for (const auto one : y) correction.add(std::exp(one), 1);
    const double mean = 0.6 / 5;
    CHECK(std::log(correction.factor()) == Approx(mean));
    const double squares = 6 * 0.04 + (0.01 + 0.01) + 2.0 * 3 / 5 * 0.2 * 0.2;
    const double scale = std::sqrt(squares / 9 * (1 + 1.0 / 5));
    // Source: printed t tables: t at 0.90 with 9 degrees is 1.383.
    CHECK(std::log(correction.quantile(0.9)) == Approx(mean + 1.383 * scale).margin(1e-3));
    CHECK(std::log(correction.quantile(0.1)) == Approx(mean - 1.383 * scale).margin(1e-3));
    CHECK(correction.quantile(0.5) == Approx(correction.factor()));
}

TEST_CASE("cold, slump and area put the broom off, accelerator and hot concrete bring it forward", "[visits][setting]")
{
    Shop shop;
    const auto usual = shop.estimate(shop.planned());
    const auto with = [&](auto change) {
        auto pour = shop.planned();
        change(pour);
        return shop.estimate(pour).broom;
    };
    CHECK(with([](Pour& pour) { pour.airTempF = 45; }) > usual.broom);
    CHECK(with([](Pour& pour) { pour.airTempF = 75; }) < usual.broom);
    CHECK(with([](Pour& pour) { pour.slumpOrdered = Quantity::ofWhole(6); }) > usual.broom);
    CHECK(with([](Pour& pour) { pour.area = Area::ofWhole(1200); }) > usual.broom);
    CHECK(with([](Pour& pour) { pour.concreteTempF = 80; }) < usual.broom);
    CHECK(with([](Pour& pour) { pour.plannedAt = at("10:00"); }) > usual.broom);

    auto& maker = shop.maker;
    auto settings = maker.book.settings();
    settings.acceleratorCodes = "FAST";
    maker.add(settings);
    CHECK(with([](Pour& pour) { pour.optionsOrdered = "FAST=1"; }) < usual.broom);
    CHECK(with([](Pour& pour) { pour.optionsOrdered = "FAST=2"; }) < with([](Pour& pour) { pour.optionsOrdered = "FAST"; }));
    CHECK(with([](Pour& pour) { pour.optionsOrdered = "FIBER=1.5"; }) == usual.broom);
}

TEST_CASE("unknown weather makes a wide range, frost none at all", "[visits][setting]")
{
    Shop shop;
    const auto known = shop.estimate(shop.planned());
    auto pour = shop.planned();
    pour.airTempF.reset();
    const auto unknown = shop.estimate(pour);
    CHECK_FALSE(unknown.weatherKnown);
    CHECK(known.weatherKnown);
    CHECK(unknown.early < known.early);
    CHECK(unknown.late > known.late);
    CHECK(unknown.sentence.find("the weather not known") != std::string::npos);

    pour.airTempF = -10;
    pour.concreteTempF = 25;
    const Weather weather{shop.maker.book};
    CHECK_FALSE(FinishEstimator{shop.maker.book, weather}.estimate(pour));
    pour.plannedOn.reset();
    CHECK_FALSE(FinishEstimator{shop.maker.book, weather}.estimate(pour));
}

TEST_CASE("a recorded finish goes over every estimate", "[visits][setting]")
{
    Shop shop;
    const Weather weather{shop.maker.book};
    const FinishEstimator finishes{shop.maker.book, weather};
    auto pour = shop.planned();
    CHECK(finishOf(finishes, pour)->estimated);
    pour.pouredOn = pour.plannedOn;
    pour.placedAt = at("09:00");
    pour.broomedAt = at("14:10");
    CHECK(finishOf(finishes, pour)->at == Moment{*pour.pouredOn, at("14:10")});
    CHECK_FALSE(finishOf(finishes, pour)->estimated);
    pour.finishedAt = at("15:30");
    CHECK(finishOf(finishes, pour)->at == Moment{*pour.pouredOn, at("15:30")});
    pour.finishedAt = at("00:30");  // the crew went on past midnight
    CHECK(finishOf(finishes, pour)->at == Moment{*pour.pouredOn + 1, at("00:30")});
}

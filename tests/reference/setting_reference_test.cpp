#include "domain/book_maker.h"
#include "visits/equivalent_age.h"
#include "visits/setting.h"
#include "visits/windows.h"

#include <array>

using namespace strikeoff;

TEST_CASE("setting time by the published table", "[reference][setting]")
{
    // Source: the table of the Penn State course notes and ACI training: 100 to 70 °F read in a copy, 60 °F and under from memory.
    const std::pair<double, double> rows[]{{100.0, 1 + 2.0 / 3}, {90.0, 2 + 2.0 / 3}, {80.0, 4.0}, {70.0, 6.0}, {60.0, 8.0}, {50.0, 10 + 2.0 / 3}, {40.0, 14 + 2.0 / 3}, {30.0, 19.0}};
    for (const auto& [f, hours] : rows) {
        REQUIRE(settingHours(f));
        CHECK(*settingHours(f) == Approx(hours));
    }
    CHECK_FALSE(settingHours(20));  // the same table: does not set
    CHECK_FALSE(settingHours(-10));
    // Source: "each 10 °F drop adds a third" from 70 °F: within 0.45 h of the table at 40 °F and 0.04 h elsewhere.
    for (const auto& [f, hours] : {std::pair{60.0, 8.0}, {50.0, 10.67}, {40.0, 14.22}, {30.0, 18.96}}) CHECK(*settingHours(f) == Approx(hours).margin(0.46));
    // Source: National Frame Building Association magazine 2020-10: 20 °F more halves the time, 20 °F less doubles it; within 13 %.
    CHECK(*settingHours(50) / *settingHours(70) == Approx(2).epsilon(0.13));
    CHECK(*settingHours(70) / *settingHours(90) == Approx(2).epsilon(0.13));
    // Our rule: every degree colder takes longer.
    for (int f = 99; f > 20; --f) CHECK(*settingHours(f) > *settingHours(f + 1));
}

TEST_CASE("age factors of ASTM C1074", "[reference][setting]")
{
    // Source: the published formula (ASTM C1074; Carino 1984), numbers computed with R = 8.314462 J/(mol K).
    constexpr std::array at{0.0, 5.0, 10.0, 15.0, 20.0, 23.0, 25.0, 30.0, 35.0, 40.0};
    constexpr std::array low{0.3656, 0.4765, 0.6154, 0.7878, 1.0, 1.1494, 1.2592, 1.5736, 1.9524, 2.4056};
    constexpr std::array usual{0.2868, 0.3986, 0.5475, 0.7438, 1.0, 1.1886, 1.3311, 1.7553, 2.2939, 2.9723};
    constexpr std::array high{0.2588, 0.3695, 0.5210, 0.7259, 1.0, 1.2057, 1.3629, 1.8386, 2.4564, 3.2516};
    for (std::size_t i = 0; i < at.size(); ++i) {
        CHECK(ageFactor(at[i], 20, 33'500 / gasConstant) == Approx(low[i]).margin(5e-5));
        CHECK(ageFactor(at[i]) == Approx(usual[i]).margin(5e-5));
        CHECK(ageFactor(at[i], 20, 45'000 / gasConstant) == Approx(high[i]).margin(5e-5));
    }
}

TEST_CASE("equivalent age and maturity of a day that cools", "[reference][setting]")
{
    // Source: the published formulas, numbers of our own: 6 h at 25 °C, 6 h at 20, 12 h at 10.
    constexpr std::array day{TemperatureSpan{6, 25}, TemperatureSpan{6, 20}, TemperatureSpan{12, 10}};
    CHECK(equivalentHours(day, 20, 33'500 / gasConstant) == Approx(20.94).margin(0.005));
    CHECK(equivalentHours(day) == Approx(20.56).margin(0.005));
    CHECK(equivalentHours(day, 20, 45'000 / gasConstant) == Approx(20.43).margin(0.005));
    CHECK(nurseSaul(day, 0) == Approx(390));
    CHECK(nurseSaul(day, -10) == Approx(630));
    // Source: civinnovate.com, "Quality control of concrete": 28 days at 15 °C over a datum of -11 °C are 728 °C days.
    const std::array month{TemperatureSpan{28 * 24, 15}};
    CHECK(nurseSaul(month, -11) / 24 == Approx(728));
    // Practice of ASTM C1074 (from memory): time under the datum adds nothing.
    const std::array frost{TemperatureSpan{10, 5}, TemperatureSpan{10, -20}};
    CHECK(nurseSaul(frost, -10) == Approx(150));
}

namespace {

/// A warm-up from 30 °F at dawn to past 60 °F in the afternoon.
Pour coldMorning(BookMaker& maker)
{
    maker.add(DayForecast{.date = on("2026-03-11"), .lowF = 30, .highF = 63, .rainChance = 0});
    maker.add(DayForecast{.date = on("2026-03-12"), .lowF = 34, .highF = 60, .rainChance = 0});
    maker.add(SheetCharge{.supplier = maker.add(Supplier{.name = "Northgate"}),
                          .effectiveOn = on("2026-01-01"),
                          .charge = ChargeKind::option,
                          .code = "NCA",
                          .meaning = "Non-chloride accelerator, per 1 %",
                          .amount = each("4.50"),
                          .unit = ChargeUnit::perYard});
    return Pour{.job = maker.job("Walk"),
                .plannedOn = on("2026-03-11"),
                .plannedAt = at("08:00"),
                .slumpOrdered = Quantity::ofWhole(5),
                .optionsOrdered = "NCA=1",
                .area = Area::ofWhole(400)};
}

}

TEST_CASE("a cold morning with accelerator is broomed when crews find it is", "[reference][setting]")
{
    // Common practice, no source: placed from 8:00 at about 30 °F warming past 60 °F in the afternoon, 1 % of a non-chloride accelerator, 5-inch slump:
    // broomed at 13:42.
    BookMaker maker;
    const auto pour = coldMorning(maker);
    const VisitWindows windows{maker.book};
    const auto estimate = windows.finishes().estimate(pour);
    REQUIRE(estimate);
    const Moment seen{on("2026-03-11"), at("13:42")};
    INFO(estimate->sentence);
    CHECK(estimate->early <= seen);
    CHECK(estimate->late >= seen);
    CHECK(estimate->weatherKnown);
    // The range must say something: not wider than the whole working day.
    CHECK((estimate->late - estimate->early).count() < 8 * 60);

    auto plain = pour;
    plain.optionsOrdered.clear();
    const auto later = windows.finishes().estimate(plain);
    REQUIRE(later);
    CHECK(later->broom > estimate->broom);
    CHECK(later->broom > seen);
    CHECK(later->early > estimate->early);
}

TEST_CASE("an accelerator brings the set forward by as much as its standard asks", "[reference][setting]")
{
    // Source: ASTM C494 Type C: initial set at least 1 h and not more than 3.5 h earlier than without (from memory), at 73 °F.
    const double plain = *settingHours(73);
    const double earlier = plain - plain / acceleratorFactor(1);
    CHECK(earlier >= 1);
    CHECK(earlier <= 3.5);
    CHECK(acceleratorFactor(0) == 1);
}

namespace {

/// The window of a cut on a job placed at 8:00 and finished by noon under the same weather every day.
VisitWindow cutAt(int lowF, int highF)
{
    BookMaker maker;
    for (int i = 0; i < 6; ++i) maker.add(DayForecast{.date = on("2026-05-04") + i, .lowF = lowF, .highF = highF, .rainChance = 0});
    const auto job = maker.job("Drive");
    const auto pour = maker.add(Pour{.job = job, .pouredOn = on("2026-05-04"), .placedAt = at("08:00"), .finishedAt = at("11:00"), .concreteTempF = (lowF + highF) / 2});
    const auto visit = maker.add(Visit{.job = job, .pour = pour, .kind = VisitKind::cut});
    return VisitWindows{maker.book}.windowOf(maker.book.get(visit));
}

double hoursAfterPlacing(const std::optional<Moment>& moment) { return static_cast<double>((moment.value() - Moment{on("2026-05-04"), at("08:00")}).count()) / 60; }

}

TEST_CASE("joints are cut in the hours published, and later in the cold", "[reference][setting]")
{
    // Source: ACI FAQ 915, citing ACI 302.1R-15: conventional saws 4 to 12 h after placing.
    const auto mild = cutAt(70, 70);
    CHECK(hoursAfterPlacing(mild.notBefore) == Approx(4).margin(0.3));
    CHECK(hoursAfterPlacing(mild.due) == Approx(12).margin(0.3));
    // Source: ASTM C1074 with Q = 5000 K: a slab kept at 50 °F (10 °C) ages 0.5475 / 1.0577 as fast as at 70 °F (21.11 °C).
    const auto cool = cutAt(50, 50);
    CHECK(hoursAfterPlacing(cool.notBefore) == Approx(4 / 0.5149).margin(0.5));
    CHECK(hoursAfterPlacing(cool.due) == Approx(12 / 0.5149).margin(0.5));
    // Source: concreteconstruction.net, "When to saw control joints": from about 4 hours in hot weather to as long as three days in cold.
    const auto hot = cutAt(85, 85);
    CHECK(hoursAfterPlacing(hot.notBefore) < 4);
    const auto cold = cutAt(25, 25);
    CHECK(hoursAfterPlacing(cold.tooLate) <= 72.1);
    CHECK(hoursAfterPlacing(cold.due) > hoursAfterPlacing(cool.due));
}

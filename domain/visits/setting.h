#pragma once

#include "quantity/moment.h"
#include "record/book.h"
#include "weather/weather.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace strikeoff {

/// Hours concrete takes to set when kept at one temperature, by the table of the training courses (100 °F 1 2/3 h, 70 °F 6 h, 30 °F 19 h); between
/// rows on the logarithm of the hours. Nothing at 20 °F and under, where it does not set; from 30 down to there the pace falls to nothing. Warmer than
/// 100 °F counts as 100. Rows from 60 °F down are from memory.
std::optional<double> settingHours(double concreteF);

/// Per cent of accelerator among options ordered or batched, by the codes the settings name (without any, those a price sheet calls an accelerator);
/// one without an amount counts as one per cent.
double acceleratorPercent(const Book& book, std::string_view options);

/// What the time to the broom is reckoned from.
struct PourConditions {
    Moment placing;                          ///< when placing starts
    double areaSqft = 0;                     ///< 0 when not known
    double accelerator = 0;                  ///< per cent
    double slump = 4;                        ///< inches
    std::optional<double> concreteF;         ///< as it comes off the truck; assumed from the air when not known
    std::optional<DayMean> seen;             ///< mean air of the day as it was seen
};

/// The slab's temperature from placing on, a quarter of an hour at a time: it starts as the concrete came and goes over to the air, two thirds of the
/// way in five hours (a 4-inch slab's heat over what its surface gives off; common practice, no source; the heat of hydration and of the sun are left out).
class SlabTemperature {
public:
    SlabTemperature(const Weather& weather, const PourConditions& pour);

    static constexpr int step = 15;  ///< minutes
    void advance();
    Moment at() const { return at_; }
    double f() const { return f_; }
    /// Whether the air was known all the way; an unknown stretch leaves the slab as it was.
    bool isKnown() const { return known_; }
    bool isKnownNow() const { return knownNow_; }

private:
    const Weather& weather_;
    std::optional<DayMean> seen_;
    Moment at_;
    double f_ = 60;
    bool known_ = true;
    bool knownNow_ = true;
};

/// Concrete assumed to come at when no ticket says: the air's temperature, but heated to 60 °F in the cold and not over 90 (common practice, no source).
double usualConcreteF(double airF);

/// How much faster concrete sets with an accelerator: by 1.4 for each per cent, up to three (common practice, no source; at 70 °F it brings the set
/// 1.7 h forward, and ASTM C494 wants 1 to 3.5 h of an accelerator).
double acceleratorFactor(double percent);

/// Hours from the start of placing to the broom by the setting table and the slab's temperature, without anything learned: the share of the
/// setting time at which a surface takes a broom, 5 % more for every inch of slump over four, and half the time the area takes to place. Nothing when
/// the slab would not set within three days.
struct TableTime {
    double hours = 0;
    bool weatherKnown = false;
};
std::optional<TableTime> tableTime(const Weather& weather, const PourConditions& pour);

/// When a pour's surface will take the broom.
struct FinishEstimate {
    Moment placing;
    Moment broom;      ///< as likely before as after
    Moment early;      ///< one pour in ten is broomed before
    Moment late;       ///< one in ten after: early to late is the 80 % range
    int ownPours = 0;  ///< how many of the shop's own pours it rests on
    bool weatherKnown = false;
    std::string inShort;   ///< "broom about 1:40 pm (11:50 am to 4:10 pm)"
    std::string sentence;  ///< "Broom about 1:40 pm, 80 % sure between …: …"
};

/// What the shop's own pours say against the table: the logarithm of seen over reckoned, as a normal sample over a prior that counts like two pours
/// at the table's time with a spread of a fifth (conjugate, normal with unknown mean and variance: Gelman and others, Bayesian Data Analysis, section 3.3).
class FinishCorrection {
public:
    void add(double seenHours, double reckonedHours);
    int pours() const { return pours_; }
    double factor() const;                    ///< median of seen over reckoned
    double quantile(double probability) const;  ///< of the next pour's seen over reckoned

private:
    int pours_ = 0;
    double sum_ = 0;
    double squares_ = 0;
};

/// Estimates for a book's pours, corrected by its newest forty that have times and air recorded. Keeps references to both, which must not change.
class FinishEstimator {
public:
    FinishEstimator(const Book& book, const Weather& weather);

    static constexpr int newestPours = 40;

    /// Nothing for a pour that has no day, and for one in such cold that it would not set.
    std::optional<FinishEstimate> estimate(const Pour& pour) const;
    FinishEstimate estimate(const PourConditions& conditions, const TableTime& table) const;
    PourConditions conditionsOf(const Pour& pour) const;
    const FinishCorrection& correction() const;

private:
    const Book& book_;
    const Weather& weather_;
    mutable std::optional<FinishCorrection> correction_;
};

/// When a pour was finished, or will be as far as can be told.
struct PourFinish {
    Moment placing;
    Moment at;
    bool estimated = false;
};
/// Recorded: the finish, else the broom. Else estimated; nothing when there is no day.
std::optional<PourFinish> finishOf(const FinishEstimator& finishes, const Pour& pour);

}

#pragma once

#include "record/book.h"

#include <array>
#include <memory>
#include <span>
#include <vector>

namespace strikeoff {

using BurdenAmounts = std::array<Money, burdenItemCount>;

/// What one row of hours truly cost. Cents exact: the rows of a week add up to the week's pay, those of a calendar year to the year's burden.
struct HourCost {
    Minutes minutes;     ///< worked, by the clock rounding where the row has only times; zero when neither is recorded
    Money straight;      ///< at the rate in force, with the row's share of its day's rate and of bonuses
    Money premium;       ///< its share of the week's overtime premium
    BurdenAmounts burden{};
    bool rateKnown = false;  ///< false: no pay rate is in force on the day, and nothing above is reckoned

    Money pay() const { return straight + premium; }
    Money burdenTotal() const;
    Money trueCost() const { return pay() + burdenTotal(); }
};

/// A person's workweek, which stands alone: its hours are never averaged with another week's.
struct WeekPay {
    Id<CrewMember> person;
    Date start;             ///< first day of the workweek, by the settings
    Minutes worked;         ///< all of it, hours without a rate too
    Minutes overtime;       ///< at one and a half times the regular rate
    Minutes doubled;        ///< at twice the regular rate (daily rule only)
    Money straight;         ///< with bonuses
    Money bonus;            ///< of straight: the week's share of bonuses, by the days of their period that lie in it
    Money premium;          ///< what overtime pays on top of straight
    BurdenAmounts burden{};
    std::optional<UnitPrice> regularRate;  ///< all pay of the week over all its paid hours, rounded to four decimals to be shown
    bool allRatesKnown = true;

    Minutes straightMinutes() const { return worked - overtime - doubled; }
    Money gross() const { return straight + premium; }
    Money burdenTotal() const;
    Money trueCost() const { return gross() + burdenTotal(); }
};

/// What every hour in the book cost, reckoned once for all.
///
/// Pay: each workweek alone; straight pay by the rate in force for the day and phase (a rate of the phase goes before one without), or the day's
/// rate; overtime at half the regular rate on top (29 CFR 778.107 to 778.115), by the day too where the settings say so; no hour earns two
/// premiums. A bonus belongs to the weeks it was earned in (29 CFR 778.209). The pay of a week is rounded once.
/// Burden: by the rates in force on each day, wage bases by person and calendar year in the order of the days worked, whatever the order of entry;
/// the burden of a person's year is rounded once and what each week adds to it is split over the week's rows.
/// Rules differ by state: ask whoever does your payroll.
class LaborCost {
public:
    explicit LaborCost(const Book& book);
    ~LaborCost();
    LaborCost(LaborCost&&) noexcept;
    LaborCost& operator=(LaborCost&&) noexcept;

    /// The cost of a row of hours; nullptr for one that is not in the book.
    const HourCost* of(Id<Hours> id) const;
    /// The week of a person that holds a day; nullptr when nothing was worked in it.
    const WeekPay* weekOf(Id<CrewMember> person, Date day) const;
    /// A person's weeks in their order.
    std::span<const WeekPay> weeksOf(Id<CrewMember> person) const;

    /// Takes in rows of hours that were added, changed or removed since, with only the weeks they touch and what comes later in the same year;
    /// gives the jobs whose cost moved. A change of pay rates, bonuses, burden rates, crew or settings needs a new LaborCost.
    std::vector<Id<Job>> update(const Book& book, std::span<const Id<Hours>> touched);

private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}

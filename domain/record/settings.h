#pragma once

#include "record/choices.h"

namespace strikeoff {

/// The outfit's own name and the figures the program falls back on. One row a book; every figure is the owner's to change.
struct Settings {
    Id<Settings> id;
    std::int32_t revision = 0;
    std::string outfitName;
    std::string outfitAddress;
    std::string outfitTown;
    std::string outfitPhone;
    std::string outfitEmail;
    std::string license;
    std::string logo;
    PaperSize paper = PaperSize::letter;
    Yards truckYards = Yards::ofWhole(10);
    Yards orderStep = Yards::ofUnits(250);
    Rate allowance = Rate::ofWhole(5);
    Rate markup = Rate::ofWhole(30);
    Rate taxRate;
    TaxBasis taxBasis = TaxBasis::document;
    Rate deposit = Rate::ofWhole(30);
    std::int32_t termsDays = 14;
    std::int32_t quoteValidDays = 30;
    Rate lateChargeMonthly;
    Weekday workweekStart = Weekday::monday;
    ClockRounding clockRounding = ClockRounding::none;
    OvertimeRule overtimeRule = OvertimeRule::weekly;
    PremiumSpread premiumSpread = PremiumSpread::week;
    RateRounding rateRounding = RateRounding::exact;
    UnitPrice laborRate = UnitPrice::ofWhole(38);
    std::optional<std::int32_t> lienNoticeDays;
    std::string quoteTerms;
    std::string invoiceTerms;
    Minutes dischargeLimit = Minutes::of(90);
    std::optional<Quantity> slumpTolerance;
    std::optional<std::int32_t> leastConcreteTempF;
    std::string heatCodes;
    Quantity waterLimit;
    std::optional<Degrees> shopLatitude;
    std::optional<Degrees> shopLongitude;
    Quantity roadFactor = Quantity::ofUnits(1'300);
    std::int32_t driveMph = 30;
    std::optional<ClockTime> visitsFrom;
    std::optional<ClockTime> visitsTo;
    std::int32_t visitRuns = 1;
    Rate sealerSpare = Rate::ofWhole(5);
    std::optional<Quantity> bladeFeetLeft;
    std::string acceleratorCodes;
    bool southernHalf = false;
};

}

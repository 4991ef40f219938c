#pragma once

#include "record/choices.h"

namespace strikeoff {

/// A sealer, cure or other finishing product as its label has it; the label governs.
struct FinishingProduct {
    Id<FinishingProduct> id;
    std::int32_t revision = 0;
    std::string name;
    ProductKind kind = ProductKind::cureAndSeal;
    std::optional<std::int32_t> waitLeastHours;
    std::optional<std::int32_t> waitMostHours;
    std::optional<std::int32_t> lowestAirF;
    std::optional<std::int32_t> lowestSurfaceF;
    std::optional<std::int32_t> warmHoursAfter;
    std::optional<std::int32_t> dryHours;
    std::optional<Quantity> coverageBroom;
    std::optional<Quantity> coverageSmooth;
    std::optional<Quantity> coverageExposed;
    std::int32_t coats = 1;
    std::optional<std::int32_t> coatWaitHours;
    std::optional<UnitPrice> pricePerGallon;
    std::optional<Quantity> canGallons;
    std::optional<Quantity> onHandGallons;
    std::optional<Date> countedOn;
    std::string cleaning;
    std::string cautions;
};

struct Visit {
    Id<Visit> id;
    std::int32_t revision = 0;
    Id<Job> job;
    std::optional<Id<Pour>> pour;
    VisitKind kind = VisitKind::strip;
    std::int32_t coat = 1;
    std::optional<Date> notBefore;
    std::optional<Date> due;
    std::optional<Date> tooLate;
    std::optional<Date> plannedOn;
    std::optional<ClockTime> plannedAt;
    std::optional<Minutes> minutes;
    std::optional<Id<FinishingProduct>> product;
    std::optional<Quantity> gallons;
    std::optional<Date> doneOn;
    std::optional<Date> waivedOn;
    std::string waivedReason;
    std::string note;
    bool pinned = false;  ///< plannedOn was set by the owner, and the plan keeps it
    std::optional<std::int32_t> people;
    SharedText photos;
    std::optional<Date> putOffOn;
    SharedText putOffReason;

    bool isOpen() const { return !doneOn && !waivedOn; }
};

struct DayForecast {
    Id<DayForecast> id;
    std::int32_t revision = 0;
    Date date;
    std::optional<std::int32_t> lowF;
    std::optional<std::int32_t> highF;
    std::optional<std::int32_t> rainChance;
    std::optional<ClockTime> rainFrom;
    std::optional<ClockTime> rainTo;
    std::optional<std::int32_t> windMph;
    std::optional<std::int32_t> humidity;
};

/// Minutes on the road between two towns, either way, for where a site has no coordinates.
struct TownDrive {
    Id<TownDrive> id;
    std::int32_t revision = 0;
    std::string fromTown;
    std::string toTown;
    Minutes minutes;
};

}

#pragma once

#include "record/choices.h"

#include <vector>

namespace strikeoff {

struct JobType {
    Id<JobType> id;
    std::int32_t revision = 0;
    std::string name;
    TapeLength thickness = TapeLength::ofInches(4);
    Rate allowance = Rate::ofWhole(5);
    std::optional<Quantity> pace;
    SurfaceFinish finish = SurfaceFinish::broom;
    std::optional<Id<FinishingProduct>> product;
    bool stripVisit = true;
    bool cutVisit = true;
    bool sealVisit = true;
    bool walkThrough = true;
    std::optional<std::int32_t> resealMonths;
    std::string note;
};

struct Job {
    Id<Job> id;
    std::int32_t revision = 0;
    std::string number;
    std::string title;
    Id<Customer> customer;
    std::optional<Id<Site>> site;
    std::optional<Id<Lead>> lead;
    std::optional<Id<JobType>> jobType;
    Date openedOn;
    std::optional<Date> closedOn;
    std::optional<Date> droppedOn;
    std::string droppedReason;
    std::optional<Date> lienNoticeDue;
    std::string note;
};

/// One measured piece of a job. Which dimensions count depends on the shape: rectangle length × width; triangle base (length) × height (width);
/// trapezoid length and secondLength parallel, width between; circle diameter (length); segment chord (length) and rise (width); sector radius
/// (length) and arc (width); polygon points; thickened edge and footing run (length) × width × depth (thickness), secondLength the slope's run;
/// pier diameter (length) × depth (thickness).
struct TakeoffSection {
    Id<TakeoffSection> id;
    std::int32_t revision = 0;
    Id<Job> job;
    std::int32_t position = 1;
    std::string name;
    SectionShape shape = SectionShape::rectangle;
    std::int32_t count = 1;
    bool deduct = false;
    std::optional<TapeLength> length;
    std::optional<TapeLength> width;
    std::optional<TapeLength> secondLength;
    std::string points;
    std::optional<TapeLength> thickness;
    std::optional<TapeLength> jointSpacing;
    SurfaceFinish finish = SurfaceFinish::broom;
    std::string note;
};

/// One corner of a polygon, in ten-thousandths of a foot.
struct Corner {
    std::int64_t x = 0;
    std::int64_t y = 0;
    friend bool operator==(const Corner&, const Corner&) = default;
};

/// Reads "0 0; 12 0; 12 8.5", in feet with at most four decimals; nothing for text of another form and for fewer than three corners.
std::optional<std::vector<Corner>> parsePoints(std::string_view text);

struct ChangeOrder {
    Id<ChangeOrder> id;
    std::int32_t revision = 0;
    Id<Job> job;
    std::int32_t number = 1;
    Date askedOn;
    std::string description;
    CostClass costClass = CostClass::other;
    std::optional<Phase> phase;
    std::optional<Quantity> quantity;
    std::string unit;
    Money cost;
    Money price;
    std::optional<Date> acceptedOn;
    std::optional<Date> declinedOn;
    std::string note;
};

struct Pour {
    Id<Pour> id;
    std::int32_t revision = 0;
    Id<Job> job;
    std::int32_t sequence = 1;
    std::optional<Date> plannedOn;
    std::optional<ClockTime> plannedAt;
    std::optional<Date> pouredOn;
    std::optional<ClockTime> placedAt;
    std::optional<ClockTime> broomedAt;
    std::optional<ClockTime> finishedAt;
    std::optional<Id<Supplier>> supplier;
    std::string mix;
    std::optional<Yards> orderedYards;
    std::optional<Quantity> slumpOrdered;
    std::string optionsOrdered;
    std::optional<Area> area;
    std::optional<Quantity> sawJoint;
    bool reliefCut = false;
    std::optional<Id<FinishingProduct>> product;
    std::optional<std::int32_t> airTempF;
    std::optional<std::int32_t> crewSize;
    std::string note;
    std::optional<std::int32_t> concreteTempF;
};

}

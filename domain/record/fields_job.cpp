#include "record/fields.h"
#include "record/job.h"

namespace strikeoff {

std::optional<std::vector<Corner>> parsePoints(std::string_view text)
{
    constexpr int scale = 4;
    const auto trimmed = [](std::string_view part) {
        while (!part.empty() && part.front() == ' ') part.remove_prefix(1);
        while (!part.empty() && part.back() == ' ') part.remove_suffix(1);
        return part;
    };
    std::vector<Corner> corners;
    while (!trimmed(text).empty()) {
        const auto end = text.find(';');
        const auto pair = trimmed(text.substr(0, end));
        text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
        const auto gap = pair.find(' ');
        if (gap == std::string_view::npos) return std::nullopt;
        const auto x = parseDecimal(pair.substr(0, gap), scale);
        const auto y = parseDecimal(trimmed(pair.substr(gap)), scale);
        if (!x || !y) return std::nullopt;
        corners.push_back({*x, *y});
    }
    if (corners.size() < 3) return std::nullopt;
    return corners;
}

namespace {

constexpr std::int64_t longestTape = std::int64_t{1} << 22;  // sixteenths: some four miles

constexpr std::array jobTypeFields{
    field<&JobType::name>("name", "Name", "patio, driveway, walk, \u2026").needed(),
    field<&JobType::thickness>("thickness", "Thickness", "usual slab thickness").within(1, 192 * 10).defaulted(),
    field<&JobType::allowance>("allowance_pct", "Allowance", "ordered over the measured volume").in("%").within(0, 500'000).defaulted(),
    field<&JobType::pace>("pace_sqft_per_hour", "Pace", "square feet per crew-hour a bid reckons with").in("ft\u00b2/h").within(1, 10'000'000),
    field<&JobType::finish>("finish", "Finish", "usual surface").defaulted(),
    field<&JobType::product>("product", "Product", "usual sealer or cure"),
    field<&JobType::stripVisit>("strip_visit", "Strip visit", "forms are stripped on a return visit"),
    field<&JobType::cutVisit>("cut_visit", "Cut visit", "joints are cut on a return visit"),
    field<&JobType::sealVisit>("seal_visit", "Seal visit", "a sealer goes on later"),
    field<&JobType::walkThrough>("walk_through", "Walk-through", "a last look with the customer"),
    field<&JobType::resealMonths>("reseal_months", "Reseal after", "months until the reseal call").in("months").within(1, 240),
    field<&JobType::note>("note", "Note", "").as(FieldType::note),
};
constexpr std::array<std::string_view, 1> jobTypeKey{"name"};

constexpr std::array jobFields{
    field<&Job::number>("number", "Number", "given by the book when left blank"),
    field<&Job::title>("title", "Title", "what the job is called").needed(),
    field<&Job::customer>("customer", "Customer", "who pays"),
    field<&Job::site>("site", "Site", "where the work is"),
    field<&Job::lead>("lead", "Lead", "what it began with"),
    field<&Job::jobType>("job_type", "Job type", "what kind of work"),
    field<&Job::openedOn>("opened_on", "Opened", "the day the folder was opened"),
    field<&Job::closedOn>("closed_on", "Closed", "the day nothing was left to do"),
    field<&Job::droppedOn>("dropped_on", "Dropped", "the day it was given up"),
    field<&Job::droppedReason>("dropped_reason", "Why dropped", ""),
    field<&Job::lienNoticeDue>("lien_notice_due", "Lien notice due", "as your lawyer tells you; state law sets it"),
    field<&Job::note>("note", "Note", "anything worth knowing").as(FieldType::note),
};
constexpr std::array<std::string_view, 1> jobKey{"number"};

constexpr std::array takeoffSectionFields{
    field<&TakeoffSection::job>("job", "Job", "which job it is measured for"),
    field<&TakeoffSection::position>("position", "No.", "place in the takeoff").within(1, 9999),
    field<&TakeoffSection::name>("name", "Name", "what the piece is").needed(),
    field<&TakeoffSection::shape>("shape", "Shape", "how it is reckoned").defaulted(),
    field<&TakeoffSection::count>("count", "Count", "how many alike").within(1, 10'000).defaulted(),
    field<&TakeoffSection::deduct>("deduct", "Deduct", "an opening, taken off the job"),
    field<&TakeoffSection::length>("length", "Length", "length, base, diameter, chord, radius or run").within(1, longestTape),
    field<&TakeoffSection::width>("width", "Width", "width, height, rise or arc").within(1, longestTape),
    field<&TakeoffSection::secondLength>("second_length", "Second length", "a trapezoid's other side, or the run of a thickened edge's slope").within(0, longestTape),
    field<&TakeoffSection::points>("points", "Points", "corner points in feet, \"0 0; 12 0; 12 8.5\"").as(FieldType::points).within(0, 4000),
    field<&TakeoffSection::thickness>("thickness", "Thickness", "thickness of a slab, depth of a footing, edge or pier").within(1, 192 * 30),
    field<&TakeoffSection::jointSpacing>("joint_spacing", "Joint spacing", "planned distance between contraction joints").within(16, longestTape),
    field<&TakeoffSection::finish>("finish", "Finish", "surface").defaulted(),
    field<&TakeoffSection::note>("note", "Note", "").as(FieldType::note),
};
constexpr std::array<std::string_view, 2> takeoffSectionKey{"job", "position"};

constexpr std::array changeOrderFields{
    field<&ChangeOrder::job>("job", "Job", "which job it changes"),
    field<&ChangeOrder::number>("number", "No.", "counted within the job").within(1, 999),
    field<&ChangeOrder::askedOn>("asked_on", "Asked", "the day it was asked for"),
    field<&ChangeOrder::description>("description", "What changes", "as the customer will read it").needed(),
    field<&ChangeOrder::costClass>("cost_class", "Class", "where its cost belongs").defaulted(),
    field<&ChangeOrder::phase>("phase", "Phase", "for labor"),
    field<&ChangeOrder::quantity>("quantity", "Quantity", "").within(0, 1'000'000'000),
    field<&ChangeOrder::unit>("unit", "Unit", ""),
    field<&ChangeOrder::cost>("cost", "Cost", "what it is reckoned to cost").in("$").within(-1'000'000'000, 1'000'000'000),
    field<&ChangeOrder::price>("price", "Price", "what the customer pays for it, without tax").in("$").within(-1'000'000'000, 1'000'000'000),
    field<&ChangeOrder::acceptedOn>("accepted_on", "Accepted", "the day the customer signed it"),
    field<&ChangeOrder::declinedOn>("declined_on", "Declined", "the day the customer turned it down"),
    field<&ChangeOrder::note>("note", "Note", "").as(FieldType::note),
};
constexpr std::array<std::string_view, 2> changeOrderKey{"job", "number"};

constexpr std::array pourFields{
    field<&Pour::job>("job", "Job", "which job is poured"),
    field<&Pour::sequence>("sequence", "Pour", "first, second, \u2026 of the job").within(1, 999).defaulted(),
    field<&Pour::plannedOn>("planned_on", "Planned", "the day it is planned for"),
    field<&Pour::plannedAt>("planned_at", "First truck", "when the first truck is ordered"),
    field<&Pour::pouredOn>("poured_on", "Poured", "the day it was poured"),
    field<&Pour::placedAt>("placed_at", "Placing from", "when placing began"),
    field<&Pour::broomedAt>("broomed_at", "Broomed", "when the surface was broomed"),
    field<&Pour::finishedAt>("finished_at", "Finished", "when the crew was done with the surface"),
    field<&Pour::supplier>("supplier", "Supplier", "who sends the concrete"),
    field<&Pour::mix>("mix", "Mix", "the mix ordered, by the sheet's code"),
    field<&Pour::orderedYards>("ordered_yards", "Ordered", "").in("yd\u00b3").within(1, 10'000'000),
    field<&Pour::slumpOrdered>("slump_ordered_in", "Slump ordered", "").in("in").within(0, 12'000),
    field<&Pour::optionsOrdered>("options_ordered", "Options ordered", "by the sheet's codes: ACC=1;FIBER=1.5").as(FieldType::options),
    field<&Pour::area>("area_sqft", "Area", "the area poured; from the takeoff when left blank").in("ft\u00b2").within(1, 100'000'000),
    field<&Pour::sawJoint>("saw_joint_ft", "Saw joints", "feet of joint to cut by saw").in("ft").within(0, 100'000'000),
    field<&Pour::reliefCut>("relief_cut", "Relief cut", "a tooled joint's end needs a cut at a crossing"),
    field<&Pour::product>("product", "Product", "the cure or sealer for this pour"),
    field<&Pour::airTempF>("air_temp_f", "Air", "average air temperature of the day").in("\u00b0F").within(-60, 140),
    field<&Pour::crewSize>("crew_size", "Crew", "people on the pour").within(1, 99),
    field<&Pour::note>("note", "Note", "gate, dog, hose bib").as(FieldType::note),
    field<&Pour::concreteTempF>("concrete_temp_f", "Concrete", "as ordered, or as measured on arrival").in("\u00b0F").within(20, 120),
};
constexpr std::array<std::string_view, 2> pourKey{"job", "sequence"};

}

namespace fields {

constinit const KindDescription jobType{RecordKind::jobType, "job_type", "Job type", "Job types", "a kind of work and what it usually needs", jobTypeFields, jobTypeKey, {}};
constinit const KindDescription job{RecordKind::job, "job", "Job", "Jobs", "one piece of work for one customer", jobFields, jobKey, ""};
constinit const KindDescription takeoffSection{RecordKind::takeoffSection, "takeoff_section", "Takeoff section", "Takeoff sections", "one measured piece of a job", takeoffSectionFields, takeoffSectionKey, {}};
constinit const KindDescription changeOrder{RecordKind::changeOrder, "change_order", "Change order", "Change orders", "work asked for after the quote", changeOrderFields, changeOrderKey, {}};
constinit const KindDescription pour{RecordKind::pour, "pour", "Pour", "Pours", "one day's placing on a job", pourFields, pourKey, {}};

}

}

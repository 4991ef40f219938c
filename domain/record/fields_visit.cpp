#include "record/fields.h"
#include "record/visit.h"

namespace strikeoff {

namespace {

constexpr std::array finishingProductFields{
    field<&FinishingProduct::name>("name", "Name", "as the can has it").needed(),
    field<&FinishingProduct::kind>("kind", "Kind", ""),
    field<&FinishingProduct::waitLeastHours>("wait_least_hours", "Wait at least", "after finishing").in("h").within(0, 10'000),
    field<&FinishingProduct::waitMostHours>("wait_most_hours", "Wait at most", "after finishing").in("h").within(0, 100'000),
    field<&FinishingProduct::lowestAirF>("lowest_air_f", "Lowest air", "while it goes on").in("\u00b0F").within(-40, 120),
    field<&FinishingProduct::lowestSurfaceF>("lowest_surface_f", "Lowest surface", "while it goes on").in("\u00b0F").within(-40, 120),
    field<&FinishingProduct::warmHoursAfter>("warm_hours_after", "Stay warm for", "hours over the lowest air after it went on").in("h").within(0, 240),
    field<&FinishingProduct::dryHours>("dry_hours", "Dry for", "hours before rain").in("h").within(0, 240),
    field<&FinishingProduct::coverageBroom>("coverage_broom", "Coverage, broom", "").in("ft\u00b2/gal").within(1, 10'000'000),
    field<&FinishingProduct::coverageSmooth>("coverage_smooth", "Coverage, smooth", "").in("ft\u00b2/gal").within(1, 10'000'000),
    field<&FinishingProduct::coverageExposed>("coverage_exposed", "Coverage, exposed", "").in("ft\u00b2/gal").within(1, 10'000'000),
    field<&FinishingProduct::coats>("coats", "Coats", "").within(1, 9).defaulted(),
    field<&FinishingProduct::coatWaitHours>("coat_wait_hours", "Between coats", "").in("h").within(0, 1'000),
    field<&FinishingProduct::pricePerGallon>("price_per_gallon", "Price", "per gallon").in("$/gal").within(0, 100'000'000),
    field<&FinishingProduct::canGallons>("can_gallons", "Can", "gallons in a can or pail").in("gal").within(1, 1'000'000),
    field<&FinishingProduct::onHandGallons>("on_hand_gallons", "On hand", "in the shop when last counted").in("gal").within(0, 100'000'000),
    field<&FinishingProduct::countedOn>("counted_on", "Counted", "the morning of the count; visits done since are taken off"),
    field<&FinishingProduct::cleaning>("cleaning", "Cleaning", "what the surface needs first").as(FieldType::note),
    field<&FinishingProduct::cautions>("cautions", "Cautions", "from the label; the label governs").as(FieldType::note),
};
constexpr std::array<std::string_view, 1> finishingProductKey{"name"};

constexpr std::array visitFields{
    field<&Visit::job>("job", "Job", "which job is gone back to"),
    field<&Visit::pour>("pour", "Pour", "which pour of the job").scopedBy("job"),
    field<&Visit::kind>("kind", "Visit", "what is done"),
    field<&Visit::coat>("coat", "Coat", "first or second, for sealing").within(1, 9).defaulted(),
    field<&Visit::notBefore>("not_before", "Not before", "earliest day"),
    field<&Visit::due>("due", "Due", "the day it should be done by"),
    field<&Visit::tooLate>("too_late", "Too late", "the day from which it is too late"),
    field<&Visit::plannedOn>("planned_on", "Planned", "the day it is planned for"),
    field<&Visit::plannedAt>("planned_at", "At", ""),
    field<&Visit::minutes>("minutes", "On site", "minutes it takes or took").in("min").within(0, 1440),
    field<&Visit::product>("product", "Product", "what goes on"),
    field<&Visit::gallons>("gallons", "Gallons", "used").in("gal").within(0, 10'000'000),
    field<&Visit::doneOn>("done_on", "Done", "the day it was done"),
    field<&Visit::waivedOn>("waived_on", "Waived", "the day it was decided to leave it"),
    field<&Visit::waivedReason>("waived_reason", "Why waived", ""),
    field<&Visit::note>("note", "Note", "").as(FieldType::note),
    field<&Visit::pinned>("pinned", "Pinned", "the plan keeps the day it is planned for"),
    field<&Visit::people>("people", "People", "how many were on site").within(1, 99),
    field<&Visit::photos>("photos", "Photos", "file names, one a line").as(FieldType::note),
    field<&Visit::putOffOn>("put_off_on", "Put off", "the day it was last put off"),
    field<&Visit::putOffReason>("put_off_reason", "Why put off", ""),
};
constexpr std::array<std::string_view, 5> visitKey{"job", "pour", "kind", "coat", "not_before"};

constexpr std::array forecastFields{
    field<&DayForecast::date>("date", "Date", "the day forecast"),
    field<&DayForecast::lowF>("low_f", "Low", "").in("\u00b0F").within(-80, 140),
    field<&DayForecast::highF>("high_f", "High", "").in("\u00b0F").within(-80, 140),
    field<&DayForecast::rainChance>("rain_chance_pct", "Rain", "chance of rain").in("%").within(0, 100),
    field<&DayForecast::rainFrom>("rain_from", "Rain from", ""),
    field<&DayForecast::rainTo>("rain_to", "Rain to", ""),
    field<&DayForecast::windMph>("wind_mph", "Wind", "").in("mph").within(0, 200),
    field<&DayForecast::humidity>("humidity_pct", "Humidity", "").in("%").within(0, 100),
};
constexpr std::array<std::string_view, 1> forecastKey{"date"};

constexpr std::array townDriveFields{
    field<&TownDrive::fromTown>("from_town", "From", "as sites have the town, or your own").needed(),
    field<&TownDrive::toTown>("to_town", "To", "the other town; the way back takes as long").needed(),
    field<&TownDrive::minutes>("minutes", "Drive", "minutes on the road").in("min").within(0, 1440),
};
constexpr std::array<std::string_view, 2> townDriveKey{"from_town", "to_town"};

}

namespace fields {

constinit const KindDescription finishingProduct{RecordKind::finishingProduct, "finishing_product", "Finishing product", "Finishing products", "a cure or sealer as its label has it", finishingProductFields, finishingProductKey, {}};
constinit const KindDescription visit{RecordKind::visit, "visit", "Return visit", "Return visits", "going back to a pour to strip, cut, seal or look", visitFields, visitKey, {}};
constinit const KindDescription forecast{RecordKind::forecast, "forecast", "Day's forecast", "Forecast", "the weather expected on a day", forecastFields, forecastKey, {}};
constinit const KindDescription townDrive{RecordKind::townDrive, "town_drive", "Drive between towns", "Drives between towns", "minutes on the road between two towns, for sites without coordinates", townDriveFields, townDriveKey, {}};

}

}

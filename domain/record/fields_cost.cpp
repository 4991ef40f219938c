#include "record/cost.h"
#include "record/fields.h"
#include "record/settings.h"

namespace strikeoff {

namespace {

constexpr std::array receiptFields{
    field<&Receipt::number>("number", "Number", "written on the paper; given by the book when left blank"),
    field<&Receipt::date>("date", "Date", "on the receipt"),
    field<&Receipt::job>("job", "Job", "blank for the shop"),
    field<&Receipt::costClass>("cost_class", "Class", "where the cost belongs"),
    field<&Receipt::vendor>("vendor", "Vendor", "who was paid"),
    field<&Receipt::reference>("reference", "Reference", "the vendor's number"),
    field<&Receipt::description>("description", "Description", "what it was for"),
    field<&Receipt::quantity>("quantity", "Quantity", "").within(-1'000'000'000, 1'000'000'000),
    field<&Receipt::unit>("unit", "Unit", ""),
    field<&Receipt::unitPrice>("unit_price", "Unit price", "").in("$").within(-mostPrice, mostPrice),
    field<&Receipt::amount>("amount", "Amount", "all of it, tax included").in("$").within(-mostMoney, mostMoney),
    field<&Receipt::paidOn>("paid_on", "Paid", "the day it was paid; blank while it is owed"),
    field<&Receipt::note>("note", "Note", "").as(FieldType::note),
};
constexpr std::array<std::string_view, 1> receiptKey{"number"};

constexpr std::array overheadFields{
    field<&Overhead::year>("year", "Year", "").within(1990, 2199),
    field<&Overhead::item>("item", "Item", "truck notes, insurance, phone, yard, \u2026").needed(),
    field<&Overhead::amount>("amount", "Amount", "for the year").in("$").within(-mostMoney, mostMoney),
    field<&Overhead::note>("note", "Note", ""),
};
constexpr std::array<std::string_view, 2> overheadKey{"year", "item"};

constexpr std::array settingsFields{
    field<&Settings::outfitName>("outfit_name", "Outfit", "your name on papers"),
    field<&Settings::outfitAddress>("outfit_address", "Address", "street and number"),
    field<&Settings::outfitTown>("outfit_town", "Town", "town, state and ZIP code"),
    field<&Settings::outfitPhone>("outfit_phone", "Phone", ""),
    field<&Settings::outfitEmail>("outfit_email", "E-mail", ""),
    field<&Settings::license>("license", "License", "contractor's license, where your state has one"),
    field<&Settings::logo>("logo", "Logo", "path of a PNG, JPEG or SVG picture for quotes and invoices"),
    field<&Settings::paper>("paper", "Paper", "").defaulted(),
    field<&Settings::truckYards>("truck_yards", "Truck holds", "yd\u00b3 in a full load").in("yd\u00b3").within(1'000, 20'000).defaulted(),
    field<&Settings::orderStep>("order_step_yards", "Order step", "orders are rounded up to it").in("yd\u00b3").within(1, 5'000).defaulted(),
    field<&Settings::allowance>("allowance_pct", "Allowance", "ordered over the measured volume where the job type says nothing").in("%").within(0, 500'000).defaulted(),
    field<&Settings::markup>("markup_pct", "Mark-up", "on a new quote").in("%").within(-1'000'000, 10'000'000).defaulted(),
    field<&Settings::taxRate>("tax_pct", "Sales tax", "on a new quote or invoice; rules differ by state").in("%").within(0, 1'000'000).defaulted(),
    field<&Settings::taxBasis>("tax_basis", "Tax rounded on", "each line or the whole paper").defaulted(),
    field<&Settings::deposit>("deposit_pct", "Deposit", "on a new quote").in("%").within(0, 1'000'000).defaulted(),
    field<&Settings::termsDays>("terms_days", "Terms", "days until an invoice is due").in("days").within(0, 365).defaulted(),
    field<&Settings::quoteValidDays>("quote_valid_days", "Quote holds", "days a sent quote's price holds").in("days").within(1, 3650).defaulted(),
    field<&Settings::lateChargeMonthly>("late_charge_pct_month", "Late charge", "simple, per month, as your contract and state allow").in("%").within(0, 100'000).defaulted(),
    field<&Settings::workweekStart>("workweek_start", "Workweek starts", "").defaulted(),
    field<&Settings::clockRounding>("clock_rounding", "Clock rounded to", "start and stop, when a day is entered; the times as written are kept").defaulted(),
    field<&Settings::overtimeRule>("overtime_rule", "Overtime", "your state may want more than the federal rule: ask whoever does your payroll").defaulted(),
    field<&Settings::premiumSpread>("premium_spread", "Premium carried by", "which hours of a week carry its overtime premium in job cost").defaulted(),
    field<&Settings::rateRounding>("rate_rounding", "Overtime rounded on", "ask whoever does your payroll which they use").defaulted(),
    field<&Settings::laborRate>("labor_rate", "Labor in bids", "what an hour is reckoned to cost in a new quote").in("$/h").within(0, 10'000'000).defaulted(),
    field<&Settings::lienNoticeDays>("lien_notice_days", "Lien notice", "days from first work, as your lawyer tells you; state law sets it").in("days").within(1, 400),
    field<&Settings::quoteTerms>("quote_terms", "Quote terms", "put on a new quote").as(FieldType::note),
    field<&Settings::invoiceTerms>("invoice_terms", "Invoice terms", "put on a new invoice").as(FieldType::note),
    field<&Settings::dischargeLimit>("discharge_limit_minutes", "Discharge limit", "from batching to empty; 90 was the rule of ASTM C94 until the 2021 edition, since then what you order by").in("min").within(15, 480).defaulted(),
    field<&Settings::slumpTolerance>("slump_tolerance_in", "Slump tolerance", "either way of the slump ordered; blank: ASTM C94, \u00bd in to 2 in, 1 in to 4 in, 1\u00bd in above").in("in").within(0, 6'000),
    field<&Settings::leastConcreteTempF>("least_concrete_temp_f", "Coldest load", "at arrival where heat is paid for; blank: ASTM C94 and ACI 306R by thickness, 55 \u00b0F for a slab").in("\u00b0F").within(32, 90),
    field<&Settings::heatCodes>("heat_codes", "Heat codes", "codes beside the sheets' winter service that mean heat was paid for: HW;HOT").within(0, 200),
    field<&Settings::waterLimit>("water_limit_gal_per_yard", "Water on site", "gallons a yd\u00b3 added on site before the desk says so; 0: any (common practice, no source)").in("gal/yd\u00b3").within(0, 20'000).defaulted(),
    field<&Settings::shopLatitude>("shop_latitude", "Shop latitude", "where runs start and end; decimal degrees, north positive; a geo: address or both figures pasted here fill both").in("\u00b0").within(-90'000'000, 90'000'000),
    field<&Settings::shopLongitude>("shop_longitude", "Shop longitude", "decimal degrees, east positive").in("\u00b0").within(-180'000'000, 180'000'000),
    field<&Settings::roadFactor>("road_factor", "Road factor", "road miles for a mile as the crow flies (common practice, no source)").within(1'000, 3'000).defaulted(),
    field<&Settings::driveMph>("drive_mph", "Driving speed", "over a whole run, stops at lights included").in("mph").within(5, 75).defaulted(),
    field<&Settings::visitsFrom>("visits_from", "Visits from", "earliest leaving of the shop; blank: 7:30"),
    field<&Settings::visitsTo>("visits_to", "Visits until", "back at the shop; blank: 17:30"),
    field<&Settings::visitRuns>("visit_runs", "Runs a day", "how many trucks go on return visits on one day").within(1, 9).defaulted(),
    field<&Settings::sealerSpare>("sealer_spare_pct", "Sealer spare", "taken along over what area and coverage say").in("%").within(0, 1'000'000).defaulted(),
    field<&Settings::bladeFeetLeft>("blade_feet_left", "Blade left", "feet of joint the saw blades in the shop still cut").in("ft").within(0, 1'000'000'000),
    field<&Settings::acceleratorCodes>("accelerator_codes", "Accelerator codes", "options of your suppliers' sheets that are accelerator, one unit a per cent: ACC;NCA").within(0, 200),
    field<&Settings::southernHalf>("southern_half", "Southern half", "winter is June to August"),
};

}

namespace fields {

constinit const KindDescription receipt{RecordKind::receipt, "receipt", "Receipt", "Receipts", "a bill or receipt other than the ready-mix supplier's", receiptFields, receiptKey, "R"};
constinit const KindDescription overhead{RecordKind::overhead, "overhead", "Overhead", "Overhead", "a year's cost that no job carries by itself", overheadFields, overheadKey, {}};
constinit const KindDescription settings{RecordKind::settings, "settings", "Settings", "Settings", "the outfit and the figures the program falls back on", settingsFields, {}, {}};

}

}

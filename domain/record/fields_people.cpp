#include "record/fields.h"
#include "record/people.h"

namespace strikeoff {

std::optional<Minutes> Hours::worked() const
{
    if (minutes) return minutes;
    if (!startedAt || !endedAt) return std::nullopt;
    const int span = (endedAt->minutes() - startedAt->minutes() + 24 * 60) % (24 * 60);
    return Minutes::of(span) - unpaidMinutes.value_or(Minutes{});
}

namespace {

constexpr std::array customerFields{
    field<&Customer::name>("name", "Name", "the customer as papers name them").needed(),
    field<&Customer::phone>("phone", "Phone", "where to call"),
    field<&Customer::email>("email", "E-mail", "where quotes and invoices go"),
    field<&Customer::address>("address", "Address", "billing address, street and number"),
    field<&Customer::town>("town", "Town", "town, state and ZIP code"),
    field<&Customer::termsDays>("terms_days", "Terms", "days an invoice runs before it is due, if not the usual").in("days").within(0, 365),
    field<&Customer::taxExempt>("tax_exempt", "Tax exempt", "no sales tax on this customer's papers"),
    field<&Customer::note>("note", "Note", "anything worth knowing").as(FieldType::note),
};
constexpr std::array<std::string_view, 1> customerKey{"name"};

constexpr std::array siteFields{
    field<&Site::name>("name", "Name", "a name of its own: street and town will do").needed(),
    field<&Site::customer>("customer", "Customer", "whose site it is"),
    field<&Site::address>("address", "Address", "street and number"),
    field<&Site::town>("town", "Town", "town, state and ZIP code"),
    field<&Site::latitude>("latitude", "Latitude", "decimal degrees, north positive; a geo: address or both figures pasted here fill both").in("\u00b0").within(-90'000'000, 90'000'000),
    field<&Site::longitude>("longitude", "Longitude", "decimal degrees, east positive").in("\u00b0").within(-180'000'000, 180'000'000),
    field<&Site::driveMinutes>("drive_minutes", "Drive", "minutes from the shop, one way").in("min").within(0, 600),
    field<&Site::note>("note", "Note", "gate, dog, hose bib, where the truck can stand").as(FieldType::note),
};
constexpr std::array<std::string_view, 1> siteKey{"name"};

constexpr std::array leadFields{
    field<&Lead::number>("number", "Number", "given by the book when left blank"),
    field<&Lead::receivedOn>("received_on", "Received", "the day they asked"),
    field<&Lead::name>("name", "Name", "who asked").needed(),
    field<&Lead::phone>("phone", "Phone", "where to call back"),
    field<&Lead::email>("email", "E-mail", "where to write back"),
    field<&Lead::town>("town", "Town", "where the work would be"),
    field<&Lead::source>("source", "Source", "how they found the outfit").defaulted(),
    field<&Lead::customer>("customer", "Customer", "the customer it became, or already was"),
    field<&Lead::jobType>("job_type", "Job type", "what kind of work"),
    field<&Lead::area>("area_sqft", "Area", "rough area asked about").in("ft\u00b2").within(0, 100'000'000),
    field<&Lead::wish>("wish", "Wish", "what they want, in their words").as(FieldType::note),
    field<&Lead::calledOn>("called_on", "Called", "the day they were last called"),
    field<&Lead::nextCallOn>("next_call_on", "Call next", "the day to call again"),
    field<&Lead::lostOn>("lost_on", "Lost", "the day it went elsewhere"),
    field<&Lead::lostReason>("lost_reason", "Why lost", "price, timing, no answer, \u2026"),
    field<&Lead::note>("note", "Note", "anything worth knowing").as(FieldType::note),
};
constexpr std::array<std::string_view, 1> leadKey{"number"};

constexpr std::array supplierFields{
    field<&Supplier::name>("name", "Name", "the supplier as statements name them").needed(),
    field<&Supplier::phone>("phone", "Phone", "dispatch"),
    field<&Supplier::email>("email", "E-mail", "where letters about statements go"),
    field<&Supplier::address>("address", "Address", "for letters"),
    field<&Supplier::accountNumber>("account_number", "Account", "our number with them"),
    field<&Supplier::termsDays>("terms_days", "Terms", "days until a statement is due").in("days").within(0, 365),
    field<&Supplier::discountDays>("discount_days", "Discount days", "days in which paying early earns the sheet's discount").in("days").within(0, 365),
    field<&Supplier::note>("note", "Note", "anything worth knowing").as(FieldType::note),
    field<&Supplier::statementColumns>("statement_columns", "Statement columns", "how their statement files are laid out, as last read").within(0, 4'000),
};
constexpr std::array<std::string_view, 1> supplierKey{"name"};

constexpr std::array crewMemberFields{
    field<&CrewMember::name>("name", "Name", "as hours are written").needed(),
    field<&CrewMember::role>("role", "Role", "finisher, laborer, driver, \u2026"),
    field<&CrewMember::phone>("phone", "Phone", ""),
    field<&CrewMember::hiredOn>("hired_on", "Hired", "first day"),
    field<&CrewMember::leftOn>("left_on", "Left", "last day"),
    field<&CrewMember::compClass>("comp_class", "Comp class", "workers' compensation class"),
    field<&CrewMember::note>("note", "Note", "anything worth knowing").as(FieldType::note),
    field<&CrewMember::doesVisits>("does_visits", "Does visits", "can be sent on return visits"),
};
constexpr std::array<std::string_view, 1> crewMemberKey{"name"};

constexpr std::array payRateFields{
    field<&PayRate::person>("person", "Person", "whose pay"),
    field<&PayRate::fromDate>("from_date", "From", "first day at this rate"),
    field<&PayRate::phase>("phase", "Phase", "for one kind of work only; blank for all that has no rate of its own"),
    field<&PayRate::hourlyRate>("hourly_rate", "Rate", "straight pay per hour; 0 with a day rate").in("$/h").within(0, 10'000'000),
    field<&PayRate::dayRate>("day_rate", "Day rate", "instead of an hourly rate: for a day however long; overtime comes on top").in("$/day").within(0, 1'000'000),
    field<&PayRate::note>("note", "Note", ""),
};
constexpr std::array<std::string_view, 3> payRateKey{"person", "from_date", "phase"};

constexpr std::array bonusFields{
    field<&Bonus::person>("person", "Person", "whose bonus"),
    field<&Bonus::amount>("amount", "Amount", "before tax").in("$").within(1, 100'000'000),
    field<&Bonus::earnedFrom>("earned_from", "Earned from", "first day of the time it was earned in"),
    field<&Bonus::earnedTo>("earned_to", "Earned to", "last day of it; every overtime week between is figured anew"),
    field<&Bonus::paidOn>("paid_on", "Paid", "the day it was paid; blank while it is owed"),
    field<&Bonus::note>("note", "Note", "what it was for"),
};
constexpr std::array<std::string_view, 3> bonusKey{"person", "earned_from", "earned_to"};

constexpr std::array burdenRateFields{
    field<&BurdenRate::item>("item", "Item", "what is paid on top of wages"),
    field<&BurdenRate::fromDate>("from_date", "From", "first day it holds"),
    field<&BurdenRate::compClass>("comp_class", "Comp class", "only for people of this workers' compensation class; blank for all others"),
    field<&BurdenRate::basis>("basis", "Basis", "per cent of pay, dollars per $100 of pay, or dollars per hour").defaulted(),
    field<&BurdenRate::rate>("rate", "Rate", "by the basis; blank until you know yours: ask whoever does your payroll").within(0, 10'000'000),
    field<&BurdenRate::wageBase>("wage_base", "Wage base", "a person's pay in a calendar year past which it stops; blank for none").in("$").within(0, mostMoney),
    field<&BurdenRate::onPremium>("on_premium", "On premium", "overtime premium counts as pay for it"),
    field<&BurdenRate::source>("source", "Source", "where the figure is from: the agency's notice, the policy"),
    field<&BurdenRate::note>("note", "Note", ""),
};
constexpr std::array<std::string_view, 3> burdenRateKey{"item", "from_date", "comp_class"};

constexpr std::array hoursFields{
    field<&Hours::person>("person", "Person", "who worked"),
    field<&Hours::date>("date", "Date", "the day worked"),
    field<&Hours::job>("job", "Job", "blank for shop time"),
    field<&Hours::pour>("pour", "Pour", "which pour of the job").scopedBy("job"),
    field<&Hours::phase>("phase", "Phase", "what was done"),
    field<&Hours::startedAt>("started_at", "Start", "wall time"),
    field<&Hours::endedAt>("ended_at", "Stop", "wall time; earlier than the start means past midnight"),
    field<&Hours::unpaidMinutes>("unpaid_minutes", "Lunch", "unpaid minutes between start and stop").in("min").within(0, 600),
    field<&Hours::minutes>("minutes", "Minutes", "paid minutes; from start, stop and lunch when left blank").in("min").within(0, 1440),
    field<&Hours::note>("note", "Note", ""),
};
constexpr std::array<std::string_view, 6> hoursKey{"person", "date", "job", "pour", "phase", "started_at"};

}

namespace fields {

constinit const KindDescription customer{RecordKind::customer, "customer", "Customer", "Customers", "who pays for the work", customerFields, customerKey, {}};
constinit const KindDescription site{RecordKind::site, "site", "Site", "Sites", "where a customer's work is", siteFields, siteKey, {}};
constinit const KindDescription lead{RecordKind::lead, "lead", "Lead", "Leads", "someone who asked for work", leadFields, leadKey, "L"};
constinit const KindDescription supplier{RecordKind::supplier, "supplier", "Supplier", "Suppliers", "who sends ready-mix and statements", supplierFields, supplierKey, {}};
constinit const KindDescription crewMember{RecordKind::crewMember, "crew_member", "Crew member", "Crew", "who works for the outfit", crewMemberFields, crewMemberKey, {}};
constinit const KindDescription payRate{RecordKind::payRate, "pay_rate", "Pay rate", "Pay rates", "straight pay per hour or day from a date on", payRateFields, payRateKey, {}};
constinit const KindDescription bonus{RecordKind::bonus, "bonus", "Bonus", "Bonuses", "pay on top of a person's rate, and when it was earned", bonusFields, bonusKey, {}};
constinit const KindDescription burdenRate{RecordKind::burdenRate, "burden_rate", "Burden rate", "Burden rates", "payroll taxes, insurance and the like on top of pay, from a date on", burdenRateFields, burdenRateKey, {}};
constinit const KindDescription hours{RecordKind::hours, "hours", "Hours", "Hours", "a person's time on one day, job and phase", hoursFields, hoursKey, {}};

}

}

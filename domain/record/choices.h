#pragma once

#include "record/field.h"

#include <array>

namespace strikeoff {

/// The enumerations of the trade with their codes in files and their words for people.

enum class CostClass { concrete, pump, base, forms, steel, jointFinish, sealer, labor, equipment, subcontract, travel, permitsDump, other };
inline constexpr std::array costClassChoices{
    Choice{"concrete", "Concrete"}, Choice{"pump", "Pump"}, Choice{"base", "Base"}, Choice{"forms", "Forms"}, Choice{"steel", "Steel"},
    Choice{"joint_finish", "Joint & finish materials"}, Choice{"sealer", "Sealer"}, Choice{"labor", "Labor"}, Choice{"equipment", "Equipment"},
    Choice{"subcontract", "Subcontract"}, Choice{"travel", "Travel"}, Choice{"permits_dump", "Permits & dump"}, Choice{"other", "Other"}};
template <> inline constexpr std::span<const Choice> choicesOf<CostClass> = costClassChoices;
inline constexpr std::size_t costClassCount = costClassChoices.size();

enum class Phase : std::uint8_t { prepForm, place, finish, stripCut, seal, travel, rework, shop };
inline constexpr std::array phaseChoices{
    Choice{"prep_form", "Prep & form"}, Choice{"place", "Place"}, Choice{"finish", "Finish"}, Choice{"strip_cut", "Strip & cut"},
    Choice{"seal", "Seal"}, Choice{"travel", "Travel"}, Choice{"rework", "Rework"}, Choice{"shop", "Shop"}};
template <> inline constexpr std::span<const Choice> choicesOf<Phase> = phaseChoices;

enum class LeadSource { referral, repeat, yardSign, webSearch, builder, neighbor, reseal, other };
inline constexpr std::array leadSourceChoices{
    Choice{"referral", "Referral"}, Choice{"repeat", "Repeat customer"}, Choice{"yard_sign", "Yard sign"}, Choice{"web_search", "Web search"},
    Choice{"builder", "Builder"}, Choice{"neighbor", "Neighbor of a job"}, Choice{"reseal", "Reseal call"}, Choice{"other", "Other"}};
template <> inline constexpr std::span<const Choice> choicesOf<LeadSource> = leadSourceChoices;

/// What a takeoff section is: a flat shape with a thickness, or a run or a hole whose volume comes from its cross-section.
enum class SectionShape { rectangle, triangle, trapezoid, circle, circularSegment, circularSector, polygon, thickenedEdge, footing, pier };
inline constexpr std::array sectionShapeChoices{
    Choice{"rectangle", "Rectangle"}, Choice{"triangle", "Triangle"}, Choice{"trapezoid", "Trapezoid"}, Choice{"circle", "Circle"},
    Choice{"circular_segment", "Circular segment"}, Choice{"circular_sector", "Circular sector"}, Choice{"polygon", "Polygon"},
    Choice{"thickened_edge", "Thickened edge"}, Choice{"footing", "Footing"}, Choice{"pier", "Pier"}};
template <> inline constexpr std::span<const Choice> choicesOf<SectionShape> = sectionShapeChoices;

enum class SurfaceFinish { broom, smooth, exposed, stamped, saltFinish };
inline constexpr std::array surfaceFinishChoices{Choice{"broom", "Broom"}, Choice{"smooth", "Smooth trowel"}, Choice{"exposed", "Exposed aggregate"},
                                                 Choice{"stamped", "Stamped"}, Choice{"salt", "Salt finish"}};
template <> inline constexpr std::span<const Choice> choicesOf<SurfaceFinish> = surfaceFinishChoices;

enum class ChargeKind { mix, option, load, shortLoad, waiting, saturday, afterHours, holiday, winter, returned, fuel, tax, discount };
inline constexpr std::array chargeKindChoices{
    Choice{"mix", "Mix"}, Choice{"option", "Option"}, Choice{"load", "Charge per load"}, Choice{"short_load", "Short load"},
    Choice{"waiting", "Waiting"}, Choice{"saturday", "Saturday"}, Choice{"after_hours", "After hours"}, Choice{"holiday", "Holiday"},
    Choice{"winter", "Winter service"}, Choice{"returned", "Returned concrete"}, Choice{"fuel", "Fuel surcharge"}, Choice{"tax", "Sales tax"},
    Choice{"discount", "Early-payment discount"}};
template <> inline constexpr std::span<const Choice> choicesOf<ChargeKind> = chargeKindChoices;

enum class ChargeUnit { perYard, perLoad, perYardUnder, perMinute, percent };
inline constexpr std::array chargeUnitChoices{Choice{"per_yard", "per yd\u00b3"}, Choice{"per_load", "per load"}, Choice{"per_yard_under", "per yd\u00b3 under"},
                                              Choice{"per_minute", "per minute"}, Choice{"percent", "per cent"}};
template <> inline constexpr std::span<const Choice> choicesOf<ChargeUnit> = chargeUnitChoices;

enum class FreeBasis { perYard, perLoad };
inline constexpr std::array freeBasisChoices{Choice{"per_yard", "per yd\u00b3"}, Choice{"per_load", "per load"}};
template <> inline constexpr std::span<const Choice> choicesOf<FreeBasis> = freeBasisChoices;

enum class ProductKind { cureAndSeal, penetrating, filmForming };
inline constexpr std::array productKindChoices{Choice{"cure_and_seal", "Cure-and-seal"}, Choice{"penetrating", "Penetrating"}, Choice{"film_forming", "Film-forming"}};
template <> inline constexpr std::span<const Choice> choicesOf<ProductKind> = productKindChoices;

enum class VisitKind { strip, cut, seal, walkThrough, resealCall };
inline constexpr std::array visitKindChoices{Choice{"strip", "Strip forms"}, Choice{"cut", "Cut joints"}, Choice{"seal", "Seal"},
                                             Choice{"walk_through", "Walk-through"}, Choice{"reseal_call", "Reseal call"}};
template <> inline constexpr std::span<const Choice> choicesOf<VisitKind> = visitKindChoices;

enum class InvoiceKind { deposit, progress, final, retainage };
inline constexpr std::array invoiceKindChoices{Choice{"deposit", "Deposit"}, Choice{"progress", "Progress"}, Choice{"final", "Final"}, Choice{"retainage", "Retainage released"}};
template <> inline constexpr std::span<const Choice> choicesOf<InvoiceKind> = invoiceKindChoices;

enum class PaymentMethod { check, cash, card, transfer, other };
inline constexpr std::array paymentMethodChoices{Choice{"check", "Check"}, Choice{"cash", "Cash"}, Choice{"card", "Card"}, Choice{"transfer", "Bank transfer"}, Choice{"other", "Other"}};
template <> inline constexpr std::span<const Choice> choicesOf<PaymentMethod> = paymentMethodChoices;

enum class Weekday { sunday, monday, tuesday, wednesday, thursday, friday, saturday };
inline constexpr std::array weekdayChoices{Choice{"sunday", "Sunday"}, Choice{"monday", "Monday"}, Choice{"tuesday", "Tuesday"}, Choice{"wednesday", "Wednesday"},
                                           Choice{"thursday", "Thursday"}, Choice{"friday", "Friday"}, Choice{"saturday", "Saturday"}};
template <> inline constexpr std::span<const Choice> choicesOf<Weekday> = weekdayChoices;

enum class PaperSize { letter, a4 };
inline constexpr std::array paperSizeChoices{Choice{"letter", "Letter (8.5 \u00d7 11 in)"}, Choice{"a4", "A4"}};
template <> inline constexpr std::span<const Choice> choicesOf<PaperSize> = paperSizeChoices;

enum class TaxBasis { line, document };
inline constexpr std::array taxBasisChoices{Choice{"line", "each line"}, Choice{"document", "the whole paper"}};
template <> inline constexpr std::span<const Choice> choicesOf<TaxBasis> = taxBasisChoices;

/// The unit clock times are rounded to before hours are counted; federal rules allow these when they even out (29 CFR 785.48).
enum class ClockRounding { none, five, six, fifteen };
inline constexpr std::array clockRoundingChoices{Choice{"none", "to the minute"}, Choice{"5", "5 minutes"}, Choice{"6", "6 minutes (tenths of an hour)"},
                                                 Choice{"15", "15 minutes"}};
template <> inline constexpr std::span<const Choice> choicesOf<ClockRounding> = clockRoundingChoices;

enum class OvertimeRule { weekly, daily };
inline constexpr std::array overtimeRuleChoices{Choice{"weekly", "over 40 h in the workweek"},
                                                Choice{"daily", "also over 8 and 12 h in a day, and the seventh day"}};
template <> inline constexpr std::span<const Choice> choicesOf<OvertimeRule> = overtimeRuleChoices;

/// Which hours of a week carry its overtime premium.
enum class PremiumSpread { week, pastLimit };
inline constexpr std::array premiumSpreadChoices{Choice{"week", "all hours of the week"}, Choice{"past_limit", "the hours past the limit"}};
template <> inline constexpr std::span<const Choice> choicesOf<PremiumSpread> = premiumSpreadChoices;

/// Whether the regular rate of a week is kept exact until the pay is rounded, or rounded to the cent (and the overtime rate after it) first.
enum class RateRounding { exact, cent };
inline constexpr std::array rateRoundingChoices{Choice{"exact", "the week's pay, once"}, Choice{"cent", "the rate first, to the cent"}};
template <> inline constexpr std::span<const Choice> choicesOf<RateRounding> = rateRoundingChoices;

/// What an hour costs on top of its pay.
enum class BurdenItem { socialSecurity, medicare, federalUnemployment, stateUnemployment, workersComp, liability, paidLeave, smallTools };
inline constexpr std::array burdenItemChoices{
    Choice{"social_security", "Social Security"}, Choice{"medicare", "Medicare"}, Choice{"federal_unemployment", "Federal unemployment"},
    Choice{"state_unemployment", "State unemployment"}, Choice{"workers_comp", "Workers' compensation"}, Choice{"liability", "Liability"},
    Choice{"paid_leave", "Paid leave"}, Choice{"small_tools", "Small tools"}};
template <> inline constexpr std::span<const Choice> choicesOf<BurdenItem> = burdenItemChoices;
inline constexpr std::size_t burdenItemCount = burdenItemChoices.size();

enum class BurdenBasis { percent, perHundred, perHour };
inline constexpr std::array burdenBasisChoices{Choice{"percent", "per cent of pay"}, Choice{"per_hundred", "$ per $100 of pay"}, Choice{"per_hour", "$ per hour"}};
template <> inline constexpr std::span<const Choice> choicesOf<BurdenBasis> = burdenBasisChoices;

}

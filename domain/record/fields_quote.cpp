#include "record/fields.h"
#include "record/quote.h"

namespace strikeoff {

Money QuoteLine::cost() const { return lineAmount(unitCost, quantity); }

Money QuoteLine::price(Rate markup) const
{
    if (unitPrice) return lineAmount(*unitPrice, quantity);
    const auto base = cost();
    return base + percentOf(base, markup);
}

namespace {

constexpr std::array quoteFields{
    field<&Quote::number>("number", "Number", "given by the book when left blank"),
    field<&Quote::issue>("issue", "Revision", "1 for the first, then counted up").within(1, 999).defaulted(),
    field<&Quote::job>("job", "Job", "which job is quoted"),
    field<&Quote::draftedOn>("drafted_on", "Drafted", "the day it was begun"),
    field<&Quote::sentOn>("sent_on", "Sent", "the day it went out; from then on it stays as it is"),
    field<&Quote::validUntil>("valid_until", "Valid until", "last day the price holds"),
    field<&Quote::acceptedOn>("accepted_on", "Accepted", "the day the customer said yes"),
    field<&Quote::declinedOn>("declined_on", "Declined", "the day the customer said no"),
    field<&Quote::declinedReason>("declined_reason", "Why declined", "price, timing, \u2026"),
    field<&Quote::scope>("scope", "Scope", "what is done, as the customer reads it").as(FieldType::note),
    field<&Quote::exclusions>("exclusions", "Not included", "what is not done").as(FieldType::note),
    field<&Quote::terms>("terms", "Terms", "payment and other terms").as(FieldType::note),
    field<&Quote::markup>("markup_pct", "Mark-up", "on the cost of lines without a price of their own").in("%").within(-1'000'000, 10'000'000).defaulted(),
    field<&Quote::taxRate>("tax_pct", "Sales tax", "by your state's rules").in("%").within(0, 1'000'000).defaulted(),
    field<&Quote::deposit>("deposit_pct", "Deposit", "asked for on acceptance").in("%").within(0, 1'000'000).defaulted(),
    field<&Quote::pourMonth>("pour_month", "Pour month", "any day of the month the pour is reckoned in"),
};
constexpr std::array<std::string_view, 2> quoteKey{"number", "issue"};

constexpr std::array quoteLineFields{
    field<&QuoteLine::quote>("quote", "Quote", "which quote and revision: Q1001/1"),
    field<&QuoteLine::position>("position", "No.", "place on the quote").within(1, 9999),
    field<&QuoteLine::costClass>("cost_class", "Class", "where the cost belongs"),
    field<&QuoteLine::phase>("phase", "Phase", "for labor: what the hours are for"),
    field<&QuoteLine::description>("description", "Description", "as the customer reads it").needed(),
    field<&QuoteLine::code>("code", "Code", "for concrete: the mix or option by the sheet's code"),
    field<&QuoteLine::quantity>("quantity", "Quantity", "yards, hours, square feet, \u2026").within(-1'000'000'000, 1'000'000'000).defaulted(),
    field<&QuoteLine::unit>("unit", "Unit", "yd, h, sf, ea, \u2026"),
    field<&QuoteLine::unitCost>("unit_cost", "Unit cost", "what one unit is reckoned to cost").in("$").within(-mostPrice, mostPrice).defaulted(),
    field<&QuoteLine::unitPrice>("unit_price", "Unit price", "what the customer pays for one unit; cost with mark-up when left blank").in("$").within(-mostPrice, mostPrice),
    field<&QuoteLine::taxable>("taxable", "Taxable", "sales tax is on it"),
};
constexpr std::array<std::string_view, 2> quoteLineKey{"quote", "position"};

}

namespace fields {

constinit const KindDescription quote{RecordKind::quote, "quote", "Quote", "Quotes", "a price offered for a job; a change after sending is a new revision", quoteFields, quoteKey, "Q"};
constinit const KindDescription quoteLine{RecordKind::quoteLine, "quote_line", "Quote line", "Quote lines", "one line of a quote", quoteLineFields, quoteLineKey, {}};

}

}

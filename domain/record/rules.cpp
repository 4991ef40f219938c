#include "record/rules.h"

#include "record/field_text.h"

#include <algorithm>

namespace strikeoff {

namespace {

template <class T>
void inOrder(const std::optional<T>& first, const std::optional<T>& second, std::string_view field, const char* message, const Report& report)
{
    if (first && second && *second < *first) report(field, message);
}

template <class T>
bool oneOfBoth(const std::optional<T>& a, const std::optional<T>& b) { return a && b; }

void check(const Book&, const Lead& lead, const Report& report)
{
    if (lead.calledOn && *lead.calledOn < lead.receivedOn) report("called_on", "Called is before the lead was received; correct one of the two days");
    if (lead.lostOn && *lead.lostOn < lead.receivedOn) report("lost_on", "Lost is before the lead was received; correct one of the two days");
}

void check(const Book& book, const Job& job, const Report& report)
{
    if (job.closedOn && *job.closedOn < job.openedOn) report("closed_on", "Closed is before the job was opened; correct one of the two days");
    if (job.droppedOn && *job.droppedOn < job.openedOn) report("dropped_on", "Dropped is before the job was opened; correct one of the two days");
    if (oneOfBoth(job.closedOn, job.droppedOn)) report("dropped_on", "a job is closed or dropped, not both; clear one of the two days");
    if (const auto* site = book.find(job.site); site && site->customer != job.customer) report("site", "the site belongs to another customer; choose one of this customer's");
}

void check(const Book&, const TakeoffSection& section, const Report& report)
{
    const auto need = [&](const auto& value, std::string_view field, const char* what) {
        if (!value) report(field, std::string{"this shape needs "} + what + "; fill it in");
    };
    switch (section.shape) {
    case SectionShape::polygon:
        if (section.points.empty()) report("points", "a polygon needs its corner points; fill them in");
        break;
    case SectionShape::trapezoid:
        need(section.secondLength, "second_length", "its second parallel side");
        [[fallthrough]];
    case SectionShape::rectangle:
    case SectionShape::triangle:
    case SectionShape::circularSegment:
    case SectionShape::circularSector:
    case SectionShape::thickenedEdge:
    case SectionShape::footing: need(section.width, "width", "a width, height, rise or arc"); [[fallthrough]];
    case SectionShape::circle:
    case SectionShape::pier: need(section.length, "length", "a length, diameter or radius"); break;
    }
    if (section.shape == SectionShape::circularSegment && section.length && section.width && *section.width > *section.length)
        report("width", "the rise of a segment cannot be more than its chord; measure again or use a circle and a deduction");
    if (section.shape == SectionShape::circularSector && section.length && section.width && section.width->feet() > 2 * 3.141592653589793 * section.length->feet())
        report("width", "the arc of a sector cannot be longer than its circle; measure again");
}

void check(const Book&, const ChangeOrder& order, const Report& report)
{
    if (order.acceptedOn && *order.acceptedOn < order.askedOn) report("accepted_on", "Accepted is before it was asked for; correct one of the two days");
    if (oneOfBoth(order.acceptedOn, order.declinedOn)) report("declined_on", "a change order is accepted or declined, not both; clear one of the two days");
}

void check(const Book&, const Pour& pour, const Report& report)
{
    if (pour.finishedAt && !pour.pouredOn) report("poured_on", "a finish time needs the day it was poured; fill it in");
}

void check(const Book& book, const Quote& quote, const Report& report)
{
    if (quote.sentOn && *quote.sentOn < quote.draftedOn) report("sent_on", "Sent is before it was drafted; correct one of the two days");
    inOrder(quote.sentOn, quote.validUntil, "valid_until", "Valid until is before it was sent; give a later day", report);
    if ((quote.acceptedOn || quote.declinedOn) && !quote.sentOn) report("sent_on", "an answer needs the day the quote was sent; fill it in");
    inOrder(quote.sentOn, quote.acceptedOn, "accepted_on", "Accepted is before it was sent; correct one of the two days", report);
    inOrder(quote.sentOn, quote.declinedOn, "declined_on", "Declined is before it was sent; correct one of the two days", report);
    if (oneOfBoth(quote.acceptedOn, quote.declinedOn)) report("declined_on", "a quote is accepted or declined, not both; clear one of the two days");
    if (quote.acceptedOn)
        for (const auto* other : book.referring<&Quote::job>(quote.job))
            if (other->id != quote.id && other->number == quote.number && other->acceptedOn)
                report("accepted_on", "revision " + std::to_string(other->issue) + " of this quote is accepted already; use a change order for more work");
}

void check(const Book&, const SheetCharge& charge, const Report& report)
{
    if (charge.fromYards && charge.toYards && *charge.toYards <= *charge.fromYards) report("to_yards", "To must be more than From; correct the range");
    if ((charge.charge == ChargeKind::mix || charge.charge == ChargeKind::option) && charge.code.empty()) report("code", "a mix or an option needs the code tickets use; fill it in");
    if (charge.unit == ChargeUnit::perYardUnder && !charge.toYards) report("to_yards", "a charge per yard under a size needs that size; fill in To");
    if (charge.seasonFrom.has_value() != charge.seasonTo.has_value()) report(charge.seasonFrom ? "season_to" : "season_from", "a season needs both its days; fill in the other one");
    if (charge.charge == ChargeKind::tax && charge.unit != ChargeUnit::percent) report("unit", "sales tax is in per cent; set the unit to percent");
    if (charge.freeMinutes && !charge.freeBasis) report("free_basis", "free minutes are per_yard or per_load; say which");
}

void check(const Book&, const Ticket& ticket, const Report& report)
{
    if (ticket.yards <= Yards{}) report("yards", "Yards must be more than zero; a load that was sent away whole has returned yards");
    if (ticket.returnedYards && *ticket.returnedYards > ticket.yards) report("returned_yards", "more was returned than the ticket carries; correct one of the two");
}

void check(const Book&, const Statement& statement, const Report& report)
{
    inOrder(statement.periodFrom, statement.periodTo, "period_to", "To is before From; correct one of the two days", report);
}

void check(const Book& book, const StatementLine& line, const Report& report)
{
    if (const auto* ticket = book.find(line.ticket))
        if (const auto* statement = book.find(line.statement); statement && ticket->supplier != statement->supplier)
            report("ticket", "the ticket is another supplier's; pair the line with one of this supplier's");
}

void check(const Book&, const Claim& claim, const Report& report)
{
    if (oneOfBoth(claim.creditedOn, claim.droppedOn)) report("dropped_on", "a claim is credited or let go, not both; clear one of the two days");
    if (claim.droppedOn && claim.droppedReason.empty()) report("dropped_reason", "say why the claim was let go");
}

void check(const Book&, const PayRate& rate, const Report& report)
{
    if (rate.dayRate && !rate.hourlyRate.isZero()) report("day_rate", "pay is by the hour or by the day, not both; clear one of the two");
    if (rate.dayRate && rate.phase) report("phase", "a day rate is for the whole day; clear the phase");
}

void check(const Book&, const Bonus& bonus, const Report& report)
{
    if (bonus.earnedTo < bonus.earnedFrom) report("earned_to", "Earned to is before Earned from; correct one of the two days");
    else if (bonus.earnedTo - bonus.earnedFrom > 366) report("earned_to", "a bonus is earned in a year at most; enter one for each year");
}

void check(const Book&, const BurdenRate& rate, const Report& report)
{
    if (rate.basis == BurdenBasis::perHour && rate.wageBase) report("wage_base", "an amount per hour has no wage base; clear it, or change the basis");
    if (rate.basis != BurdenBasis::perHour && rate.rate && *rate.rate > UnitPrice::ofWhole(100)) report("rate", "a burden of more than all the pay is a slip; correct the rate or the basis");
}

void check(const Book&, const Hours& hours, const Report& report)
{
    if (!hours.minutes && !(hours.startedAt && hours.endedAt)) report("minutes", "give the minutes worked, or a start and a stop");
    else if (const auto worked = hours.worked(); worked && *worked < Minutes{}) report("unpaid_minutes", "the unpaid minutes are more than the time between start and stop; correct one of them");
    if (hours.phase != Phase::shop && !hours.job) report("job", "this phase belongs to a job; name it, or write shop");
}

void check(const Book&, const FinishingProduct& product, const Report& report)
{
    inOrder(product.waitLeastHours, product.waitMostHours, "wait_most_hours", "the longest wait is shorter than the least; correct one of them", report);
}

void check(const Book&, const Visit& visit, const Report& report)
{
    inOrder(visit.notBefore, visit.due, "due", "Due is before Not before; correct one of the two days", report);
    inOrder(visit.due, visit.tooLate, "too_late", "Too late is before Due; correct one of the two days", report);
    if (oneOfBoth(visit.doneOn, visit.waivedOn)) report("waived_on", "a visit is done or waived, not both; clear one of the two days");
    if (visit.waivedOn && visit.waivedReason.empty()) report("waived_reason", "say why the visit is left out");
    if (visit.putOffOn && visit.putOffReason.empty()) report("put_off_reason", "say why the visit was put off");
    if (visit.pinned && !visit.plannedOn) report("planned_on", "a pinned visit needs the day it is pinned to; fill it in or take the pin out");
}

void check(const Book&, const Site& site, const Report& report)
{
    if (site.latitude.has_value() != site.longitude.has_value()) report(site.latitude ? "longitude" : "latitude", "a place needs latitude and longitude; fill in both or neither");
}

void check(const Book&, const Settings& settings, const Report& report)
{
    if (settings.shopLatitude.has_value() != settings.shopLongitude.has_value())
        report(settings.shopLatitude ? "shop_longitude" : "shop_latitude", "the shop needs latitude and longitude; fill in both or neither");
    inOrder(settings.visitsFrom, settings.visitsTo, "visits_to", "visits end before they begin; correct one of the two times", report);
}

void check(const Book&, const TownDrive& drive, const Report& report)
{
    if (drive.fromTown == drive.toTown) report("to_town", "a drive leads to another town; correct one of the two");
}

void check(const Book&, const DayForecast& day, const Report& report) { inOrder(day.lowF, day.highF, "high_f", "the high is below the low; correct one of them", report); }

void check(const Book&, const Invoice& invoice, const Report& report)
{
    if (invoice.issuedOn && *invoice.issuedOn < invoice.draftedOn) report("issued_on", "Issued is before it was drafted; correct one of the two days");
    inOrder(invoice.issuedOn, invoice.dueOn, "due_on", "Due is before it was issued; give a later day", report);
    if (invoice.issuedOn && !invoice.dueOn) report("due_on", "an issued invoice needs its due day; fill it in");
}

void checkShares(const Book& book, const Payment& payment, const Report& report)
{
    Money shared;
    for (const auto* share : book.referring<&PaymentShare::payment>(payment.id)) shared += share->amount;
    if (shared > payment.amount) report("amount", "$" + shared.shown() + " is split over invoices but only $" + payment.amount.shown() + " came in; lower a share");
}

void check(const Book& book, const Payment& payment, const Report& report) { checkShares(book, payment, report); }

void check(const Book& book, const PaymentShare& share, const Report& report)
{
    const auto* payment = book.find(share.payment);
    const auto* invoice = book.find(share.invoice);
    if (!payment || !invoice) return;
    checkShares(book, *payment, report);
    const auto* job = book.find(invoice->job);
    if (job && job->customer != payment->customer) report("invoice", "the invoice is another customer's; choose one of this customer's");
    if (!invoice->issuedOn) report("invoice", "the invoice has not been issued yet; issue it first");
}

void check(const Book& book, const Credit& credit, const Report& report)
{
    const auto* invoice = book.find(credit.invoice);
    if (invoice && !invoice->issuedOn) report("invoice", "an invoice that was not issued is changed, not credited");
}

template <class Record>
    requires requires(const Book& book, const Record& record, const Report& report) { check(book, record, report); }
void checkAs(const Book& book, const Row& row, const Report& report)
{
    check(book, *static_cast<const Record*>(book.find(row.kind, row.id)), report);
}

/// Whether anything but the named fields differs between two states of a row.
bool differsBeyond(const Row& before, const Row& after, std::initializer_list<std::string_view> allowed)
{
    const auto fields = describe(before.kind).fields;
    for (std::size_t i = 0; i < fields.size(); ++i)
        if (before.values[i] != after.values[i] && std::find(allowed.begin(), allowed.end(), fields[i].name) == allowed.end()) return true;
    return false;
}

bool recorded(const Row& row, std::string_view field) { return isRecorded(row.value(field)); }

/// Whether a line belongs to a paper that left the house. One that left without a line in the book (its lines come from another file) still takes
/// them, all in one edit.
template <auto Reference, class Paper>
bool linesAreFrozen(const Book& book, const Row& line, std::string_view field, std::optional<Date> Paper::*left,
                    const std::function<bool(RecordKind, std::int64_t)>& addedHere)
{
    const auto* id = std::get_if<std::int64_t>(&line.value(field));
    const auto* paper = id ? book.find(Id<Paper>{*id}) : nullptr;
    if (!paper || !(paper->*left) || addedHere(kindOf<Paper>, *id)) return false;
    if (!addedHere(line.kind, line.id)) return true;
    const auto lines = book.referring<Reference>(paper->id);
    return !std::all_of(lines.begin(), lines.end(), [&](const auto* other) { return addedHere(line.kind, other->id.value()); });
}

void checkSheetFrozen(const Book& book, const Row& row, const std::function<bool(RecordKind, std::int64_t)>& addedHere, const Report& report)
{
    const auto charge = recordOf<SheetCharge>(row);
    bool stood = !addedHere(row.kind, row.id);
    std::optional<Date> later;
    for (const auto* other : book.referring<&SheetCharge::supplier>(charge.supplier)) {
        if (addedHere(row.kind, other->id.value())) continue;
        if (other->effectiveOn == charge.effectiveOn) stood = true;
        if (other->effectiveOn > charge.effectiveOn && (!later || other->effectiveOn < *later)) later = other->effectiveOn;
    }
    if (stood && later)
        report("effective_on", "the sheet of " + charge.effectiveOn.shown() + " was superseded by the one of " + later->shown() + " and stays as it is; enter a new sheet");
}

}

void checkRow(const Book& book, const Row& row, const Report& report)
{
    switch (row.kind) {
    case RecordKind::settings: return checkAs<Settings>(book, row, report);
    case RecordKind::site: return checkAs<Site>(book, row, report);
    case RecordKind::lead: return checkAs<Lead>(book, row, report);
    case RecordKind::job: return checkAs<Job>(book, row, report);
    case RecordKind::takeoffSection: return checkAs<TakeoffSection>(book, row, report);
    case RecordKind::changeOrder: return checkAs<ChangeOrder>(book, row, report);
    case RecordKind::pour: return checkAs<Pour>(book, row, report);
    case RecordKind::quote: return checkAs<Quote>(book, row, report);
    case RecordKind::priceSheet: return checkAs<SheetCharge>(book, row, report);
    case RecordKind::ticket: return checkAs<Ticket>(book, row, report);
    case RecordKind::statement: return checkAs<Statement>(book, row, report);
    case RecordKind::statementLine: return checkAs<StatementLine>(book, row, report);
    case RecordKind::claim: return checkAs<Claim>(book, row, report);
    case RecordKind::payRate: return checkAs<PayRate>(book, row, report);
    case RecordKind::bonus: return checkAs<Bonus>(book, row, report);
    case RecordKind::burdenRate: return checkAs<BurdenRate>(book, row, report);
    case RecordKind::hours: return checkAs<Hours>(book, row, report);
    case RecordKind::finishingProduct: return checkAs<FinishingProduct>(book, row, report);
    case RecordKind::visit: return checkAs<Visit>(book, row, report);
    case RecordKind::forecast: return checkAs<DayForecast>(book, row, report);
    case RecordKind::townDrive: return checkAs<TownDrive>(book, row, report);
    case RecordKind::invoice: return checkAs<Invoice>(book, row, report);
    case RecordKind::payment: return checkAs<Payment>(book, row, report);
    case RecordKind::paymentShare: return checkAs<PaymentShare>(book, row, report);
    case RecordKind::credit: return checkAs<Credit>(book, row, report);
    case RecordKind::customer:
    case RecordKind::jobType:
    case RecordKind::supplier:
    case RecordKind::crewMember:
    case RecordKind::quoteLine:
    case RecordKind::receipt:
    case RecordKind::overhead:
    case RecordKind::invoiceLine: return;  // their fields alone say all there is to check
    }
}

void checkFrozen(const Book& book, const Applied& change, const std::function<bool(RecordKind, std::int64_t)>& addedHere, const Report& report)
{
    const auto& before = change.before;
    const auto& after = change.after;
    switch (change.kind()) {
    case RecordKind::quote:
        if (!before || !recorded(*before, "sent_on")) return;
        if (!after) report("", "this quote was sent and stays in the book; make a new revision");
        else if (differsBeyond(*before, *after, {"accepted_on", "declined_on", "declined_reason"})) report("sent_on", "this quote was sent and stays as it is; make a new revision");
        return;
    case RecordKind::invoice:
        if (before && after && !recorded(*before, "issued_on") && recorded(*after, "issued_on") && book.referring<&InvoiceLine::invoice>(Id<Invoice>{after->id}).empty())
            report("issued_on", "an invoice without lines cannot be issued; write what it bills first");
        if (!before || !recorded(*before, "issued_on")) return;
        if (!after) report("", "this invoice was issued and stays in the book; write a credit");
        else if (differsBeyond(*before, *after, {"note"})) report("issued_on", "this invoice was issued and stays as it is; write a credit");
        return;
    case RecordKind::quoteLine:
        for (const auto& line : {before, after})
            if (line && linesAreFrozen<&QuoteLine::quote>(book, *line, "quote", &Quote::sentOn, addedHere))
                return report("quote", "the quote was sent and stays as it is; make a new revision");
        return;
    case RecordKind::invoiceLine:
        for (const auto& line : {before, after})
            if (line && linesAreFrozen<&InvoiceLine::invoice>(book, *line, "invoice", &Invoice::issuedOn, addedHere))
                return report("invoice", "the invoice was issued and stays as it is; write a credit");
        return;
    case RecordKind::priceSheet: checkSheetFrozen(book, before ? *before : *after, addedHere, report); return;
    default: return;
    }
}

}

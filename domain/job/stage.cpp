#include "job/stage.h"

#include "billing/billing.h"
#include "cost/ticket_billing.h"

#include <algorithm>

namespace strikeoff {

namespace {

bool isWorkDone(const std::vector<const Pour*>& pours, const JobBilling& billing, bool placed)
{
    if (!billing.inFull) return false;
    if (!billing.lastFinal)
        return placed && std::all_of(pours.begin(), pours.end(), [](const Pour* pour) { return pour->pouredOn.has_value(); });
    return std::none_of(pours.begin(), pours.end(), [&](const Pour* pour) {
        return !pour->pouredOn && pour->plannedOn && *pour->plannedOn > *billing.lastFinal;
    });
}

bool hasOpenVisit(const Book& book, Id<Job> job)
{
    const auto visits = book.referring<&Visit::job>(job);
    return std::any_of(visits.begin(), visits.end(),
                       [](const Visit* visit) { return visit->isOpen() && visit->kind != VisitKind::resealCall; });
}

bool wasTurnedDown(const Book& book, const Job& job, const std::vector<const Quote*>& quotes)
{
    if (const auto* lead = book.find(job.lead); lead && lead->lostOn) return true;
    if (quotes.empty()) return false;
    return std::all_of(quotes.begin(), quotes.end(), [&](const Quote* quote) {
        return quote->declinedOn || std::any_of(quotes.begin(), quotes.end(), [&](const Quote* other) {
                   return other->number == quote->number && other->issue > quote->issue;
               });
    });
}

}

Stage stageOf(const Book& book, const Job& job)
{
    if (job.droppedOn) return Stage::dropped;
    if (job.closedOn) return Stage::closed;

    const auto billing = billingOf(book, job.id);
    const auto pours = book.referring<&Pour::job>(job.id);
    const bool placed = std::any_of(pours.begin(), pours.end(), [](const Pour* pour) { return pour->pouredOn.has_value(); }) ||
                        !ticketsOf(book, job.id).empty();
    if (isWorkDone(pours, billing, placed)) {
        if (hasOpenVisit(book, job.id)) return Stage::returning;
        return billing.balance > Money{} || billing.retainageHeld > Money{} ? Stage::billed : Stage::paid;
    }
    if (placed) {
        if (std::any_of(pours.begin(), pours.end(), [](const Pour* pour) { return !pour->pouredOn; })) return Stage::inWork;
        return hasOpenVisit(book, job.id) ? Stage::returning : Stage::poured;
    }

    const auto quotes = book.referring<&Quote::job>(job.id);
    const bool accepted =
        std::any_of(quotes.begin(), quotes.end(), [](const Quote* quote) { return quote->acceptedOn.has_value(); });
    if (!accepted && !billing.anyIssued && wasTurnedDown(book, job, quotes)) return Stage::declined;

    const auto hours = book.referring<&Hours::job>(job.id);
    if (std::any_of(hours.begin(), hours.end(), [](const Hours* row) { return row->phase != Phase::travel; })) return Stage::inWork;

    const auto orders = book.referring<&ChangeOrder::job>(job.id);
    const bool won = accepted || billing.anyIssued || std::any_of(orders.begin(), orders.end(), [](const ChangeOrder* order) {
                         return order->acceptedOn.has_value();
                     });
    if (won || quotes.empty()) {
        if (std::any_of(pours.begin(), pours.end(), [](const Pour* pour) { return pour->plannedOn.has_value(); }))
            return Stage::planned;
        if (won) return Stage::awarded;
        return Stage::measuring;
    }
    return unansweredQuote(book, job.id) ? Stage::quoted : Stage::drafted;
}

bool isOpenStage(Stage stage)
{
    return stage != Stage::declined && stage != Stage::dropped && stage != Stage::closed && stage != Stage::paid;
}

}

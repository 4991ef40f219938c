#include "billing/billing.h"
#include "cost/ticket_billing.h"
#include "job/stage.h"
#include "job/steps.h"
#include "quantity/words.h"
#include "visits/windows.h"

#include <algorithm>

namespace strikeoff {

namespace {

/// The pour to do next: the earliest planned one not yet poured, else the first without a day.
const Pour* nextPour(const Book& book, Id<Job> job)
{
    const Pour* next = nullptr;
    for (const auto* pour : book.referring<&Pour::job>(job)) {
        if (pour->pouredOn) continue;
        if (!next || (pour->plannedOn && (!next->plannedOn || *pour->plannedOn < *next->plannedOn))) next = pour;
    }
    return next;
}

std::string pourText(const Book& book, Id<Job> job)
{
    const auto* pour = nextPour(book, job);
    if (!pour) return "set a pour date";
    const auto pours = book.referring<&Pour::job>(job).size();
    const std::string which = pours > 1 ? " " + std::to_string(pour->sequence) : "";
    if (!pour->plannedOn) return pours > 1 ? "set a date for pour" + which : "set a pour date";
    return "pour" + which + " on " + pour->plannedOn->shownShort();
}

std::string_view doing(VisitKind kind)
{
    switch (kind) {
    case VisitKind::strip: return "strip the forms";
    case VisitKind::cut: return "cut the joints";
    case VisitKind::seal: return "seal";
    case VisitKind::walkThrough: return "walk through with the customer";
    case VisitKind::resealCall: return "call about resealing";
    }
    return "go back";
}

std::optional<Date> dayOf(const Visit& visit)
{
    for (const auto& day : {visit.plannedOn, visit.due, visit.tooLate, visit.notBefore})
        if (day) return day;
    return std::nullopt;
}

std::optional<Visit> nextVisit(const Book& book, Id<Job> job, bool resealCall)
{
    const VisitWindows windows{book};
    std::optional<Visit> next;
    for (const auto* visit : book.referring<&Visit::job>(job)) {
        if (!visit->isOpen() || (visit->kind == VisitKind::resealCall) != resealCall) continue;
        const auto inDays = windows.inDays(*visit);
        const auto day = dayOf(inDays);
        if (!next || (day && (!dayOf(*next) || *day < *dayOf(*next)))) next = inDays;
    }
    return next;
}

std::string visitText(const Visit& visit)
{
    std::string text{doing(visit.kind)};
    if (visit.plannedOn) return text + " on " + visit.plannedOn->shownShort();
    if (visit.due) return text + " by " + (visit.kind == VisitKind::resealCall ? visit.due->shown() : visit.due->shownShort());
    if (visit.tooLate) return text + " before " + visit.tooLate->shownShort();
    if (visit.notBefore) return text + " from " + visit.notBefore->shownShort() + " on";
    return text;
}

std::string billText(const Book& book, const Job& job)
{
    const auto billing = billingOf(book, job.id);
    return billing.draft ? "issue invoice " + billing.draft->number : "bill it";
}

std::string afterPour(const Book& book, const Job& job)
{
    if (ticketsOf(book, job.id).empty()) return "enter the tickets, then bill it";
    return billText(book, job);
}

std::string collectText(const Book& book, const Job& job)
{
    const auto billing = billingOf(book, job.id);
    if (billing.balance > Money{}) {
        std::optional<Date> due;
        for (const auto* invoice : book.referring<&Invoice::job>(job.id))
            if (invoice->issuedOn && totalOf(book, *invoice).balance > Money{})
                due = due ? std::min(*due, dueDay(book, *invoice)) : dueDay(book, *invoice);
        return "collect " + dollars(billing.balance) + (due ? ", due " + due->shown() : "");
    }
    if (billing.draft) return "issue invoice " + billing.draft->number;
    return "bill the retainage, " + dollars(billing.retainageHeld);
}

std::string afterAward(const Book& book, const Job& job)
{
    const auto billing = billingOf(book, job.id);
    if (billing.draft) return "issue invoice " + billing.draft->number;
    const auto* quote = acceptedQuote(book, job.id);
    if (quote && quote->deposit > Rate{} && !billing.anyIssued) return "bill the deposit";
    return pourText(book, job.id);
}

}

std::string nextThing(const Book& book, const Job& job, Stage stage)
{
    switch (stage) {
    case Stage::measuring: return book.referring<&TakeoffSection::job>(job.id).empty() ? "measure it" : "write the quote";
    case Stage::drafted:
        if (const auto* quote = currentQuote(book, job.id)) return "send quote " + quoteName(*quote);
        return "write the quote";
    case Stage::quoted:
        if (const auto* quote = unansweredQuote(book, job.id)) return "call back about quote " + quoteName(*quote);
        return "call back";
    case Stage::awarded: return afterAward(book, job);
    case Stage::planned:
    case Stage::inWork: return pourText(book, job.id);
    case Stage::poured: return afterPour(book, job);
    case Stage::returning:
        if (const auto visit = nextVisit(book, job.id, false)) return visitText(*visit);
        return billText(book, job);
    case Stage::billed: return collectText(book, job);
    case Stage::paid: return "close the folder";
    case Stage::closed:
        if (const auto visit = nextVisit(book, job.id, true)) return visitText(*visit);
        return "";
    case Stage::declined:
    case Stage::dropped: return "";
    }
    return "";
}

}

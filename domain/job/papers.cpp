#include "job/papers.h"

#include "billing/billing.h"
#include "cost/ticket_billing.h"
#include "job/stage.h"
#include "job/steps.h"
#include "quantity/words.h"
#include "takeoff/takeoff.h"
#include "visits/windows.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

std::string countedUp(std::size_t count, std::string_view one, std::string_view many) { return counted(static_cast<std::int64_t>(count), one, many); }

FolderPaper leadPaper(const Book& book, const Job& job)
{
    FolderPaper paper;
    const auto* lead = book.find(job.lead);
    if (!lead) return paper;
    paper.figure = lead->receivedOn.shown();
    paper.detail = labelOf(lead->source);
    // Whoever has a quote was called back, whether that was written down or not.
    paper.state = lead->calledOn || lead->lostOn || currentQuote(book, job.id) ? PaperState::done : PaperState::inWork;
    if (lead->lostOn) paper.detail = "lost " + lead->lostOn->shown();
    return paper;
}

FolderPaper takeoffPaper(const Book& book, const Job& job)
{
    FolderPaper paper;
    if (book.referring<&TakeoffSection::job>(job.id).empty()) return paper;
    const auto takeoff = takeoffOf(book, job.id);
    paper.state = takeoff.faults.empty() ? PaperState::done : PaperState::inWork;
    paper.figure = Area::ofUnits(std::llround(takeoff.areaSqft * 100)).shown(0) + " sq ft";
    paper.detail = takeoff.faults.empty() ? "order " + takeoff.ordered.shown(2) + " yd\u00b3" : countedUp(takeoff.faults.size(), "fault", "faults");
    return paper;
}

FolderPaper quotePaper(const Book& book, const Job& job)
{
    FolderPaper paper;
    const auto* quote = currentQuote(book, job.id);
    if (!quote) return paper;
    const auto bid = bidOf(book, job.id);
    paper.figure = dollars(bid ? bid->price : Money{});
    paper.state = quote->acceptedOn || quote->declinedOn ? PaperState::done : PaperState::inWork;
    if (quote->acceptedOn) paper.detail = "accepted " + quote->acceptedOn->shown();
    else if (quote->declinedOn) paper.detail = "declined " + quote->declinedOn->shown();
    else if (quote->sentOn) paper.detail = "sent " + quote->sentOn->shown();
    else paper.detail = "draft, not sent";
    return paper;
}

FolderPaper poursPaper(const Book& book, const Job& job)
{
    FolderPaper paper;
    const auto pours = book.referring<&Pour::job>(job.id);
    if (pours.empty()) return paper;
    std::optional<Date> last;
    std::optional<Date> next;
    std::size_t poured = 0;
    for (const auto* pour : pours) {
        if (pour->pouredOn) {
            ++poured;
            last = last ? std::max(*last, *pour->pouredOn) : *pour->pouredOn;
        } else if (pour->plannedOn) {
            next = next ? std::min(*next, *pour->plannedOn) : *pour->plannedOn;
        }
    }
    paper.state = poured == pours.size() ? PaperState::done : PaperState::inWork;
    paper.figure = pours.size() == 1 ? (poured ? "poured" : "not poured yet") : std::to_string(poured) + " of " + std::to_string(pours.size()) + " poured";
    if (next) paper.detail = "planned " + next->shown();
    else if (last) paper.detail = last->shown();
    else paper.detail = "no day yet";
    return paper;
}

FolderPaper workPaper(const Book& book, const Job& job, const JobCost& cost)
{
    FolderPaper paper;
    const auto tickets = ticketsOf(book, job.id).size();
    const auto receipts = book.referring<&Receipt::job>(job.id).size();
    if (tickets == 0 && receipts == 0 && book.referring<&Hours::job>(job.id).empty()) return paper;
    paper.state = cost.open ? PaperState::inWork : PaperState::done;
    paper.figure = dollars(cost.actualCost);
    std::vector<std::string> parts;
    if (tickets > 0) parts.push_back(countedUp(tickets, "ticket", "tickets"));
    if (cost.crewMinutes > Minutes{}) parts.push_back(cost.crewMinutes.shown() + " h");
    if (parts.empty()) parts.push_back(countedUp(receipts, "receipt", "receipts"));
    paper.detail = listed(parts);
    return paper;
}

FolderPaper visitsPaper(const Book& book, const Job& job)
{
    FolderPaper paper;
    std::size_t count = 0;
    std::size_t open = 0;
    std::optional<Visit> next;
    const VisitWindows windows{book};
    for (const auto* visit : book.referring<&Visit::job>(job.id)) {
        if (visit->kind == VisitKind::resealCall) continue;  // years away
        ++count;
        if (!visit->isOpen()) continue;
        ++open;
        if (const auto inDays = windows.inDays(*visit); inDays.due && (!next || *inDays.due < *next->due)) next = inDays;
    }
    if (count == 0) return paper;
    paper.state = open > 0 ? PaperState::inWork : PaperState::done;
    paper.figure = std::to_string(count - open) + " of " + std::to_string(count) + " over";
    if (next) paper.detail = capitalized(std::string{labelOf(next->kind)}) + " by " + next->due->shownShort();
    return paper;
}

FolderPaper invoicesPaper(const Book& book, const Job& job, const JobCost& cost)
{
    FolderPaper paper;
    if (book.referring<&Invoice::job>(job.id).empty()) return paper;
    const auto billing = billingOf(book, job.id);
    const bool settled = billing.inFull && billing.balance <= Money{} && billing.retainageHeld <= Money{} && !billing.draft;
    paper.state = settled ? PaperState::done : PaperState::inWork;
    paper.figure = dollars(cost.billed);
    if (billing.draft) paper.detail = billing.draft->number + " not issued";
    else if (billing.balance > Money{}) paper.detail = dollars(billing.balance) + " owed";
    else if (billing.retainageHeld > Money{}) paper.detail = dollars(billing.retainageHeld) + " retained";
    else paper.detail = settled ? "paid" : "paid so far";
    return paper;
}

FolderPaper resultPaper(const JobCost& cost)
{
    FolderPaper paper;
    if (!cost.grossProfit || (cost.actualCost.isZero() && cost.billed.isZero())) return paper;
    paper.state = cost.open || cost.stage == Stage::billed ? PaperState::inWork : PaperState::done;
    paper.figure = dollars(*cost.grossProfit);
    paper.detail = cost.open ? "so far" : "gross profit";
    return paper;
}

}

std::array<FolderPaper, paperCount> folderPapers(const Book& book, const Job& job, const JobCost& cost)
{
    std::array<FolderPaper, paperCount> papers{leadPaper(book, job), takeoffPaper(book, job), quotePaper(book, job), poursPaper(book, job),
                                               workPaper(book, job, cost), visitsPaper(book, job), invoicesPaper(book, job, cost), resultPaper(cost)};
    for (std::size_t i = 0; i < papers.size(); ++i) papers[i].kind = static_cast<PaperKind>(i);
    return papers;
}

PaperKind paperOfNextThing(const Book& book, const Job& job, Stage stage)
{
    switch (stage) {
    case Stage::measuring: return book.referring<&TakeoffSection::job>(job.id).empty() ? PaperKind::takeoff : PaperKind::quote;
    case Stage::drafted:
    case Stage::quoted:
    case Stage::declined: return PaperKind::quote;
    case Stage::awarded: {
        const auto billing = billingOf(book, job.id);
        const auto* quote = acceptedQuote(book, job.id);
        return billing.draft || (quote && quote->deposit > Rate{} && !billing.anyIssued) ? PaperKind::invoices : PaperKind::pours;
    }
    case Stage::planned:
    case Stage::inWork: return PaperKind::pours;
    case Stage::poured: return ticketsOf(book, job.id).empty() ? PaperKind::work : PaperKind::invoices;
    case Stage::returning: return PaperKind::visits;
    case Stage::billed: return PaperKind::invoices;
    case Stage::paid:
    case Stage::closed: return PaperKind::result;
    case Stage::dropped: return PaperKind::lead;
    }
    return PaperKind::lead;
}

std::string jobAnswer(const Book& book, const JobCost& cost)
{
    std::string text{labelOf(cost.stage)};
    std::vector<std::string> parts;
    if (cost.bidPrice) parts.push_back("bid " + dollars(*cost.bidPrice));
    if (!cost.actualCost.isZero()) parts.push_back("cost " + dollars(cost.actualCost) + (cost.bidPrice ? " of " + dollars(cost.bidCost) + " reckoned" : ""));
    if (!cost.billed.isZero()) parts.push_back("billed " + dollars(cost.billed));
    if (!cost.paid.isZero()) parts.push_back("received " + dollars(cost.paid));
    if (!parts.empty()) text += ": " + listed(parts);
    if (cost.grossProfit && !cost.actualCost.isZero()) text += "; gross profit " + std::string{cost.open ? "so far " : ""} + dollars(*cost.grossProfit);
    if (const auto next = nextThing(book, *cost.job, cost.stage); !next.empty()) text += ". Next: " + next;
    return text;
}

}

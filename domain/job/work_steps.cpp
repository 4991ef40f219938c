#include "billing/billing.h"
#include "job/stage.h"
#include "job/steps.h"
#include "takeoff/takeoff.h"
#include "visits/needed_visits.h"

#include <algorithm>
#include <map>

namespace strikeoff {

namespace {

template <class Record>
Step changed(std::string title, const Record& record)
{
    Step step;
    Edit edit{std::move(title)};
    edit.change(record);
    step.edit = std::move(edit);
    return step;
}

}

Pour proposedPour(const Book& book, const Job& job)
{
    Pour next;
    next.job = job.id;
    next.sequence = 1;
    auto left = takeoffOf(book, job.id).ordered;
    for (const auto* pour : book.referring<&Pour::job>(job.id)) {
        next.sequence = std::max(next.sequence, pour->sequence + 1);
        left -= pour->orderedYards.value_or(Yards{});
        if (pour->supplier) next.supplier = pour->supplier;
        if (!pour->mix.empty()) next.mix = pour->mix;
    }
    if (left > Yards{}) next.orderedYards = left;
    if (const auto* type = book.find(job.jobType)) next.product = type->product;
    if (next.mix.empty())
        if (const auto* quote = currentQuote(book, job.id))
            for (const auto* line : book.referring<&QuoteLine::quote>(quote->id))
                if (line->costClass == CostClass::concrete && !line->code.empty() && next.mix.empty()) next.mix = line->code;
    if (!next.supplier && !next.mix.empty())  // whoever has the mix on a sheet
        for (const auto& charge : book.all<SheetCharge>())
            if (charge.charge == ChargeKind::mix && charge.code == next.mix) next.supplier = charge.supplier;
    return next;
}

Step finishPour(const Book& book, const Pour& pour, Date day)
{
    if (pour.pouredOn) return Step::refused("Pour " + std::to_string(pour.sequence) + " was poured on " + pour.pouredOn->shown());
    auto poured = pour;
    poured.pouredOn = day;
    const auto* job = book.find(pour.job);
    auto step = changed("Pour " + (job ? job->number : std::string{"the job"}) + "/" + std::to_string(pour.sequence), poured);
    addVisits(*step.edit, missingWhenPoured(book, poured));
    return step;
}

Step writeInvoice(const Book& book, const Job& job, InvoiceKind kind, Date day)
{
    for (const auto* invoice : book.referring<&Invoice::job>(job.id))
        if (!invoice->issuedOn) return Step::refused("Invoice " + invoice->number + " is still a draft; issue or remove that one first");
    const auto draft = draftInvoice(book, job, kind, day);
    if (!draft) {
        if (kind != InvoiceKind::retainage && !acceptedQuote(book, job.id)) return Step::refused("There is no accepted quote to bill by; accept one first");
        switch (kind) {
        case InvoiceKind::deposit: return Step::refused("There is no deposit left to bill");
        case InvoiceKind::progress: return Step::refused("Nothing poured is left to bill");
        case InvoiceKind::final: return Step::refused("Nothing is left to bill");
        case InvoiceKind::retainage: return Step::refused("No retainage is held");
        }
    }
    Edit edit{"Draft the " + std::string{codeOf(kind)} + " invoice of job " + job.number};
    const auto id = edit.add(draft->invoice);
    for (auto line : draft->lines) {
        line.invoice = id;
        edit.add(line);
    }
    Step step;
    step.edit = std::move(edit);
    return step;
}

Step issueInvoice(const Book& book, const Invoice& invoice, Date day)
{
    if (invoice.issuedOn) return Step::refused("Invoice " + invoice.number + " was issued on " + invoice.issuedOn->shown());
    if (book.referring<&InvoiceLine::invoice>(invoice.id).empty()) return Step::refused("Invoice " + invoice.number + " has no lines yet; write them first");
    auto issued = invoice;
    issued.issuedOn = std::max(day, invoice.draftedOn);
    if (invoice.dueOn && *invoice.dueOn >= invoice.draftedOn) issued.dueOn = daysOn(*issued.issuedOn, *invoice.dueOn - invoice.draftedOn);
    if (!issued.dueOn) issued.dueOn = dueDay(book, issued);
    return changed("Issue invoice " + invoice.number, issued);
}

void addShares(Edit& edit, const Book& book, const Payment& payment)
{
    for (const auto& [invoice, amount] : spreadPayment(book, payment.customer, payment.amount, payment.receivedOn)) {
        PaymentShare share;
        share.payment = payment.id;
        share.invoice = invoice;
        share.amount = amount;
        edit.add(share);
    }
}

void addShares(Edit& edit, Id<Payment> payment, std::span<const SplitLine> lines)
{
    for (const auto& line : lines) {
        if (line.share.isZero()) continue;
        PaymentShare share;
        share.payment = payment;
        share.invoice = line.invoice;
        share.amount = line.share;
        edit.add(share);
    }
}

Step changeSplit(const Book& book, const Payment& payment, std::span<const SplitLine> lines)
{
    if (const auto sum = addUp(payment.amount, lines); !sum.addsUp) return Step::refused(sum.sentence);
    Edit edit{"Split payment " + payment.number + " over invoices"};
    std::vector<SplitLine> fresh{lines.begin(), lines.end()};
    for (const auto* share : book.referring<&PaymentShare::payment>(payment.id)) {
        const auto line = std::find_if(fresh.begin(), fresh.end(), [&](const SplitLine& one) { return one.invoice == share->invoice; });
        if (line == fresh.end() || line->share.isZero()) {
            edit.remove(*share);
        } else if (line->share != share->amount) {
            auto changedShare = *share;
            changedShare.amount = line->share;
            edit.change(changedShare);
        }
        if (line != fresh.end()) fresh.erase(line);
    }
    addShares(edit, payment.id, fresh);
    if (edit.empty()) return Step::refused("The split is already like that");
    Step step;
    step.edit = std::move(edit);
    return step;
}

Step closeJob(const Book& book, const Job& job, Date day)
{
    if (job.closedOn) return Step::refused("This job was closed on " + job.closedOn->shown());
    if (job.droppedOn) return Step::refused("This job was dropped on " + job.droppedOn->shown());
    if (const auto billing = billingOf(book, job.id); billing.balance > Money{}) return Step::refused("Money is still owed on this job; collect it, or write a credit");
    auto closed = job;
    closed.closedOn = std::max(day, job.openedOn);
    return changed("Close job " + job.number, closed);
}

Step dropJob(const Book& book, const Job& job, const std::string& reason, Date day)
{
    if (job.droppedOn) return Step::refused("This job was dropped on " + job.droppedOn->shown());
    if (job.closedOn) return Step::refused("This job was closed on " + job.closedOn->shown());
    if (billingOf(book, job.id).balance > Money{}) return Step::refused("Money is still owed on this job; collect it, or write a credit");
    if (reason.empty()) return Step::refused("Say in a few words why the job is dropped");
    auto dropped = job;
    dropped.droppedOn = std::max(day, job.openedOn);
    dropped.droppedReason = reason;
    return changed("Drop job " + job.number, dropped);
}

std::vector<std::string> reasonsGiven(const Book& book)
{
    std::map<std::string, int> counts;
    const auto count = [&counts](const std::string& reason) {
        if (!reason.empty()) ++counts[reason];
    };
    for (const auto& quote : book.all<Quote>()) count(quote.declinedReason);
    for (const auto& job : book.all<Job>()) count(job.droppedReason);
    for (const auto& lead : book.all<Lead>()) count(lead.lostReason);
    std::vector<std::pair<std::string, int>> sorted(counts.begin(), counts.end());
    std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
    std::vector<std::string> reasons;
    for (auto& [reason, times] : sorted) reasons.push_back(std::move(reason));
    return reasons;
}

}

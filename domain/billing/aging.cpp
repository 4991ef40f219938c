#include "billing/billing.h"
#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

AgingBucket bucketOf(int daysLate)
{
    if (daysLate <= 0) return AgingBucket::notDue;
    if (daysLate <= 30) return AgingBucket::days1to30;
    if (daysLate <= 60) return AgingBucket::days31to60;
    if (daysLate <= 90) return AgingBucket::days61to90;
    return AgingBucket::over90;
}

Money simpleInterest(Money principal, Rate yearly, int days, int yearDays)
{
    return Money::ofCents(
        divideHalfUp(static_cast<Int128>(principal.cents()) * yearly.units() * days, static_cast<Int128>(1'000'000) * yearDays));
}

namespace {

Money unassignedOn(const Book& book, Date day)
{
    Money left;
    for (const auto& payment : book.all<Payment>()) {
        if (payment.receivedOn > day) continue;
        left += payment.amount;
        for (const auto* share : book.referring<&PaymentShare::payment>(payment.id)) left -= share->amount;
    }
    return left;
}

std::string answerFor(const Owed& owed)
{
    int open = 0;
    int late = 0;
    Money openSum;
    Money lateSum;
    Money owedBack;
    const OwedInvoice* latest = nullptr;
    for (const auto& one : owed.invoices) {
        if (one.balance < Money{}) {
            owedBack -= one.balance;
            continue;
        }
        ++open;
        openSum += one.balance;
        if (one.daysLate <= 0) continue;
        ++late;
        lateSum += one.balance;
        if (!latest || one.daysLate > latest->daysLate) latest = &one;
    }
    std::string text;
    if (open == 0) text = "Nobody owes you anything";
    else text = capitalized(counted(open, "invoice is", "invoices are")) + " open for " + dollars(openSum);
    if (late == 1 && open == 1) text += "; it is past due by " + counted(latest->daysLate, "day", "days");
    else if (late == 1) text += "; one is past due, " + dollars(lateSum) + " by " + counted(latest->daysLate, "day", "days");
    else if (late > 1)
        text += "; " + inWords(late) + " are past due, " + dollars(lateSum) + ", the oldest by " +
                counted(latest->daysLate, "day", "days");
    else if (open > 0) text += "; none is past due";
    if (latest && latest->customer) text += " (" + latest->customer->name + ")";
    if (!owed.unassigned.isZero()) text += "; " + dollars(owed.unassigned) + " received is not assigned to an invoice yet";
    if (!owedBack.isZero()) text += "; " + dollars(owedBack) + " was paid too much";
    return text + ".";
}

}

InvoiceStanding standingOf(const Book& book, const Invoice& invoice, Date day)
{
    InvoiceStanding standing;
    standing.total = totalOf(book, invoice, day);
    standing.due = dueDay(book, invoice);
    const auto balance = standing.total.balance;
    if (!invoice.issuedOn || *invoice.issuedOn > day) {
        standing.state = InvoiceState::draft;
        return standing;
    }
    standing.daysLate = balance > Money{} ? day - standing.due : std::min(day - standing.due, 0);
    standing.bucket = bucketOf(standing.daysLate);
    if (standing.daysLate > 0) standing.lateCharge = simpleInterest(balance, book.settings().lateChargeMonthly * 12, standing.daysLate, 365);
    if (balance < Money{}) standing.state = InvoiceState::overpaid;
    else if (balance.isZero()) standing.state = standing.total.isVoid() ? InvoiceState::takenBack : InvoiceState::paid;
    else standing.state = standing.daysLate > 0 ? InvoiceState::late : InvoiceState::owed;
    return standing;
}

Money retainageHeld(const Book& book)
{
    Money held;
    std::vector<Id<Job>> jobs;
    for (const auto& invoice : book.all<Invoice>())
        if (invoice.issuedOn && !invoice.retainage.isZero()) jobs.push_back(invoice.job);
    std::sort(jobs.begin(), jobs.end());
    jobs.erase(std::unique(jobs.begin(), jobs.end()), jobs.end());
    for (const auto job : jobs)
        if (const auto onJob = billingOf(book, job).retainageHeld; onJob > Money{}) held += onJob;
    return held;
}

Owed owedOn(const Book& book, Date day)
{
    Owed owed;
    for (const auto& invoice : book.all<Invoice>()) {
        if (!invoice.issuedOn || *invoice.issuedOn > day) continue;
        const auto standing = standingOf(book, invoice, day);
        const auto balance = standing.total.balance;
        if (balance.isZero()) continue;
        OwedInvoice one;
        one.invoice = &invoice;
        if (const auto* job = book.find(invoice.job)) one.customer = book.find(job->customer);
        one.due = standing.due;
        one.balance = balance;
        one.daysLate = standing.daysLate;
        one.bucket = standing.bucket;
        one.lateCharge = standing.lateCharge;
        owed.buckets[static_cast<std::size_t>(one.bucket)] += balance;
        owed.total += balance;
        owed.invoices.push_back(one);
    }
    std::stable_sort(owed.invoices.begin(), owed.invoices.end(),
                     [](const OwedInvoice& a, const OwedInvoice& b) { return a.daysLate > b.daysLate; });
    owed.unassigned = unassignedOn(book, day);
    owed.answer = answerFor(owed);
    return owed;
}

}

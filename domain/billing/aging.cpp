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

Owed owedOn(const Book& book, Date day)
{
    Owed owed;
    const auto yearly = book.settings().lateChargeMonthly * 12;
    for (const auto& invoice : book.all<Invoice>()) {
        if (!invoice.issuedOn || *invoice.issuedOn > day) continue;
        const auto balance = totalOf(book, invoice, day).balance;
        if (balance.isZero()) continue;
        OwedInvoice one;
        one.invoice = &invoice;
        if (const auto* job = book.find(invoice.job)) one.customer = book.find(job->customer);
        one.due = dueDay(book, invoice);
        one.balance = balance;
        one.daysLate = balance > Money{} ? day - one.due : std::min(day - one.due, 0);
        one.bucket = bucketOf(one.daysLate);
        if (one.daysLate > 0) one.lateCharge = simpleInterest(balance, yearly, one.daysLate, 365);
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

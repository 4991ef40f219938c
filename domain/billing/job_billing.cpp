#include "billing/billing.h"
#include "job/stage.h"

namespace strikeoff {

namespace {

/// The part of an invoice's credits that is not tax.
Money creditedNet(const InvoiceTotal& total)
{
    if (total.total.isZero()) return total.credited;
    return Money::ofCents(divideHalfUp(static_cast<Int128>(total.credited.cents()) * total.net.cents(), total.total.cents()));
}

bool changedAfter(const Book& book, Id<Job> job, Date day, std::optional<Date> upTo)
{
    for (const auto* order : book.referring<&ChangeOrder::job>(job))
        if (order->acceptedOn && *order->acceptedOn > day && (!upTo || *order->acceptedOn <= *upTo) && !order->price.isZero()) return true;
    return false;
}

}

JobBilling billingOf(const Book& book, Id<Job> job, std::optional<Date> upTo)
{
    JobBilling billing;
    for (const auto* invoice : book.referring<&Invoice::job>(job)) {
        if (!invoice->issuedOn) {
            billing.draft = invoice;
            continue;
        }
        if (upTo && *invoice->issuedOn > *upTo) continue;
        const auto total = totalOf(book, *invoice, upTo);
        billing.paid += total.paid;
        billing.balance += total.balance;
        if (total.isVoid()) continue;
        billing.anyIssued = true;
        billing.net -= creditedNet(total);
        if (invoice->kind == InvoiceKind::retainage) {
            billing.retainageHeld -= total.net;
            continue;
        }
        billing.net += total.net;
        billing.retainageHeld += total.retained;
        if (invoice->kind == InvoiceKind::final && (!billing.lastFinal || *billing.lastFinal < *invoice->issuedOn))
            billing.lastFinal = invoice->issuedOn;
    }
    if (billing.lastFinal && !changedAfter(book, job, *billing.lastFinal, upTo)) {
        billing.inFull = true;
    } else if (billing.anyIssued && !upTo) {
        const auto bid = bidOf(book, job);
        billing.inFull = bid && bid->price > Money{} && billing.net >= bid->price;
    }
    return billing;
}

}

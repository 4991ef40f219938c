#include "billing/billing.h"
#include "quantity/words.h"

namespace strikeoff {

Money salesTax(std::span<const Money> taxable, Rate rate, TaxBasis basis)
{
    Money tax;
    Money sum;
    for (const auto amount : taxable) {
        tax += percentOf(amount, rate);
        sum += amount;
    }
    return basis == TaxBasis::line ? tax : percentOf(sum, rate);
}

bool isTaxExempt(const Book& book, Id<Job> job)
{
    const auto* found = book.find(job);
    const auto* customer = found ? book.find(found->customer) : nullptr;
    return customer && customer->taxExempt;
}

Date dueDay(const Book& book, const Invoice& invoice)
{
    if (invoice.dueOn) return *invoice.dueOn;
    const auto* job = book.find(invoice.job);
    const auto* customer = job ? book.find(job->customer) : nullptr;
    const auto days = customer && customer->termsDays ? *customer->termsDays : book.settings().termsDays;
    return invoice.issuedOn.value_or(invoice.draftedOn) + days;
}

InvoiceTotal totalOf(const Book& book, const Invoice& invoice, std::optional<Date> asOf)
{
    return totalOf(book, invoice, book.referring<&InvoiceLine::invoice>(invoice.id), asOf);
}

InvoiceTotal totalOf(const Book& book, const Invoice& invoice, std::span<const InvoiceLine* const> lines, std::optional<Date> asOf)
{
    InvoiceTotal total;
    std::vector<Money> taxable;
    for (const auto* line : lines) {
        const auto amount = line->amount();
        total.net += amount;
        if (line->taxable) taxable.push_back(amount);
    }
    if (!isTaxExempt(book, invoice.job)) total.tax = salesTax(taxable, invoice.taxRate, book.settings().taxBasis);
    total.total = total.net + total.tax;
    if (invoice.kind != InvoiceKind::retainage) total.retained = percentOf(total.net, invoice.retainage);
    total.payable = total.total - total.retained;

    for (const auto* share : book.referring<&PaymentShare::invoice>(invoice.id)) {
        const auto* payment = book.find(share->payment);
        if (payment && (!asOf || payment->receivedOn <= *asOf)) total.paid += share->amount;
    }
    for (const auto* credit : book.referring<&Credit::invoice>(invoice.id))
        if (!asOf || credit->issuedOn <= *asOf) total.credited += credit->amount;
    if (invoice.issuedOn && (!asOf || *invoice.issuedOn <= *asOf)) total.balance = total.payable - total.paid - total.credited;
    return total;
}

std::string invoiceAnswer(const InvoiceTotal& total)
{
    std::vector<std::string> parts{"lines " + dollars(total.net)};
    if (!total.tax.isZero()) parts.push_back("sales tax " + dollars(total.tax));
    auto text = dollars(total.payable) + " to pay";
    if (parts.size() > 1 || !total.retained.isZero()) text += ": " + listed(parts);
    if (!total.retained.isZero()) text += ", less " + dollars(total.retained) + " held back";
    return text;
}

}

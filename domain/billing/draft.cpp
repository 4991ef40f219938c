#include "billing/billing.h"
#include "job/stage.h"
#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

namespace {

/// An amount in its parts with and without sales tax.
struct Parts {
    Money taxable;
    Money untaxed;
    Money sum() const { return taxable + untaxed; }
    Parts& operator+=(const Parts& other)
    {
        taxable += other.taxable;
        untaxed += other.untaxed;
        return *this;
    }
};

Parts bidParts(const Book& book, const Quote& quote)
{
    Parts parts;
    for (const auto* line : book.referring<&QuoteLine::quote>(quote.id))
        (line->taxable ? parts.taxable : parts.untaxed) += line->price(quote.markup);
    return parts;
}

Parts billedParts(const Book& book, const Invoice& invoice)
{
    Parts parts;
    for (const auto* line : book.referring<&InvoiceLine::invoice>(invoice.id))
        (line->taxable ? parts.taxable : parts.untaxed) += line->amount();
    const auto total = totalOf(book, invoice);
    if (total.credited.isZero() || total.total.isZero()) return parts;
    // A credit takes back what was billed too early or wrongly, in the proportion of the invoice's own parts.
    const auto back = [&](Money part) {
        return Money::ofCents(divideHalfUp(static_cast<Int128>(part.cents()) * total.credited.cents(), total.total.cents()));
    };
    parts.taxable -= back(parts.taxable);
    parts.untaxed -= back(parts.untaxed);
    return parts;
}

class Draft {
public:
    Draft(const Book& book, const Job& job, InvoiceKind kind, Date day) : taxExempt_{isTaxExempt(book, job.id)}
    {
        const auto* customer = book.find(job.customer);
        auto& invoice = draft_.invoice;
        invoice.job = job.id;
        invoice.kind = kind;
        invoice.draftedOn = day;
        invoice.dueOn = day + (customer && customer->termsDays ? *customer->termsDays : book.settings().termsDays);
        invoice.terms = book.settings().invoiceTerms;
    }

    Invoice& invoice() { return draft_.invoice; }
    void taxAt(Rate rate) { draft_.invoice.taxRate = taxExempt_ ? Rate{} : rate; }

    void add(const std::string& what, Money amount, bool taxable)
    {
        if (amount.isZero()) return;
        InvoiceLine line;
        line.position = static_cast<std::int32_t>(draft_.lines.size()) + 1;
        line.description = what;
        line.unitPrice = UnitPrice::ofUnits(checkedMultiply(amount.cents(), 100));
        line.taxable = taxable;
        draft_.lines.push_back(std::move(line));
    }
    /// One line, or two when only a part of it bears sales tax.
    void add(const std::string& what, const Parts& parts)
    {
        const bool both = !parts.taxable.isZero() && !parts.untaxed.isZero();
        add(both ? what + ", with sales tax" : what, parts.taxable, true);
        add(both ? what + ", without sales tax" : what, parts.untaxed, false);
    }

    std::optional<InvoiceDraft> finished() const
    {
        Money sum;
        for (const auto& line : draft_.lines) sum += line.amount();
        if (sum <= Money{}) return std::nullopt;
        return draft_;
    }

private:
    InvoiceDraft draft_;
    bool taxExempt_;
};

std::string billedText(const Invoice& invoice)
{
    const std::string what = invoice.kind == InvoiceKind::deposit ? "deposit" : "amount";
    return "Less " + what + " billed on invoice " + invoice.number + ", " + invoice.issuedOn->shown();
}

/// What was billed on papers issued after a day (all of them without one), taken off line by line.
template <class Take>
void takeBilled(const Book& book, const Job& job, std::optional<Date> after, Take take)
{
    for (const auto* invoice : book.referring<&Invoice::job>(job.id)) {
        if (!invoice->issuedOn || invoice->kind == InvoiceKind::retainage || (after && *invoice->issuedOn <= *after)) continue;
        if (totalOf(book, *invoice).isVoid()) continue;
        take(*invoice, billedParts(book, *invoice));
    }
}

std::optional<InvoiceDraft> deposit(const Book& book, const Job& job, const Quote& quote, Date day)
{
    for (const auto* invoice : book.referring<&Invoice::job>(job.id))
        if (invoice->issuedOn && invoice->kind == InvoiceKind::deposit && !totalOf(book, *invoice).isVoid()) return std::nullopt;
    if (billingOf(book, job.id).inFull) return std::nullopt;
    Draft draft{book, job, InvoiceKind::deposit, day};
    draft.taxAt(quote.taxRate);
    draft.invoice().heading = "Deposit: " + job.title;
    const auto bid = bidParts(book, quote);
    Parts part{percentOf(bid.taxable, quote.deposit), {}};
    part.untaxed = percentOf(bid.sum(), quote.deposit) - part.taxable;
    draft.add("Deposit of " + quote.deposit.text() + " % on quote " + quote.number + ", due on acceptance", part);
    return draft.finished();
}

/// The rate the job's earlier invoices held back, so that the next one goes on with it.
Rate retainageSoFar(const Book& book, const Job& job)
{
    Rate rate;
    for (const auto* invoice : book.referring<&Invoice::job>(job.id))
        if (invoice->issuedOn && (invoice->kind == InvoiceKind::progress || invoice->kind == InvoiceKind::final))
            rate = invoice->retainage;
    return rate;
}

std::string orderText(const ChangeOrder& order)
{
    return "Change order " + std::to_string(order.number) + ": " + order.description;
}

/// A change order bears sales tax where the quote has any line that does.
bool changesAreTaxable(const Book& book, const Quote& quote)
{
    const auto lines = book.referring<&QuoteLine::quote>(quote.id);
    return lines.empty() || std::any_of(lines.begin(), lines.end(), [](const QuoteLine* line) { return line->taxable; });
}

std::optional<InvoiceDraft> finalOne(const Book& book, const Job& job, const Quote& quote, Date day)
{
    const auto lastFinal = billingOf(book, job.id).lastFinal;
    Draft draft{book, job, InvoiceKind::final, day};
    draft.taxAt(quote.taxRate);
    draft.invoice().heading = job.title;
    draft.invoice().retainage = retainageSoFar(book, job);
    if (!lastFinal)
        draft.add(job.title + " as quoted, quote " + quote.number + " of " + quote.sentOn.value_or(quote.draftedOn).shown(),
                  bidParts(book, quote));
    const bool taxable = changesAreTaxable(book, quote);
    for (const auto* order : book.referring<&ChangeOrder::job>(job.id))
        if (order->acceptedOn && (!lastFinal || *order->acceptedOn > *lastFinal))
            draft.add(orderText(*order), order->price, taxable);
    takeBilled(book, job, lastFinal, [&](const Invoice& invoice, const Parts& parts) {
        draft.add(billedText(invoice), {-parts.taxable, -parts.untaxed});
    });
    return draft.finished();
}

std::optional<InvoiceDraft> progress(const Book& book, const Job& job, const Quote& quote, Date day)
{
    const auto pours = book.referring<&Pour::job>(job.id);
    const auto poured = std::count_if(pours.begin(), pours.end(), [](const Pour* pour) { return pour->pouredOn.has_value(); });
    if (poured == 0 || billingOf(book, job.id).lastFinal) return std::nullopt;
    auto bid = bidParts(book, quote);
    const bool taxable = changesAreTaxable(book, quote);
    for (const auto* order : book.referring<&ChangeOrder::job>(job.id))
        if (order->acceptedOn) (taxable ? bid.taxable : bid.untaxed) += order->price;
    const auto earned = [&](Money whole) {
        return Money::ofCents(divideHalfUp(static_cast<Int128>(whole.cents()) * poured, static_cast<Int128>(pours.size())));
    };
    Draft draft{book, job, InvoiceKind::progress, day};
    draft.taxAt(quote.taxRate);
    draft.invoice().heading = "Progress: " + job.title;
    draft.invoice().retainage = retainageSoFar(book, job);
    draft.add(job.title + ", " + inWords(poured) + " of " + counted(static_cast<std::int64_t>(pours.size()), "pour", "pours") +
                  " placed, quote " + quote.number,
              {earned(bid.taxable), earned(bid.untaxed)});
    takeBilled(book, job, {}, [&](const Invoice& invoice, const Parts& parts) {
        draft.add(billedText(invoice), {-parts.taxable, -parts.untaxed});
    });
    return draft.finished();
}

std::optional<InvoiceDraft> release(const Book& book, const Job& job, Date day)
{
    Draft draft{book, job, InvoiceKind::retainage, day};
    draft.invoice().heading = "Retainage released: " + job.title;
    for (const auto* invoice : book.referring<&Invoice::job>(job.id)) {
        if (!invoice->issuedOn) continue;
        const auto total = totalOf(book, *invoice);
        if (total.isVoid()) continue;
        if (invoice->kind == InvoiceKind::retainage) draft.add("Less released on invoice " + invoice->number, -total.net, false);
        else draft.add("Retainage held on invoice " + invoice->number + ", " + invoice->issuedOn->shown(), total.retained, false);
    }
    return draft.finished();
}

}

std::optional<InvoiceDraft> draftInvoice(const Book& book, const Job& job, InvoiceKind kind, Date day)
{
    if (kind == InvoiceKind::retainage) return release(book, job, day);
    const auto* quote = acceptedQuote(book, job.id);
    if (!quote) return std::nullopt;
    switch (kind) {
    case InvoiceKind::deposit: return deposit(book, job, *quote, day);
    case InvoiceKind::progress: return progress(book, job, *quote, day);
    case InvoiceKind::final: return finalOne(book, job, *quote, day);
    case InvoiceKind::retainage: break;
    }
    return std::nullopt;
}

}

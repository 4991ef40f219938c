#include "billing/billing.h"
#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

namespace {

std::vector<const Invoice*> issuedInvoices(const Book& book, Id<Customer> customer, Date upTo)
{
    std::vector<const Invoice*> invoices;
    for (const auto* job : book.referring<&Job::customer>(customer))
        for (const auto* invoice : book.referring<&Invoice::job>(job->id))
            if (invoice->issuedOn && *invoice->issuedOn <= upTo) invoices.push_back(invoice);
    return invoices;
}

std::string paymentText(const Payment& payment)
{
    std::string text{"Payment"};
    if (payment.method != PaymentMethod::other) {
        std::string how{labelOf(payment.method)};
        how.front() = static_cast<char>(how.front() - 'A' + 'a');
        text += ", " + how;
    }
    if (!payment.reference.empty()) text += (payment.method == PaymentMethod::other ? ", " : " ") + payment.reference;
    return text;
}

/// What stands first on a statement when several papers have the same day.
enum class PaperOrder { invoice, credit, payment };

struct Entry {
    PaperOrder order{};
    AccountLine line;
};

}

std::vector<AccountLine> statementOfAccount(const Book& book, Id<Customer> customer, Date upTo)
{
    std::vector<Entry> entries;
    for (const auto* invoice : issuedInvoices(book, customer, upTo)) {
        const auto total = totalOf(book, *invoice, upTo);
        auto what = "Invoice " + invoice->number;
        if (!total.retained.isZero()) what += " (" + dollars(total.retained) + " retainage held)";
        if (invoice->kind == InvoiceKind::retainage) what += " (retainage released)";
        entries.push_back({PaperOrder::invoice, {*invoice->issuedOn, what, total.payable, {}, {}}});
        for (const auto* credit : book.referring<&Credit::invoice>(invoice->id))
            if (credit->issuedOn <= upTo)
                entries.push_back({PaperOrder::credit,
                                   {credit->issuedOn, "Credit " + credit->number + ", " + credit->reason, {}, credit->amount, {}}});
    }
    for (const auto* payment : book.referring<&Payment::customer>(customer))
        if (payment->receivedOn <= upTo)
            entries.push_back({PaperOrder::payment, {payment->receivedOn, paymentText(*payment), {}, payment->amount, {}}});

    std::stable_sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
        return a.line.date != b.line.date ? a.line.date < b.line.date : a.order < b.order;
    });
    std::vector<AccountLine> lines;
    Money balance;
    for (auto& entry : entries) {
        balance += entry.line.charge - entry.line.received;
        entry.line.balance = balance;
        lines.push_back(std::move(entry.line));
    }
    return lines;
}

std::vector<std::pair<Id<Invoice>, Money>> spreadPayment(const Book& book, Id<Customer> customer, Money amount, Date day)
{
    struct Open {
        const Invoice* invoice;
        Date due;
        Money balance;
    };
    std::vector<Open> open;
    for (const auto* invoice : issuedInvoices(book, customer, day))
        if (const auto balance = totalOf(book, *invoice).balance; balance > Money{})
            open.push_back({invoice, dueDay(book, *invoice), balance});
    std::sort(open.begin(), open.end(),
              [](const Open& a, const Open& b) { return std::tie(a.due, a.invoice->id) < std::tie(b.due, b.invoice->id); });

    std::vector<std::pair<Id<Invoice>, Money>> shares;
    for (const auto& one : open) {
        if (amount <= Money{}) break;
        const auto share = std::min(amount, one.balance);
        shares.emplace_back(one.invoice->id, share);
        amount -= share;
    }
    return shares;
}

}

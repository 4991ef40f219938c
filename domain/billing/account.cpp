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

CustomerAccount accountOf(const Book& book, Id<Customer> customer, Date day)
{
    CustomerAccount account;
    account.customer = book.find(customer);
    for (const auto* invoice : issuedInvoices(book, customer, day)) {
        const auto standing = standingOf(book, *invoice, day);
        if (standing.total.balance.isZero()) continue;
        ++account.open;
        account.owed += standing.total.balance;
        if (standing.daysLate <= 0) continue;
        account.late += standing.total.balance;
        account.daysLate = std::max(account.daysLate, standing.daysLate);
    }
    for (const auto* payment : book.referring<&Payment::customer>(customer)) {
        if (payment->receivedOn > day) continue;
        account.unassigned += payment->amount;
        for (const auto* share : book.referring<&PaymentShare::payment>(payment->id)) account.unassigned -= share->amount;
    }
    return account;
}

std::vector<CustomerAccount> accountsOn(const Book& book, Date day)
{
    std::vector<CustomerAccount> accounts;
    for (const auto& customer : book.all<Customer>()) {
        auto account = accountOf(book, customer.id, day);
        if (account.open > 0 || !account.unassigned.isZero()) accounts.push_back(account);
    }
    std::stable_sort(accounts.begin(), accounts.end(), [](const CustomerAccount& a, const CustomerAccount& b) {
        return a.daysLate != b.daysLate ? a.daysLate > b.daysLate : a.balance() > b.balance();
    });
    return accounts;
}

std::string accountAnswer(const CustomerAccount& account)
{
    const auto name = account.customer ? account.customer->name : std::string{"This customer"};
    std::string text;
    if (account.owed > Money{}) text = name + " owes " + dollars(account.owed) + " on " + counted(account.open, "invoice", "invoices");
    else if (account.owed < Money{}) text = name + " has paid " + dollars(-account.owed) + " too much";
    else text = name + " owes nothing";
    if (account.daysLate > 0) {
        text += account.late == account.owed ? "; it is past due by " : "; " + dollars(account.late) + " of it is past due, the oldest by ";
        text += counted(account.daysLate, "day", "days");
    }
    if (!account.unassigned.isZero()) text += "; " + dollars(account.unassigned) + " received is not assigned to an invoice yet";
    return text + ".";
}

Credit proposedCredit(const Book& book, const Invoice& invoice, Date day)
{
    Credit credit;
    credit.invoice = invoice.id;
    credit.issuedOn = invoice.issuedOn ? std::max(day, *invoice.issuedOn) : day;
    credit.amount = std::max(totalOf(book, invoice).balance, Money{});
    return credit;
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

std::vector<SplitLine> splitOf(const Book& book, const Payment& payment)
{
    std::vector<SplitLine> lines;
    const auto proposed = payment.id.value() > 0 ? std::vector<std::pair<Id<Invoice>, Money>>{} : spreadPayment(book, payment.customer, payment.amount, payment.receivedOn);
    const auto shares = payment.id.value() > 0 ? book.referring<&PaymentShare::payment>(payment.id) : std::vector<const PaymentShare*>{};
    for (const auto* job : book.referring<&Job::customer>(payment.customer))
        for (const auto* invoice : book.referring<&Invoice::job>(job->id)) {
            if (!invoice->issuedOn) continue;
            SplitLine line{invoice->id, invoice->number, dueDay(book, *invoice), totalOf(book, *invoice).balance, {}};
            for (const auto* share : shares)
                if (share->invoice == invoice->id) line.share += share->amount;
            for (const auto& [id, amount] : proposed)
                if (id == invoice->id) line.share = amount;
            if (payment.id.value() > 0) line.open += line.share;
            if (line.share.isZero() && (line.open <= Money{} || *invoice->issuedOn > payment.receivedOn)) continue;
            lines.push_back(std::move(line));
        }
    std::sort(lines.begin(), lines.end(), [](const SplitLine& a, const SplitLine& b) { return std::tie(a.due, a.invoice) < std::tie(b.due, b.invoice); });
    return lines;
}

SplitSum addUp(Money amount, std::span<const SplitLine> lines)
{
    SplitSum sum;
    int paid = 0;
    const SplitLine* tooMuch = nullptr;
    for (const auto& line : lines) {
        sum.shared += line.share;
        if (line.share > Money{}) ++paid;
        if (line.share > line.open && !tooMuch) tooMuch = &line;
    }
    sum.left = amount - sum.shared;
    if (sum.left < Money{}) {
        sum.addsUp = false;
        sum.sentence = dollars(sum.shared) + " is split but only " + dollars(amount) + " came in; take " + dollars(-sum.left) + " off a share.";
        return sum;
    }
    if (paid == 0) sum.sentence = lines.empty() ? "No invoice is open; all of it stays unassigned." : "Nothing is assigned to an invoice; all of it stays unassigned.";
    else {
        sum.sentence = dollars(sum.shared) + " goes to " + counted(paid, "invoice", "invoices");
        sum.sentence += sum.left.isZero() ? "; nothing is left over." : "; " + dollars(sum.left) + " stays unassigned.";
    }
    if (tooMuch) sum.sentence += " Invoice " + tooMuch->number + " has only " + dollars(tooMuch->open) + " open.";
    return sum;
}

}

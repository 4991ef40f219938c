#include "paper/paper_parts.h"
#include "paper/papers.h"

namespace strikeoff {

namespace {

std::string paymentText(const Payment& payment)
{
    std::string text = "Less payment " + payment.receivedOn.shown() + ", " + std::string{labelOf(payment.method)};
    if (!payment.reference.empty()) text += ' ' + payment.reference;
    return text;
}

std::string invoiceState(const Invoice& invoice, const InvoiceTotal& totals, std::optional<Date> due, Date asOf)
{
    if (!invoice.issuedOn) return "Draft, not issued";
    if (totals.balance <= Money{}) return "Paid in full";
    if (due && asOf > *due) {
        const int days = asOf - *due;
        return "Past due by " + std::to_string(days) + (days == 1 ? " day" : " days");
    }
    return {};
}

}

PaperDocument invoicePaper(const Book& book, const Invoice& invoice, Date asOf)
{
    const auto& settings = book.settings();
    const auto& job = book.get(invoice.job);
    const auto& customer = book.get(job.customer);
    const auto totals = totalOf(book, invoice, asOf);
    const auto due = invoice.issuedOn || invoice.dueOn ? std::optional{dueDay(book, invoice)} : std::nullopt;
    const auto owed = invoice.issuedOn ? totals.balance : totals.payable;

    auto [paper, heading] = startPaper(settings, "Invoice", invoice.number);
    heading.facts.push_back({"No.", invoice.number, true});
    heading.facts.push_back({"Date", (invoice.issuedOn ? *invoice.issuedOn : invoice.draftedOn).shown(), false});
    heading.facts.push_back({"Kind", std::string{labelOf(invoice.kind)}, false});
    heading.state = invoiceState(invoice, totals, due, asOf);
    paper.add(std::move(heading));

    PaperParties parties{{customerParty("Bill to", customer)}};
    if (auto site = siteParty(book, job)) parties.parties.push_back(std::move(*site));
    parties.parties.push_back(jobParty(job));
    paper.add(std::move(parties));

    const bool overpaid = owed < Money{};
    PaperFigures figures{{{overpaid ? "In your favor" : "Amount due", dollars(overpaid ? -owed : owed), true}}};
    if (due) figures.figures.push_back({"Due", due->shown(), false});
    figures.figures.push_back({"Please write on the payment", invoice.number, false});
    paper.add(std::move(figures));

    paper.addSection("What it is for", invoice.heading);
    auto rows = book.referring<&InvoiceLine::invoice>(invoice.id);
    std::stable_sort(rows.begin(), rows.end(), [](const auto* a, const auto* b) { return a->position < b->position; });
    std::vector<PricedLine> lines;
    for (const auto* row : rows) lines.push_back({row->description, {}, row->quantity, row->unit, row->unitPrice, row->amount()});
    // A sum for "1" of no unit needs no columns to say so.
    if (std::all_of(lines.begin(), lines.end(), [](const PricedLine& line) { return line.quantity == Quantity::ofWhole(1) && line.unit.empty(); }))
        for (auto& line : lines) {
            line.quantity.reset();
            line.unitPrice.reset();
        }

    auto table = linesTable(lines, "Amount, $");
    auto& sums = table.totals;
    const auto tax = taxFact(customer, invoice.taxRate, totals.tax);
    const auto sum = [&sums](std::string label, Money money, bool strong) { sums.push_back({std::move(label), strong ? dollars(money) : money.shown(), strong}); };
    if (tax) {
        sum("Sum of lines", totals.net, false);
        sums.push_back(*tax);
    }
    sum("Total", totals.total, true);
    if (!totals.retained.isZero()) sum("Less retainage held back, " + invoice.retainage.text() + "% before tax", -totals.retained, false);
    if (invoice.issuedOn) {
        struct Received {
            const Payment* payment;
            Money amount;
        };
        std::vector<Received> received;
        for (const auto* share : book.referring<&PaymentShare::invoice>(invoice.id))
            if (const auto* payment = book.find(share->payment); payment && payment->receivedOn <= asOf) received.push_back({payment, share->amount});
        std::stable_sort(received.begin(), received.end(), [](const auto& a, const auto& b) { return a.payment->receivedOn < b.payment->receivedOn; });
        for (const auto& each : received) sum(paymentText(*each.payment), -each.amount, false);
        for (const auto* credit : book.referring<&Credit::invoice>(invoice.id))
            if (credit->issuedOn <= asOf) sum("Less credit " + credit->number + ", " + credit->issuedOn.shown(), -credit->amount, false);
    }
    if (sums.back().label != "Total" || owed != totals.total) sum(overpaid ? "In your favor" : "Amount due", overpaid ? -owed : owed, true);
    paper.add(std::move(table));

    if (!totals.retained.isZero())
        paper.add(PaperParagraph{"The retainage of " + dollars(totals.retained) + " stays owed and is billed when it is released.", PaperText::body, false});
    paper.addSection("Terms", invoice.terms);
    if (owed > Money{}) paper.addSection("How to pay", howToPay(settings, invoice.number));
    if (!settings.lateChargeMonthly.isZero() && owed > Money{})
        paper.add(PaperParagraph{"Where our agreement says so, a late charge of " + settings.lateChargeMonthly.text()
                                     + "% a month, simple, runs on what is past due. Late charge rules differ by state.",
                                 PaperText::small, false});
    return std::move(paper);
}

PaperDocument creditPaper(const Book& book, const Credit& credit)
{
    const auto& settings = book.settings();
    const auto& invoice = book.get(credit.invoice);
    const auto& job = book.get(invoice.job);
    const auto& customer = book.get(job.customer);

    auto [paper, heading] = startPaper(settings, "Credit note", credit.number);
    heading.facts.push_back({"No.", credit.number, true});
    heading.facts.push_back({"Date", credit.issuedOn.shown(), false});
    heading.facts.push_back({"On invoice", invoice.number, false});
    paper.add(std::move(heading));

    PaperParties parties{{customerParty("For", customer)}};
    if (auto site = siteParty(book, job)) parties.parties.push_back(std::move(*site));
    parties.parties.push_back(jobParty(job));
    paper.add(std::move(parties));

    paper.add(PaperFigures{{{"Credited to you, tax included", dollars(credit.amount), true}, {"On invoice", invoice.number, false}}});
    paper.addSection("Why", credit.reason);

    const auto totals = totalOf(book, invoice, credit.issuedOn);
    paper.add(PaperSection{"What it does to invoice " + invoice.number});
    PaperTable table;
    table.columns = {{"What", PaperSide::left}, {"Amount, $", PaperSide::right}};
    const auto row = [&table](std::string label, Money money) { table.rows.push_back({{std::move(label), money.shown()}, {}, PaperRowManner::plain}); };
    row("Billed, less retainage", totals.payable);
    if (!totals.paid.isZero()) row("Payments up to " + credit.issuedOn.shown(), -totals.paid);
    if (const auto others = totals.credited - credit.amount; !others.isZero()) row("Other credits up to " + credit.issuedOn.shown(), -others);
    row("This credit", -credit.amount);
    const bool overpaid = totals.balance < Money{};
    table.totals.push_back({overpaid ? "In your favor" : "Still due", dollars(overpaid ? -totals.balance : totals.balance), true});
    paper.add(std::move(table));
    return std::move(paper);
}

PaperDocument accountPaper(const Book& book, const Customer& customer, Date upTo)
{
    const auto& settings = book.settings();
    auto [paper, heading] = startPaper(settings, "Statement of account", customer.name);
    heading.facts.push_back({"Up to", upTo.shown(), true});
    paper.add(std::move(heading));
    paper.add(PaperParties{{customerParty("Account of", customer)}});

    std::array<Money, 5> buckets{};
    Money owed, late;
    for (const auto& each : owedOn(book, upTo).invoices) {
        if (!each.customer || each.customer->id != customer.id) continue;
        buckets[static_cast<std::size_t>(each.bucket)] += each.balance;
        owed += each.balance;
        if (each.daysLate > 0) late += each.balance;
    }
    const auto lines = statementOfAccount(book, customer.id, upTo);
    const auto balance = lines.empty() ? Money{} : lines.back().balance;
    const bool ours = balance < Money{};
    paper.add(PaperFigures{{{ours ? "In your favor" : "Balance", dollars(ours ? -balance : balance), true}, {"Of this past due", dollars(late), false}}});

    if (lines.empty()) {
        paper.add(PaperParagraph{"Nothing was billed or received up to this day."});
        return std::move(paper);
    }
    PaperTable table;
    table.columns = {{"Date", PaperSide::left}, {"What", PaperSide::left}, {"Billed, $", PaperSide::right}, {"Received, $", PaperSide::right}, {"Balance, $", PaperSide::right}};
    const auto unlessZero = [](Money money) { return money.isZero() ? std::string{} : money.shown(); };
    for (const auto& line : lines)
        table.rows.push_back({{line.date.shown(), line.what, unlessZero(line.charge), unlessZero(line.received), line.balance.shown()}, {}, PaperRowManner::plain});
    table.totals.push_back({ours ? "Balance in your favor" : "Balance on " + upTo.shown(), dollars(ours ? -balance : balance), true});
    paper.add(std::move(table));

    if (!owed.isZero()) {
        paper.add(PaperSection{"Open invoices by days past due"});
        PaperTable ages;
        PaperRow row;
        for (std::size_t i = 0; i < buckets.size(); ++i) {
            ages.columns.push_back({std::string{agingBucketChoices[i].label} + ", $", PaperSide::right});
            row.cells.push_back(buckets[i].shown());
        }
        ages.rows.push_back(std::move(row));
        paper.add(std::move(ages));
        paper.addSection("How to pay", howToPay(settings, "the invoice numbers"));
    }
    return std::move(paper);
}

}

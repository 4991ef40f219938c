#include "demo/world.h"

#include <algorithm>
#include <map>

namespace strikeoff::demo {

namespace {

/// A bill that went out, and when it gets paid.
struct Owed {
    std::size_t plan = 0;
    Id<Invoice> invoice;
    Date issued, due;
    Money amount;
    std::optional<Date> paidOn;
};

class MoneyWriter {
public:
    explicit MoneyWriter(World& world) : world_{world} {}

    void all()
    {
        for (std::size_t i = 0; i < world_.plans.size(); ++i)
            if (world_.plans[i].accepted) bill(i);
        chooseSlowPayers();
        pay();
        closeJobs();
    }

private:
    CustomerType typeOf(const JobPlan& plan) const { return world_.customers[plan.customer].type; }

    void bill(std::size_t index)
    {
        auto& plan = world_.plans[index];
        Money before;
        if (plan.deposit > Rate{}) {
            const auto amount = Money::ofCents(percentOf(plan.quoteNet, plan.deposit).cents() / 1000 * 1000);
            const auto issued = *plan.accepted + random_.pick(0, 2);
            const bool dropped = plan.fate == Fate::dropped && world_.records.get(plan.job).droppedReason.starts_with("house");
            if (issued < today() && !dropped) {
                auto lines =
                    std::vector{line("Deposit on acceptance, " + plan.deposit.shown() + " % of the price quoted", amount)};
                issue(index, InvoiceKind::deposit, issued, issued + 7, {}, lines, "Deposit: " + plan.title);
                before += amount;
            }
        }
        if (plan.fate != Fate::won || plan.pours.empty() || !plan.pours.front().done()) return;
        const auto terms = world_.customerRow(plan).termsDays.value_or(14);
        if (plan.pours.size() > 1 && plan.quoteNet > Money::ofCents(10'000'00)
            && plan.pours.back().on - plan.pours.front().on > 3) {
            const auto amount = Money::ofCents(plan.quoteNet.cents() * 2 / 5 / 10'000 * 10'000);
            const auto issued = plan.pours.front().on + random_.pick(1, 3);
            if (issued < today()) {
                auto lines = std::vector{line("First pour placed, on account of the price quoted", amount)};
                issue(index, InvoiceKind::progress, issued, issued + terms, {}, lines, "Progress: " + plan.title);
                before += amount;
            }
        }
        if (!plan.pours.back().done()) return;
        const auto issued = plan.pours.back().on + random_.pick(3, 11);
        std::vector<InvoiceLine> lines{line("Contract price as quoted", plan.quoteNet)};
        for (const auto& order : world_.records.all<ChangeOrder>())
            if (order.job == plan.job && order.acceptedOn)
                lines.push_back(line("Change order " + std::to_string(order.number) + ": " + order.description, order.price));
        if (!before.isZero()) lines.push_back(line("Less billed before", -before));
        const bool holds =
            typeOf(plan) == CustomerType::business && plan.work == Work::apron && plan.net > Money::ofCents(6'000'00);
        const auto held = holds ? Rate::ofWhole(10) : Rate{};
        if (issued >= today()) {
            // The bill for the pour before last lies on the desk unsent.
            if (plan.pours.back().on < today() - 3 && drafts_++ == 0) draft(plan, lines, held);
            return;
        }
        issue(index, InvoiceKind::final, issued, issued + terms, held, lines, plan.title);
        plan.finalIssued = issued;
        if (holds) {
            const auto released = issued + random_.pick(40, 60);
            if (released >= today()) return;
            std::vector<InvoiceLine> back{line("Retainage released", percentOf(plan.net - before, held))};
            back.front().taxable = false;
            issue(index, InvoiceKind::retainage, released, released + 14, {}, back, "Retainage: " + plan.title);
        }
    }

    static InvoiceLine line(std::string words, Money amount)
    {
        InvoiceLine line;
        line.description = std::move(words);
        line.unitPrice = priceOfCents(amount.cents());
        return line;
    }

    Invoice paper(const JobPlan& plan, InvoiceKind kind, Date drafted, const std::string& heading) const
    {
        Invoice invoice;
        invoice.job = plan.job;
        invoice.kind = kind;
        invoice.draftedOn = drafted;
        invoice.taxRate = plan.taxRate;
        invoice.heading = heading;
        invoice.terms = world_.records.all<Settings>().front().invoiceTerms;
        return invoice;
    }

    Id<Invoice> keep(Invoice invoice, std::vector<InvoiceLine> lines)
    {
        const auto id = world_.records.add(std::move(invoice));
        std::int32_t position = 0;
        for (auto& row : lines) {
            row.invoice = id;
            row.position = ++position;
            row.taxable = row.taxable && world_.records.get(id).taxRate > Rate{};
            world_.records.add(row);
        }
        return id;
    }

    void draft(const JobPlan& plan, const std::vector<InvoiceLine>& lines, Rate held)
    {
        auto invoice = paper(plan, InvoiceKind::final, today() - 1, plan.title);
        invoice.retainage = held;
        keep(std::move(invoice), lines);
    }

    void issue(std::size_t index, InvoiceKind kind, Date issued, Date due, Rate held, const std::vector<InvoiceLine>& lines,
        const std::string& heading)
    {
        const auto& plan = world_.plans[index];
        auto invoice = paper(plan, kind, issued - random_.pick(0, 1), heading);
        invoice.issuedOn = issued;
        invoice.dueOn = due;
        invoice.retainage = held;
        Money net, taxable;
        for (const auto& row : lines) {
            net += row.amount();
            if (row.taxable) taxable += row.amount();
        }
        Owed owed;
        owed.plan = index;
        owed.issued = issued;
        owed.due = due;
        owed.amount = net + percentOf(taxable, plan.taxRate) - percentOf(net, held);
        owed.invoice = keep(std::move(invoice), lines);
        if (kind == InvoiceKind::final && random_.chance(26)) credit(owed, issued);
        owed.paidOn = issued + delay(plan, kind);
        owed_.push_back(owed);
    }

    void credit(Owed& owed, Date issued)
    {
        static constexpr std::array reasons{"Shade of the second load differs; agreed with the customer.",
            "Lawn repair done by the customer.", "Chipped edge left as it is.",
            "Tire marks on the asphalt, cleaned by the customer."};
        Credit credit;
        credit.invoice = owed.invoice;
        credit.issuedOn = issued + random_.pick(1, 3);
        if (credit.issuedOn >= today()) return;
        credit.amount = Money::ofCents(random_.pick(3, 12) * 25'00);
        credit.reason = random_.of(reasons);
        owed.amount -= credit.amount;
        world_.records.add(credit);
    }

    int delay(const JobPlan& plan, InvoiceKind kind)
    {
        if (kind == InvoiceKind::deposit) return random_.pick(1, 8);
        const auto luck = random_.pick(0, 99);
        if (typeOf(plan) == CustomerType::homeowner)
            return luck < 76 ? random_.pick(2, 15) : luck < 91 ? random_.pick(16, 36) : random_.pick(37, 80);
        return luck < 80 ? random_.pick(22, 40) : random_.pick(41, 85);
    }

    /// Who has not paid by the last day: one a few days late, and one in each month before.
    void chooseSlowPayers()
    {
        constexpr std::array issuedBefore{23, 41, 62, 88, 131};
        for (const int ago : issuedBefore) {
            Owed* best = nullptr;
            for (auto& owed : owed_) {
                if (owed.issued > today() - ago || world_.records.get(owed.invoice).kind != InvoiceKind::final || !owed.paidOn
                    || *owed.paidOn >= today())
                    continue;
                if (!best || owed.issued > best->issued) best = &owed;
            }
            if (!best) throw DomainError{"nobody in the demonstration is late with paying"};
            best->paidOn.reset();
            if (ago == 62 || ago == 131) partly(*best);
        }
    }

    /// A first part now, the rest later or not yet.
    void partly(Owed& owed)
    {
        Owed part = owed;
        part.amount = Money::ofCents(owed.amount.cents() * random_.pick(40, 65) / 100 / 50'00 * 50'00);
        part.paidOn = owed.issued + random_.pick(6, 18);
        owed.amount -= part.amount;
        parts_.push_back(part);
    }

    void pay()
    {
        for (auto& owed : owed_)
            if (owed.paidOn && world_.records.get(owed.invoice).kind == InvoiceKind::final
                && owed.amount > Money::ofCents(4'000'00) && random_.chance(60)) {
                owed.paidOn = *owed.paidOn + random_.pick(12, 30);
                partly(owed);
            }
        std::vector<bool> settled(owed_.size());
        for (const auto& part : parts_) payment(part, {});
        for (std::size_t i = 0; i < owed_.size(); ++i) {
            const auto& owed = owed_[i];
            if (settled[i] || !owed.paidOn || *owed.paidOn >= today()) continue;
            settled[i] = true;
            std::optional<std::size_t> together;
            // Builders and offices send one check for what lies on the desk.
            if (typeOf(world_.plans[owed.plan]) != CustomerType::homeowner)
                for (std::size_t other = 0; other < owed_.size() && !together; ++other) {
                    const auto& second = owed_[other];
                    if (!settled[other] && second.paidOn && world_.plans[second.plan].customer == world_.plans[owed.plan].customer
                        && second.issued < *owed.paidOn && *second.paidOn - *owed.paidOn < 30 && *second.paidOn >= *owed.paidOn)
                        together = other;
                }
            if (together) settled[*together] = true;
            payment(owed, together ? std::optional{owed_[*together]} : std::nullopt);
        }
        for (std::size_t i = 0; i < owed_.size(); ++i) {
            auto& plan = world_.plans[owed_[i].plan];
            if (!settled[i]) open_[owed_[i].plan] = true;
            else plan.paidInFull = std::max(plan.paidInFull.value_or(firstDay()), *owed_[i].paidOn);
        }
    }

    void payment(const Owed& owed, const std::optional<Owed>& second)
    {
        const auto& plan = world_.plans[owed.plan];
        Payment payment;
        payment.customer = world_.customerOf(plan);
        payment.receivedOn = *owed.paidOn;
        payment.amount = owed.amount + (second ? second->amount : Money{});
        constexpr std::array home{560, 50, 160, 220, 10};
        constexpr std::array office{720, 0, 0, 280, 0};
        payment.method = static_cast<PaymentMethod>(random_.weighted(typeOf(plan) == CustomerType::homeowner ? home : office));
        if (payment.method == PaymentMethod::check && !random_.chance(80))
            payment.reference = std::to_string(random_.pick(101, 8'999));
        if (second) payment.note = "one check for two jobs";
        const auto id = world_.records.add(payment);
        world_.records.add(PaymentShare{{}, 0, id, owed.invoice, owed.amount});
        if (second) world_.records.add(PaymentShare{{}, 0, id, second->invoice, second->amount});
    }

    /// A folder is closed when it is paid and nothing is left to do but the call about the sealer.
    void closeJobs()
    {
        std::map<Id<Job>, bool> busy;
        std::map<Id<Job>, Date> last;
        for (const auto& visit : world_.records.all<Visit>()) {
            if (visit.kind == VisitKind::resealCall) continue;
            if (visit.isOpen()) busy[visit.job] = true;
            const auto on = visit.doneOn ? *visit.doneOn : visit.waivedOn.value_or(Date{});
            last[visit.job] = std::max(last[visit.job], on);
        }
        for (std::size_t i = 0; i < world_.plans.size(); ++i) {
            auto& plan = world_.plans[i];
            const auto type = typeOf(plan);
            if (!plan.pours.empty() && (type == CustomerType::builder || type == CustomerType::business))
                world_.records.get(plan.job).lienNoticeDue = plan.pours.front().on + 72;
            if (!plan.finalIssued || !plan.paidInFull || open_[i] || busy[plan.job]) continue;
            const auto on = std::max(*plan.paidInFull, last[plan.job]) + random_.pick(1, 12);
            if (on < today() && !random_.chance(25)) world_.records.get(plan.job).closedOn = on;
        }
    }

    World& world_;
    Random random_{13};
    std::vector<Owed> owed_, parts_;
    std::map<std::size_t, bool> open_;
    int drafts_ = 0;
};

}

void makeInvoices(World& world) { MoneyWriter{world}.all(); }

}

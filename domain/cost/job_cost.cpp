#include "cost/job_cost.h"

#include "billing/billing.h"
#include "cost/ticket_billing.h"
#include "ready_mix/expected_charge.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace strikeoff {

struct CostReckoner::Parts {
    const Book& book;
    std::unordered_map<std::int64_t, Money> billed;
    LaborCost labor;
    std::unordered_map<std::int64_t, std::set<Date>> sheetDays;
    std::map<std::pair<std::int64_t, Date>, std::optional<PriceSheet>> sheets;

    explicit Parts(const Book& from) : book{from}, billed{billedByTicket(from)}, labor{from}
    {
        for (const auto& charge : book.all<SheetCharge>()) sheetDays[charge.supplier.value()].insert(charge.effectiveOn);
    }

    const std::optional<PriceSheet>& sheetFor(const Ticket& ticket)
    {
        static const std::optional<PriceSheet> none;
        const auto days = sheetDays.find(ticket.supplier.value());
        if (days == sheetDays.end()) return none;
        const auto next = days->second.upper_bound(ticket.date);
        if (next == days->second.begin()) return none;
        const auto [entry, isNew] = sheets.try_emplace({ticket.supplier.value(), *std::prev(next)});
        if (isNew) entry->second = sheetInForce(book, ticket.supplier, entry->first.second);
        return entry->second;
    }
};

CostReckoner::CostReckoner(const Book& book) : parts_{std::make_unique<Parts>(book)} {}
CostReckoner::~CostReckoner() = default;
CostReckoner::CostReckoner(CostReckoner&&) noexcept = default;

const LaborCost& CostReckoner::labor() const { return parts_->labor; }

CostReckoner::TicketCost CostReckoner::of(const Ticket& ticket)
{
    if (const auto found = parts_->billed.find(ticket.id.value()); found != parts_->billed.end()) return {found->second, false};
    const auto& sheet = parts_->sheetFor(ticket);
    if (!sheet) return {};
    const auto charge = expectedCharge(ticket, *sheet);
    const bool hasMix =
        std::any_of(charge.lines.begin(), charge.lines.end(), [](const ChargeLine& line) { return line.kind == ChargeKind::mix; });
    if (!hasMix) return {};
    return {charge.total, true};
}

JobCost CostReckoner::of(const Job& job) { return of(job, stageOf(parts_->book, job)); }

JobCost CostReckoner::of(const Job& job, Stage stage)
{
    const auto& book = parts_->book;
    JobCost cost;
    cost.job = &job;
    cost.stage = stage;
    cost.open = isOpenStage(stage) && stage != Stage::billed;

    std::array<ClassCost, costClassCount> classes{};
    const auto at = [&](CostClass costClass) -> ClassCost& { return classes[static_cast<std::size_t>(costClass)]; };

    if (const auto bid = bidOf(book, job.id)) {
        cost.bidPrice = bid->price;
        cost.bidCost = bid->cost;
        if (bid->quote)
            for (const auto* line : book.referring<&QuoteLine::quote>(bid->quote->id)) at(line->costClass).bid += line->cost();
        for (const auto* order : book.referring<&ChangeOrder::job>(job.id))
            if (order->acceptedOn) at(order->costClass).bid += order->cost;
    }

    for (const auto* hours : book.referring<&Hours::job>(job.id)) {
        const auto& hour = *parts_->labor.of(hours->id);
        cost.crewMinutes += hour.minutes;
        if (hour.rateKnown) at(CostClass::labor).actual += hour.trueCost();
        else cost.minutesWithoutRate += hour.minutes;
    }
    for (const auto* ticket : ticketsOf(book, job.id)) {
        const auto ticketCost = of(*ticket);
        if (!ticketCost.amount) {
            ++cost.ticketsWithoutPrice;
            continue;
        }
        at(CostClass::concrete).actual += *ticketCost.amount;
        if (ticketCost.expected) cost.expectedPart += *ticketCost.amount;
    }
    for (const auto* receipt : book.referring<&Receipt::job>(job.id)) at(receipt->costClass).actual += receipt->amount;

    for (std::size_t i = 0; i < classes.size(); ++i) {
        classes[i].costClass = static_cast<CostClass>(i);
        cost.actualCost += classes[i].actual;
        if (!classes[i].bid.isZero() || !classes[i].actual.isZero()) cost.classes.push_back(classes[i]);
    }

    const auto billing = billingOf(book, job.id);
    cost.billed = billing.net;
    cost.paid = billing.paid;
    if (stage == Stage::declined || stage == Stage::dropped) {
        if (!cost.billed.isZero() || !cost.actualCost.isZero()) cost.grossProfit = cost.billed - cost.actualCost;
    } else if (cost.bidPrice && (cost.open || !billing.anyIssued)) {
        cost.grossProfit = *cost.bidPrice - cost.actualCost;
    } else if (billing.anyIssued) {
        cost.grossProfit = cost.billed - cost.actualCost;
    }
    return cost;
}

JobCost jobCost(const Book& book, const Job& job) { return CostReckoner{book}.of(job); }

}

#include "cost/job_cost.h"

#include "billing/billing.h"
#include "cost/ticket_prices.h"

#include <algorithm>
#include <array>

namespace strikeoff {

struct CostReckoner::Parts {
    const Book& book;
    TicketPrices tickets;
    LaborCost labor;
    std::unordered_map<std::int64_t, Money> claims;  ///< open, by the line they are about

    explicit Parts(const Book& from) : book{from}, tickets{from}, labor{from}
    {
        for (const auto& claim : book.all<Claim>())
            if (claim.line && !claim.creditedOn && !claim.creditLine && !claim.droppedOn) claims[claim.line->value()] += claim.amount;
    }
};

CostReckoner::CostReckoner(const Book& book) : parts_{std::make_unique<Parts>(book)} {}
CostReckoner::~CostReckoner() = default;
CostReckoner::CostReckoner(CostReckoner&&) noexcept = default;

const LaborCost& CostReckoner::labor() const { return parts_->labor; }
const Book& CostReckoner::book() const { return parts_->book; }
const SheetCodes& CostReckoner::codes() const { return parts_->tickets.codes(); }
const TicketPrices& CostReckoner::tickets() const { return parts_->tickets; }

std::span<const BilledPart> CostReckoner::billedFor(const Ticket& ticket) const { return parts_->tickets.billedFor(ticket); }
const PriceSheet* CostReckoner::sheetFor(const Ticket& ticket) const { return parts_->tickets.sheetFor(ticket); }

Money CostReckoner::openClaimOn(Id<StatementLine> line) const
{
    const auto found = parts_->claims.find(line.value());
    return found == parts_->claims.end() ? Money{} : found->second;
}

std::vector<Id<Job>> CostReckoner::takeHours(std::span<const Id<Hours>> touched) { return parts_->labor.update(parts_->book, touched); }

CostReckoner::TicketCost CostReckoner::of(const Ticket& ticket) { return parts_->tickets.of(ticket); }

std::optional<Money> JobCost::grossProfitPerCrewHour() const
{
    if (!grossProfit || crewMinutes <= Minutes{}) return std::nullopt;
    return Money::ofCents(divideHalfUp(static_cast<Int128>(grossProfit->cents()) * 60, crewMinutes.count()));
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

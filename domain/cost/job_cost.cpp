#include "cost/job_cost.h"

#include "billing/billing.h"
#include "cost/ticket_billing.h"
#include "ready_mix/expected_charge.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace strikeoff {

namespace {

struct RateFrom {
    Date from;
    UnitPrice hourly;
};

/// The rate in force on a day among rates in the order of their days.
std::optional<UnitPrice> rateOn(const std::vector<RateFrom>& rates, Date day)
{
    const auto next =
        std::upper_bound(rates.begin(), rates.end(), day, [](Date wanted, const RateFrom& rate) { return wanted < rate.from; });
    if (next == rates.begin()) return std::nullopt;
    return std::prev(next)->hourly;
}

Money payFor(UnitPrice hourly, Minutes minutes)
{
    return Money::ofCents(divideHalfUp(static_cast<Int128>(hourly.units()) * minutes.count(), 100 * 60));
}

bool byDay(const RateFrom& a, const RateFrom& b) { return a.from < b.from; }

}

std::optional<Money> straightPay(const Book& book, Id<CrewMember> person, Date day, Minutes minutes)
{
    std::vector<RateFrom> rates;
    for (const auto* rate : book.referring<&PayRate::person>(person)) rates.push_back({rate->fromDate, rate->hourlyRate});
    std::stable_sort(rates.begin(), rates.end(), byDay);
    const auto hourly = rateOn(rates, day);
    return hourly ? std::optional{payFor(*hourly, minutes)} : std::nullopt;
}

struct CostReckoner::Parts {
    const Book& book;
    std::unordered_map<std::int64_t, Money> billed;
    std::unordered_map<std::int64_t, std::vector<RateFrom>> rates;
    std::unordered_map<std::int64_t, std::set<Date>> sheetDays;
    std::map<std::pair<std::int64_t, Date>, std::optional<PriceSheet>> sheets;

    explicit Parts(const Book& from) : book{from}, billed{billedByTicket(from)}
    {
        for (const auto& rate : book.all<PayRate>()) rates[rate.person.value()].push_back({rate.fromDate, rate.hourlyRate});
        for (auto& [person, list] : rates) std::stable_sort(list.begin(), list.end(), byDay);
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

std::optional<Money> CostReckoner::pay(Id<CrewMember> person, Date day, Minutes minutes) const
{
    const auto found = parts_->rates.find(person.value());
    if (found == parts_->rates.end()) return std::nullopt;
    const auto hourly = rateOn(found->second, day);
    return hourly ? std::optional{payFor(*hourly, minutes)} : std::nullopt;
}

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
        const auto worked = hours->worked();
        if (!worked) continue;
        cost.crewMinutes += *worked;
        if (const auto earned = pay(hours->person, hours->date, *worked)) at(CostClass::labor).actual += *earned;
        else cost.minutesWithoutRate += *worked;
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

#include "cost/explanation_parts.h"
#include "quantity/words.h"
#include "ready_mix/codes.h"

#include <algorithm>
#include <array>

namespace strikeoff {

namespace {

struct Driver {
    std::string words;
    Money amount;
};

/// What is one thing to the owner, however its parts pull against each other: pay, premium and burden of an hour where the bid carries one rate for all
/// of them, price and tax of a yard where it carries no tax.
std::string_view togetherWith(CostClass costClass, const Reason& reason)
{
    if (costClass == CostClass::labor && (reason.name == "rate" || reason.name == "overtime premium" || reason.name == "burden")) return "labor (what an hour costs)";
    if (costClass == CostClass::concrete && (reason.name == "price" || reason.name == "tax")) return "concrete (price and tax)";
    return {};
}

/// What a job's difference is made of, the most dear first.
std::vector<Driver> driversOf(const JobExplanation& job)
{
    std::vector<Driver> drivers;
    for (const auto& each : job.classes)
        for (const auto& reason : each.because) {
            auto words = std::string{togetherWith(each.costClass, reason)};
            if (words.empty()) words = lowered(labelOf(each.costClass)) + " (" + reason.name + ')';
            const auto same = std::find_if(drivers.begin(), drivers.end(), [&](const Driver& driver) { return driver.words == words; });
            if (same == drivers.end()) drivers.push_back({std::move(words), reason.amount});
            else same->amount += reason.amount;
        }
    std::erase_if(drivers, [](const Driver& driver) { return driver.amount.isZero(); });
    std::stable_sort(drivers.begin(), drivers.end(), [](const Driver& a, const Driver& b) { return a.amount > b.amount; });
    return drivers;
}

std::string said(const Driver& driver) { return driver.words + ' ' + costMoreOrLess(driver.amount); }

std::string answerOf(const JobExplanation& job)
{
    std::string text = "Job " + job.job->number + (job.open ? " has cost " : " cost ") + dollars(job.actual) + (job.open ? " so far" : "");
    if (job.bid.isZero()) return text + ", and nothing was bid to hold it against.";
    const auto difference = job.difference();
    text += " against " + dollars(job.bid) + " bid";
    if (difference.isZero()) text += ", exactly what was bid";
    else text += ", " + dollars(difference < Money{} ? -difference : difference) + (difference < Money{} ? " less" : " more");
    const auto drivers = driversOf(job);
    if (drivers.empty()) return text + '.';
    const bool more = difference >= Money{};
    std::vector<std::string> with;
    const auto count = std::min<std::size_t>(drivers.size(), 2);
    for (std::size_t i = 0; i < count; ++i) {
        const auto& driver = more ? drivers[i] : drivers[drivers.size() - 1 - i];
        if ((driver.amount > Money{}) == more) with.push_back(said(driver));
    }
    if (!with.empty()) text += ": " + listed(with);
    const auto& against = more ? drivers.back() : drivers.front();
    if ((against.amount > Money{}) != more) text += std::string{with.empty() ? ": " : "; "} + said(against);
    return text + '.';
}

}

std::array<std::vector<Carried>, costClassCount> carriedBy(const Book& book, const Job& job, const Quote* quote)
{
    std::array<std::vector<Carried>, costClassCount> carried;
    const auto known = [](Quantity quantity) { return quantity > Quantity{} ? std::optional{quantity} : std::nullopt; };
    if (quote)
        for (const auto* line : book.referring<&QuoteLine::quote>(quote->id))
            carried[static_cast<std::size_t>(line->costClass)].push_back(
                {line->description, line->code, line->unit, known(line->quantity), line->cost(), line->phase, false});
    for (const auto* order : book.referring<&ChangeOrder::job>(job.id))
        if (order->acceptedOn)
            carried[static_cast<std::size_t>(order->costClass)].push_back(
                {order->description, {}, order->unit, order->quantity ? known(*order->quantity) : std::nullopt, order->cost, order->phase, true});
    return carried;
}

std::string costMoreOrLess(Money difference)
{
    if (difference.isZero()) return "cost the same";
    return difference < Money{} ? "cost " + dollars(-difference) + " less" : "cost " + dollars(difference) + " more";
}

JobExplanation explain(CostReckoner& reckoner, const Job& job, Words words)
{
    const auto& book = reckoner.book();
    const auto stage = stageOf(book, job);
    JobExplanation explained;
    explained.job = &job;
    explained.open = isOpenStage(stage) && stage != Stage::billed;
    const auto* quote = currentQuote(book, job.id);
    auto carried = carriedBy(book, job, quote);
    std::array<std::vector<const Receipt*>, costClassCount> receipts;
    for (const auto* receipt : book.referring<&Receipt::job>(job.id)) receipts[static_cast<std::size_t>(receipt->costClass)].push_back(receipt);
    for (std::size_t i = 0; i < costClassCount; ++i) {
        const ClassFacts facts{job, static_cast<CostClass>(i), explained.open, quote, std::move(carried[i]), std::move(receipts[i])};
        Reasons reasons{words};
        auto actual = facts.receiptsPaid();
        if (facts.costClass == CostClass::concrete || facts.costClass == CostClass::labor) {
            actual += facts.costClass == CostClass::concrete ? explainConcrete(reasons, reckoner, facts) : explainLabor(reasons, reckoner, facts);
            explainReceipts(reasons, facts);
        } else if (!facts.carried.empty() || !facts.receipts.empty()) {
            explainBought(reasons, facts);
        }
        ClassExplanation each{facts.costClass, facts.carriedCost(), actual, reasons.taken()};
        Money parts;
        for (const auto& reason : each.because) parts += reason.amount;
        if (parts != each.difference()) throw DomainError{"parts of a cost class that do not add up to its difference"};
        if (each.bid.isZero() && each.actual.isZero()) continue;
        explained.bid += each.bid;
        explained.actual += each.actual;
        explained.classes.push_back(std::move(each));
    }
    if (words == Words::written) explained.answer = answerOf(explained);
    return explained;
}

std::vector<ClassExplanation> addedUp(std::span<const JobExplanation> jobs)
{
    std::array<ClassExplanation, costClassCount> classes;
    for (const auto& job : jobs)
        for (const auto& each : job.classes) {
            auto& sum = classes[static_cast<std::size_t>(each.costClass)];
            sum.bid += each.bid;
            sum.actual += each.actual;
            for (const auto& reason : each.because) {
                auto same = std::find_if(sum.because.begin(), sum.because.end(), [&](const Reason& one) { return one.name == reason.name; });
                if (same == sum.because.end()) sum.because.push_back({reason.name, reason.amount, {}});
                else same->amount += reason.amount;
            }
        }
    std::vector<ClassExplanation> found;
    const auto size = [](Money amount) { return amount < Money{} ? -amount : amount; };
    for (std::size_t i = 0; i < classes.size(); ++i) {
        auto& sum = classes[i];
        sum.costClass = static_cast<CostClass>(i);
        std::erase_if(sum.because, [](const Reason& reason) { return reason.amount.isZero(); });
        std::stable_sort(sum.because.begin(), sum.because.end(), [&](const Reason& a, const Reason& b) { return size(a.amount) > size(b.amount); });
        if (!sum.bid.isZero() || !sum.actual.isZero()) found.push_back(std::move(sum));
    }
    return found;
}

}

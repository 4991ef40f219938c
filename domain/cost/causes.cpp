#include "cost/causes.h"

#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

namespace {

bool startsWith(std::string_view text, std::string_view start) { return text.substr(0, start.size()) == start; }
bool isOneOf(std::string_view name, std::initializer_list<std::string_view> names)
{
    // "price (gal)" is a price: a unit in brackets tells apart what is bought in several.
    const auto plain = name.substr(0, name.find(" ("));
    return std::find(names.begin(), names.end(), plain) != names.end();
}

std::string subjectOf(Cause cause)
{
    switch (cause) {
    case Cause::job: return "the job itself ";
    case Cause::prices: return "prices and rates ";
    case Cause::work: return "the work ";
    case Cause::leftOut: return "what the bid does not tell ";
    case Cause::notDone: return "what was not bought or done ";
    }
    return {};
}

}

Cause causeOf(CostClass costClass, const Reason& reason)
{
    const std::string_view name = reason.name;
    if (startsWith(name, "not delivered") || startsWith(name, "not worked") || startsWith(name, "not bought")) return Cause::notDone;
    if (isOneOf(name, {"measured area or thickness", "measured area", "thickness", "mix change", "options"})) return Cause::job;
    if (startsWith(name, "pace: ") || isOneOf(name, {"pace", "rework", "overtime premium", "over-order", "yards", "waiting", "short load", "returned"})) return Cause::work;
    if (startsWith(name, "unplanned") || startsWith(name, "carried without") || isOneOf(name, {"not in the bid", "receipts", "receipts against the bid", "mix against the sum carried", "pay against the sum carried"}))
        return Cause::leftOut;
    if (isOneOf(name, {"quantity"})) return costClass == CostClass::labor ? Cause::work : Cause::job;
    return Cause::prices;  // price, rate, burden, tax, yards billed, each fee, credits and open claims
}

std::vector<CauseSum> causesOf(const JobExplanation& job)
{
    std::vector<CauseSum> sums;
    for (std::size_t i = 0; i < causeChoices.size(); ++i) sums.push_back({static_cast<Cause>(i), {}, {}});
    for (const auto& each : job.classes)
        for (const auto& reason : each.because) {
            auto& sum = sums[static_cast<std::size_t>(causeOf(each.costClass, reason))];
            sum.amount += reason.amount;
            sum.parts.push_back({each.costClass, reason});
        }
    std::erase_if(sums, [](const CauseSum& sum) { return sum.parts.empty(); });
    for (auto& sum : sums)
        std::stable_sort(sum.parts.begin(), sum.parts.end(), [](const CausePart& a, const CausePart& b) { return a.reason.amount > b.reason.amount; });
    return sums;
}

std::string causesInWords(const JobExplanation& job)
{
    const auto difference = job.difference();
    if (job.bid.isZero() || difference.isZero()) return {};
    std::vector<std::string> parts;
    auto sums = causesOf(job);
    const auto size = [](Money amount) { return amount < Money{} ? -amount : amount; };
    std::stable_sort(sums.begin(), sums.end(), [&](const CauseSum& a, const CauseSum& b) { return size(a.amount) > size(b.amount); });
    for (const auto& sum : sums)
        if (!sum.amount.isZero()) parts.push_back(subjectOf(sum.cause) + costMoreOrLess(sum.amount));
    if (parts.empty()) return {};
    return "Of " + dollars(size(difference)) + (difference < Money{} ? " less, " : " more, ") + listed(parts) + '.';
}

}

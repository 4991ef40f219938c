#include "cost/labor_bid.h"

namespace strikeoff {

std::optional<std::int64_t> hoursOn(const Carried& line)
{
    if (!line.quantity) return std::nullopt;
    const auto unit = plainUnit(line.unit);
    if (unit == "h" || unit.empty()) return line.quantity->units();
    if (unit == "min") return divideHalfUp(line.quantity->units(), 60);
    return std::nullopt;
}

LaborBid::LaborBid(const std::vector<Carried>& lines)
{
    std::vector<std::string> sums;
    for (const auto& line : lines) {
        const auto hours = hoursOn(line);
        if (!hours || *hours <= 0) {
            withoutHours += line.cost;
            sums.push_back(std::string{line.description} + ' ' + dollars(line.cost));
            continue;
        }
        all.take(line, *hours);
        (line.phase ? phases[static_cast<std::size_t>(*line.phase)] : noPhase).take(line, *hours);
    }
    withoutHoursWords = listed(sums);
}

}

#include "ready_mix/statement_findings.h"

namespace strikeoff {

namespace {

constexpr int minutesPerDay = 24 * 60;
constexpr int longestDay = 12 * 60;

Quantity inches(std::int64_t thousandths) { return Quantity::ofUnits(thousandths); }

std::optional<std::string> lateDischarge(const Book& book, const Ticket& ticket)
{
    if (!ticket.batchedAt || !ticket.dischargeEndedAt) return std::nullopt;
    int minutes = ticket.dischargeEndedAt->minutes() - ticket.batchedAt->minutes();
    if (minutes < 0) minutes += minutesPerDay;
    if (minutes > longestDay) return std::nullopt;  // times out of order say nothing
    const auto limit = ticket.dischargeLimit.value_or(book.settings().dischargeLimit);
    if (minutes <= limit.count()) return std::nullopt;
    return "batched " + ticket.batchedAt->shown() + ", empty " + ticket.dischargeEndedAt->shown() + " = " + std::to_string(minutes) + " min; the limit is "
           + std::to_string(limit.count()) + " min.";
}

std::optional<std::string> slumpOff(const Book& book, const Ticket& ticket)
{
    if (!ticket.slump || !ticket.slumpOrdered) return std::nullopt;
    const auto tolerance = slumpTolerance(book.settings(), *ticket.slumpOrdered);
    const auto off = *ticket.slump - *ticket.slumpOrdered;
    if (off <= tolerance && -off <= tolerance) return std::nullopt;
    return "slump " + ticket.slump->text() + " in where " + ticket.slumpOrdered->text() + " in was ordered; \u00b1" + tolerance.text() + " in is allowed.";
}

std::optional<std::string> waterAdded(const Book& book, const Ticket& ticket)
{
    if (!ticket.waterAdded || *ticket.waterAdded <= Quantity{}) return std::nullopt;
    const auto limit = book.settings().waterLimit;
    const auto most = Quantity::ofUnits(divideHalfUp(static_cast<Int128>(limit.units()) * ticket.yards.units(), Yards::one));
    if (*ticket.waterAdded <= most) return std::nullopt;
    auto text = ticket.waterAdded->text() + " gal of water added on site";
    if (limit > Quantity{}) text += "; " + limit.text() + " gal/yd\u00b3 on " + ticket.yards.text() + " yd\u00b3 is " + most.text() + " gal";
    return text + '.';
}

}

std::vector<std::string> ticketRemarks(const Book& book, const Ticket& ticket)
{
    std::vector<std::string> remarks;
    for (auto&& remark : {lateDischarge(book, ticket), slumpOff(book, ticket), waterAdded(book, ticket)})
        if (remark) remarks.push_back(*remark);
    return remarks;
}

Quantity slumpTolerance(const Settings& settings, Quantity ordered)
{
    if (settings.slumpTolerance) return *settings.slumpTolerance;
    if (ordered <= inches(2'000)) return inches(500);
    if (ordered <= inches(4'000)) return inches(1'000);
    return inches(1'500);
}

int leastConcreteTempF(const Settings& settings, std::optional<TapeLength> thickness)
{
    if (settings.leastConcreteTempF) return *settings.leastConcreteTempF;
    constexpr std::int64_t inch = 16;
    const auto sixteenths = thickness ? thickness->sixteenths() : 0;
    if (sixteenths < 12 * inch) return 55;
    if (sixteenths <= 36 * inch) return 50;
    if (sixteenths <= 72 * inch) return 45;
    return 40;
}

}

#pragma once

#include "ready_mix/expected_charge.h"

#include <algorithm>
#include <deque>
#include <string>

namespace strikeoff {

inline Date day(std::string_view iso) { return Date::parse(iso).value(); }
inline Yards yards(std::string_view text) { return Yards::parse(text).value(); }
inline Money dollars(std::string_view text) { return Money::parse(text).value(); }
inline std::optional<ClockTime> clock(std::string_view text)
{
    if (text.empty()) return std::nullopt;
    return ClockTime::parse(text).value();
}

inline SheetCharge chargeOf(ChargeKind kind, std::string_view code, std::string_view amount, ChargeUnit unit)
{
    SheetCharge charge;
    charge.supplier = Id<Supplier>{1};
    charge.effectiveOn = day("2026-03-01");
    charge.charge = kind;
    charge.code = code;
    charge.amount = UnitPrice::parse(amount).value();
    charge.unit = unit;
    return charge;
}

inline SheetCharge sized(SheetCharge charge, std::string_view from, std::string_view to)
{
    if (!from.empty()) charge.fromYards = yards(from);
    if (!to.empty()) charge.toYards = yards(to);
    return charge;
}

inline SheetCharge inSeason(SheetCharge charge, std::string_view from, std::string_view to)
{
    charge.seasonFrom = MonthDay::parse(from).value();
    charge.seasonTo = MonthDay::parse(to).value();
    return charge;
}

inline SheetCharge whenOrdered(SheetCharge charge)
{
    charge.onlyWhenOrdered = true;
    return charge;
}

inline SheetCharge taxed(SheetCharge charge)
{
    charge.taxable = true;
    return charge;
}

inline SheetCharge waitingCharge(std::string_view perMinute, std::string_view freeMinutes, FreeBasis basis, int step)
{
    auto charge = chargeOf(ChargeKind::waiting, "WAIT", perMinute, ChargeUnit::perMinute);
    charge.freeMinutes = Quantity::parse(freeMinutes).value();
    charge.freeBasis = basis;
    charge.stepMinutes = step;
    return charge;
}

/// A sheet a test owns, with a mix "3000" at $100.00 to begin with.
class MadeSheet {
public:
    MadeSheet() { add(chargeOf(ChargeKind::mix, "3000", "100.00", ChargeUnit::perYard)); }
    MadeSheet(std::initializer_list<SheetCharge> more) : MadeSheet{}
    {
        for (const auto& charge : more) add(charge);
    }
    MadeSheet(const MadeSheet&) = delete;
    MadeSheet& operator=(const MadeSheet&) = delete;

    void add(SheetCharge charge)
    {
        charges_.push_back(std::move(charge));
        sheet_.charges.push_back(&charges_.back());
    }
    ExpectedCharge price(const Ticket& ticket) const { return expectedCharge(ticket, sheet_); }
    const PriceSheet& sheet() const { return sheet_; }

private:
    std::deque<SheetCharge> charges_;
    PriceSheet sheet_;
};

/// Friday, June 12, 2026; of mix 3000.
inline Ticket ticketOf(std::string_view size, std::string_view options = {})
{
    Ticket ticket;
    ticket.supplier = Id<Supplier>{1};
    ticket.number = "48213";
    ticket.date = day("2026-06-12");
    ticket.mix = "3000";
    ticket.yards = yards(size);
    ticket.options = options;
    return ticket;
}

inline Ticket onDay(Ticket ticket, std::string_view iso)
{
    ticket.date = day(iso);
    return ticket;
}

/// The amounts of the lines of one kind, joined: "150.00 40.00"; blank for none.
inline std::string amounts(const ExpectedCharge& charge, ChargeKind kind)
{
    std::string text;
    for (const auto& line : charge.lines)
        if (line.kind == kind) text += (text.empty() ? "" : " ") + line.amount.text();
    return text;
}

inline const ChargeLine& lineOf(const ExpectedCharge& charge, ChargeKind kind)
{
    const auto found = std::find_if(charge.lines.begin(), charge.lines.end(), [&](const auto& line) { return line.kind == kind; });
    if (found == charge.lines.end()) throw DomainError{"a line that the charge has not"};
    return *found;
}

}

#pragma once

#include "record/choices.h"

#include <vector>

namespace strikeoff {

/// One charge of a supplier's price sheet; the sheet is all charges of one supplier with one effective date.
struct SheetCharge {
    Id<SheetCharge> id;
    std::int32_t revision = 0;
    Id<Supplier> supplier;
    Date effectiveOn;
    ChargeKind charge = ChargeKind::mix;
    std::string code;
    std::string meaning;
    UnitPrice amount;
    ChargeUnit unit = ChargeUnit::perYard;
    std::optional<Yards> fromYards;
    std::optional<Yards> toYards;
    std::optional<Quantity> freeMinutes;
    std::optional<FreeBasis> freeBasis;
    std::optional<std::int32_t> stepMinutes;
    std::optional<MonthDay> seasonFrom;
    std::optional<MonthDay> seasonTo;
    bool onlyWhenOrdered = false;
    bool taxable = false;
};

/// One load's delivery ticket. All but number, date and yards may be missing.
struct Ticket {
    Id<Ticket> id;
    std::int32_t revision = 0;
    Id<Supplier> supplier;
    std::string number;
    SharedText plant;
    SharedText truck;
    Date date;
    SharedText mix;
    Yards yards;
    std::optional<ClockTime> batchedAt;
    std::optional<ClockTime> arrivedAt;
    std::optional<ClockTime> dischargeBeganAt;
    std::optional<ClockTime> dischargeEndedAt;
    std::optional<Quantity> slumpOrdered;
    std::optional<Quantity> slump;
    std::optional<Quantity> waterAdded;
    std::optional<std::int32_t> concreteTempF;
    SharedText options;
    std::optional<Id<Job>> job;
    std::optional<Id<Pour>> pour;
    std::optional<Yards> returnedYards;
    SharedText signedBy;
    SharedText note;
    std::optional<Minutes> dischargeLimit;
};

/// What was batched into a load, by the sheet's code, with its amount (per cent, pounds) where the ticket gives one.
struct TicketOption {
    std::string code;
    std::optional<Quantity> amount;
    friend bool operator==(const TicketOption&, const TicketOption&) = default;
};

/// Reads "ACC=1;FIBER=1.5;HEAT"; nothing for text of another form.
std::optional<std::vector<TicketOption>> parseOptions(std::string_view text);

struct Statement {
    Id<Statement> id;
    std::int32_t revision = 0;
    Id<Supplier> supplier;
    std::string number;
    Date date;
    std::optional<Date> periodFrom;
    std::optional<Date> periodTo;
    std::optional<Money> total;
    std::optional<Date> dueOn;
    std::optional<Date> discountUntil;
    std::optional<Date> approvedOn;
    std::optional<Date> paidOn;
    std::string note;
    std::string standsBecause;
};

struct StatementLine {
    Id<StatementLine> id;
    std::int32_t revision = 0;
    Id<Statement> statement;
    std::int32_t line = 1;
    std::string ticketNumber;
    std::optional<Date> date;
    std::string code;
    std::string description;
    std::optional<Quantity> quantity;
    std::string unit;
    std::optional<UnitPrice> unitPrice;
    Money amount;
    std::optional<Id<Ticket>> ticket;
    std::string note;
    bool leaveUnpaired = false;
    std::string standsBecause;
};

struct Claim {
    Id<Claim> id;
    std::int32_t revision = 0;
    std::string number;
    Id<Supplier> supplier;
    std::optional<Id<StatementLine>> line;
    std::optional<Id<Ticket>> ticket;
    Date openedOn;
    std::string reason;
    Money amount;
    std::optional<Date> creditedOn;
    std::optional<Id<StatementLine>> creditLine;
    std::optional<Date> droppedOn;
    std::string droppedReason;
    std::optional<Id<Statement>> statement;

    bool isOpen() const { return !creditedOn && !creditLine && !droppedOn; }
};

}

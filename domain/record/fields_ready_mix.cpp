#include "record/fields.h"
#include "record/ready_mix.h"

namespace strikeoff {

std::optional<std::vector<TicketOption>> parseOptions(std::string_view text)
{
    const auto trimmed = [](std::string_view part) {
        while (!part.empty() && part.front() == ' ') part.remove_prefix(1);
        while (!part.empty() && part.back() == ' ') part.remove_suffix(1);
        return part;
    };
    std::vector<TicketOption> options;
    while (!trimmed(text).empty()) {
        const auto end = text.find(';');
        const auto part = trimmed(text.substr(0, end));
        text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
        if (part.empty()) return std::nullopt;
        const auto equals = part.find('=');
        TicketOption option{std::string{trimmed(part.substr(0, equals))}, std::nullopt};
        if (option.code.empty()) return std::nullopt;
        if (equals != std::string_view::npos) {
            option.amount = Quantity::parse(trimmed(part.substr(equals + 1)));
            if (!option.amount || *option.amount < Quantity{}) return std::nullopt;
        }
        options.push_back(std::move(option));
    }
    return options;
}

namespace {

constexpr std::array priceSheetFields{
    field<&SheetCharge::supplier>("supplier", "Supplier", "whose sheet"),
    field<&SheetCharge::effectiveOn>("effective_on", "In force from", "first day of the sheet"),
    field<&SheetCharge::charge>("charge", "Charge", "what is charged for"),
    field<&SheetCharge::code>("code", "Code", "the mix or option as tickets and statements write it"),
    field<&SheetCharge::meaning>("meaning", "Meaning", "in words"),
    field<&SheetCharge::amount>("amount", "Amount", "dollars per unit, or per cent").within(-mostPrice, mostPrice),
    field<&SheetCharge::unit>("unit", "Unit", "what the amount is per"),
    field<&SheetCharge::fromYards>("from_yards", "From", "smallest load it is on, included").in("yd\u00b3").within(0, 10'000'000),
    field<&SheetCharge::toYards>("to_yards", "To", "smallest load it is no longer on").in("yd\u00b3").within(0, 10'000'000),
    field<&SheetCharge::freeMinutes>("free_minutes", "Free", "free minutes on site").in("min").within(0, 1'440'000),
    field<&SheetCharge::freeBasis>("free_basis", "Free per", "free minutes are per yd\u00b3 or per load"),
    field<&SheetCharge::stepMinutes>("step_minutes", "Step", "waiting is counted up to whole steps").in("min").within(1, 240),
    field<&SheetCharge::seasonFrom>("season_from", "Season from", "first day, MM-DD"),
    field<&SheetCharge::seasonTo>("season_to", "Season to", "last day, MM-DD"),
    field<&SheetCharge::onlyWhenOrdered>("only_when_ordered", "Only when ordered", "else on every load of the season"),
    field<&SheetCharge::taxable>("taxable", "Taxable", "sales tax is on it"),
};
constexpr std::array<std::string_view, 5> priceSheetKey{"supplier", "effective_on", "charge", "code", "from_yards"};

constexpr std::array ticketFields{
    field<&Ticket::supplier>("supplier", "Supplier", "who sent the load"),
    field<&Ticket::number>("number", "Ticket", "as printed on the ticket").needed(),
    field<&Ticket::plant>("plant", "Plant", "which plant batched it"),
    field<&Ticket::truck>("truck", "Truck", ""),
    field<&Ticket::date>("date", "Date", "the day of the load"),
    field<&Ticket::mix>("mix", "Mix", "by the sheet's code"),
    field<&Ticket::yards>("yards", "Yards", "").in("yd\u00b3").within(0, 100'000),
    field<&Ticket::batchedAt>("batched_at", "Batched", "when water met cement"),
    field<&Ticket::arrivedAt>("arrived_at", "Arrived", "when the truck came"),
    field<&Ticket::dischargeBeganAt>("discharge_began_at", "Discharge from", "first concrete down the chute"),
    field<&Ticket::dischargeEndedAt>("discharge_ended_at", "Empty", "when the drum was empty"),
    field<&Ticket::slumpOrdered>("slump_ordered_in", "Slump ordered", "").in("in").within(0, 12'000),
    field<&Ticket::slump>("slump_in", "Slump", "as seen or measured").in("in").within(0, 12'000),
    field<&Ticket::waterAdded>("water_added_gal", "Water added", "on site").in("gal").within(0, 200'000),
    field<&Ticket::concreteTempF>("concrete_temp_f", "Concrete", "temperature at arrival").in("\u00b0F").within(20, 140),
    field<&Ticket::options>("options", "Options", "what was batched in, by the sheet's codes: ACC=1;FIBER=1.5").as(FieldType::options),
    field<&Ticket::job>("job", "Job", "where it went"),
    field<&Ticket::pour>("pour", "Pour", "which pour of the job").scopedBy("job"),
    field<&Ticket::returnedYards>("returned_yards", "Returned", "sent back").in("yd\u00b3").within(0, 100'000),
    field<&Ticket::signedBy>("signed_by", "Signed by", "who signed on site"),
    field<&Ticket::note>("note", "Note", "").as(FieldType::note),
    field<&Ticket::dischargeLimit>("discharge_limit_minutes", "Discharge limit", "from batching to empty, as the ticket prints it; blank: the settings'").in("min").within(15, 480),
};
constexpr std::array<std::string_view, 4> ticketKey{"supplier", "plant", "number", "date"};

constexpr std::array statementFields{
    field<&Statement::supplier>("supplier", "Supplier", "who bills"),
    field<&Statement::number>("number", "Statement", "as printed on it").needed(),
    field<&Statement::date>("date", "Date", "of the statement"),
    field<&Statement::periodFrom>("period_from", "From", "first day billed"),
    field<&Statement::periodTo>("period_to", "To", "last day billed"),
    field<&Statement::total>("total", "Total", "as printed").in("$").within(-mostMoney, mostMoney),
    field<&Statement::dueOn>("due_on", "Due", "last day to pay"),
    field<&Statement::discountUntil>("discount_until", "Discount until", "last day to pay early"),
    field<&Statement::approvedOn>("approved_on", "Approved", "the day it was checked and approved"),
    field<&Statement::paidOn>("paid_on", "Paid", "the day it was paid"),
    field<&Statement::note>("note", "Note", "").as(FieldType::note),
    field<&Statement::standsBecause>("stands_because", "Total stands because", "why a total that its lines do not add up to is let stand"),
};
constexpr std::array<std::string_view, 2> statementKey{"supplier", "number"};

constexpr std::array statementLineFields{
    field<&StatementLine::statement>("statement", "Statement", "which statement: supplier/number"),
    field<&StatementLine::line>("line", "Line", "place on the statement").within(1, 100'000),
    field<&StatementLine::ticketNumber>("ticket_number", "Ticket", "as the statement prints it; blank for a charge without one"),
    field<&StatementLine::date>("date", "Date", "of the load"),
    field<&StatementLine::code>("code", "Code", "mix, option or charge"),
    field<&StatementLine::description>("description", "Description", "as printed"),
    field<&StatementLine::quantity>("quantity", "Quantity", "").within(-1'000'000'000, 1'000'000'000),
    field<&StatementLine::unit>("unit", "Unit", ""),
    field<&StatementLine::unitPrice>("unit_price", "Unit price", "").in("$").within(-mostPrice, mostPrice),
    field<&StatementLine::amount>("amount", "Amount", "negative for a credit").in("$").within(-mostMoney, mostMoney),
    field<&StatementLine::ticket>("ticket", "Paired with", "the ticket it was paired with by hand: supplier/plant/number/date"),
    field<&StatementLine::note>("note", "Note", ""),
    field<&StatementLine::leaveUnpaired>("leave_unpaired", "Left unpaired", "parted by hand: it belongs to no ticket on file"),
    field<&StatementLine::standsBecause>("stands_because", "Stands because", "why a line that does not agree is paid as billed"),
};
constexpr std::array<std::string_view, 2> statementLineKey{"statement", "line"};

constexpr std::array claimFields{
    field<&Claim::number>("number", "Number", "given by the book when left blank"),
    field<&Claim::supplier>("supplier", "Supplier", "who is to credit it"),
    field<&Claim::line>("line", "Statement line", "the line in dispute: supplier/statement/line"),
    field<&Claim::ticket>("ticket", "Ticket", "the ticket it is about: supplier/plant/number/date"),
    field<&Claim::openedOn>("opened_on", "Opened", "the day it was raised"),
    field<&Claim::reason>("reason", "Reason", "what is wrong, in a sentence").needed(),
    field<&Claim::amount>("amount", "Amount", "what should come back").in("$").within(0, mostMoney),
    field<&Claim::creditedOn>("credited_on", "Credited", "the day the credit came"),
    field<&Claim::creditLine>("credit_line", "Credit line", "the statement line that credits it"),
    field<&Claim::droppedOn>("dropped_on", "Let go", "the day it was let go"),
    field<&Claim::droppedReason>("dropped_reason", "Why let go", ""),
    field<&Claim::statement>("statement", "Statement", "the statement it came from: supplier/number"),
};
constexpr std::array<std::string_view, 1> claimKey{"number"};

}

namespace fields {

constinit const KindDescription priceSheet{RecordKind::priceSheet, "price_sheet", "Sheet charge", "Price sheets", "one charge of a supplier's price sheet; a sheet is all charges with one date", priceSheetFields, priceSheetKey, {}};
constinit const KindDescription ticket{RecordKind::ticket, "ticket", "Ticket", "Tickets", "one load's delivery ticket", ticketFields, ticketKey, {}};
constinit const KindDescription statement{RecordKind::statement, "statement", "Statement", "Statements", "a supplier's monthly bill", statementFields, statementKey, {}};
constinit const KindDescription statementLine{RecordKind::statementLine, "statement_line", "Statement line", "Statement lines", "one line of a statement", statementLineFields, statementLineKey, {}};
constinit const KindDescription claim{RecordKind::claim, "claim", "Claim", "Claims", "an amount in dispute with a supplier", claimFields, claimKey, "D"};

}

}

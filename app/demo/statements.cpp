#include "demo/statement_draft.h"

#include <algorithm>
#include <map>

namespace strikeoff::demo {

namespace {

constexpr std::size_t statementCount = 30;

/// The words a supplier prints for a charge: those of its sheet.
std::string wordsFor(const std::vector<const SheetCharge*>& sheet, const ChargeLine& line)
{
    for (const auto* charge : sheet)
        if (charge->charge == line.kind && charge->code == line.code) return charge->meaning;
    return line.description;
}

class StatementWriter {
public:
    explicit StatementWriter(World& world) : world_{world} {}

    void all()
    {
        draft();
        events_ = plantFaults(world_, drafts_);
        claim();
        for (std::size_t i = 0; i < drafts_.size(); ++i) write(i);
        writeClaims();
    }

private:
    /// The owner has kept statements in the book for the last thirty of them; older ones are in a binder.
    void draft()
    {
        std::map<std::pair<Date, std::size_t>, std::vector<const Ticket*>> months;
        for (const auto& ticket : world_.records.all<Ticket>()) {
            const auto month = firstOfMonth(ticket.date);
            if (month < day(2026, 11, 1)) months[{month, ticket.supplier == world_.suppliers[0] ? 0U : 1U}].push_back(&ticket);
        }
        while (months.size() > statementCount) months.erase(months.begin());
        int counter = 77'100;
        for (auto& [key, tickets] : months) {
            DraftStatement made;
            made.month = key.first;
            made.supplier = key.second;
            const auto month = made.month.text();
            counter += random_.pick(3, 21);
            made.number = made.supplier == 0 ? month.substr(2, 2) + month.substr(5, 2) + "-3318" : "S-" + std::to_string(counter);
            std::sort(tickets.begin(), tickets.end(),
                [](const Ticket* a, const Ticket* b) { return std::tie(a->date, a->number) < std::tie(b->date, b->number); });
            for (const auto* ticket : tickets) made.loads.push_back(load(*ticket, made.supplier));
            drafts_.push_back(std::move(made));
        }
    }

    DraftLoad load(const Ticket& ticket, std::size_t supplier) const
    {
        DraftLoad made;
        made.ticket = &ticket;
        made.printedNumber = ticket.number;
        made.date = ticket.date;
        PriceSheet sheet{ticket.supplier, {}, sheetOf(world_, supplier, ticket.date)};
        sheet.effectiveOn = sheet.charges.front()->effectiveOn;
        const auto expected = expectedCharge(ticket, sheet);
        for (const auto& line : expected.lines) made.lines.push_back(draftLine(line, wordsFor(sheet.charges, line)));
        if (!expected.tax.isZero()) {
            DraftLine tax;
            tax.kind = ChargeKind::tax;
            tax.code = "TAX";
            tax.description = "Sales tax 6.25 %";
            tax.amount = expected.tax;
            made.lines.push_back(tax);
        }
        return made;
    }

    bool isApproved(const DraftStatement& draft) const { return draft.month < day(2026, 10, 1); }

    /// The owner claims what is found; most of it is credited on one of the next two statements.
    void claim()
    {
        claimed_.resize(events_.size());
        int old = 0;
        for (std::size_t i = 0; i < events_.size(); ++i) {
            const auto& event = events_[i];
            const auto& draft = drafts_[event.statement];
            if (event.comesBack <= Money{} || !isApproved(draft)) continue;
            if (event.comesBack < Money::ofCents(20'00) && ++missed_ <= 2) continue;
            auto& fate = claimed_[i];
            fate.made = true;
            fate.openedOn = draft.date() + random_.pick(4, 8);
            if (event.comesBack < Money::ofCents(40'00) && letGo_++ == 0) {
                fate.letGo = true;
                continue;
            }
            if (draft.month < day(2026, 7, 1) && ++old % 6 == 0) continue;  // still argued about
            int later = random_.pick(1, 2);
            for (auto next = event.statement + 1; next < drafts_.size(); ++next) {
                auto& other = drafts_[next];
                if (other.supplier != draft.supplier || other.month <= draft.month || other.loads.size() < 4 || --later > 0)
                    continue;
                DraftLoad credit;
                credit.date = other.date() - random_.pick(2, 9);
                if (event.ticket && random_.chance(750)) credit.printedNumber = event.ticket->number;
                DraftLine line;
                line.code = "CREDIT";
                line.description = event.ticket ? "Credit, ticket " + event.ticket->number : "Credit on statement " + draft.number;
                line.amount = -event.comesBack;
                line.credits = static_cast<int>(i);
                credit.lines.push_back(line);
                other.loads.push_back(credit);
                break;
            }
        }
    }

    void write(std::size_t index)
    {
        const auto& draft = drafts_[index];
        Statement statement;
        statement.supplier = world_.suppliers[draft.supplier];
        statement.number = draft.number;
        statement.date = draft.date();
        statement.periodFrom = draft.month;
        statement.periodTo = draft.date();
        statement.dueOn = draft.date() + 30;
        statement.discountUntil = draft.date() + (draft.supplier == 0 ? 10 : 15);
        if (isApproved(draft)) {
            statement.approvedOn = draft.date() + random_.pick(4, 8);
            statement.paidOn =
                random_.chance(700) ? *statement.discountUntil - random_.pick(0, 1) : *statement.dueOn - random_.pick(0, 4);
        }
        if (index == 0) statement.note = "first one kept in the book; older ones are in the binder";
        Money sum;
        for (const auto& load : draft.loads)
            for (const auto& line : load.lines) sum += line.amount;
        statement.total = sum + draft.totalOff;
        const auto id = world_.records.add(statement);

        int number = 0;
        for (const auto& load : draft.loads) {
            for (const auto& line : load.lines) {
                StatementLine row;
                row.statement = id;
                row.line = ++number;
                row.ticketNumber = load.printedNumber;
                row.date = load.date;
                row.code = line.code;
                row.description = line.description;
                row.quantity = line.quantity;
                row.unit = line.unit;
                row.unitPrice = line.unitPrice;
                row.amount = line.amount;
                const auto rowId = world_.records.add(row);
                if (line.credits) claimed_[static_cast<std::size_t>(*line.credits)].credited = {rowId, draft.date()};
                if (line.event >= 0 && !claimed_[static_cast<std::size_t>(line.event)].line)
                    claimed_[static_cast<std::size_t>(line.event)].line = rowId;
                if (line.fault) keep(*line.fault, draft, number, load.printedNumber);
            }
        }
        for (const auto& fault : draft.whole) keep(fault, draft, 0, "");
    }

    void keep(PlantedFault fault, const DraftStatement& draft, int line, const std::string& printed)
    {
        fault.supplier = world_.records.get(world_.suppliers[draft.supplier]).name;
        fault.statement = draft.number;
        fault.line = line;
        fault.printedNumber = printed;
        world_.faults.push_back(std::move(fault));
    }

    void writeClaims()
    {
        for (std::size_t i = 0; i < events_.size(); ++i) {
            const auto& fate = claimed_[i];
            if (!fate.made) continue;
            Claim claim;
            claim.supplier = world_.suppliers[drafts_[events_[i].statement].supplier];
            claim.line = fate.line;
            if (events_[i].ticket) claim.ticket = events_[i].ticket->id;
            claim.openedOn = fate.openedOn;
            claim.reason = events_[i].reason;
            claim.amount = events_[i].comesBack;
            if (fate.credited) {
                claim.creditLine = fate.credited->first;
                claim.creditedOn = fate.credited->second;
            }
            if (fate.letGo) {
                claim.droppedOn = fate.openedOn + 24;
                claim.droppedReason = "not worth another call; they sent a hat";
            }
            world_.records.add(claim);
        }
    }

    struct ClaimFate {
        bool made = false, letGo = false;
        Date openedOn;
        std::optional<Id<StatementLine>> line;
        std::optional<std::pair<Id<StatementLine>, Date>> credited;
    };

    World& world_;
    Random random_{11};
    std::vector<DraftStatement> drafts_;
    std::vector<FaultEvent> events_;
    std::vector<ClaimFate> claimed_;
    int missed_ = 0, letGo_ = 0;
};

}

DraftLine draftLine(const ChargeLine& line, const std::string& meaning)
{
    DraftLine made;
    made.kind = line.kind;
    made.code = line.code;
    made.description = meaning;
    made.quantity = line.quantity;
    made.unit = line.unit;
    made.unitPrice = line.unitPrice;
    made.amount = line.amount;
    made.taxable = line.taxable;
    return made;
}

void makeStatements(World& world) { StatementWriter{world}.all(); }

}

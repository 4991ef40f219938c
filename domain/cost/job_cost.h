#pragma once

#include "cost/ticket_prices.h"
#include "job/stage.h"
#include "labor/labor_cost.h"
#include "record/book.h"

#include <memory>
#include <span>
#include <string>
#include <vector>

namespace strikeoff {

struct ClassCost {
    CostClass costClass{};
    Money bid;     ///< by the accepted (else current) quote's lines and the accepted change orders
    Money actual;  ///< hours at their true cost, tickets at the statement's amount (else the sheet's price with tax), receipts
    Money difference() const { return actual - bid; }
};

/// What one job cost against what it was bid.
struct JobCost {
    const Job* job = nullptr;
    Stage stage{};
    bool open = false;                ///< work is left, so more cost may come: an open stage before billed
    std::optional<Money> bidPrice;    ///< net, with accepted change orders; none without a quote and a change order
    Money bidCost;
    Money actualCost;
    Money billed;                     ///< net of tax, issued invoices less credits' net share
    Money paid;                       ///< money received on the job's invoices, tax included
    Minutes crewMinutes;
    std::optional<Money> grossProfit; ///< billed (for an open job or one not billed: bid price) less actual cost; none without either. A job that was
                                      ///< declined or dropped earns what was billed alone, and has none when nothing was billed or spent
    std::vector<ClassCost> classes;   ///< every class with a bid or an actual, in the trade's order
    Money expectedPart;               ///< of actualCost: tickets no statement has billed yet, at the sheet's price
    int ticketsWithoutPrice = 0;      ///< neither billed nor priced by a sheet (none in force, or the mix is not on it): not in actualCost
    Minutes minutesWithoutRate;       ///< hours of people without a pay rate on the day: not in actualCost

    /// What an hour of one person earned toward overhead and owner, the scarce thing to rank work by; none without hours or a gross profit.
    std::optional<Money> grossProfitPerCrewHour() const;
};

/// What every job cost is reckoned with, made once for all jobs: what statements bill for each ticket, what each hour cost, price sheets. The book must
/// outlive it and stand still while it is used.
class CostReckoner {
public:
    explicit CostReckoner(const Book& book);
    ~CostReckoner();
    CostReckoner(CostReckoner&&) noexcept;

    JobCost of(const Job& job);
    JobCost of(const Job& job, Stage stage);

    using TicketCost = TicketPrices::Cost;
    TicketCost of(const Ticket& ticket);
    const TicketPrices& tickets() const;

    /// What each row of hours cost.
    const LaborCost& labor() const;

    // What the explanation is made of.
    const Book& book() const;
    /// What statements bill for a ticket, line by line; empty when none does.
    std::span<const BilledPart> billedFor(const Ticket& ticket) const;
    /// The supplier's sheet in force on the ticket's day, or nullptr.
    const PriceSheet* sheetFor(const Ticket& ticket) const;
    /// What is claimed of a statement's line and neither credited nor let go.
    Money openClaimOn(Id<StatementLine> line) const;
    const SheetCodes& codes() const;

    /// Takes in rows of hours that were added, changed or removed in the book since, when nothing else was: gives the jobs whose cost moved.
    std::vector<Id<Job>> takeHours(std::span<const Id<Hours>> touched);

private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

JobCost jobCost(const Book& book, const Job& job);

struct CostReport {
    std::vector<JobCost> jobs;
    std::string answer;  ///< in one sentence with numbers
};
/// All jobs on which anything was bid or spent, or the one given.
CostReport costReport(const Book& book, std::optional<Id<Job>> only = {});
CostReport costReport(CostReckoner& reckoner, std::optional<Id<Job>> only = {});
}

#pragma once

#include "job/stage.h"
#include "record/book.h"

#include <array>
#include <string>
#include <vector>

namespace strikeoff {

struct ClassCost {
    CostClass costClass{};
    Money bid;     ///< by the accepted (else current) quote's lines and the accepted change orders
    Money actual;  ///< hours at pay rate, tickets at the statement's amount (else the sheet's price), receipts
    Money difference() const { return actual - bid; }
};

/// What one job cost against what it was bid.
struct JobCost {
    const Job* job = nullptr;
    Stage stage{};
    bool open = false;                ///< more cost may come
    std::optional<Money> bidPrice;    ///< net, with accepted change orders; none without a quote
    Money bidCost;
    Money actualCost;
    Money billed;                     ///< net of tax, issued invoices less credits' net share
    Money paid;                       ///< money received on the job's invoices, tax included
    Minutes crewMinutes;
    std::optional<Money> grossProfit; ///< billed (for an open job or one not billed: bid price) less actual cost; none without either
    std::vector<ClassCost> classes;   ///< every class with a bid or an actual, in the trade's order
    Money expectedPart;               ///< of actualCost: tickets no statement has billed yet, at the sheet's price
    int ticketsWithoutPrice = 0;      ///< neither billed nor on a sheet: not in actualCost
    Minutes minutesWithoutRate;       ///< hours of people without a pay rate on the day: not in actualCost
};

JobCost jobCost(const Book& book, const Job& job);

struct CostReport {
    std::vector<JobCost> jobs;
    std::string answer;  ///< in one sentence with numbers
};
/// All jobs on which anything was bid or spent, or the one given.
CostReport costReport(const Book& book, std::optional<Id<Job>> only = {});

/// The money a person earns for minutes at the straight rate in force on the day, rounded once; nothing without a rate.
std::optional<Money> straightPay(const Book& book, Id<CrewMember> person, Date day, Minutes minutes);

}

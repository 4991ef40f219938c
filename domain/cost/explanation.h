#pragma once

#include "cost/job_cost.h"
#include "ready_mix/expected_charge.h"

#include <span>
#include <string>
#include <vector>

namespace strikeoff {

/// One named part of the difference between what a class was bid and what it cost.
struct Reason {
    std::string name;    ///< "price", "over-order", "pace: place"
    Money amount;        ///< above zero: cost more than bid
    std::string detail;  ///< both numbers and the direction, in a sentence; blank when the words were left out
};

/// A cost class with the parts its difference is made of; they add up to it to the cent, and none of them is zero.
struct ClassExplanation {
    CostClass costClass{};
    Money bid;
    Money actual;
    std::vector<Reason> because;
    Money difference() const { return actual - bid; }
};

struct JobExplanation {
    const Job* job = nullptr;
    bool open = false;  ///< more cost may come, so that what is not spent yet is no saving
    Money bid;          ///< by the accepted (else current) quote and the accepted change orders
    Money actual;
    std::vector<ClassExplanation> classes;  ///< every class with a bid or an actual, in the trade's order; they add up to the job
    std::string answer;                     ///< in one sentence: which way it went and what drives it; blank when the words were left out
    Money difference() const { return actual - bid; }
};

/// Why a job cost other than it was bid. Bid and actual are those of JobCost, and every part is what one thing alone changed, the others as carried:
///
/// Concrete. A ticket's cost is told apart by the lines its statements bill (by their code on the supplier's sheets, else by their words); a ticket not
/// billed yet by the sheet's lines. Against the bid's lines (told apart the same way; those by the yard that are no option or fee carry the mix):
/// measured area and thickness (what the takeoff calls for, scaled to the area poured, against the yards carried), over-order (yards on tickets
/// against that), mix change (another mix than carried, at what the sheet has between them; a mix of the same psi from another supplier is the same),
/// yards billed (on statements against tickets), price (what is left of the mix: paid against carried per yd³), options, each fee, tax, credits, and
/// what is claimed and not credited yet, which is taken out of the part it was billed in.
///
/// Labor. Pace of each phase (hours against hours at the bid's rate), rework, unplanned hours (a phase the bid does not carry) at the bid's rate for
/// all hours, rate (straight pay against the bid's rate on the hours worked), overtime premium, burden. A bid that carries one rate for pay and
/// burden shows it in `rate`, and the detail says so.
///
/// Every other class: price and quantity where bid and receipts give both in the same unit, else one amount with its receipts.
JobExplanation explain(CostReckoner& reckoner, const Job& job, Words words = Words::written);

/// Classes of several jobs added up by class and reason, the largest reasons first. Details are left blank.
std::vector<ClassExplanation> addedUp(std::span<const JobExplanation> jobs);

/// "cost $412.50 more", "cost $12.00 less", "cost the same".
std::string costMoreOrLess(Money difference);

}

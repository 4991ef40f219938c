#pragma once

#include "billing/billing.h"
#include "record/edit.h"

#include <optional>
#include <string>
#include <vector>

namespace strikeoff {

/// Something the owner does in a job's folder, made into one edit; or, in words, what stands in its way.
struct Step {
    std::optional<Edit> edit;
    std::string obstacle;              ///< why it cannot be done now and what to do first; empty when it can
    std::vector<std::string> remarks;  ///< what the owner should look at afterwards, a sentence each
    bool possible() const { return edit.has_value(); }

    static Step of(Edit edit) { return {std::move(edit), {}, {}}; }
    static Step refused(std::string obstacle) { return {{}, std::move(obstacle), {}}; }
};

/// A lead becomes a job, and a customer unless it names one already or one of the same name can be reached in the same way. A customer of the same name
/// who cannot is somebody else, and the new one gets the town behind the name.
Step takeUpLead(const Book& book, const Lead& lead, Date day);

/// Lines for the job's quote from its takeoff: concrete as the supplier's sheet in force would charge its loads (in the month of the pour when the quote
/// names one), base, forms, labor by phase from the job type's pace (else the pace of its own pours) at the settings' labor rate, sealer. What trend, season and
/// the type's own pours make of price and hours in the month of the pour is said in remarks. Goes into the quote that is still a draft (its
/// lines are replaced), into a new revision of one that was sent, or into a new quote. What has no price in the book gets the unit cost of the newest
/// quote line of its class and unit, else none and a remark.
Step draftQuote(const Book& book, const Job& job, Date day);
/// A quote without lines, to be written by hand.
Step startQuote(const Book& book, const Job& job, Date day);
/// The next revision with the same words and lines, to be changed and sent.
Step reviseQuote(const Book& book, const Quote& quote, Date day);
/// Sent on the day, valid for the settings' days.
Step sendQuote(const Book& book, const Quote& quote, Date day);
Step acceptQuote(const Book& book, const Quote& quote, Date day);
/// Why they said no is asked for: it is what later bids learn from.
Step declineQuote(const Book& book, const Quote& quote, const std::string& reason, Date day);
Step acceptChange(const Book& book, const ChangeOrder& order, Date day);
Step declineChange(const Book& book, const ChangeOrder& order, Date day);

/// What a pour of the job begins with: the next number, what is left of the takeoff to order, supplier and mix as quoted, the job type's product.
Pour proposedPour(const Book& book, const Job& job);
/// Poured on the day, and the return visits it needs put on the list in the same edit.
Step finishPour(const Book& book, const Pour& pour, Date day);

/// The invoice draftInvoice proposes.
Step writeInvoice(const Book& book, const Job& job, InvoiceKind kind, Date day);
/// Issued on the day; the days to pay that the draft gave are counted from here.
Step issueInvoice(const Book& book, const Invoice& invoice, Date day);
/// Adds to an edit that adds a payment how it is split over the customer's invoices, the oldest due first. `row` is that payment.
void addShares(Edit& edit, const Book& book, const Payment& payment);
/// The same, split as the owner says; lines without a share are left out.
void addShares(Edit& edit, Id<Payment> payment, std::span<const SplitLine> lines);
/// Another split of a payment in the book.
Step changeSplit(const Book& book, const Payment& payment, std::span<const SplitLine> lines);

Step closeJob(const Book& book, const Job& job, Date day);
/// Given up before the work was done, and why.
Step dropJob(const Book& book, const Job& job, const std::string& reason, Date day);

/// Why quotes were declined, jobs dropped and leads lost so far, the most frequent first; to choose from instead of typing.
std::vector<std::string> reasonsGiven(const Book& book);

/// What the quote is called: "Q1012", "Q1012 revision 2".
std::string quoteName(const Quote& quote);

}

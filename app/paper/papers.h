#pragma once

#include "billing/billing.h"
#include "cost/job_cost.h"
#include "day/day_sheet.h"
#include "labor/crew_week.h"
#include "paper/paper_document.h"
#include "record/book.h"

namespace strikeoff {

struct RunSheet;
struct SupplierLetter;

// What goes to customers. Nothing of what work costs us, of mark-up or of our own notes stands on these.

/// A quote: scope, sections with areas and thickness, price with tax and deposit, what is not included, terms, acceptance lines. Lines without a price of
/// their own are added up by class, so that neither their cost nor the mark-up can be read off.
PaperDocument quotePaper(const Book& book, const Quote& quote);
/// A change to an awarded job with its price and what the job comes to with it, for signing.
PaperDocument changeOrderPaper(const Book& book, const ChangeOrder& change);
/// An invoice with the payments and credits of up to a day.
PaperDocument invoicePaper(const Book& book, const Invoice& invoice, Date asOf);
PaperDocument creditPaper(const Book& book, const Credit& credit);
/// A customer's account up to a day, with what is owed by age.
PaperDocument accountPaper(const Book& book, const Customer& customer, Date upTo);

// What goes to suppliers.

/// The letter about what is disputed on a statement: one table, every line with ticket, date, billed, expected, why.
PaperDocument letterPaper(const Settings& settings, const SupplierLetter& letter);

// For ourselves.

PaperDocument daySheetPaper(const Settings& settings, const DaySheet& sheet);
/// Where the crew goes on a day, with what, and what to mind.
PaperDocument runSheetPaper(const Settings& settings, const RunSheet& sheet);
/// What a job cost against what it was bid.
PaperDocument costPaper(CostReckoner& reckoner, const Job& job, Date today);

/// The crew's week for whoever runs payroll.
PaperDocument crewWeekPaper(const Settings& settings, const CrewWeek& week);

/// Any list: what it is, an answer in one sentence (or nothing), headings and rows. It turns sideways when it has to. Cells missing at a row's end are blank.
PaperDocument tablePaper(const Settings& settings, const std::string& title, const std::string& answer, std::vector<PaperColumn> columns, std::vector<PaperRow> rows);

}

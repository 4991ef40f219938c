#pragma once

#include "record/book.h"

#include <array>
#include <span>
#include <string>

namespace strikeoff {

class CostReckoner;

/// Where a job stands, derived from its records and never typed.
enum class Stage { measuring, drafted, quoted, awarded, planned, inWork, poured, returning, billed, paid, closed, declined, dropped };
inline constexpr std::array stageChoices{
    Choice{"measuring", "Measuring"}, Choice{"drafted", "Quote drafted"}, Choice{"quoted", "Quoted"}, Choice{"awarded", "Awarded"},
    Choice{"planned", "Pour planned"}, Choice{"in_work", "In work"}, Choice{"poured", "Poured"}, Choice{"returning", "Return visits open"},
    Choice{"billed", "Billed"}, Choice{"paid", "Paid"}, Choice{"closed", "Closed"}, Choice{"declined", "Declined"}, Choice{"dropped", "Dropped"}};
template <> inline constexpr std::span<const Choice> choicesOf<Stage> = stageChoices;

/// The stage by the first of these rules that holds; a record that is missing where a later one exists does not hold a job back.
///  1. dropped_on → dropped; closed_on → closed.
///  2. Billed in full (see JobBilling) with the work done: no pour is planned for after the last final invoice or, without a final one, concrete was
///     placed and every pour is poured. A return visit still open → returning; else paid when nothing is owed on the invoices and no retainage is
///     held, billed when something is.
///  3. Concrete was placed (a pour with its day, or a ticket): a pour not yet poured → inWork; a return visit still open → returning; else poured.
///  4. The lead was lost or every quote number's newest revision was turned down, no quote was accepted and no invoice issued → declined.
///  5. Hours other than travel → inWork.
///  6. Won (an accepted quote or change order, or an issued invoice), or no quote at all: a pour with its planned day → planned; won → awarded.
///  7. The newest revision of some quote is out without an answer → quoted; else there is a quote → drafted.
///  8. No quote → measuring.
/// Reseal calls, years away, hold no job open; nor do visits done or waived.
Stage stageOf(const Book& book, const Job& job);
/// Open: neither declined, dropped, closed nor paid with nothing left to do.
bool isOpenStage(Stage stage);

/// The quote that counts for a job: the accepted one, else the newest revision of the newest number; nullptr when there is none.
const Quote* currentQuote(const Book& book, Id<Job> job);
const Quote* acceptedQuote(const Book& book, Id<Job> job);
/// The newest revision that was sent and neither accepted nor declined (of the newest number, when several are out); nullptr when there is none, or
/// when a quote of the job was accepted.
const Quote* unansweredQuote(const Book& book, Id<Job> job);

/// Net price, cost and tax of a quote by its lines.
struct QuoteTotal {
    Money cost;
    Money net;
    Money tax;      ///< as on invoices; none for a customer who is exempt
    Money total;
    Money deposit;  ///< what the deposit invoice comes to, its tax included
};
QuoteTotal totalOf(const Book& book, const Quote& quote);
/// The same for lines that need not be in the book yet.
QuoteTotal totalOf(const Book& book, const Quote& quote, std::span<const QuoteLine* const> lines);
/// What the lines come to, in one sentence: price, tax, reckoned cost, and what the price leaves over it.
std::string quoteAnswer(const QuoteTotal& total);

/// What a job was bid: the current quote with the accepted change orders.
struct Bid {
    const Quote* quote = nullptr;  ///< none when only change orders were written
    Money cost;
    Money price;  ///< net of tax
};
/// Nothing without a quote and an accepted change order.
std::optional<Bid> bidOf(const Book& book, Id<Job> job);

/// What the owner does next for a job, in plain words: "send quote Q1012", "seal by Mon Nov 30", "bill it". Blank when nothing is left to do.
std::string nextThing(const Book& book, const Job& job, Stage stage);

/// One row of the job list.
struct JobFolder {
    const Job* job = nullptr;
    std::string number, title, customer, town, type;
    Stage stage{};
    double areaSqft = 0;            ///< zero when nothing is measured
    std::optional<Money> bid;       ///< net price of the current quote with accepted change orders
    std::optional<Money> result;    ///< billed (else bid) less actual cost so far (JobCost::grossProfit), once anything was spent
    std::string nextThing;          ///< "send quote Q1012", "bill it", "call back", …
};
std::vector<JobFolder> jobFolders(const Book& book);
std::vector<JobFolder> jobFolders(CostReckoner& reckoner);

/// The sentences a list can be narrowed by ("poured, not billed", "won, no pour date", …) and whether a folder meets one.
struct FolderFilter {
    std::string sentence;
    bool (*meets)(const Book&, const JobFolder&);
};
std::span<const FolderFilter> folderFilters();

/// "Where does each job stand?" in one sentence with numbers.
std::string jobFoldersAnswer(const Book& book);

}

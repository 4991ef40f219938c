#pragma once

#include "record/book.h"

#include <array>
#include <string>

namespace strikeoff {

/// Where a job stands, derived from its records and never typed.
enum class Stage { measuring, drafted, quoted, awarded, planned, inWork, poured, returning, billed, paid, closed, declined, dropped };
inline constexpr std::array stageChoices{
    Choice{"measuring", "Measuring"}, Choice{"drafted", "Quote drafted"}, Choice{"quoted", "Quoted"}, Choice{"awarded", "Awarded"},
    Choice{"planned", "Pour planned"}, Choice{"in_work", "In work"}, Choice{"poured", "Poured"}, Choice{"returning", "Return visits open"},
    Choice{"billed", "Billed"}, Choice{"paid", "Paid"}, Choice{"closed", "Closed"}, Choice{"declined", "Declined"}, Choice{"dropped", "Dropped"}};
template <> inline constexpr std::span<const Choice> choicesOf<Stage> = stageChoices;

Stage stageOf(const Book& book, const Job& job);
/// Open: neither declined, dropped, closed nor paid with nothing left to do.
bool isOpenStage(Stage stage);

/// The quote that counts for a job: the accepted one, else the newest revision of the newest number; nullptr when there is none.
const Quote* currentQuote(const Book& book, Id<Job> job);
const Quote* acceptedQuote(const Book& book, Id<Job> job);

/// Net price, cost and tax of a quote by its lines.
struct QuoteTotal {
    Money cost;
    Money net;
    Money tax;
    Money total;
    Money deposit;
};
QuoteTotal totalOf(const Book& book, const Quote& quote);

/// One row of the job list.
struct JobFolder {
    const Job* job = nullptr;
    std::string number, title, customer, town, type;
    Stage stage{};
    double areaSqft = 0;            ///< zero when nothing is measured
    std::optional<Money> bid;       ///< net price of the current quote with accepted change orders
    std::optional<Money> result;    ///< billed (else bid) less actual cost so far, once anything was spent
    std::string nextThing;          ///< "send quote Q1012", "bill it", "call back", …
};
std::vector<JobFolder> jobFolders(const Book& book);

/// The sentences a list can be narrowed by ("poured, not billed", "won, no pour date", …) and whether a folder meets one.
struct FolderFilter {
    std::string sentence;
    bool (*meets)(const Book&, const JobFolder&);
};
std::span<const FolderFilter> folderFilters();

/// "Where does each job stand?" in one sentence with numbers.
std::string jobFoldersAnswer(const Book& book);

}

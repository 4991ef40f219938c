#pragma once

#include "cost/job_cost.h"

#include <array>
#include <string>

namespace strikeoff {

/// The papers of a folder in the order a job runs.
enum class PaperKind { lead, takeoff, quote, pours, work, visits, invoices, result };
inline constexpr std::array paperKindChoices{Choice{"lead", "Lead"}, Choice{"takeoff", "Takeoff"}, Choice{"quote", "Quote"}, Choice{"pours", "Pours"},
                                             Choice{"work", "Tickets & hours"}, Choice{"visits", "Visits"}, Choice{"invoices", "Invoices"}, Choice{"result", "Result"}};
template <> inline constexpr std::span<const Choice> choicesOf<PaperKind> = paperKindChoices;
inline constexpr std::size_t paperCount = paperKindChoices.size();

enum class PaperState { blank, inWork, done };
inline constexpr std::array paperStateChoices{Choice{"blank", "blank"}, Choice{"in_work", "in work"}, Choice{"done", "done"}};
template <> inline constexpr std::span<const Choice> choicesOf<PaperState> = paperStateChoices;

/// One paper: whether it is blank, in work or done, and its figure in words.
struct FolderPaper {
    PaperKind kind{};
    PaperState state = PaperState::blank;
    std::string figure;  ///< "400 sq ft", "$3,120.00", "2 of 3 poured"; empty on a blank one
    std::string detail;  ///< "order 5.25 yd³", "sent Jun 3, 2026"
};

/// The run of a job's papers.
std::array<FolderPaper, paperCount> folderPapers(const Book& book, const Job& job, const JobCost& cost);

/// The paper on which the next thing is done.
PaperKind paperOfNextThing(const Book& book, const Job& job, Stage stage);

/// "Where does this job stand?" in one sentence with numbers.
std::string jobAnswer(const Book& book, const JobCost& cost);

}

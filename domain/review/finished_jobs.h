#pragma once

#include "cost/causes.h"

#include <array>
#include <string>
#include <vector>

namespace strikeoff {

/// What jobs can be told apart by.
enum class Grouping { jobType, leadSource, sizeBand, season, supplier, crewSize, town };
inline constexpr std::array groupingChoices{
    Choice{"job_type", "Job type"}, Choice{"lead_source", "Lead source"}, Choice{"size", "Size"}, Choice{"season", "Season"},
    Choice{"supplier", "Supplier"}, Choice{"crew_size", "Crew size"}, Choice{"town", "Town"}};
template <> inline constexpr std::span<const Choice> choicesOf<Grouping> = groupingChoices;
inline constexpr std::size_t groupingCount = groupingChoices.size();
/// Of every grouping, a place in FinishedJobs::names.
using GroupKeys = std::array<std::uint16_t, groupingCount>;

/// One part of what a job cost beyond its bid.
struct MissedPart {
    CostClass costClass{};
    std::uint16_t reason = 0;  ///< place in FinishedJobs::reasons
    Money amount;
};

/// A job that is done, has hours, was bid and billed.
struct FinishedJob {
    const Job* job = nullptr;
    Date day;                 ///< of its last pour; without one, of its last hours
    GroupKeys keys{};
    double areaSqft = 0;      ///< as poured, else as taken off; 0 when not known
    Money revenue;            ///< billed, net of tax
    Money cost;
    Money bidCost;
    Money overhead;           ///< its hours' share of their years' overhead
    Minutes crewMinutes;
    double yards = 0;         ///< on its tickets
    double volumeYards = 0;   ///< its takeoff calls for; 0 when not measured
    std::array<Money, costClassCount> byClass{};  ///< actual
    std::optional<int> daysToPaid;
    bool calledBack = false;
    std::uint32_t firstMissed = 0;  ///< its parts in FinishedJobs::missed
    std::uint32_t missedCount = 0;

    Money grossProfit() const { return revenue - cost; }
    double hours() const { return static_cast<double>(crewMinutes.count()) / 60; }
};

/// A quote that was answered, with its job's groups: what the win rate is counted on.
struct AnsweredQuote {
    const Quote* quote = nullptr;
    Date day;                ///< sent, else drafted
    GroupKeys keys{};
    bool won = false;
    Money price;             ///< net
    Money cost;              ///< as reckoned
    double areaSqft = 0;
};

struct LeftOutJob {
    const Job* job = nullptr;
    std::string why;          ///< "still open: quoted", "no hours", "no bid", "nothing billed"
};

/// Everything the review rests on, gathered once from the book; the groupings and filters of the page only count it anew. Points into the book.
struct FinishedJobs {
    std::vector<FinishedJob> jobs;       ///< by day
    std::vector<FinishedJob> others;     ///< billed and done, but without hours or bid: part of a year's profit, left out of what pays
    std::vector<AnsweredQuote> quotes;   ///< one a job: the accepted one, else the last turned down
    std::vector<LeftOutJob> leftOut;
    std::array<std::vector<std::string>, groupingCount> names;
    std::vector<std::string> reasons;
    std::vector<MissedPart> missed;      ///< of all jobs, one after another
    std::vector<std::optional<Id<JobType>>> types;  ///< beside names of Grouping::jobType
};
FinishedJobs finishedJobs(CostReckoner& reckoner, Date asOf);

/// Which jobs count: those done within the days, and those of the type.
struct ReviewFilter {
    std::optional<Date> from;
    std::optional<Date> to;
    std::optional<Id<JobType>> type;
};
/// Whether a job or a quote counts, by its day and keys.
bool passes(const FinishedJobs& jobs, const ReviewFilter& filter, Date day, const GroupKeys& keys);

}

#include "review/finished_jobs.h"

#include "billing/billing.h"
#include "cost/pace.h"
#include "labor/overhead.h"
#include "quantity/words.h"
#include "ready_mix/codes.h"
#include "season/season.h"
#include "takeoff/takeoff.h"

#include <algorithm>
#include <limits>
#include <map>
#include <unordered_map>

namespace strikeoff {

namespace {

/// Words told apart by a small number each, in the order they turn up.
class Names {
public:
    explicit Names(std::vector<std::string>& names) : names_{names} {}
    std::uint16_t of(const std::string& name)
    {
        const auto [found, added] = places_.try_emplace(name, static_cast<std::uint16_t>(names_.size()));
        if (added) {
            if (names_.size() > std::numeric_limits<std::uint16_t>::max()) throw DomainError{"more groups than a review can tell apart"};
            names_.push_back(name);
        }
        return found->second;
    }

private:
    std::vector<std::string>& names_;
    std::unordered_map<std::string, std::uint16_t> places_;
};

/// Where sizes are parted, in ft² (common practice, no source).
std::string sizeBand(double areaSqft)
{
    if (areaSqft <= 0) return "Size not known";
    if (areaSqft < 200) return "Under 200 ft\u00b2";
    if (areaSqft < 500) return "200\u2013500 ft\u00b2";
    if (areaSqft < 1000) return "500\u20131,000 ft\u00b2";
    if (areaSqft < 2000) return "1,000\u20132,000 ft\u00b2";
    return "2,000 ft\u00b2 and over";
}

class Gathering {
public:
    Gathering(CostReckoner& reckoner, Date asOf) : reckoner_{reckoner}, book_{reckoner.book()}, overhead_{overheadByJob(book_, reckoner.labor(), asOf)} {}

    FinishedJobs run()
    {
        for (const auto& job : book_.all<Job>()) take(job);
        std::stable_sort(found_.jobs.begin(), found_.jobs.end(), [](const auto& a, const auto& b) { return a.day < b.day; });
        found_.types.resize(found_.names[0].size());
        return std::move(found_);
    }

private:
    void take(const Job& job)
    {
        const auto stage = stageOf(book_, job);
        takeQuote(job, stage);
        if (stage == Stage::declined || stage == Stage::dropped) {
            const bool spent = !book_.referring<&Hours::job>(job.id).empty() || !book_.referring<&Ticket::job>(job.id).empty() || !book_.referring<&Receipt::job>(job.id).empty();
            if (spent) found_.leftOut.push_back({&job, std::string{stage == Stage::declined ? "declined" : "dropped"} + ", though something was spent"});
            return;
        }
        if (isOpenStage(stage) && stage != Stage::billed) {
            found_.leftOut.push_back({&job, "still open: " + lowered(labelOf(stage))});
            return;
        }
        const auto cost = reckoner_.of(job, stage);
        std::string why;
        if (cost.billed.isZero()) why = "nothing billed";
        else if (cost.crewMinutes <= Minutes{}) why = "no hours";
        else if (!cost.bidPrice) why = "no bid";
        if (!why.empty()) found_.leftOut.push_back({&job, why});
        if (cost.billed.isZero()) return;
        auto finished = finishedOf(job, cost);
        if (why.empty()) {
            takeMisses(job, finished);
            found_.jobs.push_back(std::move(finished));
        } else {
            found_.others.push_back(std::move(finished));
        }
    }

    FinishedJob finishedOf(const Job& job, const JobCost& cost)
    {
        FinishedJob finished;
        finished.job = &job;
        const auto pace = paceOf(book_, job);
        const auto takeoff = takeoffOf(book_, job.id);
        finished.areaSqft = pace.areaSqft > 0 ? pace.areaSqft : std::max(0.0, takeoff.areaSqft);
        finished.volumeYards = std::max(0.0, takeoff.volumeYards);
        for (const auto* ticket : book_.referring<&Ticket::job>(job.id)) finished.yards += ticket->yards.toDouble();
        finished.revenue = cost.billed;
        finished.cost = cost.actualCost;
        finished.bidCost = cost.bidCost;
        finished.crewMinutes = cost.crewMinutes;
        for (const auto& each : cost.classes) finished.byClass[static_cast<std::size_t>(each.costClass)] = each.actual;
        if (const auto share = overhead_.find(job.id.value()); share != overhead_.end()) finished.overhead = share->second;

        std::optional<Date> lastPour;
        for (const auto& pour : pace.pours) lastPour = std::max(lastPour.value_or(*pour.pour->pouredOn), *pour.pour->pouredOn);
        std::optional<Date> lastHours;
        for (const auto* row : book_.referring<&Hours::job>(job.id)) {
            lastHours = std::max(lastHours.value_or(row->date), row->date);
            if (row->phase == Phase::rework && lastPour && row->date > *lastPour) finished.calledBack = true;
        }
        finished.day = lastPour ? *lastPour : lastHours.value_or(job.openedOn);
        if (!isOpenStage(cost.stage)) finished.daysToPaid = daysToPaid(job);
        finished.keys = keysOf(job, finished.areaSqft, finished.day);
        key(finished.keys, Grouping::supplier) = names_[static_cast<std::size_t>(Grouping::supplier)].of(supplierOf(job));
        key(finished.keys, Grouping::crewSize) = names_[static_cast<std::size_t>(Grouping::crewSize)].of(crewOf(pace));
        return finished;
    }

    /// What a quote and a done job have in common.
    GroupKeys keysOf(const Job& job, double areaSqft, Date day)
    {
        const auto named = [&](Grouping by, const std::string& name) { return names_[static_cast<std::size_t>(by)].of(name); };
        GroupKeys keys{};
        const auto* type = book_.find(job.jobType);
        key(keys, Grouping::jobType) = named(Grouping::jobType, type ? type->name : "No type");
        found_.types.resize(found_.names[0].size());
        if (type) found_.types[key(keys, Grouping::jobType)] = type->id;
        const auto* lead = book_.find(job.lead);
        key(keys, Grouping::leadSource) = named(Grouping::leadSource, lead ? std::string{labelOf(lead->source)} : "No lead");
        key(keys, Grouping::sizeBand) = named(Grouping::sizeBand, sizeBand(areaSqft));
        key(keys, Grouping::season) = named(Grouping::season, std::string{labelOf(seasonOf(day, book_.settings().southernHalf))});
        const auto* site = book_.find(job.site);
        const auto* customer = book_.find(job.customer);
        const auto town = site && !site->town.empty() ? site->town : customer ? customer->town : std::string{};
        key(keys, Grouping::town) = named(Grouping::town, town.empty() ? "No town" : town);
        return keys;
    }
    static std::uint16_t& key(GroupKeys& keys, Grouping by) { return keys[static_cast<std::size_t>(by)]; }

    /// Who brought most of its yards.
    std::string supplierOf(const Job& job) const
    {
        std::map<std::int64_t, Yards> yards;
        for (const auto* ticket : book_.referring<&Ticket::job>(job.id)) yards[ticket->supplier.value()] += ticket->yards;
        const auto most = std::max_element(yards.begin(), yards.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
        return most == yards.end() ? "No ticket" : book_.get(Id<Supplier>{most->first}).name;
    }

    /// The most people on one of its pours.
    static std::string crewOf(const JobPace& pace)
    {
        std::optional<int> most;
        for (const auto& pour : pace.pours)
            if (pour.crewSize) most = std::max(most.value_or(0), *pour.crewSize);
        return most ? counted(*most, "person", "people") : "Crew not known";
    }

    std::optional<int> daysToPaid(const Job& job) const
    {
        const auto* lead = book_.find(job.lead);
        if (!lead) return std::nullopt;
        std::optional<Date> last;
        for (const auto* invoice : book_.referring<&Invoice::job>(job.id))
            for (const auto* share : book_.referring<&PaymentShare::invoice>(invoice->id)) {
                const auto received = book_.get(share->payment).receivedOn;
                last = std::max(last.value_or(received), received);
            }
        return last && *last >= lead->receivedOn ? std::optional{*last - lead->receivedOn} : std::nullopt;
    }

    void takeMisses(const Job& job, FinishedJob& finished)
    {
        finished.firstMissed = static_cast<std::uint32_t>(found_.missed.size());
        for (const auto& each : explain(reckoner_, job, Words::leftOut).classes)
            for (const auto& reason : each.because) found_.missed.push_back({each.costClass, reasons_.of(reason.name), reason.amount});
        finished.missedCount = static_cast<std::uint32_t>(found_.missed.size()) - finished.firstMissed;
    }

    void takeQuote(const Job& job, Stage stage)
    {
        const auto* quote = currentQuote(book_, job.id);
        if (!quote || !(quote->acceptedOn || (stage == Stage::declined && quote->sentOn))) return;
        AnsweredQuote answered;
        answered.quote = quote;
        answered.won = quote->acceptedOn.has_value();
        answered.day = quote->sentOn.value_or(quote->draftedOn);
        const auto total = totalOf(book_, *quote);
        answered.price = total.net;
        answered.cost = total.cost;
        answered.areaSqft = std::max(0.0, takeoffOf(book_, job.id).areaSqft);
        answered.keys = keysOf(job, answered.areaSqft, quote->pourMonth.value_or(answered.day));
        found_.quotes.push_back(answered);
    }

    CostReckoner& reckoner_;
    const Book& book_;
    std::unordered_map<std::int64_t, Money> overhead_;
    FinishedJobs found_;
    std::array<Names, groupingCount> names_{Names{found_.names[0]}, Names{found_.names[1]}, Names{found_.names[2]}, Names{found_.names[3]},
                                            Names{found_.names[4]}, Names{found_.names[5]}, Names{found_.names[6]}};
    Names reasons_{found_.reasons};
};

}

FinishedJobs finishedJobs(CostReckoner& reckoner, Date asOf) { return Gathering{reckoner, asOf}.run(); }

bool passes(const FinishedJobs& jobs, const ReviewFilter& filter, Date day, const GroupKeys& keys)
{
    if (filter.from && day < *filter.from) return false;
    if (filter.to && day > *filter.to) return false;
    return !filter.type || jobs.types[keys[static_cast<std::size_t>(Grouping::jobType)]] == filter.type;
}

}

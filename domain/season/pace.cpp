#include "season/pace.h"

#include "quantity/words.h"
#include "season/load_prices.h"
#include "statistics/quantiles.h"
#include "statistics/regression.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

namespace strikeoff {

namespace {

constexpr std::size_t leastForSpread = 5;
constexpr std::size_t eachSide = 7;
constexpr int monthsOfYear = 12;
constexpr int noType = -1;
constexpr std::size_t leastForAir = 12;
/// Paces within this share of each other are never odd.
constexpr double leastOddShare = 0.06;

/// Pours put together as they come.
struct Gathering {
    PaceSum sum;
    std::vector<double> paces;

    void take(double areaSqft, Minutes minutes, double pace)
    {
        ++sum.pours;
        sum.areaSqft += areaSqft;
        sum.minutes += minutes;
        paces.push_back(pace);
    }
    PaceSum finished() const
    {
        auto done = sum;
        if (sum.minutes > Minutes{} && sum.areaSqft > 0) done.sqftPerCrewHour = sum.areaSqft * 60 / static_cast<double>(sum.minutes.count());
        if (paces.size() >= leastForSpread) {
            const auto ends = quantiles(paces, std::array{0.1, 0.9});
            done.low = ends[0];
            done.high = ends[1];
        }
        return done;
    }
};

int groupOf(const Job& job) { return job.jobType ? static_cast<int>(job.jobType->value()) : noType; }

/// The ten degrees a temperature lies in.
int tensOf(int airTempF) { return (airTempF >= 0 ? airTempF / 10 : -((9 - airTempF) / 10)) * 10; }

class Paces {
public:
    Paces(const Book& book, const SeasonScope& scope) : book_{book}, southern_{book.settings().southernHalf}
    {
        for (const auto& job : book.all<Job>())
            if (scope.holds(&job)) take(job, scope);
        std::stable_sort(result_.pours.begin(), result_.pours.end(), [](const auto& a, const auto& b) { return *a.pour->pouredOn < *b.pour->pouredOn; });
        smooth();
        sums();
        fit();
        result_.answer = answer();
    }
    PaceSeasons taken() { return std::move(result_); }

private:
    void take(const Job& job, const SeasonScope& scope)
    {
        const auto pours = book_.referring<&Pour::job>(job.id);
        if (std::none_of(pours.begin(), pours.end(), [&](const Pour* pour) { return pour->pouredOn && scope.holds(*pour->pouredOn); })) return;
        for (auto& pour : paceOf(book_, job).pours) {
            if (!scope.holds(*pour.pour->pouredOn)) continue;
            if (!pour.sqftPerCrewHour) {
                ++result_.leftOut;
                continue;
            }
            result_.pours.push_back({pour.pour, &job, pour.areaSqft, pour.minutes, *pour.sqftPerCrewHour, 0, pour.crewSize, pour.airTempF, false});
            for (const auto& phase : pour.phases)
                if (phase.sqftPerCrewHour) phases_[static_cast<std::size_t>(phase.phase)].take(pour.areaSqft, phase.minutes, *phase.sqftPerCrewHour);
        }
    }

    void smooth()
    {
        std::vector<double> paces;
        paces.reserve(result_.pours.size());
        for (const auto& pour : result_.pours) paces.push_back(pour.sqftPerCrewHour);
        const auto medians = runningMedian(paces, eachSide);
        for (std::size_t i = 0; i < medians.size(); ++i) result_.pours[i].runningMedian = medians[i];
    }

    void sums()
    {
        std::map<Date, std::pair<Gathering, std::set<std::int64_t>>> months;
        std::map<int, Gathering> types, crews, air;
        std::array<Gathering, seasonCount> seasons;
        for (const auto& pour : result_.pours) {
            const auto add = [&](Gathering& to) { to.take(pour.areaSqft, pour.minutes, pour.sqftPerCrewHour); };
            auto& month = months[firstOfMonth(*pour.pour->pouredOn)];
            add(month.first);
            month.second.insert(pour.job->id.value());
            add(types[groupOf(*pour.job)]);
            add(seasons[static_cast<std::size_t>(seasonOf(*pour.pour->pouredOn, southern_))]);
            if (pour.crewSize) add(crews[*pour.crewSize]);
            if (pour.airTempF) add(air[tensOf(*pour.airTempF)]);
        }
        for (const auto& [first, month] : months) result_.months.push_back({first, month.first.finished(), static_cast<int>(month.second.size())});
        for (const auto& [type, gathered] : types)
            result_.byType.push_back({type == noType ? nullptr : book_.find(Id<JobType>{type}), gathered.finished()});
        std::stable_sort(result_.byType.begin(), result_.byType.end(), [](const auto& a, const auto& b) { return a.sum.pours > b.sum.pours; });
        for (const auto& [size, gathered] : crews) result_.byCrewSize.push_back({size, gathered.finished()});
        for (const auto& [from, gathered] : air) result_.byAirTemp.push_back({from, gathered.finished()});
        for (std::size_t season = 0; season < seasonCount; ++season)
            if (seasons[season].sum.pours > 0) result_.bySeason.push_back({static_cast<Season>(season), seasons[season].finished()});
        for (std::size_t phase = 0; phase < phases_.size(); ++phase)
            if (phases_[phase].sum.pours > 0) result_.byPhase.push_back({static_cast<Phase>(phase), phases_[phase].finished()});
    }

    void fit()
    {
        SeasonalQuestion question;
        for (int month = 0; month < monthsOfYear; ++month) question.quarterOf[static_cast<std::size_t>(month)] = static_cast<int>(seasonOf(month + 1, southern_));
        question.allowsForSize = true;
        question.leastScale = leastOddShare / 3;
        std::vector<SeasonalObservation> observations;
        observations.reserve(result_.pours.size());
        for (const auto& pour : result_.pours)
            observations.push_back({monthNumber(*pour.pour->pouredOn), groupOf(*pour.job), std::log(pour.areaSqft), std::log(pour.sqftPerCrewHour)});
        if (observations.empty()) {
            result_.missing = "What a season does to the pace needs pours with their area and hours.";
            return;
        }
        for (int i = 1; i <= monthsOfYear; ++i) question.ahead.push_back(observations.back().month + i);
        auto fitted = fitSeasons(observations, question);
        if (!fitted.fit) {
            result_.missing = "What a season does to the pace " + fitted.refusal + ".";
            return;
        }
        const auto& fit = *fitted.fit;
        for (std::size_t i = 0; i < result_.pours.size(); ++i) {
            result_.pours[i].odd = fit.weights[i] <= 0 && fit.groupAt(observations[i].group).has_value();
            result_.odd += result_.pours[i].odd ? 1 : 0;
        }
        result_.trendPercent = asPercent(*fit.trendPerYear);
        for (std::size_t quarter = 0; quarter < seasonCount; ++quarter)
            if (fit.quarters[quarter]) {
                const auto season = static_cast<Season>(quarter);
                const auto seen = std::find_if(result_.bySeason.begin(), result_.bySeason.end(), [&](const auto& each) { return each.season == season; });
                result_.seasons.push_back({season, asPercent(*fit.quarters[quarter]), seen == result_.bySeason.end() ? 0 : seen->sum.pours});
            }
        result_.seasonsShow = fit.showsSeason();
        fitAir(fit, observations);
        result_.fit = std::move(fitted.fit);
    }

    void fitAir(const SeasonalFit& fit, const std::vector<SeasonalObservation>& observations)
    {
        Predictors predictors{2};
        std::vector<double> observed;
        for (std::size_t i = 0; i < result_.pours.size(); ++i) {
            const auto group = fit.groupAt(observations[i].group);
            if (!result_.pours[i].airTempF || fit.weights[i] <= 0 || !group) continue;
            predictors.add({1, *result_.pours[i].airTempF / 10.0});
            observed.push_back(observations[i].value - *group - (fit.perSize ? fit.perSize->value * observations[i].size : 0));
        }
        if (observed.size() < leastForAir) return;
        if (const auto line = fitRobustly(predictors, observed); line.fit) result_.percentPerTenDegrees = asPercent(line.fit->coefficient(1));
    }

    std::string answer() const
    {
        if (result_.months.empty()) return "No pour with its area and hours yet: the crew's pace shows here month by month.";
        const auto& last = result_.months.back();
        std::string answer = "The crew made " + Quantity::ofUnits(std::llround(*last.sum.sqftPerCrewHour * 1000)).shown(1) + " sq ft a crew-hour in " + shownMonth(last.month) + " (" +
                             counted(last.sum.pours, "pour", "pours") + ")";
        if (!result_.seasons.empty()) {
            if (!result_.seasonsShow) answer += "; no season is surely faster than another";
            else {
                const auto slowest = std::min_element(result_.seasons.begin(), result_.seasons.end(), [](const auto& a, const auto& b) { return a.percent.value < b.percent.value; });
                answer += "; type and size alike, " + lowerLabel(slowest->season) + " work makes " + percentInWords(slowest->percent) + " an hour than the year's mean";
            }
        }
        return answer + ".";
    }

    const Book& book_;
    bool southern_;
    PaceSeasons result_;
    std::array<Gathering, phaseChoices.size()> phases_;
};

/// The level of a month of the year to come, the same month of the next year for one farther off; its error is half its interval.
std::optional<Estimate> levelFor(const SeasonalFit& fit, Date month)
{
    const int last = fit.months.back().month;
    const int ahead = ((monthNumber(month) - last - 1) % monthsOfYear + monthsOfYear) % monthsOfYear;
    const auto& level = fit.ahead[static_cast<std::size_t>(ahead)];
    return std::isnan(level.value) ? std::nullopt : std::optional{level};
}

constexpr std::size_t leastPoursOfType = 8;

std::string hoursText(double hours) { return Quantity::ofUnits(std::llround(hours * 1000)).shown(1); }

}

PaceSeasons paceSeasons(const Book& book, const SeasonScope& scope) { return Paces{book, scope}.taken(); }

std::optional<CarryHours> hoursToCarry(const Book& book, const PaceSeasons& pace, Id<JobType> type, double areaSqft, Date month)
{
    if (!(areaSqft > 0)) return std::nullopt;
    const auto season = seasonOf(month, book.settings().southernHalf);
    const auto known = pace.fit ? levelFor(*pace.fit, month) : std::nullopt;
    const bool level = known.has_value();
    const auto target = known.value_or(Estimate{});
    const double slope = pace.fit && pace.fit->perSize ? pace.fit->perSize->value : 0;
    Predictors predictors{1};
    std::vector<double> paces;
    CarryHours carry;
    int inSeason = 0;
    for (const auto& pour : pace.pours) {
        if (pour.job->jobType != type || pour.odd) continue;
        const auto* seen = level ? pace.fit->monthAt(monthNumber(*pour.pour->pouredOn)) : nullptr;
        if (level && !seen) continue;
        predictors.add({1});
        paces.push_back(std::log(pour.sqftPerCrewHour) + slope * std::log(areaSqft / pour.areaSqft) + (seen ? target.value - seen->level : 0));
        ++carry.pours;
        inSeason += seasonOf(*pour.pour->pouredOn, book.settings().southernHalf) == season ? 1 : 0;
    }
    if (paces.size() < leastPoursOfType) return std::nullopt;
    const auto fitted = fitRobustly(predictors, paces);
    if (!fitted.fit) return std::nullopt;
    const auto next = fitted.fit->nextAt(std::array{1.0});
    const double half = std::hypot(next.high - next.value, target.high - target.value);
    carry.hours = {areaSqft / std::exp(next.value), areaSqft / std::exp(next.value + half), areaSqft / std::exp(next.value - half)};
    const auto* jobType = book.find(type);
    carry.words = hoursText(carry.hours.value) + " crew-hours (" + hoursText(carry.hours.low) + " to " + hoursText(carry.hours.high) + ", four times in five) for " +
                  Area::ofUnits(std::llround(areaSqft * 100)).shown(0) + " sq ft of " + (jobType ? jobType->name : std::string{"the type"}) + " in " + shownMonth(month) + ", from " +
                  counted(carry.pours, "pour", "pours") + " of the type, " + inWords(inSeason) + " of them in " + lowerLabel(season);
    return carry;
}

}

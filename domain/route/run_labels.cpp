#include "route/run_labels.h"

#include "route/run_completion.h"

#include <algorithm>
#include <array>
#include <limits>
#include <tuple>
#include <unordered_map>

namespace strikeoff {
namespace {

using Set = std::uint64_t;
constexpr double slack = 1e-6;
constexpr double hopeless = RunCompletion::hopeless;
constexpr std::array<int, 3> patience{10'000, 40'000, std::numeric_limits<int>::max()};  ///< labels before more is made of the completions
constexpr std::size_t mostOnce = 7;
constexpr std::size_t quickWidth = 30;  ///< beginnings of one length that a quick pricing follows

/// The beginning of a run.
struct Label {
    Set seen = 0;
    Set closed = 0;  ///< seen, or no longer to be reached
    double reduced = 0;
    int time = 0;
    int load = 0;
    int last = -1;
    int before = -1;
    double bound = 0;  ///< what the whole run costs at least beyond the prices
};

class Labels {
public:
    Labels(const RunSpace& space, const std::vector<double>& prices, double runPrice) : space_{space}, runPrice_{runPrice}
    {
        gains_.resize(static_cast<std::size_t>(space.size()));
        for (int local = 0; local < space.size(); ++local)
            gains_[static_cast<std::size_t>(local)] = prices[static_cast<std::size_t>(space.stop(local))] - static_cast<double>(space.cost(local));
    }

    const std::vector<double>& gains() const { return gains_; }
    std::vector<Label>& kept() { return kept_; }

    /// Adds to `into` what may follow a beginning (or the start, for -1) and can still end at no more than `limit` beyond the prices.
    void extend(int before, const RunCompletion& completion, double limit, std::vector<Label>& into) const
    {
        const Label none;
        const Label& from = before < 0 ? none : kept_[static_cast<std::size_t>(before)];
        for (int to = 0; to < space_.size(); ++to) {
            if (from.closed >> to & 1 || (before >= 0 && !space_.mayFollow(from.last, to))) continue;
            const int leg = before < 0 ? space_.fromStart(to) : space_.drive(from.last, to);
            const int end = space_.finish(to, (before < 0 ? space_.hours().from : from.time) + leg);
            if (end > space_.hours().to || from.load + space_.load(to) > space_.capacity()) continue;
            const double reduced = from.reduced + leg - gains_[static_cast<std::size_t>(to)];
            const Set seen = from.seen | Set{1} << to;
            const double bound = reduced + completion.after(to, end, seen);
            if (bound > limit) continue;
            into.push_back({seen, 0, reduced, end, from.load + space_.load(to), to, before, bound});
        }
    }

    /// Marks the stops that can no longer be reached: not even by one who would be there at once, as typed minutes need not keep the triangle's rule.
    void close(Label& label) const
    {
        label.closed = label.seen;
        for (int to = 0; to < space_.size(); ++to)
            if (!(label.closed >> to & 1) && (label.load + space_.load(to) > space_.capacity() || space_.finish(to, label.time) == RunSpace::never))
                label.closed |= Set{1} << to;
    }

    /// What the run costs beyond the prices when it ends here; hopeless when it is not back in time.
    double whole(const Label& label) const
    {
        return space_.canReturn(label.last, label.time) ? label.reduced + space_.toEnd(label.last) - space_.emptyDrive() - runPrice_ : hopeless;
    }

    std::vector<int> stopsOf(int at) const
    {
        std::vector<int> stops;
        for (; at >= 0; at = kept_[static_cast<std::size_t>(at)].before) stops.push_back(space_.stop(kept_[static_cast<std::size_t>(at)].last));
        std::ranges::reverse(stops);
        return stops;
    }

private:
    const RunSpace& space_;
    double runPrice_;
    std::vector<double> gains_;
    std::vector<Label> kept_;
};

bool leads(const Label& a, const Label& b) { return a.time <= b.time && a.reduced <= b.reduced + slack / 100 && a.load <= b.load; }

/// Sorts labels of one length so that equal sets and ends stand together, the leading ones first, and drops those led by another.
void dropLed(std::vector<Label>& labels)
{
    std::ranges::sort(labels, [](const Label& a, const Label& b) {
        return std::tie(a.seen, a.last, a.time, a.reduced, a.before) < std::tie(b.seen, b.last, b.time, b.reduced, b.before);
    });
    std::size_t kept = 0, group = 0;
    for (std::size_t at = 0; at < labels.size(); ++at) {
        if (kept > 0 && (labels[at].seen != labels[group].seen || labels[at].last != labels[group].last)) group = kept;
        bool led = false;
        for (std::size_t other = group; other < kept && !led; ++other) led = leads(labels[other], labels[at]);
        if (led) continue;
        labels[kept++] = labels[at];
    }
    labels.resize(kept);
}

/// Prices with these completions; incomplete when there were more labels than that.
Pricing priceWith(Labels& labels, const RunCompletion& completion, const RunSpace& space, PricingKind kind, std::size_t mostLabels, std::size_t most)
{
    Pricing result;
    result.complete = kind == PricingKind::complete;
    auto& kept = labels.kept();
    std::vector<std::vector<int>> byLast(static_cast<std::size_t>(space.size()));
    std::vector<std::pair<double, int>> found;

    kept.clear();
    std::vector<Label> next;
    labels.extend(-1, completion, -slack, next);
    while (!next.empty()) {
        if (kind == PricingKind::quick && next.size() > quickWidth) {
            std::ranges::nth_element(next, next.begin() + static_cast<std::ptrdiff_t>(quickWidth), {}, &Label::bound);
            next.resize(quickWidth);
        }
        dropLed(next);
        const std::size_t from = kept.size();
        for (auto& label : next) {
            labels.close(label);
            auto& others = byLast[static_cast<std::size_t>(label.last)];
            const bool led = std::ranges::any_of(others, [&](int other) {
                const auto& leader = kept[static_cast<std::size_t>(other)];
                return leads(leader, label) && (kind == PricingKind::quick || (leader.seen & ~label.closed) == 0);
            });
            if (led) continue;
            others.push_back(static_cast<int>(kept.size()));
            kept.push_back(label);
            if (const double reduced = labels.whole(label); reduced < -slack) found.emplace_back(reduced, static_cast<int>(kept.size()) - 1);
        }
        if (kept.size() > mostLabels) {
            result.complete = false;
            break;
        }
        next.clear();
        for (std::size_t at = from; at < kept.size(); ++at) labels.extend(static_cast<int>(at), completion, -slack, next);
    }
    std::ranges::sort(found);
    if (!found.empty()) result.least = found[0].first;
    std::vector<Set> sets;
    for (const auto& [reduced, at] : found) {
        if (result.runs.size() >= most) break;
        const Set seen = kept[static_cast<std::size_t>(at)].seen;
        if (std::ranges::find(sets, seen) != sets.end()) continue;
        sets.push_back(seen);
        result.runs.push_back({labels.stopsOf(at), reduced});
    }
    return result;
}

Listing listWith(Labels& labels, const RunCompletion& completion, double gap, std::size_t mostLabels, std::size_t most)
{
    Listing result;
    auto& kept = labels.kept();
    std::unordered_map<Set, std::pair<double, int>> cheapest;

    kept.clear();
    std::vector<Label> next;
    labels.extend(-1, completion, gap + slack, next);
    while (!next.empty()) {
        dropLed(next);
        const std::size_t from = kept.size();
        for (auto& label : next) {
            label.closed = label.seen;
            kept.push_back(label);
            const double reduced = labels.whole(label);
            if (reduced > gap + slack) continue;
            const auto [place, isNew] = cheapest.try_emplace(label.seen, reduced, static_cast<int>(kept.size()) - 1);
            if (!isNew && reduced < place->second.first) place->second = {reduced, static_cast<int>(kept.size()) - 1};
        }
        if (cheapest.size() > most || kept.size() > mostLabels) {
            result.complete = false;
            return result;
        }
        next.clear();
        for (std::size_t at = from; at < kept.size(); ++at) labels.extend(static_cast<int>(at), completion, gap + slack, next);
    }
    result.runs.reserve(cheapest.size());
    for (const auto& [seen, run] : cheapest) result.runs.push_back({labels.stopsOf(run.second), run.first});
    std::ranges::sort(result.runs, [](const PricedRun& a, const PricedRun& b) { return std::tie(a.reduced, a.stops) < std::tie(b.reduced, b.stops); });
    return result;
}

/// The stops that come next to those a completion already keeps from being repeated.
std::vector<int> widened(std::vector<int> once, const RunCompletion& completion, std::size_t most)
{
    for (const int stop : completion.repeated())
        if (once.size() < most && std::ranges::find(once, stop) == once.end()) once.push_back(stop);
    return once;
}

/// Tries with plain completions; where that makes too many labels, with completions that come to ever more stops only once.
template <class Try>
auto withPatience(const RunSpace& space, const Labels& labels, double runPrice, int longestStep, int mostLabels, bool isPatient, Try attempt)
{
    std::vector<int> once;
    for (std::size_t round = 0;; ++round) {
        RunCompletion completion{space, labels.gains(), runPrice, longestStep, once};
        const bool isLast = !isPatient || round + 1 == patience.size() || patience[round] >= mostLabels;
        auto result = attempt(completion, static_cast<std::size_t>(isLast ? mostLabels : patience[round]));
        if (result.complete || isLast) return result;
        const std::size_t most = round == 0 ? mostOnce / 2 : mostOnce;
        for (auto wider = widened(once, completion, most); wider.size() > once.size() && once.size() < most; wider = widened(once, completion, most)) {
            once = wider;
            completion = RunCompletion{space, labels.gains(), runPrice, longestStep, once};
        }
    }
}

}

Pricing priceRuns(const RunSpace& space, const std::vector<double>& prices, double runPrice, PricingKind kind, int mostLabels, std::size_t most)
{
    if (space.size() == 0) return {{}, 0, kind == PricingKind::complete};
    Labels labels{space, prices, runPrice};
    return withPatience(space, labels, runPrice, RunSpace::never, mostLabels, kind == PricingKind::complete, [&](const RunCompletion& completion, std::size_t mostNow) {
        return priceWith(labels, completion, space, kind, mostNow, most);
    });
}

Listing listRuns(const RunSpace& space, const std::vector<double>& prices, double runPrice, double gap, std::size_t most)
{
    if (space.size() == 0) return {};
    Labels labels{space, prices, runPrice};
    return withPatience(space, labels, runPrice, 15, static_cast<int>(most * 20), true, [&](const RunCompletion& completion, std::size_t mostNow) {
        return listWith(labels, completion, gap, mostNow, most);
    });
}

}

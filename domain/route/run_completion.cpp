#include "route/run_completion.h"

#include <algorithm>

namespace strikeoff {

void RunCompletion::Cell::keep(double value, int next)
{
    if (value >= ways[2].value) return;
    std::size_t place = 2;
    for (; place > 0 && value < ways[place - 1].value; --place) ways[place] = ways[place - 1];
    ways[place] = {value, next};
}

RunCompletion::RunCompletion(const RunSpace& space, const std::vector<double>& gains, double runPrice, int longestStep, std::vector<int> once)
    : space_{&space}, gains_{&gains}, once_{std::move(once)}
{
    const int n = space.size();
    step_ = std::min(longestStep, std::max(1, space.hours().to - space.hours().from));
    for (int a = 0; a < n; ++a)
        for (int b = 0; b < n; ++b)
            if (a != b) step_ = std::min(step_, space.service(b) + space.drive(a, b));
    const double whole = -space.emptyDrive() - runPrice;
    if (step_ <= 0) {  // work that takes no time: there is no such order of steps
        step_ = 0;
        least_ = whole;
        for (const double gain : gains) least_ -= std::max(0.0, gain);
        return;
    }
    const int steps = (space.hours().to - space.hours().from) / step_ + 1;
    const std::size_t sets = std::size_t{1} << once_.size();
    std::vector<std::size_t> bitOf(static_cast<std::size_t>(n), 0);
    for (std::size_t place = 0; place < once_.size(); ++place) bitOf[static_cast<std::size_t>(once_[place])] = std::size_t{1} << place;
    cells_.resize(static_cast<std::size_t>(n) * static_cast<std::size_t>(steps) << once_.size());
    for (int at = steps - 1; at >= 0; --at)
        for (int a = 0; a < n; ++a) {
            const int time = space.hours().from + at * step_;
            Cell* const here = &cells_[cell(a, time)];
            if (space.canReturn(a, time))
                for (std::size_t set = 0; set < sets; ++set) here[set].keep(whole + space.toEnd(a), -1);
            for (int b = 0; b < n; ++b) {
                if (!space.mayFollow(a, b)) continue;
                const int drive = space.drive(a, b);
                const int end = space.finish(b, time + drive);
                if (end > space.hours().to) continue;
                const Cell* const there = &cells_[cell(b, end)];
                const double cost = drive - gains[static_cast<std::size_t>(b)];
                const std::size_t bit = bitOf[static_cast<std::size_t>(b)];
                for (std::size_t set = 0; set < sets; ++set)
                    if ((set & bit) == 0) here[set].keep(cost + there[set | bit].without(Set{1} << a), b);
            }
        }
}

std::vector<int> RunCompletion::repeated() const
{
    std::vector<int> result;
    if (step_ == 0) return result;
    int last = -1, time = space_->hours().from;
    double best = hopeless;
    for (int first = 0; first < space_->size(); ++first) {
        const int end = space_->finish(first, space_->hours().from + space_->fromStart(first));
        if (end > space_->hours().to) continue;
        const double value = space_->fromStart(first) - (*gains_)[static_cast<std::size_t>(first)] + after(first, end, Set{1} << first);
        if (value < best) best = value, last = first, time = end;
    }
    Set seen = 0;
    for (int before = -1; last >= 0;) {
        if (seen >> last & 1 && std::ranges::find(result, last) == result.end()) result.push_back(last);
        seen |= Set{1} << last;
        const auto at = cell(last, time);
        // The ways of a cell begin at its step's first minute.
        const int from = space_->hours().from + (time - space_->hours().from) / step_ * step_;
        const auto& way = cells_[at + onceOf(seen)].wayWithout(before < 0 ? 0 : Set{1} << before);
        if (way.next < 0) break;
        before = last;
        time = space_->finish(way.next, from + space_->drive(last, way.next));
        last = way.next;
    }
    return result;
}

}

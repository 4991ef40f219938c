#include "route/run_space.h"

#include <algorithm>

namespace strikeoff {

RunSpace::RunSpace(const RoutingProblem& problem, std::size_t run)
{
    const auto& klass = problem.runs.at(run);
    hours_ = klass.hours;
    capacity_ = klass.capacity;
    for (std::size_t at = 0; at < problem.stops.size(); ++at) {
        const auto& option = klass.options.at(at);
        if (!option) continue;
        const auto& stop = problem.stops[at];
        if (stop.load > capacity_) continue;
        int end = never;
        for (const auto& span : option->hours)
            end = std::min(end, std::max(hours_.from, span.from) + stop.service <= span.to ? std::max(hours_.from, span.from) + stop.service : never);
        if (end > hours_.to) continue;
        stops_.push_back(static_cast<int>(at));
        service_.push_back(stop.service);
        load_.push_back(stop.load);
        cost_.push_back(option->cost);
        spans_.push_back(&option->hours);
    }
    drives_ = DriveMatrix{size() + 2};
    const auto place = [&](int local) {
        return local < size() ? problem.stops[static_cast<std::size_t>(stop(local))].place : local == size() ? klass.startPlace : klass.endPlace;
    };
    for (int a = 0; a < size() + 2; ++a)
        for (int b = 0; b < size() + 2; ++b) drives_.set(a, b, problem.drives(place(a), place(b)));
    for (int a = 0; a < size(); ++a)
        for (int b = 0; b < size(); ++b) {
            const auto& first = *spans_[static_cast<std::size_t>(a)];
            const bool alike = place(a) == place(b) && drives_(a, b) == 0 && first.size() == 1 && first == *spans_[static_cast<std::size_t>(b)];
            mayFollow_.push_back(a != b && !(alike && b < a));
        }
}

}

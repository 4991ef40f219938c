#include "route/run_space.h"

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
        // A stop that the run cannot even serve alone is none of its own.
        const int arrives = hours_.from + problem.drives(klass.startPlace, stop.place);
        int end = never;
        for (const auto& span : option->hours)
            if (const int done = (arrives > span.from ? arrives : span.from) + stop.service; done <= span.to) {
                end = done;
                break;
            }
        if (end == never || end + problem.drives(stop.place, klass.endPlace) > hours_.to) continue;
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
}

}

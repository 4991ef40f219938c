#include "visits/planner/visit_plan.h"

#include "quantity/words.h"
#include "visits/planner/plan_input.h"
#include "visits/visit_list.h"

#include <algorithm>
#include <tuple>

namespace strikeoff {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

std::vector<Span> spansOf(const std::vector<ClockSpan>& spans)
{
    std::vector<Span> result;
    for (const auto& span : spans) result.push_back({span.from, span.to});
    return result;
}

/// "3 h 10", "50 min".
std::string hoursText(std::int64_t minutes)
{
    if (minutes < 60) return std::to_string(minutes) + " min";
    const auto rest = minutes % 60;
    return std::to_string(minutes / 60) + " h" + (rest == 0 ? "" : (rest < 10 ? " 0" : " ") + std::to_string(rest));
}

/// Builds the plan's input from the book, has it solved and says what came out.
class BookPlanner {
public:
    BookPlanner(const Book& book, Date from, int days) : book_{book}, windows_{book}, places_{book}, days_{std::clamp(days, 1, 60)}, plan_{from, {}, {}, {}, {}, false, {{}, {}, {}}, {}, {}, {}, {}} {}

    VisitPlan run(const SearchEffort& effort, const VisitPlan* before)
    {
        for (int day = 0; day < days_; ++day) {
            plan_.days.push_back(crewOf(book_, windows_, places_, plan_.from + day));
            if (const auto* forecast = windows_.weather().on(dateOf(day))) plan_.days.back().forecast = *forecast;
            plan_.days.back().sealing = sealingHours(dateOf(day));
            problem_.days.push_back({plan_.days.back().crew});
        }
        for (const auto& visit : book_.all<Visit>())
            if (visit.isOpen()) addVisit(visit);
        plan_.drives = places_.table();
        const int places = static_cast<int>(plan_.drives.size());
        problem_.drives = DriveMatrix{places};
        for (int a = 0; a < places; ++a)
            for (int b = 0; b < places; ++b) problem_.drives.set(a, b, plan_.drives.between(at(a), at(b)).minutes);
        for (const auto row : problemRow_) plan_.visits.push_back(plan_.rows[row].visit->id);
        const auto known = before ? asOfNow(*before) : Plan{};
        plan_.solved = planVisits(problem_, effort, before ? &known : nullptr);
        const auto& solved = plan_.solved;
        plan_.score = solved.score;
        plan_.bound = solved.bound;
        plan_.proven = solved.isProven();
        takeRuns(solved);
        for (auto& row : plan_.rows) explain(row);
        sortRows();
        answer();
        return std::move(plan_);
    }

private:
    Date dateOf(int day) const { return plan_.from + day; }
    Date lastDay() const { return plan_.from + (days_ - 1); }

    /// A plan made before, in the days and visits of this one; what is no longer there is left out of it.
    Plan asOfNow(const VisitPlan& before) const
    {
        const int days = before.from - plan_.from;
        const auto placeOf = [&](std::size_t visit) {
            const auto found = std::ranges::find(plan_.visits, before.visits[visit]);
            return found == plan_.visits.end() ? std::optional<std::size_t>{} : static_cast<std::size_t>(found - plan_.visits.begin());
        };
        Plan result;
        for (const auto& run : before.solved.runs) {
            auto& now = result.runs.emplace_back(run);
            now.day += days;
            std::erase_if(now.stops, [&](const PlannedStop& stop) { return !placeOf(stop.visit); });
            for (auto& stop : now.stops) stop.visit = *placeOf(stop.visit);
        }
        for (const auto& order : before.solved.promising) {
            if (!std::ranges::all_of(order.visits, [&](std::size_t visit) { return placeOf(visit).has_value(); })) continue;
            auto& now = result.promising.emplace_back(order);
            now.day += days;
            for (auto& visit : now.visits) visit = *placeOf(visit);
        }
        return result;
    }

    void addVisit(const Visit& visit)
    {
        PlanRow row;
        row.visit = &visit;
        row.job = book_.find(visit.job);
        row.place = placeText(book_, row.job);
        row.window = windows_.windowOf(visit);
        row.state = stateOn(visit, row.window, plan_.from);
        row.minutes = usualMinutes(book_, visit);
        row.isCall = visit.kind == VisitKind::resealCall;
        if (row.isCall) {
            addCall(row);
            if (!row.on) return;  // later than the plan reaches
        } else {
            problemRow_.push_back(plan_.rows.size());
            for (int day = 0; day < days_; ++day) row.hours.push_back(windows_.hoursOn(visit, dateOf(day)));
            problem_.visits.push_back(inputOf(row));
            shut_.push_back(shutDays(row));
        }
        plan_.placeOf.push_back(places_.placeOf(visit.job));
        plan_.rows.push_back(std::move(row));
    }

    /// The hours in which one of the open visits' sealers can go on, over all of them.
    std::vector<ClockSpan> sealingHours(Date date) const
    {
        std::vector<const FinishingProduct*> products;
        for (const auto& visit : book_.all<Visit>())
            if (const auto* product = visit.isOpen() && visit.kind == VisitKind::seal ? windows_.productOf(visit) : nullptr; product && std::ranges::find(products, product) == products.end())
                products.push_back(product);
        std::vector<bool> open(1441, false);
        for (const auto* product : products)
            for (const auto& span : gateHours(*product, windows_.weather(), date).open)
                for (int minute = span.from; minute < span.to; ++minute) open[at(minute)] = true;
        std::vector<ClockSpan> spans;
        for (int minute = 0, from = -1; minute <= 1440; ++minute) {
            if (open[at(minute)] && from < 0) from = minute;
            if (!open[at(minute)] && from >= 0) spans.push_back({from, minute}), from = -1;
        }
        return spans;
    }

    /// A call needs no weather and no truck: on its planned day, else when it is due, at the latest on the first day of the plan.
    void addCall(PlanRow& row) const
    {
        auto day = row.visit->plannedOn;
        if (!day && row.window.due) day = row.window.due->date();
        if (!day && row.window.notBefore) day = row.window.notBefore->date();
        if (!day || *day > lastDay()) return;
        row.on = std::max(*day, plan_.from);
        row.at = row.visit->plannedAt;
        if (row.window.due) row.lateDays = std::max(0, *row.on - row.window.due->date());
    }

    /// By day: why a visit cannot be made then, whoever goes; empty where it can.
    std::vector<std::string> shutDays(const PlanRow& row) const
    {
        std::vector<std::string> why;
        for (int day = 0; day < days_; ++day) {
            const auto& hours = row.hours[at(day)];
            if (hours.open.empty()) why.push_back(hours.why.empty() ? "nobody can tell its hours" : hours.why);
            else if (isDayOff(*row.visit, day)) why.push_back("Sunday");
            else why.emplace_back();
        }
        return why;
    }

    bool isDayOff(const Visit& visit, int day) const { return dateOf(day).weekday() == 0 && visit.kind != VisitKind::cut; }

    PlanVisit inputOf(const PlanRow& row)
    {
        const auto& visit = *row.visit;
        PlanVisit input;
        input.place = static_cast<int>(places_.placeOf(visit.job));
        input.minutes = static_cast<int>(std::clamp<std::int64_t>(row.minutes.count(), 1, 1440));
        const auto& window = row.window;
        for (int day = 0; day < days_; ++day) {
            const auto start = Moment::startOf(dateOf(day));
            auto hours = isDayOff(visit, day) ? std::vector<ClockSpan>{} : row.hours[at(day)].open;
            // On the day it turns too late, the hours before that are the ones; without any, the day is too late as a whole.
            if (window.tooLate && input.tooLateFrom > day) {
                const auto left = (*window.tooLate - start).count();
                if (left <= 0) input.tooLateFrom = day;
                else if (left < 1440) {
                    const auto inTime = common(hours, {{0, static_cast<int>(left)}});
                    const bool room = std::ranges::any_of(inTime, [&](const ClockSpan& span) { return span.to - span.from >= input.minutes; });
                    if (room) hours = inTime;
                    else input.tooLateFrom = day;
                }
            }
            input.hours.push_back(spansOf(hours));
            input.lateDays.push_back(window.due ? std::max(0, dateOf(day) - window.due->date()) : 0);
        }
        if (window.due) input.lateDaysLeftOut = std::max(0, days_ + (plan_.from - window.due->date()));
        if (visit.pinned && visit.plannedOn && *visit.plannedOn >= plan_.from && *visit.plannedOn <= lastDay()) input.pinnedTo = *visit.plannedOn - plan_.from;
        return input;
    }

    void takeRuns(const Plan& solved)
    {
        for (const auto& run : solved.runs) {
            auto& day = plan_.days[at(run.day)];
            const auto& crew = day.crew[run.run];
            RunPlan out{ClockTime::ofMinutes(run.leaves).value(), ClockTime::ofMinutes(run.back).value(), at(crew.startPlace), at(crew.endPlace), crew.people, {}, run.drive, 0, 0};
            std::size_t place = at(crew.startPlace);
            for (const auto& stop : run.stops) {
                const auto index = problemRow_[stop.visit];
                auto& row = plan_.rows[index];
                row.on = day.date;
                row.at = ClockTime::ofMinutes(stop.arrive);
                row.until = ClockTime::ofMinutes(stop.leave);
                row.run = static_cast<int>(day.runs.size()) + 1;
                row.stop = static_cast<int>(out.rows.size()) + 1;
                row.outsideHours = stop.outsideHours;
                const auto& input = problem_.visits[stop.visit];
                row.lateDays = input.lateDays[at(run.day)];
                row.tooLate = run.day >= input.tooLateFrom;
                out.siteMinutes += input.minutes;
                out.driveMiles += plan_.drives.between(place, at(input.place)).miles;
                place = at(input.place);
                out.rows.push_back(index);
            }
            out.driveMiles += plan_.drives.between(place, at(crew.endPlace)).miles;
            day.driveMinutes += out.driveMinutes;
            day.driveMiles += out.driveMiles;
            day.siteMinutes += out.siteMinutes;
            day.runs.push_back(std::move(out));
        }
    }

    /// Why a visit cannot be made on each day but its own, and why it is where it is.
    void explain(PlanRow& row)
    {
        const auto found = std::ranges::find(problemRow_, static_cast<std::size_t>(&row - plan_.rows.data()));
        if (found == problemRow_.end()) {
            row.why = "by phone";
            return;
        }
        const auto index = static_cast<std::size_t>(found - problemRow_.begin());
        const auto& input = problem_.visits[index];
        int open = 0;
        for (int day = 0; day < days_; ++day) {
            if (row.on == dateOf(day)) continue;
            auto why = shut_[index][at(day)];
            if (why.empty() && !fitsAlone(input, day))
                why = plan_.days[at(day)].crewWhy.empty() ? "no hours left in which it can be done" : plan_.days[at(day)].crewWhy;
            if (why.empty()) ++open;
            else row.blocked.push_back({dateOf(day), std::move(why)});
        }
        const auto& visit = *row.visit;
        if (!row.on) {
            if (input.pinnedTo) row.why = "pinned to " + dayText(*visit.plannedOn, plan_.from) + ", which has no room for it";
            else if (open > 0) row.why = "no room in the crew's hours on the days it could be made";
            else if (!row.blocked.empty()) row.why = "no day of the plan: " + row.blocked.front().why;
            return;
        }
        if (row.outsideHours) {
            const auto shut = shut_[index][at(*row.on - plan_.from)];
            row.why = "pinned against its hours" + (shut.empty() ? "" : ": " + shut);
        } else if (input.pinnedTo) {
            row.why = "pinned";
        } else if (row.tooLate) {
            row.why = "too late already, and " + std::string{*row.on == plan_.from ? "today" : "that day"} + " is the soonest";
        } else if (row.lateDays > 0) {
            row.why = counted(row.lateDays, "day", "days") + " late: no sooner day is free";
        } else if (open == 0) {
            row.why = "the only day on which it can be made";
        } else {
            row.why = neighbors(row) > 1 ? "on the way with " + counted(neighbors(row) - 1, "other stop", "other stops") : "in its window";
        }
    }

    int neighbors(const PlanRow& row) const
    {
        return static_cast<int>(std::ranges::count_if(plan_.rows, [&](const PlanRow& other) { return other.on == row.on && other.run == row.run && !other.isCall; }));
    }

    /// Whether a run of the day could make the visit if it made no other.
    bool fitsAlone(const PlanVisit& input, int day) const
    {
        return std::ranges::any_of(plan_.days[at(day)].crew, [&](const PlanRun& run) {
            return std::ranges::any_of(input.hours[at(day)], [&](const Span& span) {
                const int begin = std::max(span.from, run.hours.from + problem_.drives(run.startPlace, input.place));
                return begin + input.minutes <= span.to && begin + input.minutes + problem_.drives(input.place, run.endPlace) <= run.hours.to;
            });
        });
    }

    void sortRows()
    {
        std::vector<std::size_t> order(plan_.rows.size()), position(plan_.rows.size());
        for (std::size_t index = 0; index < order.size(); ++index) order[index] = index;
        const auto rank = [&](std::size_t index) {
            const auto& row = plan_.rows[index];
            const auto pressing = row.window.due ? row.window.due->minutes() : row.window.notBefore ? row.window.notBefore->minutes() : INT64_MAX;
            return std::tuple{!row.on, row.on.value_or(Date{}), row.at.value_or(ClockTime{}), row.run, pressing, index};
        };
        std::ranges::sort(order, [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
        std::vector<PlanRow> rows;
        std::vector<std::size_t> placeOf;
        for (const auto index : order) {
            position[index] = rows.size();
            rows.push_back(std::move(plan_.rows[index]));
            placeOf.push_back(plan_.placeOf[index]);
        }
        plan_.rows = std::move(rows);
        plan_.placeOf = std::move(placeOf);
        for (auto& day : plan_.days)
            for (auto& run : day.runs)
                for (auto& index : run.rows) index = position[index];
    }

    void answer()
    {
        if (plan_.rows.empty()) {
            plan_.answer = "No visit is open: nothing to go back to.";
            return;
        }
        int planned = 0, runs = 0, calls = 0, without = 0, waitingForWeather = 0;
        for (const auto& row : plan_.rows) {
            if (row.isCall) ++calls;
            else if (row.on) ++planned;
            else ++without;
        }
        for (const auto& day : plan_.days) runs += static_cast<int>(day.runs.size());
        for (std::size_t index = 0; index < problem_.visits.size(); ++index) {
            const auto& input = problem_.visits[index];
            waitingForWeather += !input.pinnedTo && std::ranges::all_of(input.hours, [](const auto& hours) { return hours.empty(); });
        }
        auto& text = plan_.answer;
        if (planned == 0) text = "No visit finds a day in the next " + counted(days_, "day", "days") + ".";
        else {
            text = capitalized(counted(planned, "visit", "visits")) + " in " + counted(runs, "run", "runs") + " over the next " + counted(days_, "day", "days") + ", " +
                   hoursText(plan_.score.drive) + " of driving";
            if (plan_.score.tooLate > 0) text += "; " + counted(plan_.score.tooLate, "visit", "visits") + " too late";
            if (plan_.score.lateDays > 0) text += "; " + counted(plan_.score.lateDays, "late day", "late days") + " in all";
            else if (plan_.score.tooLate == 0) text += "; none late";
            if (plan_.proven) text += ", and no plan does better.";
            else if (lateProven()) text += "; no plan drives less than " + hoursText(plan_.bound.drive) + ".";
            else text += "; the best found.";
        }
        if (without > 0) {
            text += " " + capitalized(counted(without, "visit", "visits")) + " without a day";
            if (waitingForWeather == without) text += ": its hours are not open yet, or nobody knows the weather.";
            else text += ".";
        }
        if (calls > 0) text += " " + capitalized(counted(calls, "reseal call", "reseal calls")) + " to make.";
        if (!plan_.drives.missing().empty()) text += " " + capitalized(counted(static_cast<std::int64_t>(plan_.drives.missing().size()), "place", "places")) + " without a way on record.";
    }

    bool lateProven() const
    {
        auto bound = plan_.bound, score = plan_.score;
        bound.drive = score.drive = 0;
        return bound == score;
    }

    const Book& book_;
    VisitWindows windows_;
    PlanPlaces places_;
    int days_;
    VisitPlan plan_;
    PlanProblem problem_;
    std::vector<std::size_t> problemRow_;          ///< by visit of the problem: its row
    std::vector<std::vector<std::string>> shut_;   ///< by visit of the problem and day
};

}

int VisitPlan::pinned() const
{
    return static_cast<int>(std::ranges::count_if(rows, [](const PlanRow& row) { return row.visit->pinned; }));
}

std::vector<Shortage> shortagesOf(const Book& book, const VisitPlan& plan)
{
    std::vector<VisitDay> visits;
    for (const auto& row : plan.rows)
        if (row.on && row.visit->kind == VisitKind::seal) visits.push_back({row.visit, *row.on});
    return shortages(book, visits, plan.from);
}

std::optional<Edit> writePlan(const VisitPlan& plan)
{
    Edit edit{"Plan of the return visits"};
    bool changes = false;
    for (const auto& row : plan.rows) {
        if (row.visit->pinned || row.isCall) continue;
        if (row.visit->plannedOn == row.on && row.visit->plannedAt == row.at) continue;
        auto visit = *row.visit;
        visit.plannedOn = row.on;
        visit.plannedAt = row.at;
        edit.change(visit);
        changes = true;
    }
    return changes ? std::optional{std::move(edit)} : std::nullopt;
}

VisitPlan planVisits(const Book& book, Date from, int days, const SearchEffort& effort, const VisitPlan* before)
{
    return BookPlanner{book, from, days}.run(effort, before);
}

}

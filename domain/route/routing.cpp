#include "route/routing.h"

#include "quantity/rounding.h"
#include "route/cover_program.h"
#include "route/first_routing.h"
#include "route/run_labels.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace strikeoff {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

constexpr std::size_t mostStopsOfRun = 64;  ///< the labels keep sets of stops in one word

void check(const RoutingProblem& problem)
{
    for (const auto& run : problem.runs)
        if (run.options.size() != problem.stops.size()) throw DomainError{"A run needs an option, or none, for every stop."};
    for (const auto& stop : problem.stops)
        if (stop.leftOutCost < 0 || stop.service < 0) throw DomainError{"A stop's minutes and the cost of leaving it out are not negative."};
}

/// Holds for every routing: each stop by itself at its least cost, without a drive. Costs below zero come only from options.
std::int64_t plainBound(const RoutingProblem& problem)
{
    std::int64_t bound = 0;
    for (std::size_t stop = 0; stop < problem.stops.size(); ++stop) {
        auto least = problem.stops[stop].leftOutCost;
        for (const auto& run : problem.runs)
            if (run.options[stop]) least = std::min(least, run.options[stop]->cost);
        bound += least;
    }
    // A run that starts elsewhere than it ends may save that way, by typed minutes that do not keep the triangle's rule.
    for (const auto& run : problem.runs) bound -= std::int64_t{run.count} * problem.drives(run.startPlace, run.endPlace);
    return bound;
}

class Search {
public:
    Search(const RoutingProblem& problem, const SearchEffort& effort, const SearchStart& start)
        : problem_{problem}, effort_{effort}, start_{start}, turnsLeft_{effort.turns}
    {
        for (std::size_t run = 0; run < problem.runs.size(); ++run) spaces_.emplace_back(problem, run);
    }

    Routing run()
    {
        FirstRouting first{problem_, spaces_};
        first.takeOver(start_.plan);
        first.insertAll();
        first.improve();
        best_ = first.routing();
        best_.bound = plainBound(problem_);
        if (best_.isProven()) return finished();
        if (std::ranges::any_of(spaces_, [](const RunSpace& space) { return static_cast<std::size_t>(space.size()) > mostStopsOfRun; })) return best_;

        auto program = emptyProgram();
        addFirst(program);
        const bool converged = generate(program);
        keepPromising(program);
        if (isSettled()) return finished();
        // The choice spoils the program; its prices may be asked for anew.
        std::optional<CoverProgram> held;
        if (converged && effort_.enumerated > 0) held = program;
        // What the columns so far can make.
        takeChoice(program, program.choose(static_cast<double>(best_.cost), effort_.nodes / 8, std::min(effort_.turns, 1'500)));
        if (isSettled() || (start_.below && best_.cost >= *start_.below)) return finished();
        if (held) {
            rebuildBest();
            if (!isSettled()) holdToWholeLeftOut(*held);
            if (!isSettled()) prove();
        }
        return finished();
    }

private:
    /// Where much is still open between the best and the bound: every run that could be part of something better will be listed, so fewer the better.
    void rebuildBest()
    {
        if (effort_.rebuilt == 0 || static_cast<double>(best_.cost) - value_ < 4) return;
        std::vector<RunOrder> plan;
        for (const auto& route : best_.routes) plan.push_back({route.run, route.stops});
        rebuild(plan);
        rebuild(likely_);
    }

    void rebuild(const std::vector<RunOrder>& plan)
    {
        FirstRouting better{problem_, spaces_};
        better.takeOver(plan);
        better.insertAll();
        better.improve();
        better.rebuildParts(effort_.rebuilt);
        better.improve();
        auto routing = better.routing();
        if (routing.cost >= best_.cost) return;
        routing.bound = best_.bound;
        best_ = std::move(routing);
    }

    CoverProgram emptyProgram() const
    {
        std::vector<double> leftOut;
        for (const auto& stop : problem_.stops) leftOut.push_back(static_cast<double>(stop.leftOutCost));
        std::vector<int> counts;
        for (const auto& run : problem_.runs) counts.push_back(run.count);
        return {leftOut, counts};
    }

    void add(CoverProgram& program, std::size_t run, const std::vector<int>& order)
    {
        const auto route = timedRoute(problem_, run, order);
        if (!route) throw DomainError{"A run of the search does not fit its hours."};
        auto items = order;
        std::ranges::sort(items);
        orders_.push_back(order);
        program.add({items, static_cast<int>(run), static_cast<double>(route->cost)});
    }

    void addFirst(CoverProgram& program)
    {
        for (const auto& route : best_.routes) add(program, route.run, route.stops);
        for (const auto& known : start_.promising)
            if (timedRoute(problem_, known.run, known.stops)) add(program, known.run, known.stops);
        for (std::size_t run = 0; run < spaces_.size(); ++run)
            for (int local = 0; local < spaces_[run].size(); ++local)
                if (timedRoute(problem_, run, {spaces_[run].stop(local)})) add(program, run, {spaces_[run].stop(local)});
    }

    /// Columns until none is missing. True when the linear program is solved to its end, and then its value and prices are kept. For the problem as it is
    /// it raises the bound whenever all runs were priced in full, and ends when nothing better can be.
    bool generate(CoverProgram& program, bool isProblem = true)
    {
        for (int round = 0; round < effort_.rounds; ++round) {
            const double value = program.solve();
            std::size_t added = 0;
            for (const auto kind : {PricingKind::quick, PricingKind::complete}) {
                double bound = value;
                bool complete = true;
                for (std::size_t run = 0; run < spaces_.size(); ++run) {
                    const auto pricing = priceRuns(spaces_[run], program.itemPrices(), program.classPrices()[run], kind, effort_.labels, 12);
                    for (const auto& priced : pricing.runs) add(program, run, priced.stops);
                    added += pricing.runs.size();
                    bound += problem_.runs[run].count * pricing.least;
                    complete = complete && pricing.complete;
                }
                if (kind == PricingKind::complete) {
                    if (!complete) return false;
                    if (isProblem) raiseBound(bound);
                    if (isProblem && isSettled()) return true;
                    if (added == 0) {
                        keepPrices(program, bound);
                        return true;
                    }
                }
                if (added > 0) break;
            }
        }
        return false;
    }

    /// The linear program may leave out one stop and a half. Where no better routing leaves out only one, it leaves out two, and the program is held to
    /// that by a price on each (the multiplier that gives most, found between tangents): what is listed afterwards is then far less.
    void holdToWholeLeftOut(CoverProgram& program)
    {
        const double number = program.leftOutNumber(), fewer = std::floor(number + 0.01), more = fewer + 1;
        if (number - fewer < 0.02 || number > more - 0.01) return;
        const auto prices = prices_, runPrices = runPrices_;
        const auto basis = basis_;
        const auto basisOrders = basisOrders_;
        const double plain = value_;
        if (!holdToMore(program, number, fewer, more)) {
            prices_ = prices, runPrices_ = runPrices, basis_ = basis, basisOrders_ = basisOrders, value_ = plain;
        }
        program.setLeftOutExtra(0);
    }

    bool holdToMore(CoverProgram& program, double number, double fewer, double more)
    {
        struct Tangent {
            double extra, value, number;
        };
        const auto solved = [&](double extra, double whole) -> std::optional<Tangent> {
            program.setLeftOutExtra(extra);
            if (!generate(program, false)) return {};
            return Tangent{extra, value_ - extra * whole, program.leftOutNumber()};
        };
        const double plain = value_, open = static_cast<double>(best_.cost) - plain;
        const auto few = solved(2 * (open + 1) / (number - fewer), fewer);
        if (!few || few->value < static_cast<double>(best_.cost)) return false;
        double dearest = 0;
        for (const auto& stop : problem_.stops) dearest = std::max(dearest, static_cast<double>(stop.leftOutCost));
        Tangent left{0, plain, number};
        auto right = solved(-dearest, more);
        for (int turn = 0; turn < 20 && right && right->number > more; ++turn) {
            // With x less for each, nothing lies above either line.
            const double rises = more - left.number, falls = right->number - more;
            const double at_x = (right->value - left.value + falls * -right->extra + rises * -left.extra) / (rises + falls);
            const double highest = left.value + rises * (at_x + left.extra);
            const auto next = solved(-at_x, more);
            if (!next) return false;
            const bool isHighest = highest - next->value < 0.01 || std::abs(next->number - more) < 1e-4;
            if (isHighest || turn == 19) {
                value_ = next->value;
                raiseBound(value_);
                return true;
            }
            if (next->number < more) left = *next;
            else right = next;
        }
        return false;
    }

    bool isSettled() const { return best_.isProven() || (start_.below && best_.bound >= *start_.below); }

    void raiseBound(double bound)
    {
        // The same relative tolerance as the program's own.
        const double error = 1e-5 + std::abs(bound) * 1e-11;
        best_.bound = std::max(best_.bound, std::min(best_.cost, static_cast<std::int64_t>(std::ceil(bound - error))));
    }

    void keepPrices(const CoverProgram& program, double value)
    {
        prices_ = program.itemPrices();
        runPrices_ = program.classPrices();
        value_ = value;
        basis_ = program.basis();
        basisOrders_.clear();
        for (const int variable : basis_)
            if (variable >= 0) basisOrders_.emplace_back(program.columns()[at(variable)].klass, orders_[at(variable)]);
    }

    void keepPromising(const CoverProgram& program)
    {
        constexpr std::size_t most = 500;
        std::vector<std::pair<double, int>> byPrice;
        for (int column = 0; column < static_cast<int>(orders_.size()); ++column) byPrice.emplace_back(program.reducedCost(column), column);
        std::ranges::sort(byPrice);
        byPrice.resize(std::min(byPrice.size(), most));
        for (const auto& [reduced, column] : byPrice) promising_.push_back({at(program.columns()[at(column)].klass), orders_[at(column)]});
    }

    void takeChoice(const CoverProgram& program, const CoverProgram::Choice& choice)
    {
        likely_.clear();
        for (const int column : choice.likely) likely_.push_back({at(program.columns()[at(column)].klass), orders_[at(column)]});
        if (!choice.found) return;
        Routing better;
        better.bound = best_.bound;
        for (const int column : choice.columns) {
            better.routes.push_back(timedRoute(problem_, static_cast<std::size_t>(program.columns()[static_cast<std::size_t>(column)].klass),
                                               orders_[static_cast<std::size_t>(column)]).value());
            better.cost += better.routes.back().cost;
        }
        better.leftOut = choice.leftOut;
        for (const int stop : choice.leftOut) better.cost += problem_.stops[static_cast<std::size_t>(stop)].leftOutCost;
        if (better.cost < best_.cost) best_ = better;
    }

    /// Lists every run that something better could hold and chooses among them: first what costs little more than the bound, as its few runs are
    /// quickly looked through and, when there is nothing, the bound rises by as much.
    void prove()
    {
        double settled = -1;
        for (const double share : {0.1, 0.3, 0.6, 1.0}) {
            const double whole = std::max(0.0, static_cast<double>(best_.cost) - 1 - value_);
            const double gap = share < 1 ? std::min(whole, std::max(2.0, whole * share)) : whole;
            if (gap <= settled) continue;
            if (!proveWithin(gap) || isSettled()) return;
            settled = gap;
        }
    }

    /// Settles whether anything costs at most `gap` more than the linear program's value; false when the effort does not reach so far.
    bool proveWithin(double gap)
    {
        orders_.clear();
        auto program = emptyProgram();
        startWhereItStood(program);
        std::size_t listed = 0;
        for (std::size_t run = 0; run < spaces_.size(); ++run) {
            const auto listing = listRuns(spaces_[run], prices_, runPrices_[run], gap, static_cast<std::size_t>(effort_.enumerated) - listed);
            if (!listing.complete) return false;
            listed += listing.runs.size();
            for (const auto& priced : listing.runs) add(program, run, priced.stops);
        }
        const double below = std::min(static_cast<double>(best_.cost), std::floor(value_ + gap + 1e-3) + 1);
        const auto choice = program.choose(below, effort_.nodes, turnsLeft_);
        turnsLeft_ -= program.turns();
        takeChoice(program, choice);
        raiseBound(choice.bound);
        return choice.complete;
    }

    /// The linear program's solution as the first columns of another.
    void startWhereItStood(CoverProgram& program)
    {
        auto basis = basis_;
        std::size_t next = 0;
        for (int& variable : basis)
            if (variable >= 0) {
                const auto& [run, order] = basisOrders_[next];
                add(program, at(run), order);
                variable = static_cast<int>(next++);
            }
        program.startAt(std::move(basis));
    }

    Routing finished()
    {
        std::ranges::sort(best_.routes, [](const Route& a, const Route& b) { return std::tie(a.run, a.begins, a.stops) < std::tie(b.run, b.begins, b.stops); });
        std::ranges::sort(best_.leftOut);
        best_.promising = promising_;
        for (const auto& route : best_.routes) best_.promising.push_back({route.run, route.stops});
        std::ranges::sort(best_.promising);
        best_.promising.erase(std::unique(best_.promising.begin(), best_.promising.end()), best_.promising.end());
        return best_;
    }

    const RoutingProblem& problem_;
    const SearchEffort& effort_;
    const SearchStart& start_;
    std::vector<RunSpace> spaces_;
    std::vector<std::vector<int>> orders_;  ///< by column: its stops in order
    Routing best_;
    std::vector<double> prices_, runPrices_;
    std::vector<RunOrder> promising_, likely_;
    std::vector<int> basis_;                                     ///< the linear program's, its columns numbered anew
    std::vector<std::pair<int, std::vector<int>>> basisOrders_;  ///< run and order of the columns in it
    double value_ = 0;
    int turnsLeft_;
};

}

Routing solveRouting(const RoutingProblem& problem, const SearchEffort& effort, const SearchStart& start)
{
    check(problem);
    return Search{problem, effort, start}.run();
}

Routing insertedRouting(const RoutingProblem& problem)
{
    check(problem);
    std::vector<RunSpace> spaces;
    for (std::size_t run = 0; run < problem.runs.size(); ++run) spaces.emplace_back(problem, run);
    FirstRouting first{problem, spaces};
    first.insertAll();
    auto routing = first.routing();
    routing.bound = plainBound(problem);
    return routing;
}

}

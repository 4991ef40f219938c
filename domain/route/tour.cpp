#include "route/tour.h"

#include "quantity/rounding.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>

namespace strikeoff {
namespace {

constexpr double forbiddenCost = 1e12;
constexpr double forcedCost = -1e12;

enum class Edge : char { open, forced, forbidden };

std::int64_t lengthOf(const DriveMatrix& drives, const std::vector<int>& order)
{
    std::int64_t length = 0;
    for (std::size_t at = 0; at < order.size(); ++at) length += drives(order[at], order[(at + 1) % order.size()]);
    return length;
}

/// Shortens a round trip by turning stretches round and moving up to three places elsewhere, until neither helps.
void improve(const DriveMatrix& drives, std::vector<int>& order)
{
    const int n = static_cast<int>(order.size());
    const auto at = [&](int position) { return order[static_cast<std::size_t>((position % n + n) % n)]; };
    for (bool better = n > 3; better;) {
        better = false;
        for (int i = 1; i < n; ++i)
            for (int j = i + 1; j < n; ++j)
                if (drives(at(i - 1), at(j)) + drives(at(i), at(j + 1)) < drives(at(i - 1), at(i)) + drives(at(j), at(j + 1))) {
                    std::reverse(order.begin() + i, order.begin() + j + 1);
                    better = true;
                }
        for (int count = 1; count <= 3 && !better; ++count)
            for (int i = 1; i + count <= n && !better; ++i) {
                auto rest = order;
                const std::vector<int> moved(order.begin() + i, order.begin() + i + count);
                rest.erase(rest.begin() + i, rest.begin() + i + count);
                for (std::size_t to = 1; to <= rest.size() && !better; ++to)
                    for (const bool turned : {false, true}) {
                        auto tried = rest;
                        if (turned) tried.insert(tried.begin() + static_cast<std::ptrdiff_t>(to), moved.rbegin(), moved.rend());
                        else tried.insert(tried.begin() + static_cast<std::ptrdiff_t>(to), moved.begin(), moved.end());
                        if (lengthOf(drives, tried) < lengthOf(drives, order)) {
                            order = tried;
                            better = true;
                            break;
                        }
                    }
            }
    }
}

/// The search of one tour. Edges are decided one way in every node, so that no tour is met twice.
class TourSearch {
public:
    TourSearch(const DriveMatrix& drives, int mostNodes) : drives_{drives}, n_{drives.places()}, mostNodes_{mostNodes}
    {
        best_ = nearestNeighborTour(drives);
        improve(drives_, best_.order);
        best_.length = lengthOf(drives_, best_.order);
    }

    Tour run()
    {
        const auto root = std::vector<Edge>(cells(), Edge::open);
        openBound_ = std::numeric_limits<std::int64_t>::max();
        branch(root, std::vector<double>(static_cast<std::size_t>(n_), 0.0), 300);
        best_.bound = std::min(best_.length, openBound_);
        return best_;
    }

private:
    struct Tree {
        double cost = 0;  ///< with the node prices taken off again: a lower bound
        std::vector<int> degree;
        std::vector<std::pair<int, int>> edges;
    };

    std::size_t cells() const { return static_cast<std::size_t>(n_) * static_cast<std::size_t>(n_); }
    std::size_t cell(int a, int b) const { return static_cast<std::size_t>(a) * static_cast<std::size_t>(n_) + static_cast<std::size_t>(b); }

    /// Shortest tree over all places but the first, and the first's two shortest edges; nothing when the decided edges allow none.
    std::optional<Tree> oneTree(const std::vector<Edge>& edges, const std::vector<double>& prices) const
    {
        const auto size = static_cast<std::size_t>(n_);
        const auto weight = [&](int a, int b) {
            switch (edges[cell(a, b)]) {
            case Edge::forced: return forcedCost;
            case Edge::forbidden: return forbiddenCost;
            case Edge::open: break;
            }
            return drives_(a, b) + prices[static_cast<std::size_t>(a)] + prices[static_cast<std::size_t>(b)];
        };
        Tree tree;
        tree.degree.assign(size, 0);
        const auto take = [&](int a, int b) {
            tree.cost += drives_(a, b) + prices[static_cast<std::size_t>(a)] + prices[static_cast<std::size_t>(b)];
            ++tree.degree[static_cast<std::size_t>(a)];
            ++tree.degree[static_cast<std::size_t>(b)];
            tree.edges.emplace_back(a, b);
        };
        std::vector<double> nearest(size, std::numeric_limits<double>::max());
        std::vector<int> from(size, 1);
        std::vector<bool> inside(size, false);
        inside[1] = true;
        for (int other = 2; other < n_; ++other) nearest[static_cast<std::size_t>(other)] = weight(1, other);
        for (int step = 2; step < n_; ++step) {
            int next = -1;
            for (int other = 2; other < n_; ++other)
                if (!inside[static_cast<std::size_t>(other)] && (next < 0 || nearest[static_cast<std::size_t>(other)] < nearest[static_cast<std::size_t>(next)]))
                    next = other;
            const auto at = static_cast<std::size_t>(next);
            if (nearest[at] >= forbiddenCost) return {};
            inside[at] = true;
            take(from[at], next);
            for (int other = 2; other < n_; ++other)
                if (const double w = weight(next, other); !inside[static_cast<std::size_t>(other)] && w < nearest[static_cast<std::size_t>(other)]) {
                    nearest[static_cast<std::size_t>(other)] = w;
                    from[static_cast<std::size_t>(other)] = next;
                }
        }
        int first = -1, second = -1;
        for (int other = 1; other < n_; ++other) {
            if (first < 0 || weight(0, other) < weight(0, first)) second = first, first = other;
            else if (second < 0 || weight(0, other) < weight(0, second)) second = other;
        }
        if (second < 0 || weight(0, second) >= forbiddenCost) return {};
        take(0, first);
        take(0, second);
        for (const double price : prices) tree.cost -= 2 * price;
        return tree;
    }

    std::int64_t wholeBound(const Tree& tree) const { return static_cast<std::int64_t>(std::ceil(tree.cost - 1e-6)); }

    void takeTour(const Tree& tree)
    {
        std::vector<std::vector<int>> next(static_cast<std::size_t>(n_));
        for (const auto& [a, b] : tree.edges) next[static_cast<std::size_t>(a)].push_back(b), next[static_cast<std::size_t>(b)].push_back(a);
        std::vector<int> order{0};
        for (int before = -1, at = 0; order.size() < static_cast<std::size_t>(n_);) {
            const auto& ways = next[static_cast<std::size_t>(at)];
            const int to = ways[0] == before ? ways[1] : ways[0];
            before = at;
            at = to;
            order.push_back(at);
        }
        if (const auto length = lengthOf(drives_, order); length < best_.length) best_.order = order, best_.length = length;
    }

    /// The edges that follow from decided ones: a place with two forced edges has no others, one with two left has both. False when that fails.
    bool complete(std::vector<Edge>& edges) const
    {
        for (bool changed = true; changed;) {
            changed = false;
            for (int a = 0; a < n_; ++a) {
                int forced = 0, left = 0;
                for (int b = 0; b < n_; ++b) {
                    if (b == a) continue;
                    forced += edges[cell(a, b)] == Edge::forced;
                    left += edges[cell(a, b)] != Edge::forbidden;
                }
                if (forced > 2 || left < 2) return false;
                if ((forced == 2 && left > 2) || (left == 2 && forced < 2)) {
                    for (int b = 0; b < n_; ++b)
                        if (b != a && edges[cell(a, b)] == Edge::open) edges[cell(a, b)] = edges[cell(b, a)] = forced == 2 ? Edge::forbidden : Edge::forced;
                    changed = true;
                }
            }
        }
        return !closesEarly(edges);
    }

    /// Whether forced edges make a ring that misses a place.
    bool closesEarly(const std::vector<Edge>& edges) const
    {
        std::vector<bool> seen(static_cast<std::size_t>(n_), false);
        for (int start = 0; start < n_; ++start) {
            if (seen[static_cast<std::size_t>(start)]) continue;
            int length = 0;
            for (int before = -1, at = start; at >= 0;) {
                seen[static_cast<std::size_t>(at)] = true;
                ++length;
                int to = -1;
                for (int b = 0; b < n_ && to < 0; ++b)
                    if (b != before && edges[cell(at, b)] == Edge::forced && (b == start || !seen[static_cast<std::size_t>(b)])) to = b;
                if (to == start) return length < n_;
                before = at;
                at = to;
            }
        }
        return false;
    }

    void branch(std::vector<Edge> edges, std::vector<double> prices, int steps)
    {
        if (!complete(edges)) return;
        std::int64_t bound = 0;
        std::optional<Tree> bestTree;
        auto bestPrices = prices;
        double stretch = 1.0;
        for (int step = 0, since = 0; step < steps; ++step) {
            auto tree = oneTree(edges, prices);
            if (!tree) return;
            const bool isTour = std::ranges::all_of(tree->degree, [](int degree) { return degree == 2; });
            if (!bestTree || tree->cost > bestTree->cost) bestTree = tree, bestPrices = prices, since = 0;
            else if (++since > 4) stretch /= 2, since = 0;
            bound = std::max(bound, wholeBound(*tree));
            if (isTour) takeTour(*tree);
            if (bound >= best_.length || isTour) break;
            double sum = 0;
            for (const int degree : tree->degree) sum += (degree - 2) * (degree - 2);
            const double length = stretch * std::max(1.0, static_cast<double>(best_.length) - tree->cost) / sum;
            for (std::size_t at = 0; at < prices.size(); ++at) prices[at] += length * (tree->degree[at] - 2);
        }
        if (bound >= best_.length) return;
        if (std::ranges::all_of(bestTree->degree, [](int degree) { return degree == 2; })) return;
        if (++nodes_ > mostNodes_) {
            openBound_ = std::min(openBound_, bound);
            return;
        }
        branchOn(edges, *bestTree, bestPrices);
    }

    void branchOn(const std::vector<Edge>& edges, const Tree& tree, const std::vector<double>& prices)
    {
        // The place with the fewest open edges in the tree among those it meets more than twice.
        int place = -1, fewest = std::numeric_limits<int>::max();
        for (int a = 0; a < n_; ++a) {
            if (tree.degree[static_cast<std::size_t>(a)] <= 2) continue;
            int open = 0;
            for (const auto& [from, to] : tree.edges) open += (from == a || to == a) && edges[cell(from, to)] == Edge::open;
            if (open > 0 && open < fewest) place = a, fewest = open;
        }
        if (place < 0) throw DomainError{"A tree of forced edges meets a place three times."};
        std::vector<int> open;
        int forced = 0;
        for (const auto& [from, to] : tree.edges) {
            if (from != place && to != place) continue;
            if (edges[cell(from, to)] == Edge::open) open.push_back(from == place ? to : from);
            else ++forced;
        }
        const auto decide = [&](std::vector<Edge>& to, int other, Edge edge) { to[cell(place, other)] = to[cell(other, place)] = edge; };
        auto without = edges;
        decide(without, open[0], Edge::forbidden);
        auto with = edges;
        decide(with, open[0], Edge::forced);
        if (forced == 0 && open.size() > 1) {
            auto one = with;
            decide(one, open[1], Edge::forbidden);
            decide(with, open[1], Edge::forced);
            branch(with, prices, 30);
            branch(one, prices, 30);
        } else {
            branch(with, prices, 30);
        }
        branch(without, prices, 30);
    }

    const DriveMatrix& drives_;
    int n_;
    int mostNodes_;
    int nodes_ = 0;
    Tour best_;
    std::int64_t openBound_ = 0;
};

}

bool DriveMatrix::isSymmetric() const
{
    for (int a = 0; a < places_; ++a)
        for (int b = 0; b < a; ++b)
            if ((*this)(a, b) != (*this)(b, a)) return false;
    return true;
}

Tour nearestNeighborTour(const DriveMatrix& drives)
{
    Tour tour;
    if (drives.places() == 0) return tour;
    std::vector<bool> seen(static_cast<std::size_t>(drives.places()), false);
    tour.order.push_back(0);
    seen[0] = true;
    while (tour.order.size() < seen.size()) {
        int nearest = -1;
        for (int to = 0; to < drives.places(); ++to)
            if (!seen[static_cast<std::size_t>(to)] && (nearest < 0 || drives(tour.order.back(), to) < drives(tour.order.back(), nearest))) nearest = to;
        seen[static_cast<std::size_t>(nearest)] = true;
        tour.order.push_back(nearest);
    }
    tour.length = lengthOf(drives, tour.order);
    return tour;
}

Tour shortestTour(const DriveMatrix& drives, int mostNodes)
{
    if (!drives.isSymmetric()) throw DomainError{"A shortest tour needs drives that take the same both ways."};
    if (drives.places() <= 3) {
        auto tour = nearestNeighborTour(drives);
        tour.bound = tour.length;
        return tour;
    }
    return TourSearch{drives, mostNodes}.run();
}

}

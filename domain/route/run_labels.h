#pragma once

#include "route/run_space.h"

#include <cstddef>
#include <vector>

namespace strikeoff {

/// A run found in the labels: its stops in order, by their numbers in the problem, and its cost less the prices of its stops.
struct PricedRun {
    std::vector<int> stops;
    double reduced = 0;
};

struct Pricing {
    std::vector<PricedRun> runs;
    double least = 0;       ///< of all runs when complete; not above zero (the run that stays at home)
    bool complete = true;   ///< false where a shortcut was taken or the effort ran out
};

enum class PricingKind { quick, complete };

/// Runs whose cost less the prices of their stops (by the problem's numbers) and the run's own price is below zero, the best ones first, at most
/// `most`. Quick looks at the beginnings that lead in time and price only; complete misses none (labels over sets with dominance: Feillet and
/// others, Networks 44, 2004).
Pricing priceRuns(const RunSpace& space, const std::vector<double>& prices, double runPrice, PricingKind kind, int mostLabels, std::size_t most);

struct Listing {
    std::vector<PricedRun> runs;  ///< the cheapest order for each set of stops
    bool complete = true;
};

/// Every set of stops whose cheapest run costs no more than `gap` beyond the prices.
Listing listRuns(const RunSpace& space, const std::vector<double>& prices, double runPrice, double gap, std::size_t most);

}

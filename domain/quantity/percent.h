#pragma once

#include "quantity/decimal.h"

#include <optional>

namespace strikeoff {

/// A sum with a percentage put on it, rounded once, half up: a cost with its mark-up, a price with its tax.
Money withPercent(Money base, Rate rate);

/// The sum that had a percentage put on it: the price in a total with tax, the cost behind a marked-up price. Rounded once, half up, so
/// that the percentage itself is the total less this. Nothing for −100 % and less, and where the figure is
/// too large to be kept.
std::optional<Money> beforePercent(Money total, Rate rate);

/// How many per cent of the base were put on it to reach the total: a cost and its price give the mark-up. Nothing for a base of zero,
/// and where the figure is too large to be kept.
std::optional<Rate> percentPutOn(Money base, Money total);

/// The mark-up on cost that leaves a margin of the price: m / (1 − m). Nothing for a margin of 100 % and more.
std::optional<Rate> markupForMargin(Rate margin);

/// The margin of the price that a mark-up on cost leaves: u / (1 + u). Nothing for a mark-up of −100 % and less.
std::optional<Rate> marginForMarkup(Rate markup);

}

#include "quantity/rounding.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace strikeoff {

namespace {

std::int64_t narrowed(Int128 value)
{
    if (value < std::numeric_limits<std::int64_t>::min() || value > std::numeric_limits<std::int64_t>::max())
        throw DomainError{"a figure is too large to be kept"};
    return static_cast<std::int64_t>(value);
}

}

std::int64_t divideHalfUp(Int128 numerator, Int128 denominator)
{
    if (denominator == 0) throw DomainError{"division by zero"};
    const bool negative = (numerator < 0) != (denominator < 0);
    const Int128 n = numerator < 0 ? -numerator : numerator;
    const Int128 d = denominator < 0 ? -denominator : denominator;
    const Int128 rounded = n / d + ((n % d) * 2 >= d ? 1 : 0);
    return narrowed(negative ? -rounded : rounded);
}

std::int64_t checkedAdd(std::int64_t a, std::int64_t b) { return narrowed(static_cast<Int128>(a) + b); }

std::int64_t checkedSubtract(std::int64_t a, std::int64_t b) { return narrowed(static_cast<Int128>(a) - b); }

std::int64_t checkedMultiply(std::int64_t a, std::int64_t b) { return narrowed(static_cast<Int128>(a) * b); }

std::vector<std::int64_t> splitByWeight(std::int64_t total, std::span<const std::int64_t> weights)
{
    Int128 sum = 0;
    for (const auto weight : weights) {
        if (weight < 0) throw DomainError{"a share cannot have a negative weight"};
        sum += weight;
    }
    if (sum == 0) throw DomainError{"a total cannot be split over shares without weight"};

    const bool negative = total < 0;
    const Int128 whole = negative ? -static_cast<Int128>(total) : static_cast<Int128>(total);
    std::vector<std::int64_t> shares;
    std::vector<Int128> remainders;
    shares.reserve(weights.size());
    remainders.reserve(weights.size());
    Int128 given = 0;
    for (const auto weight : weights) {
        const Int128 product = whole * weight;
        shares.push_back(narrowed(product / sum));
        remainders.push_back(product % sum);
        given += product / sum;
    }
    std::vector<std::size_t> order(weights.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return remainders[a] > remainders[b]; });
    for (std::size_t i = 0; given < whole; ++i, ++given) ++shares[order[i]];
    if (negative)
        for (auto& share : shares) share = -share;
    return shares;
}

std::vector<std::int64_t> splitEvenly(std::int64_t total, std::size_t shares)
{
    if (shares == 0) return {};
    const std::vector<std::int64_t> weights(shares, 1);
    return splitByWeight(total, weights);
}

}

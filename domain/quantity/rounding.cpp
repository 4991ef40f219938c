#include "quantity/rounding.h"

#include <algorithm>
#include <numeric>

namespace strikeoff {

namespace {

__extension__ using UInt128 = unsigned __int128;

UInt128 magnitude(Int128 value) { return value < 0 ? UInt128{0} - static_cast<UInt128>(value) : static_cast<UInt128>(value); }

std::int64_t withSign(bool negative, UInt128 size)
{
    constexpr UInt128 limit = UInt128{1} << 63;
    if (size > limit || (size == limit && !negative)) throwTooLarge();
    return static_cast<std::int64_t>(negative ? -static_cast<Int128>(size) : static_cast<Int128>(size));
}

}

void throwTooLarge() { throw DomainError{"a figure is too large to be kept"}; }

std::int64_t divideHalfUp(Int128 numerator, Int128 denominator)
{
    if (denominator == 0) throw DomainError{"division by zero"};
    const bool negative = (numerator < 0) != (denominator < 0);
    const UInt128 n = magnitude(numerator);
    const UInt128 d = magnitude(denominator);
    const UInt128 rest = n % d;
    return withSign(negative, n / d + (rest >= d - rest ? 1 : 0));
}

std::vector<std::int64_t> splitByWeight(std::int64_t total, std::span<const std::int64_t> weights)
{
    UInt128 sum = 0;
    for (const auto weight : weights) {
        if (weight < 0) throw DomainError{"a share cannot have a negative weight"};
        sum += static_cast<UInt128>(weight);
    }
    if (sum == 0) throw DomainError{"a total cannot be split over shares without weight"};

    const bool negative = total < 0;
    const UInt128 whole = magnitude(total);
    std::vector<UInt128> sizes;
    std::vector<UInt128> remainders;
    sizes.reserve(weights.size());
    remainders.reserve(weights.size());
    UInt128 given = 0;
    for (const auto weight : weights) {
        const UInt128 product = whole * static_cast<UInt128>(weight);
        sizes.push_back(product / sum);
        remainders.push_back(product % sum);
        given += product / sum;
    }
    std::vector<std::size_t> order(weights.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return remainders[a] > remainders[b]; });
    for (std::size_t i = 0; given < whole; ++i, ++given) ++sizes[order[i]];
    std::vector<std::int64_t> shares;
    shares.reserve(sizes.size());
    for (const auto size : sizes) shares.push_back(withSign(negative, size));
    return shares;
}

std::vector<std::int64_t> splitEvenly(std::int64_t total, std::size_t shares)
{
    if (shares == 0) return {};
    const std::vector<std::int64_t> weights(shares, 1);
    return splitByWeight(total, weights);
}

}

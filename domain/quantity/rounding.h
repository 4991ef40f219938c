#pragma once

#include <cstdint>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

namespace strikeoff {

/// A bug or a figure out of every bound: not a user's slip, which is a value (a problem, an empty optional).
class DomainError : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

__extension__ using Int128 = __int128;

/// The one rounding rule: to the nearest whole number, a half goes away from zero (so −2.145 is −2.15, the mirror of
/// 2.145). Throws DomainError when the result does not fit 64 bits or the divisor is zero.
std::int64_t divideHalfUp(Int128 numerator, Int128 denominator);

/// Throws the DomainError of a figure that does not fit.
[[noreturn]] void throwTooLarge();

/// Sums and products that throw DomainError instead of wrapping round.
constexpr std::int64_t checkedAdd(std::int64_t a, std::int64_t b)
{
    std::int64_t result = 0;
    if (__builtin_add_overflow(a, b, &result)) throwTooLarge();
    return result;
}
constexpr std::int64_t checkedSubtract(std::int64_t a, std::int64_t b)
{
    std::int64_t result = 0;
    if (__builtin_sub_overflow(a, b, &result)) throwTooLarge();
    return result;
}
constexpr std::int64_t checkedMultiply(std::int64_t a, std::int64_t b)
{
    std::int64_t result = 0;
    if (__builtin_mul_overflow(a, b, &result)) throwTooLarge();
    return result;
}

/// Splits a whole number by weights so that the shares add up to it exactly (largest remainder, the method of Hamilton).
/// Each share is its exact share rounded down or up; a tie goes to the earlier share; a negative total is split as the
/// mirror of the positive one. Weights are not negative and not all zero, else DomainError.
std::vector<std::int64_t> splitByWeight(std::int64_t total, std::span<const std::int64_t> weights);

/// splitByWeight with equal weights; no shares, no result.
std::vector<std::int64_t> splitEvenly(std::int64_t total, std::size_t shares);

}

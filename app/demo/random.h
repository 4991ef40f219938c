#pragma once

#include "quantity/rounding.h"

#include <array>
#include <cstdint>
#include <random>
#include <span>

namespace strikeoff::demo {

/// Numbers that come out the same on every machine: the engine is fixed by the standard, the distributions are our own on whole
/// numbers. Each subject draws from a stream of its own, so that a change to one leaves the others' draws alone.
class Random {
public:
    explicit Random(std::uint64_t stream) : engine_{0x5EEDF1A7ULL + stream * 0x9E3779B97F4A7C15ULL} {}

    /// A whole number from low to high, both included.
    std::int64_t between(std::int64_t low, std::int64_t high)
    {
        __extension__ using Wide = unsigned __int128;
        const auto width = static_cast<std::uint64_t>(high - low) + 1;
        return low + static_cast<std::int64_t>(static_cast<std::uint64_t>((static_cast<Wide>(engine_()) * width) >> 64));
    }
    int pick(int low, int high) { return static_cast<int>(between(low, high)); }
    bool chance(int perMille) { return between(0, 999) < perMille; }

    /// Near enough to a normal spread around a middle: twelve even draws added up.
    std::int64_t bell(std::int64_t middle, std::int64_t spread)
    {
        std::int64_t sum = -5994;
        for (int i = 0; i < 12; ++i) sum += between(0, 999);
        return middle + sum * spread / 1000;
    }

    template <class Container>
    const auto& of(const Container& choices)
    {
        return choices[static_cast<std::size_t>(between(0, static_cast<std::int64_t>(std::size(choices)) - 1))];
    }

    /// An index drawn by weight.
    std::size_t weighted(std::span<const int> weights)
    {
        std::int64_t total = 0;
        for (const int weight : weights) total += weight;
        auto left = between(0, total - 1);
        for (std::size_t i = 0; i < weights.size(); ++i)
            if ((left -= weights[i]) < 0) return i;
        return weights.size() - 1;
    }

private:
    std::mt19937_64 engine_;
};

}

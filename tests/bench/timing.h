#pragma once

#include <algorithm>
#include <chrono>
#include <vector>

namespace strikeoff {

/// How long some work takes, in seconds.
template <class Work>
double seconds(Work work)
{
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

inline double median(std::vector<double> figures)
{
    std::sort(figures.begin(), figures.end());
    return figures[figures.size() / 2];
}

}

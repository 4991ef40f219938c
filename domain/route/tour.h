#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace strikeoff {

/// What it takes to get from place to place (minutes, or any whole unit): a square table, a row from each place.
class DriveMatrix {
public:
    DriveMatrix() = default;
    explicit DriveMatrix(int places) : places_{places}, cells_(static_cast<std::size_t>(places) * static_cast<std::size_t>(places)) {}

    int places() const { return places_; }
    int operator()(int from, int to) const { return cells_[index(from, to)]; }
    void set(int from, int to, int drive) { cells_[index(from, to)] = drive; }
    void setBoth(int a, int b, int drive) { set(a, b, drive), set(b, a, drive); }
    bool isSymmetric() const;

private:
    std::size_t index(int from, int to) const { return static_cast<std::size_t>(from) * static_cast<std::size_t>(places_) + static_cast<std::size_t>(to); }
    int places_ = 0;
    std::vector<int> cells_;
};

/// A round trip through every place, from the first one.
struct Tour {
    std::vector<int> order;  ///< begins with 0; empty for no places
    std::int64_t length = 0;
    std::int64_t bound = 0;  ///< no round trip is shorter
    bool isProven() const { return bound == length; }
};

/// The shortest round trip where both ways of a drive take the same (else DomainError): branch and bound on the bound of the shortest 1-tree with
/// node prices (Held and Karp, Operations Research 18, 1970, and Mathematical Programming 1, 1971), branching on the edges of a place that the tree
/// meets too often (Volgenant and Jonker, EJOR 9, 1982). Exact for some fifty places; past `mostNodes` of the search the best one found is given,
/// with the bound that holds.
Tour shortestTour(const DriveMatrix& drives, int mostNodes = 200'000);

/// The round trip that always goes to the nearest place not yet seen, a tie to the lower number.
Tour nearestNeighborTour(const DriveMatrix& drives);

}

#pragma once

namespace strikeoff {

struct MatchTimes {
    double ours = 0;      ///< seconds to pair every line of every statement
    double bare = 0;      ///< seconds of a bare join on the exact number, which finds only the exact ones
    int mistyped = 0;     ///< lines whose number is mistyped
    int near = 0;         ///< of those, how many ours found
    int wrong = 0;        ///< lines paired with another ticket than theirs
};

/// As many statement lines as tickets, 400 a month, 2 % of the numbers with a digit missing or two swapped. Medians of `runs`.
MatchTimes timeMatch(int tickets, int runs);

}

#pragma once

#include <string>
#include <vector>

namespace strikeoff {

/// Seconds, median of some runs: ours, and libpq with nothing of ours between.
struct ServerTimes {
    double ours = 0;
    double bare = 0;
};

/// Opening a book on a server, against its jobs, tickets and hours read by the server's library into plain structs.
ServerTimes timeOpeningOnServer(const std::string& address);

/// One row of hours changed and committed, against a transaction of the same statements on the same rows of a schema of its own, one sent after the other.
ServerTimes timeCommitOnServer(const std::string& address);

/// From the moment an edit is saved at one desk until the book of another desk holds it, in seconds; the other waits for news as the window does.
std::vector<double> timesToBeSeen(const std::string& address, int edits);

}

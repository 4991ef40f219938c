#include "verbs/verb.h"

#include "quantity/words.h"
#include "restore.h"

#include <ostream>

namespace strikeoff {

namespace {

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto& copy = arguments.words[0];
    const auto& book = arguments.words[1];
    const auto restored = restoreBook(copy, book, [&] { return passPhraseFor(copy, false); }, openingOptions().askPassword);
    if (!restored.findings.empty()) {
        surroundings.err << "strikeoff: " << copy << " has " << counted(restored.findings.size(), "fault", "faults") << ", and nothing was changed; take an earlier copy\n";
        for (const auto& finding : restored.findings) surroundings.err << "  " << finding.where << ": " << finding.what << '\n';
        return faulty;
    }
    surroundings.out << "The book at " << book << " is the copy " << copy << ", verified before it was put there.";
    if (!restored.kept.empty()) surroundings.out << " What was there is kept at " << restored.kept << '.';
    surroundings.out << '\n';
    return done;
}

}

const Verb restoreVerb{
    "restore",
    "COPY BOOK",
    "puts a copy in the place of a book, after verifying it; what was there is kept beside it",
    {},
    "COPY is a daily copy, a backup, or one sealed with a pass phrase, which is asked for (or taken from STRIKEOFF_PASS_PHRASE). The copy stays where it is.\n"
    "Close a book in a file everywhere first. A book on a server may be open at other desks: they come to the copy at once and are told; it takes whoever owns\n"
    "the book there. Numbers given out since the copy was made are not given out again.\n",
    run};

}

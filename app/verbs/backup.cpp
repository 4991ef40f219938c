#include "verbs/verb.h"

#include "restore.h"

#include <ostream>

namespace strikeoff {

namespace {

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto& file = arguments.words[1];
    const auto store = openToRead(arguments.words[0]);
    if (!arguments.has("sealed")) {
        store->backup(file);
        surroundings.out << "A copy of " << arguments.words[0] << " is at " << file << ", read back and found sound. Keep it on another disk.\n";
        return done;
    }
    const auto phrase = passPhraseFor(file, true);
    if (!phrase) {
        surroundings.err << "strikeoff: the pass phrase is asked for at a terminal, twice alike, or taken from STRIKEOFF_PASS_PHRASE; nothing was written\n";
        return faulty;
    }
    backupSealed(*store, file, *phrase);
    surroundings.out << "A sealed copy of " << arguments.words[0] << " is at " << file
                     << ", read back and found sound. Keep it on another disk, and the pass phrase where you will find it: without it nobody opens the copy.\n";
    return done;
}

}

const Verb backupVerb{
    "backup",
    "BOOK FILE",
    "consistent copy of an open or closed book (never over an existing file)",
    {{"sealed", "", "sealed with a pass phrase, which is asked for; `restore` opens it"}},
    "The copy is a book like any other, unless it is sealed. A file manager's copy of an open book can miss what was entered last.\n",
    run};

}

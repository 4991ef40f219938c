#include "verbs/verb.h"

#include "load.h"

#include <ostream>

namespace strikeoff {

namespace {

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto& from = arguments.words[0];
    const auto& to = arguments.words[1];
    auto options = openingOptions();
    options.readOnly = true;
    const auto store = Store::open(from, options);
    store->copyTo(to, options.askPassword);
    // What is there now is opened as any book is, and compared as anyone would see it.
    const auto copy = Store::open(to, options);
    for (const auto& kind : allKinds())
        if (dumpCsv(store->book(), kind.kind) != dumpCsv(copy->book(), kind.kind)) {
            surroundings.err << "strikeoff: " << to << " does not hold the same " << kind.plural << " as " << from << "; go on with " << from << " and remove " << to << '\n';
            return faulty;
        }
    surroundings.out << "The whole book is at " << to << ", its trail included, read back and compared. " << from
                     << " is as it was: put it away, so that nobody goes on writing in it.\n";
    return done;
}

}

const Verb moveVerb{
    "move",
    "FROM TO",
    "copies a whole book, trail included, to a place where there is none",
    {},
    "Either may be a file or an address on a server: postgresql://user@host/database. Undo, numbers and history go on at the new place as they did at\n"
    "the old one, which is left untouched.\n",
    run};

}

#include "verbs/verb.h"

#include <ostream>

namespace strikeoff {

namespace {

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto& path = arguments.words[0];
    Store::create(path, openingOptions());
    surroundings.out << "An empty book is at " << path << ". Next: open it with `strikeoff " << path
                     << "`, or load your customers, crew and price sheets (`strikeoff kinds` lists what can be loaded).\n";
    return done;
}

}

const Verb newVerb{"new", "BOOK", "an empty book with sensible settings (never over an existing file)", {},
                   "A book is one file; *.strikeoff is its usual ending. For several desks it can lie on a PostgreSQL server instead:\n"
                   "postgresql://user@host/database, or ...?book=NAME for one of several. The password is asked for, or comes from PGPASSWORD or\n"
                   "the password file; it is never part of the address.\n", run};

}

#include "verbs/verb.h"

#include <ostream>

namespace strikeoff {

namespace {

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto& path = arguments.words[0];
    Store::create(path);
    surroundings.out << "An empty book is at " << path << ". Next: open it with `strikeoff " << path
                     << "`, or load your customers, crew and price sheets (`strikeoff kinds` lists what can be loaded).\n";
    return done;
}

}

const Verb newVerb{"new", "BOOK", "an empty book with sensible settings (never over an existing file)", {},
                   "A book is one file; *.strikeoff is its usual ending.\n", run};

}

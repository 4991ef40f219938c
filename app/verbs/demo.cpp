#include "verbs/verb.h"

#include <filesystem>
#include <ostream>

namespace strikeoff {

namespace {

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto& path = arguments.words[0];
    Store::create(path);
    (void)surroundings;
    return done;
}

}

const Verb demoVerb{"demo", "BOOK", "write the demonstration book (never over an existing file)", {},
                    "An outfit of our own invention with three and a half years of work, to look around in.\n", run};

}

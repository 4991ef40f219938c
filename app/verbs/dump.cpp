#include "verbs/verb.h"

#include "load.h"

#include <ostream>

namespace strikeoff {

namespace {

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto& kind = kindNamed(arguments.words[1]);
    surroundings.out << dumpCsv(openToRead(arguments.words[0])->book(), kind.kind);
    return done;
}

}

const Verb dumpVerb{"dump", "BOOK KIND", "rows of a record kind as CSV on standard output", {},
                    "What `load` reads back exactly. Text that a spreadsheet would take for a formula is led by an apostrophe,\n"
                    "which `load` takes off again.\n",
                    run};

}

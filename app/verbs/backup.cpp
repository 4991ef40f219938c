#include "verbs/verb.h"

#include <ostream>

namespace strikeoff {

namespace {

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto& file = arguments.words[1];
    openToRead(arguments.words[0])->backup(file);
    surroundings.out << "A copy of " << arguments.words[0] << " is at " << file
                     << ", read back and found sound. Keep it on another disk.\n";
    return done;
}

}

const Verb backupVerb{
    "backup",
    "BOOK FILE",
    "consistent copy of an open or closed book (never over an existing file)",
    {},
    "The copy is a book like any other. A file manager's copy of an open book can miss what was entered last.\n",
    run};

}

#include "verbs/verb.h"

#include "file.h"
#include "load.h"
#include "quantity/decimal.h"
#include "quantity/words.h"

#include <filesystem>
#include <ostream>

namespace strikeoff {

namespace {

std::string shownCount(std::size_t count) { return shownDecimal(static_cast<std::int64_t>(count), 0, 0); }

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto& path = arguments.words[2];
    const auto& kind = kindNamed(arguments.words[1]);
    LoadOptions options;
    options.checkOnly = arguments.has("check-only");
    const auto store = options.checkOnly ? openToRead(arguments.words[0]) : openToWrite(arguments.words[0], surroundings);
    std::string fault;
    const auto bytes = readWholeFile(path, fault);
    if (!bytes) {
        surroundings.err << "strikeoff: " << fault << '\n';
        return faulty;
    }
    const auto result = loadCsv(*store, kind.kind, std::filesystem::path{path}.filename().string(), *bytes, options);
    if (!result.done()) {
        surroundings.err << result.faultText(path) << "strikeoff: " << path << " has "
                         << counted(result.faultCount, "fault", "faults") << "; nothing was loaded\n";
        return faulty;
    }
    surroundings.out << (options.checkOnly ? "would be added " : "added ") << shownCount(result.added) << ", changed "
                     << shownCount(result.changed) << ", unchanged " << shownCount(result.unchanged) << '\n';
    return done;
}

}

const Verb loadVerb{"load", "BOOK KIND FILE.csv", "add or update rows of a record kind from CSV; all or nothing",
                    {{"check-only", "", "find the faults and count the rows, and change nothing"}},
                    "The first line of the file names the columns, in any order; `strikeoff kinds KIND` lists them. A row\n"
                    "that names one in the book (its key) updates it, and columns the file has not keep their value; any\n"
                    "other row is added. Every bad row is named with line and column, and then nothing is loaded.\n",
                    run};

}

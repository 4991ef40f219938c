#include "verbs/verb.h"

#include "quantity/letters.h"
#include "quantity/words.h"
#include "removed_rows.h"

#include <algorithm>
#include <ostream>

namespace strikeoff {

namespace {

constexpr std::size_t mostShown = 1000;

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto wanted = arguments.value("back");
    std::size_t place = 0;
    if (wanted) {
        const bool isNumber = !wanted->empty() && wanted->size() < 6 && std::all_of(wanted->begin(), wanted->end(), isDigit);
        if (isNumber) place = std::stoul(*wanted);
        if (place == 0) throw UsageError{"--back " + inQuotes(*wanted) + " is no place in the list; it counts from 1"};
    }
    auto options = openingOptions();
    options.readOnly = !wanted;
    const auto store = Store::open(arguments.words[0], options);
    const RemovedRows removed{*store, mostShown};
    const auto& rows = removed.rows();
    if (wanted) {
        if (place > rows.size()) {
            surroundings.err << "strikeoff: " << counted(rows.size(), "record was removed", "records were removed") << ", so there is no " << place << '\n';
            return faulty;
        }
        const auto name = removed.name(place - 1);
        const auto needed = removed.needed(place - 1);
        if (const auto hindrance = removed.hindrance(place - 1); !hindrance.empty()) {
            surroundings.err << "strikeoff: not brought back: " << hindrance << '\n';
            return faulty;
        }
        if (!needed.empty() && !arguments.has("whole")) {
            surroundings.err << "strikeoff: not brought back: " << name << " refers to what was removed too:";
            for (const auto each : needed) surroundings.err << "\n  " << each + 1 << "  " << removed.name(each);
            surroundings.err << "\nBring that back first, or all of it at once with --whole.\n";
            return faulty;
        }
        std::vector<std::string> names;
        for (const auto each : needed) names.push_back(removed.name(each));
        const auto result = store->bringBack(removed.withNeeded({place - 1}));
        if (!result.done()) {
            surroundings.err << "strikeoff: not brought back: " << result.text() << '\n';
            return faulty;
        }
        surroundings.out << name << " is back as it was";
        for (std::size_t i = 0; i < names.size(); ++i) surroundings.out << (i == 0 ? ", with " : ", ") << names[i];
        surroundings.out << ".\n";
        return done;
    }
    if (rows.empty()) {
        surroundings.out << "Nothing was removed from this book.\n";
        return done;
    }
    for (std::size_t i = 0; i < rows.size(); ++i)
        surroundings.out << i + 1 << "  " << rows[i].entry.at.substr(0, 10) << "  " << rows[i].entry.desk << "  " << removed.name(i) << '\n';
    return done;
}

}

const Verb removedVerb{
    "removed",
    "BOOK",
    "the records that were removed, newest first; --back brings one back",
    {{"back", "N", "brings back the one at that place of the list"}, {"whole", "", "with what it refers to, where that was removed too"}},
    "A record comes back with its number and everything it held. What it refers to has to be there: bring that back first, or with --whole.\n",
    run};

}

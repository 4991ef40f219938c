#include "verbs/verb.h"

#include "quantity/words.h"
#include "record/field_text.h"
#include "text_table.h"

#include <algorithm>
#include <ostream>

namespace strikeoff {

namespace {

constexpr std::size_t mostShown = 1000;

/// What a row was known by: its key's fields, or the first that says anything.
std::string nameOf(const Row& row)
{
    const auto& kind = describe(row.kind);
    std::string name;
    for (const auto i : keyFields(kind)) {
        const auto text = shownValue(kind.fields[i], row.values[i]);
        if (!text.empty()) name += (name.empty() ? "" : " / ") + text;
    }
    return name;
}

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto wanted = arguments.value("back");
    std::size_t place = 0;
    if (wanted) {
        const bool isNumber = !wanted->empty() && wanted->size() < 6 && std::all_of(wanted->begin(), wanted->end(), [](char c) { return c >= '0' && c <= '9'; });
        if (isNumber) place = std::stoul(*wanted);
        if (place == 0) throw UsageError{"--back " + inQuotes(*wanted) + " is no place in the list; it counts from 1"};
    }
    auto options = openingOptions();
    options.readOnly = !wanted;
    const auto store = Store::open(arguments.words[0], options);
    const auto removed = store->removedRows(mostShown);
    if (wanted) {
        if (place > removed.size()) {
            surroundings.err << "strikeoff: " << counted(removed.size(), "record was removed", "records were removed") << ", so there is no " << place << '\n';
            return faulty;
        }
        const auto& row = removed[place - 1];
        const auto result = store->bringBack(row);
        if (!result.done()) {
            surroundings.err << "strikeoff: not brought back: " << result.text() << '\n';
            return faulty;
        }
        surroundings.out << describe(row.kind).label << ' ' << nameOf(*row.before) << " is back as it was.\n";
        return done;
    }
    if (removed.empty()) {
        surroundings.out << "Nothing was removed from this book.\n";
        return done;
    }
    for (std::size_t i = 0; i < removed.size(); ++i)
        surroundings.out << i + 1 << "  " << removed[i].entry.at.substr(0, 10) << "  " << removed[i].entry.desk << "  " << describe(removed[i].kind).label << ' ' << nameOf(*removed[i].before) << '\n';
    return done;
}

}

const Verb removedVerb{
    "removed",
    "BOOK",
    "the records that were removed, newest first; --back brings one back",
    {{"back", "N", "brings back the one at that place of the list"}},
    "A record comes back with its number and everything it held. What it refers to has to be there: bring that back first.\n",
    run};

}

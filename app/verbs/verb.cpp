#include "verbs/verb.h"

#include "store_state.h"
#include "text_table.h"

#include "quantity/letters.h"

#include <algorithm>

namespace strikeoff {

std::optional<std::string> Arguments::value(std::string_view option) const
{
    const auto found = options.find(option);
    return found == options.end() ? std::nullopt : std::optional{found->second};
}

Date Arguments::date(Date today) const
{
    const auto typed = value("date");
    if (!typed) return today;
    const auto date = Date::read(*typed, today);
    if (!date) throw UsageError{"--date " + inQuotes(*typed) + " is no day that exists; write it as YYYY-MM-DD"};
    return *date;
}

const std::vector<Verb>& allVerbs()
{
    static const std::vector<Verb> verbs{newVerb,   demoVerb, loadVerb, dumpVerb,   kindsVerb,
                                         todayVerb, costVerb, matchVerb, owedVerb, paysVerb, chargeVerb, seasonsVerb, weekVerb, visitsVerb, verifyVerb, backupVerb, restoreVerb, removedVerb, personVerb, blotVerb, moveVerb};
    return verbs;
}

const KindDescription& kindNamed(std::string_view name)
{
    auto plain = lowered(name);
    std::replace_if(plain.begin(), plain.end(), [](char c) { return c == '-' || c == ' '; }, '_');
    if (const auto* kind = findKind(plain)) return *kind;
    std::string list;
    for (const auto& kind : allKinds()) {
        if (!list.empty()) list += ", ";
        list += kind.name;
    }
    throw UsageError{"there is no record kind " + inQuotes(name) + "; the kinds are " + list};
}

std::unique_ptr<Store> openToRead(const std::string& path)
{
    auto options = openingOptions();
    options.readOnly = true;
    return Store::open(path, options);
}

std::unique_ptr<Store> openToWrite(const std::string& path, const Surroundings& surroundings)
{
    auto options = openingOptions();
    options.keepDailyCopy = true;
    auto store = Store::open(path, options);
    if (const auto fault = copyFault(*store); !fault.empty()) surroundings.err << "strikeoff: today's copy of the book was not kept: " << fault << '\n';
    return store;
}

std::string inQuotes(std::string_view text) { return "\u201c" + cutToWidth(onOneLine(text), 60) + "\u201d"; }

}

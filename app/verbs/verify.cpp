#include "verbs/verb.h"

#include "json_writer.h"
#include "quantity/words.h"

#include <ostream>

namespace strikeoff {

namespace {

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto store = openToRead(arguments.words[0]);
    const auto findings = store->verify();
    const int status = findings.empty() ? done : faulty;
    if (arguments.has("json")) {
        JsonWriter json;
        json.beginObject().key("findings").beginArray();
        for (const auto& finding : findings)
            json.beginObject().text("where", finding.where).text("what", finding.what).textOrNull("remedy", finding.remedy).end();
        json.end().end();
        surroundings.out << json.finished();
        return status;
    }
    for (const auto& entry : store->blottings())
        surroundings.out << "Entry " << entry.id << " of the trail, " << entry.at.substr(0, 10) << " by " << entry.desk << ": " << entry.title << ".\n";
    std::size_t rows = 0;
    for (const auto& kind : allKinds()) rows += store->book().count(kind.kind);
    if (findings.empty()) {
        surroundings.out << "The book is sound: " << counted(rows, "row", "rows") << " looked at, nothing wrong.\n";
        return status;
    }
    surroundings.out << "The book has " << counted(findings.size(), "fault", "faults") << " in " << counted(rows, "row", "rows")
                     << ".\n\n";
    for (const auto& finding : findings) {
        surroundings.out << finding.where << ": " << finding.what;
        if (!finding.remedy.empty()) surroundings.out << "; " << finding.remedy;
        surroundings.out << '\n';
    }
    return status;
}

}

const Verb verifyVerb{"verify", "BOOK", "integrity of file and figures", {jsonOption}, "Exit status 1 when there is a finding.\n",
                      run};

}

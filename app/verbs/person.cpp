#include "verbs/verb.h"

#include "copy_list.h"
#include "file.h"
#include "json_writer.h"
#include "person_account.h"
#include "quantity/words.h"
#include "record/field_text.h"

#include <ostream>

namespace strikeoff {

namespace {

const std::vector<VerbOption> whom{{"customer", "NAME", "a customer, by name or by number in the book"}, {"crew", "NAME", "somebody on the crew"}};

/// The person that the options name, or nothing after saying so.
std::optional<Person> personNamed(const Book& book, const Arguments& arguments, const Surroundings& surroundings)
{
    const auto customer = arguments.value("customer"), crew = arguments.value("crew");
    if (customer.has_value() == crew.has_value()) throw UsageError{"say who: --customer NAME or --crew NAME"};
    const auto kind = customer ? RecordKind::customer : RecordKind::crewMember;
    const auto& name = customer ? *customer : *crew;
    auto person = findPerson(book, kind, name);
    if (!person) surroundings.err << "strikeoff: there is no " << (customer ? "customer " : "crew member ") << inQuotes(name) << " in the book; `dump` lists them\n";
    return person;
}

std::string asJson(const PersonAccount& account)
{
    JsonWriter json;
    json.beginObject().text("person", account.name).textOrNull("kept_by", account.keptBy).key("records").beginArray();
    for (const auto& record : account.records) {
        json.beginObject().text("kind", describe(record.kind).name).text("key", record.key).key("fields").beginObject();
        for (const auto& entered : record.fields) json.text(entered.field->name, entered.exact);
        json.end().end();
    }
    json.end().key("named_elsewhere").beginArray();
    for (const auto& mention : account.mentions)
        json.beginObject().text("kind", describe(mention.kind).name).text("key", mention.key).text("field", mention.field->name).text("text", mention.text).end();
    json.end().key("changes").beginArray();
    for (const auto& change : account.changes)
        json.beginObject()
            .text("at", change.entry.at)
            .text("desk", change.entry.desk)
            .text("kind", describe(change.kind).name)
            .text("key", change.key)
            .text("field", change.field->name)
            .textOrNull("before", change.before)
            .textOrNull("after", change.after)
            .end();
    json.end().end();
    return json.finished();
}

int runPerson(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto store = openToRead(arguments.words[0]);
    const auto person = personNamed(store->book(), arguments, surroundings);
    if (!person) return faulty;
    const auto account = arguments.has("json") ? accountOf(*store, *person) : std::nullopt;
    const auto text = account ? asJson(*account) : personAccount(*store, *person);
    const auto file = arguments.value("file");
    if (!file) {
        surroundings.out << text;
        return done;
    }
    std::string fault;
    if (!writePrivateFile(*file, text, fault, IfThere::refuse)) {
        surroundings.err << "strikeoff: " << fault << '\n';
        return faulty;
    }
    surroundings.out << "Written to " << *file << ", readable by you alone.\n";
    return done;
}

void tellCopies(const std::vector<BookCopy>& copies, std::ostream& out)
{
    if (copies.empty()) return;
    out << "These copies were made before and still hold the name:\n";
    for (const auto& copy : copies) out << "  " << copy.file << '\n';
}

int runBlot(const Arguments& arguments, const Surroundings& surroundings)
{
    auto options = openingOptions();
    options.readOnly = !arguments.has("for-good");
    const auto store = Store::open(arguments.words[0], options);
    const auto person = personNamed(store->book(), arguments, surroundings);
    if (!person) return faulty;
    const auto name = keyText(store->book(), person->kind, person->id);
    const auto copies = copiesOf(store->path());
    if (!arguments.has("for-good")) {
        surroundings.out << "Blotting out " << name << " takes names, numbers to call, addresses and notes out of " << blottingWords(*store, *person)
                         << ", and out of what the trail kept of them. Figures and days stay. It cannot be undone.\n"
                         << blottingCaution << '\n';
        tellCopies(copies, surroundings.out);
        surroundings.out << "Nothing was done yet. To do it, add --for-good" << (copies.empty() ? "" : ", and --copies-too to remove those copies") << ".\n";
        return needsOwner;
    }
    const auto out = store->blotOut(*person);
    surroundings.out << blottedName(person->id) << " was " << name << ": " << counted(static_cast<std::int64_t>(out.rows), "record", "records") << " about them, "
                     << counted(static_cast<std::int64_t>(out.mentions), "other that named them", "others that named them") << " and "
                     << counted(static_cast<std::int64_t>(out.steps), "entry", "entries") << " of the trail were rewritten.\n";
    if (!out.stillNaming.empty()) {
        surroundings.out << "These hold the same name or number in their own right and were left:\n";
        for (const auto& row : out.stillNaming) surroundings.out << "  " << row << '\n';
    }
    int status = done;
    if (!out.remark.empty()) {
        surroundings.err << "strikeoff: " << out.remark << '\n';
        status = needsOwner;
    }
    if (arguments.has("copies-too")) {
        std::vector<std::string> files;
        for (const auto& copy : copies) files.push_back(copy.file);
        const auto left = removeCopies(files);
        for (const auto& file : left) {
            surroundings.err << "strikeoff: " << file << " could not be removed and holds the name still\n";
            status = faulty;
        }
        if (const auto gone = files.size() - left.size(); gone > 0) surroundings.out << capitalized(counted(static_cast<std::int64_t>(gone), "copy made before was", "copies made before were")) << " removed.\n";
    } else {
        tellCopies(copies, surroundings.out);
    }
    surroundings.out << "Copies elsewhere, papers already sent and what a server keeps of its own are not reached.\n";
    return status;
}

std::vector<VerbOption> with(std::vector<VerbOption> options)
{
    options.insert(options.begin(), whom.begin(), whom.end());
    return options;
}

}

const Verb personVerb{
    "person", "BOOK", "all that the book holds about one person, to hand to them",
    with({{"file", "FILE", "into a new file that only you can read; else on standard output"}, jsonOption}),
    "Of a customer: sites, leads, jobs, papers and payments; of a crew member: pay and hours. Also where else they are named, and what was entered before.\n",
    runPerson};

const Verb blotVerb{
    "blot", "BOOK", "blots one person out for good, the figures kept; without --for-good it only says what it would do",
    with({{"for-good", "", "does it; there is no way back"}, {"copies-too", "", "removes the copies beside the book as well, which hold the person still"}}),
    "Names, numbers to call, addresses and notes go, from the records and from the trail; amounts, hours, yards and days stay. The trail's chain is made anew and\n"
    "says so. How long pay and tax records must be kept is for the law and a licensed practitioner to say: ask first.\n",
    runBlot};

}

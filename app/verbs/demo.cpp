#include "verbs/demonstration_book.h"
#include "verbs/verb.h"

#include "demo/demonstration.h"
#include "file.h"
#include "load.h"
#include "quantity/words.h"

#include <filesystem>
#include <ostream>

namespace strikeoff {

namespace {

void makeFolder(const std::string& folder)
{
    std::error_code error;
    if (!std::filesystem::create_directory(folder, error))
        throw StorageError{"cannot make the folder " + folder + ": " + (error ? error.message() : "it is there already")
                           + "; choose another name"};
}

/// The samples as CSV files in a folder of their own.
void writeSamples(const Book& book, const std::string& folder)
{
    int place = 0;
    for (const auto kind : demonstrationSamples()) {
        auto name = std::to_string(++place) + '-' + std::string{describe(kind).name} + ".csv";
        if (place < 10) name.insert(0, 1, '0');
        std::string fault;
        if (!writePrivateFile(std::filesystem::path{folder} / name, dumpCsv(book, kind), fault, IfThere::refuse))
            throw StorageError{fault};
    }
}

/// The edit, with the settings and the burden rates that a new book has changed instead of added.
Edit editFor(const Book& book)
{
    auto edit = demonstrationEdit();
    for (auto& change : edit.changes()) {
        const auto kind = change.row.kind;
        if (kind != RecordKind::settings && kind != RecordKind::burdenRate) continue;
        std::vector<Value> key;
        for (const auto field : keyFields(describe(kind))) key.push_back(change.row.values[field]);
        const auto there = book.withKey(kind, key);
        if (there.empty()) continue;
        change.what = ChangeType::change;
        change.row.id = there.front();
        change.row.revision = book.row(kind, there.front())->revision;
    }
    // What a new book has as it is stays untouched.
    std::erase_if(edit.changes(), [&](const Change& change) {
        return change.what == ChangeType::change && book.row(change.row.kind, change.row.id)->values == change.row.values;
    });
    return edit;
}

}

std::unique_ptr<Store> writeDemonstrationBook(const std::string& path)
{
    Store::create(path);
    try {
        OpenOptions options;
        options.desk = "demonstration";
        options.now = demonstrationDay().text() + "T12:00:00Z";
        auto store = Store::open(path, options);
        const auto result = store->commit(editFor(store->book()));
        if (!result.done()) throw DomainError{"the demonstration breaks a rule: " + result.text()};
        return store;
    } catch (...) {
        std::error_code ignored;
        for (const auto* ending : {"", "-wal", "-shm"}) std::filesystem::remove(path + ending, ignored);
        throw;
    }
}

namespace {

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto& path = arguments.words[0];
    const auto folder = arguments.value("csv");
    if (folder) makeFolder(*folder);  // before the book, so that a name that is taken leaves nothing behind
    const auto store = writeDemonstrationBook(path);
    surroundings.out << "The demonstration book is at " << path << ": "
                     << counted(store->book().count(RecordKind::job), "job", "jobs") << ", "
                     << counted(store->book().count(RecordKind::ticket), "ticket", "tickets") << ", last worked on "
                     << demonstrationDay().shown() << ". Everyone and everything in it is made up.\n";
    if (folder) {
        writeSamples(store->book(), *folder);
        surroundings.out << "CSV files to load by hand, in the order of their numbers, are in " << *folder << ".\n";
    }
    return done;
}

}

const Verb demoVerb{"demo", "BOOK", "write the demonstration book (never over an existing file)",
                    {{"csv", "DIR", "also write the records it began with as CSV files into a new folder"}},
                    "An outfit of our own invention with three and a half years of work, to look around in.\n", run};

}

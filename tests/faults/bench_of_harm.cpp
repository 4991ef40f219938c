#include "bench_of_harm.h"

#include "record/description.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <thread>
#include <unistd.h>

namespace strikeoff::faults {

void require(bool kept, const std::string& promise)
{
    if (kept) return;
    std::fprintf(stderr, "NOT KEPT: %s\n", promise.c_str());
    std::fflush(stderr);
    std::exit(1);
}

std::string Ground::server() { return qEnvironmentVariable("STRIKEOFF_TEST_SERVER").toStdString(); }

std::string Ground::file(const std::string& name) const { return folder.filePath(QString::fromStdString(name)).toStdString() + ".strikeoff"; }

std::string Ground::book(const std::string& name) const
{
    static const auto program = getpid();  // and not that of a child which is killed
    return server().empty() ? file(name) : server() + "?book=f" + std::to_string(program) + '_' + name;
}

std::map<RecordKind, std::string> dumpOf(const Book& book)
{
    std::map<RecordKind, std::string> dump;
    for (const auto& kind : allKinds()) dump[kind.kind] = dumpCsv(book, kind.kind);
    return dump;
}

std::unique_ptr<Store> opened(const std::string& path, bool readOnly)
{
    OpenOptions options;
    options.readOnly = readOnly;
    for (int tries = 0;; ++tries) {
        try {
            return Store::open(path, options);
        } catch (const ConnectionLost&) {
            if (tries == 200) throw;
            std::this_thread::sleep_for(std::chrono::milliseconds{50});
        }
    }
}

std::string faultsOf(const Store& store)
{
    std::string lines;
    for (const auto& finding : store.verify()) lines += finding.where + ": " + finding.what + '\n';
    return lines;
}

Edit threeRows(const std::string& tag)
{
    Edit edit{"Three rows " + tag};
    Customer customer;
    customer.name = tag;
    const auto id = edit.add(customer);
    for (const auto* part : {" front", " back"}) {
        Job job;
        job.title = tag + part;
        job.customer = id;
        job.openedOn = *Date::of(2026, 5, 4);
        edit.add(job);
    }
    return edit;
}

int rowsOf(const Book& book, const std::string& tag)
{
    const auto customers = std::count_if(book.all<Customer>().begin(), book.all<Customer>().end(), [&](const Customer& c) { return c.name == tag; });
    const auto jobs = std::count_if(book.all<Job>().begin(), book.all<Job>().end(), [&](const Job& j) { return j.title == tag + " front" || j.title == tag + " back"; });
    return static_cast<int>(customers + jobs);
}

std::string manyCustomers(const std::string& tag, int count)
{
    std::string csv = "name,note\n";
    for (int i = 0; i < count; ++i) csv += tag + ' ' + std::to_string(i) + ",loaded\n";
    return csv;
}

int customersOf(const Book& book, const std::string& tag)
{
    return static_cast<int>(std::count_if(book.all<Customer>().begin(), book.all<Customer>().end(), [&](const Customer& c) { return c.name.starts_with(tag + ' '); }));
}

}

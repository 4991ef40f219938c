#pragma once

#include "command_line.h"
#include "fuzz/memory_folder.h"
#include "fuzz/promise.h"
#include "verbs/verb.h"

#include <QGuiApplication>
#include <QJsonDocument>

#include <algorithm>
#include <filesystem>
#include <sstream>
#include <unistd.h>

namespace strikeoff::fuzz {

namespace detail {

/// An empty folder to stand in, with a small book outside of it.
class CommandGround {
public:
    CommandGround()
    {
        qputenv("QT_QPA_PLATFORM", "offscreen");
        if (!QCoreApplication::instance()) {
            static int count = 1;
            static char name[] = "fuzz";
            static char* names[] = {name, nullptr};
            static const QGuiApplication application{count, names};
        }
        std::filesystem::create_directories(here());
        book_ = (memory_.path() / "book.strikeoff").string();
        Store::create(book_);
        const auto store = Store::open(book_);
        Edit edit{"Begin"};
        Customer customer;
        customer.name = "Fir & Sons";
        customer.id = edit.add(customer);
        Job job;
        job.title = "Drive";
        job.customer = customer.id;
        job.openedOn = *Date::of(2026, 5, 4);
        edit.add(job);
        require(store->commit(std::move(edit)).done(), "a plain edit");
    }
    CommandGround(const CommandGround&) = delete;
    CommandGround& operator=(const CommandGround&) = delete;
    const std::string& book() const { return book_; }
    std::filesystem::path here() const { return memory_.path() / "here"; }

private:
    MemoryFolder memory_{"strikeoff-fuzz-words"};
    std::string book_;
};

}

/// Runs the lines of any bytes as the words of a command line, BOOK standing for a small book. Verbs that write, and options that name files, are read by the
/// parser and refused by an option behind them that there is none of, so that nothing is run that leaves files behind.
inline void readAnyCommandLine(std::string_view bytes)
{
    static const detail::CommandGround ground;
    std::vector<std::string> arguments;
    bool writes = false;
    for (const auto line : linesOf(bytes, 12)) {
        auto word = std::string{line};
        for (const auto* verb : {"new", "demo", "load", "backup", "restore", "move", "removed", "blot"}) writes = writes || word == verb;
        for (const auto* option : {"--out", "--csv", "--ics", "--file"}) writes = writes || word.starts_with(option);
        if (word.find('/') != std::string::npos) return;
        arguments.push_back(word == "BOOK" ? ground.book() : word);
    }
    if (writes) arguments.insert(arguments.begin(), "--no-such-option");
    const auto standing = std::filesystem::current_path();
    std::filesystem::current_path(ground.here());
    std::ostringstream out, err;
    const int status = runCommandLine(arguments, {out, err, *Date::of(2026, 11, 25), [](const std::string&) { return 0; }});
    std::filesystem::current_path(standing);
    require(status >= done && status <= needsOwner, "an exit status is one of four");
    if (status == wrongUsage) require(err.str().find("usage: strikeoff") != std::string::npos && err.str().starts_with("strikeoff: "), "wrong usage is said, with the right one");
    if (status == faulty) require(!err.str().empty() || !out.str().empty(), "a fault is said");
    if (writes) require(status == wrongUsage, "a command line with an unknown option is not run");
    require(std::filesystem::is_empty(ground.here()), "no file is left behind");
    const bool isJson = std::find(arguments.begin(), arguments.end(), "--json") != arguments.end() && std::find(arguments.begin(), arguments.end(), "--help") == arguments.end();
    if (isJson && status == done && out.str().starts_with('{')) {
        QJsonParseError fault;
        QJsonDocument::fromJson(QByteArray::fromStdString(out.str()), &fault);
        require(fault.error == QJsonParseError::NoError, "JSON is JSON");
    }
}

}

#pragma once

#include "fuzz/memory_store.h"
#include "fuzz/promise.h"
#include "load.h"
#include "storage/any_book.h"

namespace strikeoff::fuzz {

namespace detail {

/// A book with a few rows of every kind, for references to be found in.
inline MemoryStore& smallBook()
{
    static const auto store = [] {
        auto made = std::make_unique<MemoryStore>();
        Edit edit{"Settings"};
        edit.add(blankRow(RecordKind::settings));
        require(made->commit(std::move(edit)).done(), "default settings are good ones");
        test::AnyBook{*made, 7}.fill(4);
        made->keepAll();
        return made;
    }();
    return *store;
}

inline std::vector<Row> rowsOf(const Book& book, RecordKind kind)
{
    std::vector<Row> rows;
    for (std::size_t i = 0; i < book.count(kind); ++i) rows.push_back(*book.row(kind, book.idAt(kind, i)));
    return rows;
}

inline bool areSame(const std::vector<Row>& a, const std::vector<Row>& b)
{
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Row& x, const Row& y) { return x.id == y.id && x.revision == y.revision && x.values == y.values; });
}

}

/// Loads any bytes as the rows of a kind, which the first of them chooses, into a small book: all of it or nothing.
inline void readAnyCsvLoad(std::string_view bytes)
{
    const auto kind = allKinds()[choiceIn(bytes) % kindCount].kind;
    auto& store = detail::smallBook();
    const auto& book = store.book();
    static const auto counts = [&] {
        std::vector<std::size_t> rows;
        for (const auto& each : allKinds()) rows.push_back(book.count(each.kind));
        return rows;
    }();
    const auto before = detail::rowsOf(book, kind);
    const auto result = loadCsv(store, kind, "rows.csv", bytes);
    require(!result.stopped, "nobody stopped it");
    if (!result.done()) {
        require(store.commits() == 0, "a file with a fault is not loaded");
        require(!result.faults.empty() && result.faults.size() <= result.faultCount, "what is wrong is told");
        for (const auto& fault : result.faults) {
            require(fault.line >= 1 && fault.line <= static_cast<std::size_t>(std::count_if(bytes.begin(), bytes.end(), [](char c) { return c == '\n' || c == '\r'; })) + 1,
                    "a fault names a line of the file");
            require(!fault.message.empty(), "a fault says what is wrong");
        }
        require(!result.faultText("rows.csv").empty(), "the faults can be printed");
    } else {
        require(store.commits() == (result.added + result.changed > 0 ? 1U : 0U), "a file is one edit");
        require(book.count(kind) == before.size() + result.added, "the rows that were added are there");
        const auto dump = dumpCsv(book, kind);
        const auto again = loadCsv(store, kind, "dump.csv", dump);
        require(again.done(), "what was loaded and dumped can be loaded: " + again.faultText("dump.csv", 3));
        require(again.added == 0 && again.changed == 0, "what was loaded and dumped is loaded as the same");
    }
    store.takeAllBack();
    require(detail::areSame(detail::rowsOf(book, kind), before), "taken back, the rows are as they were");
    for (std::size_t i = 0; i < kindCount; ++i) require(book.count(allKinds()[i].kind) == counts[i], "no other kind was touched");
}

}

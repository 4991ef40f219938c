#pragma once

#include "load.h"
#include "store.h"

#include <QTemporaryDir>

#include <catch2/catch.hpp>

#include <map>
#include <memory>

namespace strikeoff::test {

struct Folder {
    QTemporaryDir dir;
    std::unique_ptr<Store> fresh(const char* name = "book.strikeoff") const
    {
        const auto path = dir.filePath(QString::fromUtf8(name)).toStdString();
        Store::create(path);
        return Store::open(path);
    }
};

inline std::map<RecordKind, std::string> dumpOf(const Book& book)
{
    std::map<RecordKind, std::string> dump;
    for (const auto& kind : allKinds()) dump[kind.kind] = dumpCsv(book, kind.kind);
    return dump;
}

inline LoadResult loaded(Store& store, RecordKind kind, std::string_view csv)
{
    auto result = loadCsv(store, kind, "rows.csv", csv);
    INFO(result.faultText("rows.csv"));
    REQUIRE(result.done());
    return result;
}

}

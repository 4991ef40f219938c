#pragma once

#include "load.h"
#include "storage/place.h"

#include <catch2/catch.hpp>

#include <map>

namespace strikeoff::test {

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

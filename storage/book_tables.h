#pragma once

#include "database.h"

#include <string>
#include <vector>

namespace strikeoff {

/// A table of a book as both engines know it.
struct BookTable {
    struct Column {
        std::string name;
        bool isText = false;
    };
    std::string name;
    std::vector<Column> columns;
    std::string order;  ///< by numbers only, which both engines sort alike; blank for a small table that is sorted by whoever reads it

    std::string columnList() const;
    std::string select() const;
    Value cell(const FastStatement& row, std::size_t column) const;
};

/// The table of a kind of record: id, revision, then its fields in their order.
BookTable tableOf(const KindDescription& kind);
/// Every table of a book, what is referred to first.
std::vector<BookTable> allTables();

}

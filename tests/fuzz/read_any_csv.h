#pragma once

#include "csv.h"
#include "fuzz/promise.h"

namespace strikeoff::fuzz {

/// Reads any bytes as CSV, the first of them choosing the separator, writes what was read and reads that again.
inline void readAnyCsv(std::string_view bytes)
{
    constexpr Separator separators[] = {Separator::comma, Separator::semicolon, Separator::tab, Separator::bar};
    const auto separator = separators[choiceIn(bytes) % std::size(separators)];
    std::vector<std::vector<std::string>> rows;
    CsvReader reader{bytes, separator};
    std::size_t line = 0;
    while (reader.next()) {
        require(reader.line() > line, "each row stands further down than the one before");
        line = reader.line();
        require(!reader.cells().empty() && reader.cells().size() <= CsvReader::mostColumns, "a row has a cell, and no more than may be");
        auto& row = rows.emplace_back();
        for (const auto cell : reader.cells()) row.emplace_back(unguarded(cell));
    }
    if (reader.fault()) require(reader.fault()->line >= 1 && reader.fault()->message.starts_with("line " + std::to_string(reader.fault()->line)), "a fault names its line");
    require(!reader.next(), "behind the end or a fault there is nothing");

    std::string written;
    CsvWriter writer{written, separator};
    for (const auto& row : rows) {
        for (const auto& cell : row) writer.text(cell);
        writer.endRow();
    }
    CsvReader again{written, separator};
    for (const auto& row : rows) {
        // The guards can make a row that was just short enough too long.
        if (!again.next()) {
            require(again.fault() && again.fault()->message.find("1 MiB") != std::string::npos, "what was written is read again");
            return;
        }
        require(again.cells().size() == row.size(), "a row keeps its cells");
        for (std::size_t i = 0; i < row.size(); ++i) {
            const auto cell = again.cells()[i];
            require(unguarded(cell) == row[i], "a text written and read is the same text");
            require(!needsGuard(cell) || cell.starts_with('\''), "no written cell begins as a formula does");
        }
    }
    require(!again.next() && !again.fault(), "nothing is written that was not there");
}

}

#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace strikeoff {

/// What stands between two cells of a row.
enum class Separator : char { comma = ',', semicolon = ';', tab = '\t', bar = '|' };

/// Whether a spreadsheet could run the text as a formula, or the text looks like one that was already guarded: any number of
/// apostrophes, then = + - @ (narrow or wide), a tab, CR or LF (source of the set: OWASP, "CSV Injection").
bool needsGuard(std::string_view text);

/// Takes the writer's guard off a text cell: one apostrophe, and only where the writer would have put it. So a text written and
/// read is the same text, and an apostrophe that someone typed stays.
std::string_view unguarded(std::string_view cell);

/// Writes rows as RFC 4180 has them: CRLF after each, quotes only where a cell holds a quote, a separator, CR or LF.
class CsvWriter {
public:
    /// Appends to the sink, which must outlive the writer.
    explicit CsvWriter(std::string& sink, Separator separator = Separator::comma)
        : sink_{sink}, separator_{static_cast<char>(separator)} {}

    /// Free text, as someone typed it. What a spreadsheet would take for a formula is led by an apostrophe and quoted.
    CsvWriter& text(std::string_view cell);
    /// Numbers, dates and names the program made itself: never guarded, so that −12.50 stays a number.
    CsvWriter& plain(std::string_view cell);
    /// Ends the row. A row without cells writes nothing.
    void endRow();

private:
    void startCell();
    void addQuoted(std::string_view cell);

    std::string& sink_;
    char separator_;
    std::size_t rowAt_ = 0;
    std::size_t cellsInRow_ = 0;
};

/// Why a file cannot be read on as CSV.
struct CsvFault {
    std::size_t line = 0;    ///< the line in the file, from 1
    std::size_t column = 0;  ///< the cell in the row, from 1; 0 when the line as a whole is at fault
    std::string message;     ///< line, column, what is wrong and what to do, ready to print after the name of the file
};

/// Reads CSV row by row from a file held in memory: RFC 4180, and beyond it a UTF-8 byte-order mark, line ends of LF or CR alone, and
/// blank lines (nothing but spaces and tabs), which are passed over. A cell that needs no change is a view into the file; nothing is
/// allocated for it. The file must outlive the reader.
class CsvReader {
public:
    static constexpr std::size_t mostBytesInRow = std::size_t{1} << 20;
    static constexpr std::size_t mostColumns = 200;

    explicit CsvReader(std::string_view file, Separator separator = Separator::comma);

    /// Moves to the next row; false at the end of the file and at a fault, after which nothing more is read.
    bool next();
    /// The line in the file on which the row starts, from 1.
    std::size_t line() const { return line_; }
    /// The cells of the row, valid until the next call of next(). The guard of text cells is still on them (see unguarded).
    std::span<const std::string_view> cells() const { return std::span{cells_}.first(cellCount_); }
    const std::optional<CsvFault>& fault() const { return fault_; }

private:
    bool readRow();
    bool readQuoted(const char*& at, const char* stop);
    bool readUnquoted(const char*& at, const char* stop);
    bool addCell(std::string_view cell);
    bool isBlankLine() const;
    bool failAt(const char* where, std::string_view what);
    bool failUtf8(const char* where);
    bool failLength(const char* quoteAt);

    const char* at_;
    const char* end_;
    const char* rowBegin_;
    std::array<unsigned char, 256> kinds_{};
    std::size_t line_ = 0;
    std::size_t nextLine_ = 1;
    std::size_t cellCount_ = 0;
    bool quotedRow_ = false;
    std::array<std::string_view, mostColumns> cells_{};
    std::unique_ptr<char[]> scratch_;  // where cells with doubled quotes are put together, made when first needed
    std::size_t scratchUsed_ = 0;
    std::optional<CsvFault> fault_;
};

}

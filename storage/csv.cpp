#include "csv.h"

#include "record/utf8.h"

#include <algorithm>
#include <cstring>

namespace strikeoff {

namespace {

constexpr std::string_view byteOrderMark = "\xEF\xBB\xBF";

enum Kind : unsigned char { ordinary, beyondAscii, quote, cellEnd, lineEnd, nul };

unsigned char byteAt(const char* at) { return static_cast<unsigned char>(*at); }

bool isBlank(std::string_view cell) { return cell.find_first_not_of(" \t") == std::string_view::npos; }

/// Lines that end in a stretch of text: CRLF is one end, CR and LF alone are one each.
std::size_t lineEndsIn(std::string_view text)
{
    std::size_t ends = 0;
    for (std::size_t i = 0; i < text.size(); ++i)
        if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.size() || text[i + 1] != '\n'))) ++ends;
    return ends;
}

}

bool needsGuard(std::string_view text)
{
    const auto first = text.find_first_not_of('\'');
    if (first == std::string_view::npos) return false;
    if (std::string_view{"=+-@\t\r\n"}.find(text[first]) != std::string_view::npos) return true;
    // The same four in the wide forms of East Asian writing, which spreadsheets set up for it take for the narrow ones.
    const auto rest = text.substr(first);
    return rest.front() == '\xEF' && (rest.starts_with("\uFF1D") || rest.starts_with("\uFF0B") || rest.starts_with("\uFF0D") || rest.starts_with("\uFF20"));
}

std::string_view unguarded(std::string_view cell)
{
    return cell.starts_with('\'') && needsGuard(cell) ? cell.substr(1) : cell;
}

void CsvWriter::startCell()
{
    if (cellsInRow_++ == 0) rowAt_ = sink_.size();
    else sink_ += separator_;
}

void CsvWriter::addQuoted(std::string_view cell)
{
    for (const char c : cell) {
        if (c == '"') sink_ += '"';
        sink_ += c;
    }
    sink_ += '"';
}

CsvWriter& CsvWriter::text(std::string_view cell)
{
    if (!needsGuard(cell)) return plain(cell);
    startCell();
    sink_ += "\"'";
    addQuoted(cell);
    return *this;
}

CsvWriter& CsvWriter::plain(std::string_view cell)
{
    startCell();
    const char marks[] = {'"', '\r', '\n', separator_};
    // A mark at the very start of a file would be taken for the file's own.
    if (cell.find_first_of(std::string_view{marks, sizeof marks}) == std::string_view::npos && !cell.starts_with(byteOrderMark)) {
        sink_ += cell;
        return *this;
    }
    sink_ += '"';
    addQuoted(cell);
    return *this;
}

void CsvWriter::endRow()
{
    if (cellsInRow_ == 0) return;
    if (cellsInRow_ == 1 && isBlank(std::string_view{sink_}.substr(rowAt_))) {
        // A lone empty cell would read as a blank line, which is no row.
        sink_.insert(rowAt_, 1, '"');
        sink_ += '"';
    }
    sink_ += "\r\n";
    cellsInRow_ = 0;
}

CsvReader::CsvReader(std::string_view file, Separator separator) : at_{file.data()}, end_{file.data() + file.size()}, rowBegin_{at_}
{
    std::fill(kinds_.begin() + 0x80, kinds_.end(), beyondAscii);
    kinds_['"'] = quote;
    kinds_[static_cast<unsigned char>(separator)] = cellEnd;
    kinds_['\r'] = kinds_['\n'] = lineEnd;
    kinds_[0] = nul;
    if (file.starts_with(byteOrderMark)) at_ += byteOrderMark.size();
    else if (file.starts_with("\xFE\xFF") || file.starts_with("\xFF\xFE"))
        fault_ = CsvFault{1, 0, "line 1: this is UTF-16 text; save the file as UTF-8 and load it again"};
}

bool CsvReader::next()
{
    cellCount_ = 0;
    while (!fault_ && at_ != end_) {
        if (!readRow()) {
            cellCount_ = 0;
            return false;
        }
        if (!isBlankLine()) return true;
        cellCount_ = 0;
    }
    return false;
}

bool CsvReader::isBlankLine() const { return cellCount_ == 1 && !quotedRow_ && isBlank(cells_[0]); }

bool CsvReader::readRow()
{
    rowBegin_ = at_;
    line_ = nextLine_;
    cellCount_ = 0;
    scratchUsed_ = 0;
    quotedRow_ = false;
    // One byte more than a row may have, so that the end of a row of just that size is still seen.
    const char* const stop = at_ + std::min(static_cast<std::size_t>(end_ - at_), mostBytesInRow + 1);
    const char* at = at_;
    while (true) {
        if (!(at < stop && *at == '"' ? readQuoted(at, stop) : readUnquoted(at, stop))) return false;
        if (at == end_) break;
        if (kinds_[byteAt(at)] == lineEnd) {
            at += *at == '\r' && at + 1 != end_ && at[1] == '\n' ? 2 : 1;
            break;
        }
        ++at;  // the separator
    }
    nextLine_ += 1;
    at_ = at;
    return true;
}

bool CsvReader::readUnquoted(const char*& at, const char* stop)
{
    const char* const begin = at;
    while (at < stop) {
        switch (kinds_[byteAt(at)]) {
        case ordinary:
            ++at;
            break;
        case beyondAscii: {
            const auto length = utf8Length({at, end_});
            if (length == 0) return failUtf8(at);
            at += length;
            break;
        }
        case quote:
            return failAt(at, "a quote inside a cell that does not begin with one; "
                              "put the whole cell in quotes and double each quote inside it");
        case nul:
            return failAt(at, "a NUL byte; is this a CSV file?");
        default:
            return addCell({begin, at});
        }
    }
    if (static_cast<std::size_t>(at - rowBegin_) > mostBytesInRow) return failLength(nullptr);
    return addCell({begin, at});
}

bool CsvReader::readQuoted(const char*& at, const char* stop)
{
    const char* const opened = at++;
    const char* from = at;          // first byte not yet copied
    const auto cellAt = scratchUsed_;
    const auto copyUpTo = [&](const char* upTo) {
        if (!scratch_) scratch_ = std::make_unique<char[]>(mostBytesInRow + 1);
        std::memcpy(scratch_.get() + scratchUsed_, from, static_cast<std::size_t>(upTo - from));
        scratchUsed_ += static_cast<std::size_t>(upTo - from);
    };
    quotedRow_ = true;
    bool closed = false;
    while (at < stop && !closed) {
        switch (kinds_[byteAt(at)]) {
        case beyondAscii: {
            const auto length = utf8Length({at, end_});
            if (length == 0) return failUtf8(at);
            at += length;
            break;
        }
        case quote:
            if (at + 1 != end_ && at[1] == '"') {
                copyUpTo(at + 1);  // with the first of the two
                at += 2;
                from = at;
            } else {
                closed = true;
            }
            break;
        case lineEnd:
            if (*at == '\n' || at + 1 == end_ || at[1] != '\n') ++nextLine_;
            ++at;
            break;
        case nul:
            return failAt(at, "a NUL byte; is this a CSV file?");
        default:
            ++at;
        }
    }
    if (static_cast<std::size_t>(at - rowBegin_) > mostBytesInRow) return failLength(opened);
    if (!closed) return failAt(opened, "the quote that opens this cell is never closed; close it, or take it away");

    std::string_view cell{from, at};
    if (scratchUsed_ != cellAt) {
        copyUpTo(at);
        cell = {scratch_.get() + cellAt, scratchUsed_ - cellAt};
    }
    ++at;
    if (at != end_ && kinds_[byteAt(at)] != cellEnd && kinds_[byteAt(at)] != lineEnd)
        return failAt(at, "text after the closing quote; a quote inside a quoted cell is written twice");
    if (static_cast<std::size_t>(at - rowBegin_) > mostBytesInRow) return failLength(nullptr);
    return addCell(cell);
}

bool CsvReader::addCell(std::string_view cell)
{
    if (cellCount_ == mostColumns) {
        const auto most = std::to_string(mostColumns);
        fault_ = CsvFault{line_, mostColumns + 1, "line " + std::to_string(line_) + " has more than " + most + " columns; is this a CSV file?"};
        return false;
    }
    cells_[cellCount_++] = cell;
    return true;
}

bool CsvReader::failAt(const char* where, std::string_view what)
{
    const auto line = line_ + lineEndsIn({rowBegin_, where});
    const auto column = cellCount_ + 1;
    fault_ = CsvFault{line, column, "line " + std::to_string(line) + ", column " + std::to_string(column) + ": " + std::string{what}};
    return false;
}

bool CsvReader::failUtf8(const char* where)
{
    constexpr std::string_view hex = "0123456789ABCDEF";
    const auto byte = byteAt(where);
    std::string what = "not UTF-8 text (byte 0x";
    what += hex[byte >> 4];
    what += hex[byte & 15];
    return failAt(where, what + "); save the file as UTF-8 and load it again");
}

bool CsvReader::failLength(const char* quoteAt)
{
    if (quoteAt) return failAt(quoteAt, "the quote that opens this cell is not closed within 1 MiB; close it, or take it away");
    fault_ = CsvFault{line_, 0, "line " + std::to_string(line_) + " is longer than 1 MiB; is this a CSV file?"};
    return false;
}

}

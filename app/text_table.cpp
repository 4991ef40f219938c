#include "text_table.h"

#include "quantity/rounding.h"

#include <algorithm>
#include <array>
#include <utility>

namespace strikeoff {

namespace {

/// The next character of UTF-8 text and how many bytes it takes; a byte that is none counts as one unknown character.
std::pair<char32_t, std::size_t> nextCharacter(std::string_view text)
{
    const auto first = static_cast<unsigned char>(text[0]);
    const std::size_t length = first < 0x80 ? 1 : first < 0xC2 ? 0 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : first < 0xF5 ? 4 : 0;
    if (length == 0 || length > text.size()) return {0xFFFD, 1};
    char32_t character = length == 1 ? first : first & (0xFFU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if ((byte & 0xC0) != 0x80) return {0xFFFD, 1};
        character = (character << 6) | (byte & 0x3FU);
    }
    return {character, length};
}

using Range = std::pair<char32_t, char32_t>;

bool isIn(char32_t character, std::span<const Range> ranges)
{
    return std::any_of(ranges.begin(), ranges.end(),
                       [&](const auto& range) { return character >= range.first && character <= range.second; });
}

// Combining marks and invisible characters; wide and full-width ones (Unicode 15, classes Mn, Cf and East Asian Width W and F: the blocks
// in use).
constexpr std::array<Range, 8> noWidth{{{0x300, 0x36F}, {0x483, 0x489}, {0x591, 0x5BD}, {0x64B, 0x65F}, {0x200B, 0x200F},
                                        {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}}};
constexpr std::array<Range, 9> wide{{{0x1100, 0x115F}, {0x2E80, 0xA4CF}, {0xAC00, 0xD7A3}, {0xF900, 0xFAFF}, {0xFE30, 0xFE6F},
                                     {0xFF00, 0xFF60}, {0xFFE0, 0xFFE6}, {0x1F300, 0x1FAFF}, {0x20000, 0x3FFFD}}};
// Marks that turn the direction of the text behind them, which a table cannot have.
constexpr std::array<Range, 2> turning{{{0x202A, 0x202E}, {0x2066, 0x2069}}};

std::size_t widthOf(char32_t character) { return isIn(character, noWidth) ? 0 : isIn(character, wide) ? 2 : 1; }

}

std::string onOneLine(std::string_view text)
{
    std::string line;
    while (!text.empty()) {
        const auto [character, length] = nextCharacter(text);
        if (character == '\n' || character == '\t') line += ' ';
        else if (character >= 0x20 && (character < 0x7F || character > 0x9F) && !isIn(character, turning))
            line += text.substr(0, length);
        text.remove_prefix(length);
    }
    return line;
}

std::size_t terminalWidth(std::string_view utf8)
{
    std::size_t width = 0;
    while (!utf8.empty()) {
        const auto [character, length] = nextCharacter(utf8);
        width += widthOf(character);
        utf8.remove_prefix(length);
    }
    return width;
}

std::string cutToWidth(std::string_view text, std::size_t width)
{
    if (terminalWidth(text) <= width) return std::string{text};
    std::size_t taken = 0;
    std::size_t bytes = 0;
    while (bytes < text.size()) {
        const auto [character, length] = nextCharacter(text.substr(bytes));
        if (taken + widthOf(character) + 1 > width) break;
        taken += widthOf(character);
        bytes += length;
    }
    return std::string{text.substr(0, bytes)} + "\u2026";
}

TextTable& TextTable::column(std::string heading, bool figures, std::size_t mostWidth)
{
    columns_.push_back({std::move(heading), figures, mostWidth});
    return *this;
}

void TextTable::row(std::vector<std::string> cells)
{
    if (cells.size() > columns_.size()) throw DomainError{"a table row with more cells than columns"};
    cells.resize(columns_.size());
    for (std::size_t i = 0; i < cells.size(); ++i) cells[i] = cutToWidth(onOneLine(cells[i]), columns_[i].mostWidth);
    rows_.push_back(std::move(cells));
}

std::string TextTable::text(std::size_t indent) const
{
    std::vector<std::size_t> widths;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        auto width = terminalWidth(columns_[i].heading);
        for (const auto& cells : rows_) width = std::max(width, terminalWidth(cells[i]));
        widths.push_back(width);
    }
    std::string table;
    const auto addLine = [&](auto cellOf) {
        std::string line(indent, ' ');
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            if (i > 0) line += "  ";
            const std::string cell = cellOf(i);
            const std::string space(widths[i] - std::min(widths[i], terminalWidth(cell)), ' ');
            line += columns_[i].figures ? space + cell : cell + space;
        }
        line.erase(line.find_last_not_of(' ') + 1);
        (table += line) += '\n';
    };
    addLine([&](std::size_t i) { return columns_[i].heading; });
    addLine([&](std::size_t i) {
        // Under the last words the rule need not reach as far as the longest line.
        const bool last = i + 1 == columns_.size() && !columns_[i].figures;
        std::string rule;
        for (std::size_t n = 0; n < (last ? std::min<std::size_t>(widths[i], 40) : widths[i]); ++n) rule += "\u2500";
        return rule;
    });
    for (const auto& cells : rows_) addLine([&](std::size_t i) { return cells[i]; });
    return table;
}

}

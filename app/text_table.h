#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace strikeoff {

/// Text for one line of a terminal: line breaks and tabs become spaces, and other characters that a terminal would obey are left out.
std::string onOneLine(std::string_view text);

/// Columns that a text takes in a terminal: none for combining marks, two for wide East Asian characters and pictographs, else one.
std::size_t terminalWidth(std::string_view utf8);

/// The text, cut to a width with an ellipsis at its end.
std::string cutToWidth(std::string_view text, std::size_t width);

/// A table in plain text: a heading, a rule, rows; words to the left, figures to the right.
class TextTable {
public:
    TextTable& words(std::string heading, std::size_t mostWidth = 60) { return column(std::move(heading), false, mostWidth); }
    TextTable& figures(std::string heading) { return column(std::move(heading), true, 60); }
    /// One cell a column; cells that are missing are blank.
    void row(std::vector<std::string> cells);
    bool empty() const { return rows_.empty(); }
    /// Each line led by `indent` spaces and ended by a line end, without spaces before it.
    std::string text(std::size_t indent = 0) const;

private:
    struct Column {
        std::string heading;
        bool figures;
        std::size_t mostWidth;
    };
    TextTable& column(std::string heading, bool figures, std::size_t mostWidth);

    std::vector<Column> columns_;
    std::vector<std::vector<std::string>> rows_;
};

}

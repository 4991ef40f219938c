#include "text_rows.h"

namespace strikeoff {

SplitText splitText(std::string_view text, std::optional<Separator> separator)
{
    SplitText split;
    CsvReader reader{text, separator.value_or(static_cast<Separator>(guessSeparator(text)))};
    while (reader.next()) {
        while (split.rows.size() + 1 < reader.line()) split.rows.emplace_back();
        auto& row = split.rows.emplace_back();
        for (const auto cell : reader.cells()) row.emplace_back(unguarded(cell));
    }
    split.fault = reader.fault();
    return split;
}

}

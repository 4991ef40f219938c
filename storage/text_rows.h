#pragma once

#include "csv.h"

#include "ready_mix/statement_reader.h"

namespace strikeoff {

/// A file's or the clipboard's text as rows of cells.
struct SplitText {
    TextRows rows;                 ///< blank lines stay, so that a row's place is its line in the file (as long as no cell spans lines)
    std::optional<CsvFault> fault; ///< then the rows end before it
};

/// Splits text into rows by a separator, or by the one it looks to have (see guessSeparator). Never throws on input.
SplitText splitText(std::string_view text, std::optional<Separator> separator = {});

}

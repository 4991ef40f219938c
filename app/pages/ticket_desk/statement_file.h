#pragma once

#include "ready_mix/statement_reader.h"

#include <functional>
#include <string>

namespace strikeoff {

/// A statement file or what was on the clipboard, as rows of text, with a guess at its layout and what it is read as by that.
struct StatementFile {
    TextRows rows;
    StatementGuess guess;
    ReadStatement read;
    std::string fault;     ///< why there are no rows, with what to do
    bool stopped = false;  ///< by the progress callback
};

/// Reads bytes: text in UTF-8 or, where it is none, in the western code page of old; cells parted by what fits. `remembered` is the layout kept for the supplier.
/// `progress` is asked now and then with a per cent and stops the work by returning false. Safe on a thread of its own.
StatementFile readStatementFile(std::string bytes, const std::string& remembered, const std::function<bool(int percent)>& progress = {});

/// A statement to be typed: headings and one blank row.
StatementFile blankStatement();

}

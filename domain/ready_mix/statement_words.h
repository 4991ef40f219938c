#pragma once

#include "ready_mix/statement_reader.h"

#include <string>

namespace strikeoff {

/// What was read of a statement, in one sentence: lines, tickets named, sum, and whether the printed total says the same.
std::string statementAnswer(const ReadStatement& read);

}

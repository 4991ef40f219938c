#pragma once

#include "ready_mix/statement_reader.h"

#include <array>

namespace strikeoff {

inline constexpr std::size_t statementColumnCount = statementColumnChoices.size();

/// How well a heading's words go with each meaning of a column: 0 not at all, about 100 plainly. `other` holds how plainly it is something else.
using HeadingScores = std::array<int, statementColumnCount>;
HeadingScores headingScores(std::string_view heading);

/// A heading as it is compared: small letters, one space between words, "#" as "no".
std::string plainHeading(std::string_view heading);

/// The place of the row that names the columns; nothing when none does.
std::optional<std::size_t> headingRowOf(const TextRows& rows);

}

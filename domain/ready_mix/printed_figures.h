#pragma once

#include "quantity/date.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace strikeoff {

/// A figure as suppliers print it: "$1,234.50", "1.234,50 €", "(12.50)", "12.50-", "12.50 CR", "−12.50", "1 234,5". In units of 10^-scale; more decimals
/// than that are rounded half up where `rounded`, else refused unless they are zeros. Nothing for what is no figure.
std::optional<std::int64_t> readFigure(std::string_view cell, char decimalMark, int scale, bool rounded);

/// Whether a cell is a figure by either decimal mark.
bool isFigure(std::string_view cell);

/// Counts for and against a decimal comma what a cell says: 1 a comma, −1 a point, 0 nothing.
int votesForComma(std::string_view cell);

enum class DateOrder : int;

/// A date as printed: "6/12/2026", "12.06.26", "2026-06-12", "Jun 12, 2026", "12 June 2026", "20260612", with a time behind it or not. A year of two
/// digits is of this century.
std::optional<Date> readPrintedDate(std::string_view cell, DateOrder order);

/// The three parts of a date in figures, by their place; nothing for another form.
struct DateParts {
    int first = 0, second = 0, third = 0;
    bool yearFirst = false;
};
std::optional<DateParts> datePartsOf(std::string_view cell);

/// Without spaces (also those that do not break) at its ends.
std::string_view trimmedCell(std::string_view cell);

}

#pragma once

#include "ready_mix/typed_row.h"
#include "record/edit.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace strikeoff {

/// The forecast of a day, or nullptr: then the weather is unknown, not fine.
const DayForecast* forecastOn(const Book& book, Date day);

/// Days ahead that are typed at once.
inline constexpr int forecastDays = 14;

/// The days from one on as the book has them, a row a day, each field as it can be typed again.
std::vector<TypedRow> forecastRows(const Book& book, Date from, int days = forecastDays);

/// One typed day as it is understood.
struct ForecastReading {
    DayForecast forecast;
    bool blank = true;               ///< nothing but the date: the day's weather is unknown
    std::vector<TypedFault> faults;  ///< in the way of saving
    std::string says() const;        ///< the faults in one line
};
/// Reads a day. Where low and high were typed the wrong way round, or rain ends before it begins, that is a fault with what to do.
ForecastReading readForecast(const TypedRow& typed, Date today);

/// Where the typing stands, in a sentence: "Nine of 14 days have a forecast; unknown from Fri Dec 4 on."
std::string forecastAnswer(std::span<const ForecastReading> days, Date today);

/// What makes the book say what the rows say: days added, changed, and taken out where a row was cleared. Empty when nothing changed. Rows must be without
/// faults.
Edit forecastEdit(const Book& book, std::span<const ForecastReading> days);

/// Puts text copied from elsewhere into the rows, beginning at a row and a field: lines are days; cells are parted by tabs, else semicolons or commas, else
/// blanks. A first line of field names says what the cells are; else they follow in the order of the fields. A line that begins with a date goes to
/// that day's row, whatever row was chosen. Gives the number of lines taken, and in words what was left out and why.
struct PastedForecast {
    int taken = 0;
    std::string remark;
};
PastedForecast pasteForecast(std::vector<TypedRow>& rows, std::string_view text, std::size_t row, std::string_view field, Date today);

}

#pragma once

#include "record/edit.h"

#include <string>

namespace strikeoff {

/// One column of a day's sheet: what was done and where. No job: the shop.
struct SheetColumn {
    std::optional<Id<Job>> job;
    std::optional<Id<Pour>> pour;
    Phase phase = Phase::shop;
    friend bool operator==(const SheetColumn&, const SheetColumn&) = default;
};

/// What one person did in one column, as typed: from and to, or hours. Blank when neither is there.
struct SheetCell {
    std::optional<ClockTime> start, stop;
    std::optional<Minutes> minutes;
    std::optional<Id<Hours>> row;  ///< the record it came from
    bool isBlank() const { return !start && !minutes; }
};

/// A day of the whole crew: people down, jobs and phases across.
struct HoursSheet {
    struct Person {
        Id<CrewMember> id;
        std::optional<Minutes> lunch;  ///< unpaid, taken out of the longest stretch from and to; hours written as hours have it out already
        std::vector<SheetCell> cells;  ///< one a column
    };
    Date date;
    std::vector<SheetColumn> columns;
    std::vector<Person> people;
};

/// What somebody types into a cell: "8", "7.5", "7:30" and "450m" are hours, "7-3:30", "7:00a-15:30" a stretch from and to (a stop without am or pm
/// that is not after the start is in the afternoon). Nothing for what is neither, and for more than 24 hours.
std::optional<SheetCell> readCell(std::string_view typed);
/// A cell as it is shown and can be typed again: "7:00a-3:30p", "8:00"; empty for a blank one.
std::string cellText(const SheetCell& cell);

/// The phase people mean by the beginning of its words: "pl", "fin", "prep"; nothing when none or several begin so.
std::optional<Phase> readPhase(std::string_view typed);

/// A day's sheet as the book has it: the people on the crew that day and whoever else has hours on it, a column for all that was done.
HoursSheet hoursSheet(const Book& book, Date date);
/// The sheet filled as on the last day before it that has hours: who worked, where and how long. Pours of other days are not carried over. Cells that
/// already hold something stay.
HoursSheet copiedFromDayBefore(const Book& book, HoursSheet sheet);
/// The pour of a job that hours of a day belong to: the one poured (or planned) that day, when there is one.
std::optional<Id<Pour>> pourOn(const Book& book, Id<Job> job, Date date);

/// Something on a sheet that cannot be right as it stands.
struct SheetFlag {
    std::size_t person = 0;
    std::optional<std::size_t> column;
    std::string message;
};
/// Somebody in two places at once (the night before counts), more than 24 hours in a day, a job before it was opened, somebody before being hired or after
/// leaving, lunch that is longer than the work.
std::vector<SheetFlag> flagsOf(const Book& book, const HoursSheet& sheet);

/// Paid minutes of a person's cell, lunch and clock rounding taken out.
Minutes paidInCell(const Book& book, const HoursSheet& sheet, std::size_t person, std::size_t column);

/// What makes the book say what the sheet says, as one edit: rows added, changed and removed, untouched ones left alone. The times stay as they were
/// typed; the paid minutes stand beside them where the clock is rounded, so that another setting later does not change what was paid. A day entered
/// late, after later days of the year, moves those people's wage bases; the edit's title, which the trail keeps, says so.
Edit hoursEdit(const Book& book, const HoursSheet& sheet);

}

#pragma once

#include "day/day_sheet.h"

/// The parts of the day sheet, each adding its items in no particular order. For day_sheet.cpp.
namespace strikeoff::day {

using Items = std::vector<DayItem>;

/// What is loaded the evening before, a line a stop, what runs short, and the list of it all.
void addLoadOut(const Book& book, Date date, DaySheet& sheet);
/// Of a day as somebody reads it on the same day or the one before.
void addPours(const Book& book, Date day, Date seenFrom, Items& items);
void addVisits(const Book& book, Date day, Date seenFrom, Items& items);
void addCalls(const Book& book, Date date, Items& items);
void addPaper(const Book& book, Date date, Items& items);
void addMoney(CostReckoner& reckoner, Date date, Items& items);

std::string weatherLine(const Book& book, Date date);
std::vector<std::string> weatherWarnings(const Book& book, Date date);

/// Pours planned for a day and not poured, of jobs neither closed nor dropped.
std::vector<const Pour*> poursPlanned(const Book& book, Date date);
/// Visits that stand on a day's sheet: open, and planned for that day or before, or due or too late by then; reseal calls are left out.
std::vector<const Visit*> visitsOn(const Book& book, Date date);
/// Those of them that are made on the very day: planned for it, else due on it.
std::vector<const Visit*> visitsMadeOn(const Book& book, Date day);

/// Parts of a reason, joined by "; ".
class Reason {
public:
    Reason& also(const std::string& part)
    {
        if (part.empty()) return *this;
        if (!text_.empty()) text_ += "; ";
        text_ += part;
        return *this;
    }
    const std::string& text() const { return text_; }

private:
    std::string text_;
};

}

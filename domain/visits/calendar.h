#pragma once

#include "record/book.h"

#include <span>
#include <string>
#include <vector>

namespace strikeoff {

/// A moment in UTC; the calendar says with it when it was written.
struct UtcMoment {
    Date day;
    ClockTime time;
};

/// One entry of a calendar.
struct CalendarEvent {
    std::string uid;              ///< the same for the same visit or pour whenever it is written, so that a newer entry replaces an older one
    std::int32_t sequence = 0;    ///< rises with every change of the record
    Date day;
    std::optional<ClockTime> at;  ///< local wall time; all day without
    std::optional<Minutes> lasts;
    std::string summary;
    std::string location;
    std::string description;
    std::optional<Degrees> latitude;
    std::optional<Degrees> longitude;
    bool cancelled = false;       ///< it does not take place: a calendar that has it strikes it out
};

/// A calendar by RFC 5545: an entry an event, its time floating (wherever the phone is) or all day, with an alarm at 6 pm of the evening before
/// unless it is cancelled. Empty without events, as a calendar holds at least one.
std::string calendarText(std::span<const CalendarEvent> events, UtcMoment written);

/// When a visit is to be made, by the plan or as the record has it.
struct PlannedVisit {
    const Visit* visit = nullptr;
    Date day;
    std::optional<ClockTime> at;
    std::optional<Minutes> minutes;
};
/// The open visits that have a planned day from one day to another, both included.
std::vector<PlannedVisit> plannedVisits(const Book& book, Date from, Date to);

/// Entries for pours planned from one day to another and not poured, and for the visits given. What was waived, was done on another day than planned or
/// belongs to a job that was dropped is struck out.
std::vector<CalendarEvent> calendarEvents(const Book& book, std::span<const PlannedVisit> visits, Date from, Date to);

/// Visits and pours as they were while they had a day that they have lost since: put off without a new one, planned anew without one, removed.
struct FormerDays {
    std::vector<Visit> visits;
    std::vector<Pour> pours;
};
/// Entries that strike out what an earlier calendar may have said of them from a day on; what has a day again is left out.
std::vector<CalendarEvent> struckEvents(const Book& book, const FormerDays& former, std::span<const PlannedVisit> visits, Date from);

/// The calendar of the visits given and of the pours from one day to another.
std::string calendarOf(const Book& book, std::span<const PlannedVisit> visits, Date from, Date to, UtcMoment written, const FormerDays& former = {});
/// The same with the visits as the book has them planned.
std::string calendarOf(const Book& book, Date from, Date to, UtcMoment written, const FormerDays& former = {});

}

#include "visits/calendar.h"

#include "quantity/words.h"
#include "visits/content_line.h"
#include "visits/visit_words.h"
#include "visits/windows.h"

#include <algorithm>

namespace strikeoff {

namespace {

constexpr int eveningMinutes = 18 * 60;  // when the alarm of the next day's work rings

std::string plain(int number, std::size_t digits)
{
    auto text = std::to_string(number);
    return text.size() < digits ? std::string(digits - text.size(), '0') + text : text;
}

std::string dateText(Date date) { return plain(date.year(), 4) + plain(date.month(), 2) + plain(date.day(), 2); }

/// Minutes after midnight of a day, past its end too: "20261125T073000".
std::string timeText(Date day, std::int64_t minutes)
{
    const auto on = daysOn(day, minutes / 1440).value_or(day);
    const auto within = static_cast<int>(minutes % 1440);
    return dateText(on) + 'T' + plain(within / 60, 2) + plain(within % 60, 2) + "00";
}

std::string durationText(int minutes)
{
    std::string text = "PT";
    if (minutes >= 60) text += std::to_string(minutes / 60) + 'H';
    if (minutes % 60 != 0) text += std::to_string(minutes % 60) + 'M';
    return text;
}

void writeAlarm(ContentLines& lines, const CalendarEvent& event)
{
    const int start = event.at ? event.at->minutes() : 0;
    lines.raw("BEGIN", "VALARM")
        .raw("ACTION", "DISPLAY")
        .text("DESCRIPTION", "Tomorrow: " + event.summary)
        .raw("TRIGGER", "-" + durationText(start + 1440 - eveningMinutes))
        .raw("END", "VALARM");
}

void writeEvent(ContentLines& lines, const CalendarEvent& event, const std::string& stamp)
{
    lines.raw("BEGIN", "VEVENT").text("UID", event.uid).raw("DTSTAMP", stamp).raw("SEQUENCE", std::to_string(event.sequence));
    if (event.at) {
        const auto start = event.at->minutes();
        lines.raw("DTSTART", timeText(event.day, start));
        if (event.lasts && event.lasts->count() > 0) lines.raw("DTEND", timeText(event.day, start + event.lasts->count()));
    } else {
        lines.raw("DTSTART;VALUE=DATE", dateText(event.day));  // a day alone lasts that day
    }
    lines.text("SUMMARY", event.summary).text("LOCATION", event.location).text("DESCRIPTION", event.description);
    if (event.latitude && event.longitude) lines.raw("GEO", event.latitude->text() + ';' + event.longitude->text());
    lines.raw("STATUS", event.cancelled ? "CANCELLED" : "CONFIRMED");
    if (!event.cancelled) writeAlarm(lines, event);
    lines.raw("END", "VEVENT");
}

std::string uidOf(const Book& book, std::string_view what, std::int64_t id, Id<Job> job)
{
    const auto* found = book.find(job);
    return std::string{what} + '-' + std::to_string(id) + "-job-" + (found ? found->number : std::string{}) + "@strikeoff.example";
}

void placeAt(CalendarEvent& event, const Book& book, Id<Job> job)
{
    event.location = addressOf(book, job);
    const auto* found = book.find(job);
    if (const auto* site = found ? book.find(found->site) : nullptr) {
        event.latitude = site->latitude;
        event.longitude = site->longitude;
    }
}

void addLine(std::string& text, const std::string& line)
{
    if (line.empty()) return;
    if (!text.empty()) text += '\n';
    text += line;
}

bool isDropped(const Book& book, Id<Job> id)
{
    const auto* job = book.find(id);
    return !job || job->droppedOn;
}

/// Why a visit with a planned day does not take place on it; empty when it does.
std::string whyStruck(const Book& book, const Visit& visit)
{
    if (visit.waivedOn) return "Left out: " + visit.waivedReason;
    if (visit.doneOn) return "Done on " + visit.doneOn->shownShort();
    if (isDropped(book, visit.job)) return "The job was dropped";
    return {};
}

CalendarEvent eventOf(const Book& book, const PlannedVisit& planned)
{
    const auto& visit = *planned.visit;
    CalendarEvent event;
    event.uid = uidOf(book, "visit", visit.id.value(), visit.job);
    event.sequence = visit.revision;
    event.day = planned.day;
    event.at = planned.at;
    event.lasts = planned.minutes;
    event.summary = visitTitle(book, visit);
    const auto struck = whyStruck(book, visit);
    event.cancelled = !struck.empty();
    placeAt(event, book, visit.job);
    addLine(event.description, event.cancelled ? struck : windowText(VisitWindows{book}.inDays(visit), planned.day));
    addLine(event.description, contactOf(book, visit.job));
    addLine(event.description, siteNotes(book, visit.job));
    addLine(event.description, visit.note);
    return event;
}

CalendarEvent eventOf(const Book& book, const Pour& pour)
{
    CalendarEvent event;
    event.uid = uidOf(book, "pour", pour.id.value(), pour.job);
    event.sequence = pour.revision;
    event.day = *pour.plannedOn;
    event.at = pour.plannedAt;
    event.summary = "Pour " + workPlace(book, pour.job, pour.id);
    placeAt(event, book, pour.job);
    event.cancelled = pour.pouredOn || isDropped(book, pour.job);
    if (event.cancelled) addLine(event.description, pour.pouredOn ? "Poured on " + pour.pouredOn->shownShort() : "The job was dropped");
    if (pour.orderedYards)
        addLine(event.description, pour.orderedYards->text() + " yd\u00b3" + (pour.mix.empty() ? "" : " of " + pour.mix) + " ordered");
    if (const auto* supplier = book.find(pour.supplier))
        addLine(event.description, supplier->name + (supplier->phone.empty() ? "" : ", " + supplier->phone));
    addLine(event.description, contactOf(book, pour.job));
    addLine(event.description, siteNotes(book, pour.job));
    addLine(event.description, pour.note);
    return event;
}

}

std::vector<PlannedVisit> plannedVisits(const Book& book, Date from, Date to)
{
    std::vector<PlannedVisit> planned;
    for (const auto& visit : book.all<Visit>())
        if (visit.isOpen() && visit.plannedOn && *visit.plannedOn >= from && *visit.plannedOn <= to && !isDropped(book, visit.job))
            planned.push_back({&visit, *visit.plannedOn, visit.plannedAt, visit.minutes});
    return planned;
}

std::vector<CalendarEvent> calendarEvents(const Book& book, std::span<const PlannedVisit> visits, Date from, Date to)
{
    std::vector<CalendarEvent> events;
    const auto isIn = [&](const std::optional<Date>& day) { return day && *day >= from && *day <= to; };
    for (const auto& pour : book.all<Pour>())
        if (isIn(pour.plannedOn) && pour.pouredOn != pour.plannedOn) events.push_back(eventOf(book, pour));
    for (const auto& planned : visits) events.push_back(eventOf(book, planned));
    for (const auto& visit : book.all<Visit>())
        if (isIn(visit.plannedOn) && visit.doneOn != visit.plannedOn && !whyStruck(book, visit).empty())
            events.push_back(eventOf(book, {&visit, *visit.plannedOn, visit.plannedAt, visit.minutes}));
    return events;
}

std::vector<CalendarEvent> struckEvents(const Book& book, const FormerDays& former, std::span<const PlannedVisit> visits, Date from)
{
    std::vector<CalendarEvent> events;
    const auto strike = [&](CalendarEvent event, std::int32_t sequence, const std::string& why) {
        event.sequence = std::max(sequence, event.sequence + 1);
        event.cancelled = true;
        event.description = why;
        events.push_back(std::move(event));
    };
    for (const auto& was : former.visits) {
        if (!was.plannedOn || *was.plannedOn < from) continue;
        const auto* now = book.find(was.id);
        if (now && now->plannedOn) continue;  // it has its entry
        if (std::ranges::any_of(visits, [&](const PlannedVisit& planned) { return planned.visit->id == was.id; })) continue;
        auto why = now ? whyStruck(book, *now) : std::string{"No longer on the list"};
        if (why.empty()) why = now->putOffOn ? "Put off: " + now->putOffReason.str() : "Waits for another day";
        strike(eventOf(book, {&was, *was.plannedOn, was.plannedAt, was.minutes}), now ? now->revision : 0, why);
    }
    for (const auto& was : former.pours) {
        if (!was.plannedOn || *was.plannedOn < from) continue;
        const auto* now = book.find(was.id);
        if (now && now->plannedOn) continue;
        strike(eventOf(book, was), now ? now->revision : 0, !now ? "No longer planned" : now->pouredOn ? "Poured on " + now->pouredOn->shownShort() : "Waits for another day");
    }
    return events;
}

std::string calendarText(std::span<const CalendarEvent> events, UtcMoment written)
{
    if (events.empty()) return {};
    ContentLines lines;
    const auto stamp = timeText(written.day, written.time.minutes()) + 'Z';
    lines.raw("BEGIN", "VCALENDAR").raw("VERSION", "2.0").raw("PRODID", "-//Strikeoff//Return visits//EN");
    for (const auto& event : events) writeEvent(lines, event, stamp);
    lines.raw("END", "VCALENDAR");
    return lines.written();
}

std::string calendarOf(const Book& book, std::span<const PlannedVisit> visits, Date from, Date to, UtcMoment written, const FormerDays& former)
{
    auto events = calendarEvents(book, visits, from, to);
    for (auto& event : struckEvents(book, former, visits, from)) events.push_back(std::move(event));
    return calendarText(events, written);
}

std::string calendarOf(const Book& book, Date from, Date to, UtcMoment written, const FormerDays& former)
{
    return calendarOf(book, plannedVisits(book, from, to), from, to, written, former);
}

}

#include "visits/run_sheet.h"

#include "day/sections.h"
#include "quantity/words.h"
#include "visits/planner/plan_input.h"
#include "visits/visit_words.h"
#include "visits/windows.h"

#include <algorithm>

namespace strikeoff {

namespace {

std::string joined(const std::string& a, const std::string& b) { return a.empty() || b.empty() ? a + b : a + "; " + b; }

RunStop stopAt(const Book& book, Id<Job> job)
{
    RunStop stop;
    stop.job = job;
    stop.address = addressOf(book, job);
    stop.contact = contactOf(book, job);
    stop.notes = siteNotes(book, job);
    return stop;
}

RunStop stopOf(const Book& book, const Pour& pour)
{
    auto stop = stopAt(book, pour.job);
    stop.at = pour.plannedAt;
    stop.what = "Pour " + workPlace(book, pour.job, pour.id);
    if (pour.orderedYards) stop.why = pour.orderedYards->text() + " yd\u00b3" + (pour.mix.empty() ? "" : " of " + pour.mix);
    stop.why = joined(stop.why, pour.note);
    return stop;
}

/// Until when a visit can be made, as the helper reads it on the day: "Due Fri Dec 4; too late from Dec 22, 2026".
std::string limitText(const Visit& inDays, Date day)
{
    const auto name = [&](Date date) { return date.year() == day.year() ? date.shownShort() : date.shown(); };
    std::string text;
    if (inDays.due) text = *inDays.due == day ? "due on this day" : (*inDays.due < day ? "was due " : "due ") + name(*inDays.due);
    if (inDays.tooLate) text = joined(text, (*inDays.tooLate <= day ? "too late since " : "too late from ") + name(*inDays.tooLate));
    return capitalized(text);
}

RunStop stopOf(const Book& book, const PlannedVisit& planned)
{
    const auto& visit = *planned.visit;
    auto stop = stopAt(book, visit.job);
    stop.at = planned.at;
    stop.what = visitTitle(book, visit);
    stop.minutes = planned.minutes;
    stop.why = joined(limitText(VisitWindows{book}.inDays(visit), planned.day), visit.note);
    stop.visit = visit.id;
    stop.reminder = customerReminder(book, visit, planned.day, planned.at);
    return stop;
}

/// Why a visit is not left for the day after; empty where it could be.
std::string whyNotOn(const VisitWindows& windows, const Visit& visit, Date next)
{
    const auto window = windows.windowOf(visit);
    const auto name = next.shownShort();
    if (window.tooLate && *window.tooLate <= Moment::startOf(next)) return "Not " + name + ": too late by then";
    const auto hours = windows.hoursOn(visit, next);
    if (hours.isShut()) return "Not " + name + ": " + hours.why;
    if (hours.isUnknown()) return "Not " + name + ": " + (hours.why.empty() ? std::string{"its hours are not known"} : hours.why);
    if (window.due && *window.due < Moment::startOf(next)) return "Not " + name + ": it would be late";
    if (next.weekday() == 0 && visit.kind != VisitKind::cut) return "Not " + name + ": a Sunday";
    return {};
}

/// Drives from the shop over the stops and back, as far as anything is recorded of them.
void addDrives(const Book& book, RunSheet& sheet)
{
    PlanPlaces places{book};
    std::vector<std::size_t> at;
    for (const auto& stop : sheet.stops) at.push_back(places.placeOf(stop.job));
    const auto table = places.table();
    const auto between = [&](std::size_t from, std::size_t to) -> std::optional<Minutes> {
        const auto& drive = table.between(from, to);
        if (drive.source == DriveSource::missing) return std::nullopt;
        return Minutes::of(drive.minutes);
    };
    std::size_t before = 0;  // the shop
    for (std::size_t i = 0; i < at.size(); ++i) {
        sheet.stops[i].drive = between(before, at[i]);
        before = at[i];
    }
    if (!at.empty()) sheet.driveBack = between(before, 0);
    sheet.missingWays = table.missing();
}

std::string answerFor(const RunSheet& sheet)
{
    if (sheet.stops.empty()) return "No stop on " + sheet.day.shownShort() + ".";
    auto text = capitalized(counted(static_cast<std::int64_t>(sheet.stops.size()), "stop", "stops"));
    if (const auto& first = sheet.stops.front().at) text += " from " + first->shown();
    Minutes onSite;
    int unknown = 0;
    for (const auto& stop : sheet.stops) {
        if (stop.minutes) onSite += *stop.minutes;
        else if (stop.visit) ++unknown;
    }
    if (onSite > Minutes{}) text += ", " + onSite.shown() + " h at visits";
    Minutes driving;
    bool all = sheet.driveBack.has_value();
    for (const auto& stop : sheet.stops) {
        driving += stop.drive.value_or(Minutes{});
        all = all && stop.drive;
    }
    driving += sheet.driveBack.value_or(Minutes{});
    if (unknown > 0) text += onSite > Minutes{} ? " and " + counted(unknown, "visit", "visits") + " whose time is not written" : ", without their times on site";
    if (driving > Minutes{}) text += ", " + driving.shown() + " h of driving" + (all ? "" : " as far as the ways are recorded");
    return text + '.';
}

}

RunSheet runSheet(const Book& book, Date day, std::span<const PlannedVisit> visits)
{
    RunSheet sheet;
    sheet.day = day;
    std::vector<const Visit*> rows;
    const VisitWindows windows{book};
    for (const auto& planned : visits) {
        rows.push_back(planned.visit);
        sheet.stops.push_back(stopOf(book, planned));
        sheet.stops.back().notLater = whyNotOn(windows, *planned.visit, day + 1);
    }
    const auto pours = day::poursPlanned(book, day);
    for (const auto* pour : pours) {
        auto stop = stopOf(book, *pour);
        // Before the first stop that is later; a pour without its time is the day's first work.
        const auto behind = std::find_if(sheet.stops.begin(), sheet.stops.end(), [&](const RunStop& other) { return !stop.at || (other.at && *other.at > *stop.at); });
        sheet.stops.insert(behind, std::move(stop));
    }
    sheet.loadOut = loadOut(book, pours, rows);
    sheet.cautions = sheet.loadOut.cautions;
    sheet.cautions.emplace_back("Labels, local rules and the building department go over anything written here. Look at the sky before you open a can.");
    addDrives(book, sheet);
    sheet.answer = answerFor(sheet);
    return sheet;
}

RunSheet runSheet(const Book& book, Date day)
{
    std::vector<PlannedVisit> planned;
    for (const auto* visit : day::visitsMadeOn(book, day))
        planned.push_back({visit, day, visit->plannedOn == day ? visit->plannedAt : std::nullopt, visit->minutes});
    std::stable_sort(planned.begin(), planned.end(), [](const PlannedVisit& a, const PlannedVisit& b) {
        return a.at && b.at ? *a.at < *b.at : a.at.has_value() && !b.at;
    });
    return runSheet(book, day, planned);
}

}

#include "visits/run_sheet.h"

#include "day/sections.h"
#include "quantity/words.h"
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

RunStop stopOf(const Book& book, const PlannedVisit& planned)
{
    const auto& visit = *planned.visit;
    auto stop = stopAt(book, visit.job);
    stop.at = planned.at;
    stop.what = visitTitle(book, visit);
    stop.minutes = planned.minutes;
    stop.why = joined(windowText(VisitWindows{book}.inDays(visit), planned.day), visit.note);
    stop.visit = visit.id;
    stop.reminder = customerReminder(book, visit, planned.day, planned.at);
    return stop;
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
    if (unknown > 0) text += onSite > Minutes{} ? " and " + counted(unknown, "visit", "visits") + " whose time is not written" : ", without their times on site";
    return text + '.';
}

}

RunSheet runSheet(const Book& book, Date day, std::span<const PlannedVisit> visits)
{
    RunSheet sheet;
    sheet.day = day;
    std::vector<const Visit*> rows;
    for (const auto& planned : visits) {
        rows.push_back(planned.visit);
        sheet.stops.push_back(stopOf(book, planned));
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

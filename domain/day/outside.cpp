#include "day/sections.h"
#include "quantity/words.h"
#include "takeoff/takeoff.h"
#include "visits/needed_visits.h"
#include "visits/visit_words.h"
#include "visits/windows.h"

namespace strikeoff::day {

namespace {

bool isWorkable(const Book& book, Id<Job> job)
{
    const auto* found = book.find(job);
    return found && !found->closedOn && !found->droppedOn;
}

std::string loadsText(const Book& book, Yards ordered)
{
    const auto& settings = book.settings();
    const auto loads = loadsFor(ordered, settings.truckYards, settings.orderStep);
    return counted(static_cast<std::int64_t>(loads.size()), "load", "loads");
}

std::string orderText(const Book& book, const Pour& pour)
{
    std::string text;
    if (pour.orderedYards) {
        text = pour.orderedYards->text() + " yd\u00b3";
        if (!pour.mix.empty()) text += " of " + pour.mix;
        text += ", " + loadsText(book, *pour.orderedYards);
    } else {
        text = "no yards ordered yet";
    }
    if (const auto* supplier = book.find(pour.supplier)) text += ", " + supplier->name;
    else text += ", no supplier named";
    return text;
}

/// When the surface takes the broom, in as few words as a line of the sheet has.
std::string broomText(const VisitWindows& windows, const Pour& pour)
{
    if (!pour.plannedAt) return "";
    const auto estimate = windows.finishes().estimate(pour);
    return estimate ? estimate->inShort : "in this cold it would not set within three days";
}

DayItem pourItem(const Book& book, const VisitWindows& windows, const Pour& pour, Date date, Date seenFrom)
{
    DayItem item;
    item.section = DaySection::pours;
    item.what = "Pour " + workPlace(book, pour.job, pour.id);
    item.verb = "Done";
    item.kind = RecordKind::pour;
    item.id = pour.id.value();
    item.late = *pour.plannedOn < date;
    Reason why;
    if (item.late) {
        why.also("planned for " + dayText(*pour.plannedOn, seenFrom) + " and not marked as poured");
    } else {
        item.at = pour.plannedAt;
        if (!pour.plannedAt) why.also("no time for the first truck");
    }
    why.also(orderText(book, pour));
    if (!item.late) why.also(broomText(windows, pour));
    item.why = why.text();
    return item;
}

std::string waitText(const Book& book, const Visit& visit)
{
    const auto* product = book.find(visit.product);
    if (visit.kind != VisitKind::seal || !product || !product->waitMostHours) return "";
    const int hours = *product->waitMostHours;
    return "the product waits at most " +
           (hours % 24 == 0 && hours > 0 ? counted(hours / 24, "day", "days") : counted(hours, "hour", "hours"));
}

DayItem visitItem(const Book& book, const Visit& visit, Date date, Date seenFrom)
{
    DayItem item;
    item.section = DaySection::visits;
    item.what = visitTitle(book, visit);
    item.verb = "Done";
    item.kind = RecordKind::visit;
    item.id = visit.id.value();
    if (visit.plannedOn == date) item.at = visit.plannedAt;

    Reason why;
    if (visit.tooLate && *visit.tooLate <= date) {
        item.late = true;
        why.also(std::string{"too late "} + (*visit.tooLate == date ? "from " : "since ") + dayText(*visit.tooLate, seenFrom) +
                 ": do it all the same, or leave it out and say why");
    }
    if (visit.due && *visit.due < date) {
        item.late = true;
        why.also("due " + dayText(*visit.due, seenFrom) + ", " + counted(date - *visit.due, "day", "days") + " late");
    } else if (visit.due) {
        why.also("due " + dayText(*visit.due, seenFrom));
    }
    if (visit.plannedOn && *visit.plannedOn < date) {
        item.late = true;
        why.also("planned for " + dayText(*visit.plannedOn, seenFrom) + " and not done");
    } else if (visit.plannedOn) {
        why.also("planned for " + dayText(*visit.plannedOn, seenFrom));
    }
    if (visit.tooLate && *visit.tooLate > date) why.also("too late from " + dayText(*visit.tooLate, seenFrom));
    if (visit.putOffOn) why.also("put off " + dayText(*visit.putOffOn, seenFrom) + ": " + visit.putOffReason.str());
    item.why = why.also(waitText(book, visit)).text();
    return item;
}

}

namespace {

constexpr std::size_t missingByName = 3;

/// Visits that pours need and nobody wrote down are paper to be done: by job while they are few, else as one.
void addMissing(const Book& book, Items& items)
{
    std::vector<std::pair<Id<Job>, std::vector<NeededVisit>>> jobs;
    for (auto& visit : missingVisits(book)) {
        if (jobs.empty() || jobs.back().first != visit.job) jobs.push_back({visit.job, {}});
        jobs.back().second.push_back(std::move(visit));
    }
    const auto add = [&](std::string what, std::string why, Id<Job> job) {
        DayItem item;
        item.section = DaySection::paper;
        item.what = std::move(what);
        item.why = std::move(why);
        item.verb = "Open";
        item.kind = RecordKind::job;
        item.id = job.value();
        items.push_back(std::move(item));
    };
    if (jobs.size() > missingByName)
        return add("Put the visits of " + counted(static_cast<std::int64_t>(jobs.size()), "job", "jobs") + " on the list", "poured, and nobody has written down what they need; the newest is " + book.get(jobs.back().first).title, jobs.back().first);
    for (const auto& [job, visits] : jobs) add("Put the visits of " + book.get(job).title + " on the list", "poured, and nobody has written down what it needs: " + neededText(visits), job);
}

/// The clock hours of a cut that opens or ends on the day: it goes by hours, not by days.
std::string hoursText(const VisitWindow& window, const Visit& visit, Date day)
{
    if (visit.kind != VisitKind::cut) return "";
    std::string text;
    if (window.notBefore && !visit.notBefore && window.notBefore->date() == day) text += "from " + window.notBefore->at().shown();
    if (window.due && !visit.due && window.due->date() == day) text += (text.empty() ? "by " : " to ") + window.due->at().shown();
    if (text.empty()) return text;
    return "joints are ready " + text + (window.estimated ? ", as far as can be told" : "");
}

}

std::vector<const Pour*> poursPlanned(const Book& book, Date date)
{
    std::vector<const Pour*> pours;
    for (const auto& pour : book.all<Pour>())
        if (pour.plannedOn == date && !pour.pouredOn && isWorkable(book, pour.job)) pours.push_back(&pour);
    return pours;
}

std::vector<const Visit*> visitsOn(const Book& book, Date date)
{
    std::vector<const Visit*> visits;
    const VisitWindows windows{book};
    for (const auto& visit : book.all<Visit>()) {
        if (!visit.isOpen() || visit.kind == VisitKind::resealCall) continue;
        const auto* job = book.find(visit.job);
        if (!job || job->droppedOn) continue;
        const auto reached = [&](const std::optional<Date>& day) { return day && *day <= date; };
        const auto inDays = windows.inDays(visit);
        if (reached(inDays.plannedOn) || reached(inDays.due) || reached(inDays.tooLate)) visits.push_back(&visit);
    }
    return visits;
}

void addPours(const Book& book, Date day, Date seenFrom, Items& items)
{
    const VisitWindows windows{book};
    for (const auto& pour : book.all<Pour>())
        if (pour.plannedOn && *pour.plannedOn <= day && !pour.pouredOn && isWorkable(book, pour.job))
            items.push_back(pourItem(book, windows, pour, day, seenFrom));
}

void addVisits(const Book& book, Date day, Date seenFrom, Items& items)
{
    const VisitWindows windows{book};
    for (const auto* visit : visitsOn(book, day)) {
        items.push_back(visitItem(book, windows.inDays(*visit), day, seenFrom));
        if (const auto text = hoursText(windows.windowOf(*visit), *visit, day); !text.empty()) items.back().why += "; " + text;
    }
    if (day == seenFrom) addMissing(book, items);
}

}

#include "day/sections.h"
#include "quantity/words.h"
#include "takeoff/takeoff.h"
#include "visits/visit_words.h"

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

DayItem pourItem(const Book& book, const Pour& pour, Date date, Date seenFrom)
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
    item.why = why.also(orderText(book, pour)).text();
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
    for (const auto& visit : book.all<Visit>()) {
        if (!visit.isOpen() || visit.kind == VisitKind::resealCall) continue;
        const auto* job = book.find(visit.job);
        if (!job || job->droppedOn) continue;
        const auto reached = [&](const std::optional<Date>& day) { return day && *day <= date; };
        if (reached(visit.plannedOn) || reached(visit.due) || reached(visit.tooLate)) visits.push_back(&visit);
    }
    return visits;
}

void addPours(const Book& book, Date day, Date seenFrom, Items& items)
{
    for (const auto& pour : book.all<Pour>())
        if (pour.plannedOn && *pour.plannedOn <= day && !pour.pouredOn && isWorkable(book, pour.job))
            items.push_back(pourItem(book, pour, day, seenFrom));
}

void addVisits(const Book& book, Date day, Date seenFrom, Items& items)
{
    for (const auto* visit : visitsOn(book, day)) items.push_back(visitItem(book, *visit, day, seenFrom));
}

}

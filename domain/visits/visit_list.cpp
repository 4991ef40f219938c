#include "visits/visit_list.h"

#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

namespace {

bool comesSoon(const VisitRow& row, Date day)
{
    if (row.state < VisitState::waiting) return true;
    const auto last = daysOn(day, visitHorizonDays - 1).value_or(day);
    if (row.visit->plannedOn && *row.visit->plannedOn <= last) return true;
    return row.window.notBefore && row.window.notBefore->date() <= last;
}

std::string answerOf(const VisitList& list, Date day)
{
    if (list.visits.empty() && list.missing.empty()) return "No return visits yet.";
    std::string text;
    if (list.open > 0) {
        text = capitalized(counted(list.open, "visit", "visits")) + " open in the next " + counted(visitHorizonDays, "day", "days");
        if (list.due > 0) text += ", " + inWords(list.due) + " due " + dayText(day, day);
        if (list.late > 0) text += ", " + inWords(list.late) + " late";
        text += list.due + list.late == 0 ? "; none is due yet" : "";
        if (list.later > 0) text += "; " + counted(list.later, "comes", "come") + " later";
        text += ".";
    } else if (list.later > 0) {
        text = "Nothing to go back to in the next " + counted(visitHorizonDays, "day", "days") + "; " + counted(list.later, "visit comes", "visits come") + " later.";
    } else if (!list.visits.empty() && list.missing.empty()) {
        text = list.calls + list.callsLater > 0 ? "Nothing to go back to." : "Nothing to go back to: every visit is done.";
    } else {
        text = "No visit is open.";
    }
    if (list.calls > 0) text += " " + capitalized(counted(list.calls, "reseal call", "reseal calls")) + " to make.";
    if (const auto missing = missingText(list.missing); !missing.empty()) text += " " + missing;
    return text;
}

}

VisitList visitList(const Book& book, Date day)
{
    VisitList list;
    const VisitWindows windows{book};
    for (const auto& visit : book.all<Visit>()) {
        VisitRow row{&visit, book.find(visit.job), {}, visit.isOpen() ? windows.windowOf(visit) : VisitWindow{}, {}};
        row.state = stateOn(visit, row.window, day);
        if (row.job) {
            if (const auto* site = book.find(row.job->site)) row.place = site->name;
            else if (const auto* customer = book.find(row.job->customer)) row.place = customer->name + (customer->town.empty() ? "" : ", " + customer->town);
        }
        if (visit.isOpen()) {
            const bool soon = comesSoon(row, day);
            if (visit.kind == VisitKind::resealCall) ++(soon ? list.calls : list.callsLater);
            else {
                ++(soon ? list.open : list.later);
                if (row.state == VisitState::late || row.state == VisitState::tooLate) ++list.late;
                if (row.state == VisitState::due) ++list.due;
            }
        }
        list.visits.push_back(std::move(row));
    }
    const auto dayOf = [](const VisitRow& row) {
        const auto& visit = *row.visit;
        if (visit.doneOn) return -visit.doneOn->days();
        if (visit.waivedOn) return -visit.waivedOn->days();
        if (visit.plannedOn) return visit.plannedOn->days();
        const auto pressing = row.window.due ? row.window.due : row.window.notBefore;
        return pressing ? pressing->date().days() : std::int64_t{1'000'000};
    };
    std::stable_sort(list.visits.begin(), list.visits.end(), [&](const VisitRow& a, const VisitRow& b) {
        const auto group = [](VisitState state) { return state == VisitState::done || state == VisitState::waived ? VisitState::done : state; };
        return group(a.state) != group(b.state) ? group(a.state) < group(b.state) : dayOf(a) < dayOf(b);
    });

    list.missing = missingVisits(book);
    list.answer = answerOf(list, day);
    return list;
}

}

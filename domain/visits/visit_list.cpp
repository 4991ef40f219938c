#include "visits/visit_list.h"

#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

VisitState stateOn(const Visit& visit, Date day)
{
    if (visit.doneOn) return VisitState::done;
    if (visit.waivedOn) return VisitState::waived;
    if (visit.tooLate && day >= *visit.tooLate) return VisitState::tooLate;
    if (visit.due && day > *visit.due) return VisitState::late;
    if (visit.plannedOn && *visit.plannedOn < day) return VisitState::late;
    if (visit.plannedOn && *visit.plannedOn == day) return VisitState::due;
    if (visit.notBefore && day < *visit.notBefore) return VisitState::waiting;
    return visit.due || visit.notBefore ? VisitState::due : VisitState::waiting;
}

VisitList visitList(const Book& book, Date day)
{
    VisitList list;
    for (const auto& visit : book.all<Visit>()) {
        VisitRow row{&visit, book.find(visit.job), {}, stateOn(visit, day)};
        if (row.job) {
            if (const auto* site = book.find(row.job->site)) row.place = site->name;
            else if (const auto* customer = book.find(row.job->customer)) row.place = customer->name + (customer->town.empty() ? "" : ", " + customer->town);
        }
        if (visit.isOpen()) ++list.open;
        if (row.state == VisitState::late || row.state == VisitState::tooLate) ++list.late;
        if (row.state == VisitState::due) ++list.due;
        list.visits.push_back(std::move(row));
    }
    const auto dayOf = [](const VisitRow& row) {
        const auto& visit = *row.visit;
        if (visit.doneOn) return -visit.doneOn->days();
        if (visit.waivedOn) return -visit.waivedOn->days();
        const auto pressing = visit.plannedOn ? visit.plannedOn : visit.due ? visit.due : visit.notBefore;
        return pressing ? pressing->days() : std::int64_t{1'000'000};
    };
    std::stable_sort(list.visits.begin(), list.visits.end(), [&](const VisitRow& a, const VisitRow& b) {
        const auto group = [](VisitState state) { return state == VisitState::done || state == VisitState::waived ? VisitState::done : state; };
        return group(a.state) != group(b.state) ? group(a.state) < group(b.state) : dayOf(a) < dayOf(b);
    });

    if (list.visits.empty()) list.answer = "No return visits yet.";
    else if (list.open == 0) list.answer = "Nothing to go back to: every visit is done.";
    else {
        list.answer = capitalized(counted(list.open, "visit", "visits") + " open");
        if (list.due > 0) list.answer += ", " + inWords(list.due) + " due " + dayText(day, day);
        if (list.late > 0) list.answer += ", " + inWords(list.late) + " late";
        list.answer += list.due + list.late == 0 ? "; none is due yet." : ".";
    }
    return list;
}

}

#include "visits/visit_list.h"

#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

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
        if (visit.isOpen()) ++list.open;
        if (row.state == VisitState::late || row.state == VisitState::tooLate) ++list.late;
        if (row.state == VisitState::due) ++list.due;
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
    if (list.visits.empty() && list.missing.empty()) list.answer = "No return visits yet.";
    else if (list.open == 0) list.answer = "Nothing to go back to: every visit is done.";
    else {
        list.answer = capitalized(counted(list.open, "visit", "visits") + " open");
        if (list.due > 0) list.answer += ", " + inWords(list.due) + " due " + dayText(day, day);
        if (list.late > 0) list.answer += ", " + inWords(list.late) + " late";
        list.answer += list.due + list.late == 0 ? "; none is due yet." : ".";
    }
    if (!list.missing.empty()) {
        const auto count = static_cast<std::int64_t>(list.missing.size());
        if (list.open == 0) list.answer = "No visit is open.";
        list.answer += " " + capitalized(counted(count, "visit", "visits")) + (count == 1 ? " that a pour needs is" : " that pours need are") + " not on the list yet.";
    }
    return list;
}

}

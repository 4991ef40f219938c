#include "day/sections.h"
#include "quantity/letters.h"
#include "quantity/words.h"
#include "visits/visit_words.h"
#include "visits/windows.h"

namespace strikeoff::day {

namespace {

constexpr int daysAhead = 14;  // there is time to buy what runs short within them

DayItem item(const std::string& what, const std::string& why, std::optional<ClockTime> at, RecordKind kind, std::int64_t id)
{
    DayItem made;
    made.section = DaySection::loadOut;
    made.what = what;
    made.why = why;
    made.at = at;
    made.verb = "Open";
    made.kind = kind;
    made.id = id;
    return made;
}

std::string loadingFor(const Visit& visit)
{
    std::string kind{labelOf(visit.kind)};
    kind.front() = lowered(kind.front());
    return visit.kind == VisitKind::walkThrough ? "walk through" : kind;
}

}

std::vector<const Visit*> visitsMadeOn(const Book& book, Date day)
{
    auto visits = visitsOn(book, day);
    const VisitWindows windows{book};
    std::erase_if(visits, [&](const Visit* visit) { return visit->plannedOn ? *visit->plannedOn != day : windows.inDays(*visit).due != day; });
    return visits;
}

void addLoadOut(const Book& book, Date date, DaySheet& sheet)
{
    const auto tomorrow = date + 1;
    const auto pours = poursPlanned(book, tomorrow);
    const auto visits = visitsMadeOn(book, tomorrow);
    for (const auto* pour : pours)
        sheet.items.push_back(item("Load for pouring " + workPlace(book, pour->job, pour->id), loadOut(book, *pour).brief(), pour->plannedAt,
                                   RecordKind::pour, pour->id.value()));
    for (const auto* visit : visits)
        sheet.items.push_back(item("Load to " + loadingFor(*visit) + " at " + workPlace(book, visit->job, visit->pour), loadOut(book, *visit).brief(),
                                   visit->plannedOn == tomorrow ? visit->plannedAt : std::nullopt, RecordKind::visit, visit->id.value()));
    for (const auto& shortage : shortages(book, sealingAhead(book, date, daysAhead), date)) {
        auto made = item("Buy " + book.get(shortage.product).name, shortage.text, {}, RecordKind::finishingProduct, shortage.product.value());
        made.late = shortage.day <= tomorrow;
        sheet.items.push_back(std::move(made));
    }
    sheet.loadOut = loadOut(book, pours, visits);
}

}

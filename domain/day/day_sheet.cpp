#include "day/day_sheet.h"

#include "cost/job_cost.h"

#include "billing/billing.h"
#include "day/sections.h"
#include "quantity/words.h"
#include "visits/forecast_entry.h"

#include <algorithm>
#include <tuple>

namespace strikeoff {

namespace {

/// Within a section: what is late, then what has a time by its time, then the rest as it came.
auto place(const DayItem& item)
{
    const int group = item.late ? 0 : item.at ? 1 : 2;
    return std::tuple{item.section, group, item.late ? 0 : item.at.value_or(ClockTime{}).minutes()};
}

void arrange(std::vector<DayItem>& items)
{
    std::stable_sort(items.begin(), items.end(), [](const DayItem& a, const DayItem& b) { return place(a) < place(b); });
}

std::string answerFor(const Book& book, const DaySheet& sheet)
{
    const auto count = [&](DaySection section) {
        return std::count_if(sheet.items.begin(), sheet.items.end(), [&](const DayItem& item) { return item.section == section; });
    };
    std::vector<std::string> out;
    const auto say = [&](DaySection section, const char* one, const char* many) {
        if (const auto number = count(section); number > 0) out.push_back(counted(number, one, many));
    };
    say(DaySection::pours, "pour", "pours");
    say(DaySection::visits, "return visit", "return visits");
    say(DaySection::calls, "call", "calls");

    std::vector<std::string> also;
    const auto toBuy = std::count_if(sheet.items.begin(), sheet.items.end(), [](const DayItem& item) { return item.section == DaySection::loadOut && item.kind == RecordKind::finishingProduct; });
    if (const auto loads = count(DaySection::loadOut) - toBuy; loads > 0) also.push_back(counted(loads, "stop", "stops") + " to load tonight");
    if (toBuy > 0) also.push_back(counted(toBuy, "product", "products") + " to buy");
    if (const auto papers = count(DaySection::paper); papers > 0) also.push_back(counted(papers, "paper waits", "papers wait"));
    Money late;
    for (const auto& one : owedOn(book, sheet.date).invoices)
        if (one.daysLate > 0) late += one.balance;
    if (!late.isZero()) also.push_back(dollars(late) + " is past due");

    if (out.empty() && also.empty())
        return sheet.items.empty() ? "Nothing needs you today." : "Nothing but money to look at today.";
    auto text = out.empty() ? std::string{"No pour, visit or call today"} : capitalized(listed(out)) + " today";
    if (!also.empty()) text += "; " + listed(also);
    return text + ".";
}

}

DaySheet daySheet(const Book& book, Date date)
{
    CostReckoner reckoner{book};
    return daySheet(reckoner, date);
}

DaySheet daySheet(CostReckoner& reckoner, Date date)
{
    const auto& book = reckoner.book();
    DaySheet sheet;
    sheet.date = date;
    day::addLoadOut(book, date, sheet);
    day::addPours(book, date, date, sheet.items);
    day::addVisits(book, date, date, sheet.items);
    day::addCalls(book, date, sheet.items);
    day::addPaper(book, date, sheet.items);
    day::addMoney(reckoner, date, sheet.items);
    arrange(sheet.items);

    // Of tomorrow only what is tomorrow's own: what is late already stands above.
    day::addPours(book, date + 1, date, sheet.tomorrow);
    day::addVisits(book, date + 1, date, sheet.tomorrow);
    std::erase_if(sheet.tomorrow, [&](const DayItem& item) {
        return std::any_of(sheet.items.begin(), sheet.items.end(), [&](const DayItem& today) {
            return today.section == item.section && today.kind == item.kind && today.id == item.id;
        });
    });
    arrange(sheet.tomorrow);

    sheet.weather = day::weatherLine(book, date);
    sheet.forecastMissing = !forecastOn(book, date + 1);
    sheet.warnings = day::weatherWarnings(book, date);
    sheet.answer = answerFor(book, sheet);
    return sheet;
}

}

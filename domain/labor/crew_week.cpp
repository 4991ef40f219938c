#include "labor/crew_week.h"

#include "labor/burden.h"
#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

namespace {

DayOfWeek& dayFor(PersonWeek& week, Date date) { return week.days[static_cast<std::size_t>(date - week.pay.start)]; }

void add(DayOfWeek& day, const Job* job, Phase phase, const HourCost& cost)
{
    day.minutes += cost.minutes;
    day.cost += cost.trueCost();
    const auto same = std::find_if(day.work.begin(), day.work.end(), [&](const WorkOfDay& work) { return work.job == job && work.phase == phase; });
    if (same != day.work.end()) same->minutes += cost.minutes;
    else day.work.push_back({job, phase, cost.minutes});
}

void add(WeekPay& all, const WeekPay& week)
{
    all.worked += week.worked;
    all.overtime += week.overtime;
    all.doubled += week.doubled;
    all.straight += week.straight;
    all.bonus += week.bonus;
    all.premium += week.premium;
    for (std::size_t i = 0; i < burdenItemCount; ++i) all.burden[i] += week.burden[i];
    all.allRatesKnown = all.allRatesKnown && week.allRatesKnown;
}

std::string answerOf(const CrewWeek& week)
{
    const auto when = "in the week of " + week.from.shown();
    if (week.people.empty()) return "Nobody worked " + when + ".";
    auto text = capitalized(counted(static_cast<std::int64_t>(week.people.size()), "person", "people")) + " worked " + week.all.worked.shown() + " h " + when;
    const auto over = week.all.overtime + week.all.doubled;
    if (over > Minutes{}) text += ", " + over.shown() + " h of it overtime";
    return text + "; gross pay is " + dollars(week.all.gross()) + ", the true cost " + dollars(week.all.trueCost()) + ".";
}

}

std::vector<Minutes> PersonWeek::minutesByDay() const
{
    std::vector<Minutes> minutes;
    for (const auto& day : days) minutes.push_back(day.minutes);
    return minutes;
}

std::vector<Minutes> CrewWeek::minutesByDay() const
{
    std::vector<Minutes> sums(7);
    for (const auto& mine : people)
        for (std::size_t i = 0; i < sums.size(); ++i) sums[i] += mine.days[i].minutes;
    return sums;
}

CrewWeek crewWeek(const Book& book, const LaborCost& labor, Date day)
{
    CrewWeek week;
    week.from = startOfWeek(day, static_cast<int>(book.settings().workweekStart));
    week.to = week.from + 6;
    week.all.start = week.from;
    for (const auto& person : book.all<CrewMember>()) {
        const auto* pay = labor.weekOf(person.id, day);
        if (!pay) continue;
        PersonWeek mine{&person, *pay, {}};
        for (int i = 0; i < 7; ++i) mine.days.push_back({week.from + i, {}, {}, {}});
        week.people.push_back(std::move(mine));
        add(week.all, *pay);
    }
    std::stable_sort(week.people.begin(), week.people.end(), [](const PersonWeek& a, const PersonWeek& b) { return a.person->name < b.person->name; });
    for (auto& mine : week.people) {
        std::vector<const Hours*> rows;
        for (const auto* row : book.referring<&Hours::person>(mine.person->id))
            if (row->date >= week.from && row->date <= week.to) rows.push_back(row);
        std::stable_sort(rows.begin(), rows.end(), [](const Hours* a, const Hours* b) { return a->startedAt < b->startedAt; });
        for (const auto* row : rows) add(dayFor(mine, row->date), book.find(row->job), row->phase, *labor.of(row->id));
    }
    week.answer = answerOf(week);

    for (const auto& mine : week.people)
        if (!mine.pay.allRatesKnown) week.cautions.push_back(mine.person->name + " has hours without a pay rate, which cost nothing here; enter the rate in force on those days.");
    if (const auto missing = burdenNotSet(book, week.to); !missing.empty() && !week.people.empty()) {
        std::vector<std::string> names;
        for (const auto item : missing) names.emplace_back(labelOf(item));
        week.cautions.push_back("Not set yet, so counted as nothing: " + listed(names) + ".");
    }
    week.cautions.push_back("Pay, overtime and tax rules differ by state and change by year: ask whoever does your payroll.");
    return week;
}

}

#include "phone_calendar.h"

#include <QDateTime>

#include <algorithm>

namespace strikeoff {

namespace {

constexpr int daysAhead = 366;           // what is moved far ahead is moved in the phone too
constexpr std::size_t removedLately = 500;

/// The record as it was when it last had a planned day.
template <class Record>
void addFormer(const Store& store, const Record& now, std::vector<Record>& former)
{
    if (now.plannedOn || now.revision < 2) return;
    const auto trail = store.trailOf(kindOf<Record>, now.id.value());
    for (auto change = trail.rbegin(); change != trail.rend(); ++change)
        if (change->before)
            if (const auto was = recordOf<Record>(*change->before); was.plannedOn) return former.push_back(was);
}

}

UtcMoment utcNow()
{
    const auto clock = QDateTime::currentDateTimeUtc();
    const auto day = clock.date();
    return {Date::of(day.year(), day.month(), day.day()).value(), ClockTime::of(clock.time().hour(), clock.time().minute()).value()};
}

FormerDays formerDays(const Store& store)
{
    FormerDays former;
    for (const auto& visit : store.book().all<Visit>()) addFormer(store, visit, former.visits);
    for (const auto& pour : store.book().all<Pour>()) addFormer(store, pour, former.pours);
    for (const auto& removed : store.removedRows(removedLately)) {
        if (!removed.before) continue;
        if (removed.kind == RecordKind::visit) former.visits.push_back(recordOf<Visit>(*removed.before));
        if (removed.kind == RecordKind::pour) former.pours.push_back(recordOf<Pour>(*removed.before));
    }
    return former;
}

std::string phoneCalendar(const Store& store, std::span<const PlannedVisit> visits, Date from)
{
    return calendarOf(store.book(), visits, from, daysOn(from, daysAhead).value_or(from), utcNow(), formerDays(store));
}

std::string phoneCalendar(const Store& store, Date from)
{
    return phoneCalendar(store, plannedVisits(store.book(), from, daysOn(from, daysAhead).value_or(from)), from);
}

}

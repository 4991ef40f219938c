#include "pages/visits/plan_pictures.h"

#include "quantity/words.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace strikeoff {

namespace {

QString words(const char* text) { return QCoreApplication::translate("PlanPictures", text); }

std::vector<DayStretch> stretches(int day, const std::vector<ClockSpan>& spans)
{
    std::vector<DayStretch> result;
    for (const auto& span : spans) result.emplace_back(day + span.from / 1440.0, day + span.to / 1440.0);
    return result;
}

StripDay dayOf(const VisitPlan& plan, std::size_t index)
{
    const auto& day = plan.days[index];
    StripDay shown;
    const auto name = day.date.shownShort();  // "Wed Nov 25"
    shown.name = qs(name.substr(0, 3)) + QStringLiteral(" %1").arg(day.date.day());
    QStringList tip{qs(day.date.shownShort())};
    if (day.forecast && day.forecast->lowF && day.forecast->highF) {
        shown.air = QStringLiteral("%1\u2013%2").arg(*day.forecast->lowF).arg(*day.forecast->highF);
        shown.isDoubtful = *day.forecast->highF < 40;
    } else {
        tip += words("no forecast: hours that hang on the weather are unknown");
    }
    if (day.forecast && day.forecast->rainChance) {
        shown.rain = QString::number(*day.forecast->rainChance);
        shown.isDoubtful = shown.isDoubtful || *day.forecast->rainChance >= 50;
    }
    const int number = static_cast<int>(index);
    shown.gates = stretches(number, day.sealing);
    int minutes = 0;
    for (const auto& run : day.crew) minutes += (run.hours.to - run.hours.from) * run.count;
    shown.crew = day.crew.empty() ? QStringLiteral("0") : QString::number(minutes / 60.0, 'f', minutes % 60 == 0 ? 0 : 1);
    if (!day.crewWhy.empty()) tip += qs(day.crewWhy);
    if (!day.sealing.empty()) tip += words("a sealer can go on %1").arg(qs(spansText(day.sealing)));
    shown.tip = tip.join(u'\n');
    return shown;
}

StripRow rowOf(const VisitPlan& plan, const PlanRow& row)
{
    StripRow shown;
    shown.name = rowName(row);
    const double last = static_cast<double>(plan.days.size());
    const auto daysTo = [&](const Moment& moment) { return std::clamp(static_cast<double>((moment - Moment::startOf(plan.from)).count()) / 1440, 0.0, last); };
    const auto end = row.window.tooLate ? row.window.tooLate : row.window.due;
    shown.window = {row.window.notBefore ? daysTo(*row.window.notBefore) : 0.0, end ? daysTo(*end) : last};
    if (row.window.due && row.window.tooLate)
        if (const double due = daysTo(*row.window.due); due > 0 && due < last) shown.due = due;
    shown.estimated = row.window.estimated;
    for (std::size_t day = 0; day < row.hours.size(); ++day) {
        const auto open = stretches(static_cast<int>(day), row.hours[day].open), unknown = stretches(static_cast<int>(day), row.hours[day].unknown);
        for (const auto& part : open)
            if (part.first < shown.window.second) shown.open.emplace_back(part.first, std::min(part.second, shown.window.second));
        for (const auto& part : unknown)
            if (part.first < shown.window.second) shown.unknown.emplace_back(part.first, std::min(part.second, shown.window.second));
    }
    const bool late = row.state == VisitState::late || row.state == VisitState::tooLate;
    shown.tone = late ? StripTone::late : row.state == VisitState::due ? StripTone::pressing : StripTone::calm;
    if (late) {
        const int days = row.window.due ? plan.from - row.window.due->date() : 0;
        shown.lateWords = row.state == VisitState::tooLate ? words("too late") : days > 0 ? qs(counted(days, "day late", "days late")) : words("late");
    }
    if (row.on) {
        shown.day = *row.on - plan.from;
        shown.stop = row.stop > 0 ? QString::number(row.stop) : QStringLiteral("\u260e");
    }
    shown.pinned = row.visit->pinned;
    shown.againstHours = row.outsideHours;
    QStringList tip{shown.name};
    if (row.on) tip += row.at ? words("%1, %2").arg(qs(row.on->shownShort()), qs(row.at->shown())) : qs(row.on->shownShort());
    if (!row.why.empty()) tip += qs(row.why);
    if (!row.window.why.empty()) tip += qs(row.window.why);
    shown.tip = tip.join(u'\n');
    return shown;
}

}

QString rowName(const PlanRow& row)
{
    const auto coat = row.visit->coat > 1 ? words(", coat %1").arg(row.visit->coat) : QString{};
    return qs(labelOf(row.visit->kind)) + coat + QStringLiteral(" \u00b7 ") + qs(row.place);
}

PlanStrip stripOf(const VisitPlan& plan)
{
    PlanStrip made;
    for (std::size_t day = 0; day < plan.days.size(); ++day) made.strip.days.push_back(dayOf(plan, day));
    for (std::size_t row = 0; row < plan.rows.size(); ++row) made.rows.push_back(row);
    std::ranges::stable_sort(made.rows, {}, [&](std::size_t row) {
        const auto state = plan.rows[row].state;
        return state == VisitState::tooLate ? 0 : state == VisitState::late ? 1 : 2;
    });
    for (const auto row : made.rows) made.strip.rows.push_back(rowOf(plan, plan.rows[row]));
    return made;
}

PlanMap routeMapOf(const VisitPlan& plan, int day, std::optional<std::size_t> chosenRow)
{
    PlanMap made;
    auto& map = made.map;
    if (day < 0 || static_cast<std::size_t>(day) >= plan.days.size()) return made;
    const auto& shown = plan.days[static_cast<std::size_t>(day)];
    map.emptyWords = shown.crewWhy.empty() ? words("Nobody goes out on %1.").arg(qs(shown.date.shownShort()))
                                           : words("Nobody goes out on %1: %2.").arg(qs(shown.date.shownShort()), qs(shown.crewWhy));
    std::vector<std::size_t> places;  // by place of the map: the drives' one
    const auto add = [&](std::size_t place) {
        const auto found = std::ranges::find(places, place);
        if (found != places.end()) return static_cast<std::size_t>(found - places.begin());
        places.push_back(place);
        map.places.push_back({{}, place == 0 ? words("shop") : qs(plan.drives.place(place).name), {}, false});
        made.rows.emplace_back();
        return places.size() - 1;
    };
    for (std::size_t number = 0; number < shown.runs.size(); ++number) {
        const auto& run = shown.runs[number];
        auto at = add(run.startPlace);
        const auto go = [&](std::size_t to) {
            if (to != at) map.legs.push_back({at, to, words("%1 min").arg(plan.drives.between(places[at], places[to]).minutes), static_cast<int>(number)});
            at = to;
        };
        for (const auto row : run.rows) {
            const auto place = add(plan.placeOf[row]);
            go(place);
            auto& mark = map.places[place].mark;
            const auto stop = QString::number(plan.rows[row].stop);
            mark = mark.isEmpty() ? stop : mark + u',' + stop;
            if (!made.rows[place]) made.rows[place] = row;
            map.places[place].isChosen = map.places[place].isChosen || chosenRow == row;
        }
        go(add(run.endPlace));
    }
    map.toScale = std::ranges::all_of(places, [&](std::size_t place) { return plan.drives.place(place).point.has_value(); });
    for (std::size_t index = 0; index < places.size(); ++index) {
        const auto& place = plan.drives.place(places[index]);
        if (map.toScale) {
            const auto& origin = *plan.drives.place(places[0]).point;
            // Small enough to be flat: a degree of latitude is 69.1 miles, one of longitude less by the cosine.
            const double north = (place.point->latitude.toDouble() - origin.latitude.toDouble()) * 69.1;
            const double east = (place.point->longitude.toDouble() - origin.longitude.toDouble()) * 69.1 * std::cos(origin.latitude.toDouble() * std::numbers::pi / 180);
            map.places[index].miles = {east, north};
        } else {
            const double turn = 2 * std::numbers::pi * static_cast<double>(index) / static_cast<double>(places.size());
            map.places[index].miles = {2 * std::sin(turn), std::cos(turn)};
        }
    }
    return made;
}

}

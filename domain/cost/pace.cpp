#include "cost/pace.h"

#include "quantity/words.h"
#include "ready_mix/codes.h"
#include "takeoff/takeoff.h"

#include <algorithm>
#include <array>
#include <set>

namespace strikeoff {

namespace {

using ByPhase = std::array<Minutes, phaseChoices.size()>;

std::optional<double> perHour(double areaSqft, Minutes minutes)
{
    if (areaSqft <= 0 || minutes <= Minutes{}) return std::nullopt;
    return areaSqft * 60 / static_cast<double>(minutes.count());
}

std::vector<PhasePace> phasesOf(const ByPhase& minutes, double areaSqft)
{
    std::vector<PhasePace> phases;
    for (std::size_t i = 0; i < minutes.size(); ++i) {
        const auto phase = static_cast<Phase>(i);
        if (minutes[i] > Minutes{}) phases.push_back({phase, minutes[i], phase == Phase::rework ? std::nullopt : perHour(areaSqft, minutes[i])});
    }
    return phases;
}

}

JobPace paceOf(const Book& book, const Job& job)
{
    JobPace pace;
    const auto pours = book.referring<&Pour::job>(job.id);
    const auto hours = book.referring<&Hours::job>(job.id);
    ByPhase all{};
    for (const auto* row : hours) {
        const auto worked = row->worked().value_or(Minutes{});
        all[static_cast<std::size_t>(row->phase)] += worked;
        pace.minutes += worked;
    }
    for (const auto* pour : pours) {
        if (!pour->pouredOn) continue;
        PourPace each;
        each.pour = pour;
        if (pour->area) each.areaSqft = pour->area->toDouble();
        else if (pours.size() == 1) each.areaSqft = std::max(0.0, takeoffOf(book, job.id).areaSqft);
        ByPhase minutes{};
        std::set<std::int64_t> people;
        for (const auto* row : hours) {
            if (row->pour ? *row->pour != pour->id : pours.size() != 1) continue;
            const auto worked = row->worked().value_or(Minutes{});
            minutes[static_cast<std::size_t>(row->phase)] += worked;
            each.minutes += worked;
            if (row->date == *pour->pouredOn && (row->phase == Phase::place || row->phase == Phase::finish)) people.insert(row->person.value());
        }
        each.sqftPerCrewHour = perHour(each.areaSqft, each.minutes);
        each.phases = phasesOf(minutes, each.areaSqft);
        each.crewSize = pour->crewSize;
        if (!each.crewSize && !people.empty()) each.crewSize = static_cast<int>(people.size());
        each.airTempF = pour->airTempF;
        pace.areaSqft += each.areaSqft;
        pace.pours.push_back(std::move(each));
    }
    pace.sqftPerCrewHour = perHour(pace.areaSqft, pace.minutes);
    pace.phases = phasesOf(all, pace.areaSqft);
    return pace;
}

std::string paceInWords(const JobPace& pace)
{
    if (pace.minutes <= Minutes{}) return {};
    const auto figure = [](double value) { return Quantity::ofUnits(divideHalfUp(static_cast<std::int64_t>(value * 1e6), 1000)).shown(1); };
    if (!pace.sqftPerCrewHour) return "Pace is not known: " + pace.minutes.shown() + " hours so far and no poured area.";
    auto text = "Pace " + figure(*pace.sqftPerCrewHour) + " ft\u00b2 per crew-hour over all " + pace.minutes.shown() + " hours";
    std::vector<std::string> phases;
    Minutes rework;
    for (const auto& each : pace.phases) {
        if (each.phase == Phase::rework) rework = each.minutes;
        else if (each.sqftPerCrewHour) phases.push_back(lowered(labelOf(each.phase)) + ' ' + figure(*each.sqftPerCrewHour));
    }
    if (!phases.empty()) text += ": " + listed(phases);
    if (rework > Minutes{}) text += "; rework took " + rework.shown();
    for (const auto& pour : pace.pours) {
        std::vector<std::string> parts;
        if (pour.crewSize) parts.push_back(counted(*pour.crewSize, "person", "people"));
        if (pour.airTempF) parts.push_back(std::to_string(*pour.airTempF) + " \u00b0F");
        if (parts.empty()) continue;
        text += "; " + (pace.pours.size() > 1 ? "pour " + std::to_string(pour.pour->sequence) + " with " : std::string{"poured with "}) + listed(parts);
    }
    return text + '.';
}

}

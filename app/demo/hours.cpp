#include "demo/world.h"

#include <algorithm>

namespace strikeoff::demo {

namespace {

class HoursWriter {
public:
    explicit HoursWriter(World& world) : world_{world} {}

    void all()
    {
        shopDays();
        for (auto& [key, spells] : world_.crewBook.spells()) {
            const auto& [date, person] = key;
            if (date >= today()) continue;
            fillUp(person, spells);
            write(date, person, spells);
        }
    }

private:
    /// Rain and winter: trailer, saws and forms are looked after.
    void shopDays()
    {
        for (auto date = firstDay(); date < today(); date = date + 1) {
            if (!isWorkday(date)) continue;
            const auto& weather = world_.weather.at(date);
            const bool winter = seasonOf(date) == SeasonOfYear::winter;
            for (const std::size_t person : {std::size_t{1}, std::size_t{3}}) {
                if (!world_.crewBook.isThere(person, date) || world_.crewBook.minutesTaken(person, date) > 0) continue;
                if (random_.chance(winter ? 190 : weather.wet ? 330 : 20))
                    world_.crewBook.book(person, date,
                        {{}, {}, Phase::shop, random_.pick(2, 5) * 60, {},
                            winter ? random_.of(winterWork_) : random_.of(rainWork_)});
            }
        }
    }

    /// Driving to the job and home, and what is left of the day.
    void fillUp(std::size_t person, std::vector<Spell>& spells)
    {
        std::optional<std::size_t> first;
        for (const auto& spell : spells)
            if (spell.plan) {
                first = spell.plan;
                break;
            }
        if (!first) return;
        const auto& site = world_.records.get(world_.plans[*first].site);
        const auto drive = static_cast<int>(site.driveMinutes.value_or(Minutes::of(18)).count());
        if (drive >= 11 && !random_.chance(120)) {
            const auto pour = spells.front().plan == first ? spells.front().pour : std::nullopt;
            spells.push_back({first, pour, Phase::travel, (2 * drive + 2) / 5 * 5, {}, ""});
        }
        int taken = 0;
        for (const auto& spell : spells) taken += spell.minutes;
        if (person != 0 && taken < 440 && random_.chance(240))
            spells.push_back({{}, {}, Phase::shop, std::min(120, (500 - taken) / 15 * 15), {}, ""});
    }

    void write(Date date, std::size_t person, std::vector<Spell>& spells)
    {
        std::stable_sort(spells.begin(), spells.end(), [](const Spell& a, const Spell& b) { return rank(a) < rank(b); });
        int total = 0, travel = 0;
        for (const auto& spell : spells) {
            total += spell.minutes;
            if (spell.phase == Phase::travel) travel = spell.minutes;
        }
        const bool winter = date.month() >= 11 || date.month() <= 3;
        int at = winter ? 7 * 60 + 30 : 7 * 60;
        for (const auto& spell : spells)
            if (spell.startsAt) at = *spell.startsAt - travel;
        // The first half year was written down by the hour alone.
        const bool clocked = date >= day(2024, 1, 1) && !random_.chance(40) && at + total + 30 < 24 * 60;
        int worked = 0;
        bool lunchTaken = total < 360;
        for (const auto& spell : spells) {
            Hours hours;
            hours.person = world_.crew[person];
            hours.date = date;
            hours.phase = spell.phase;
            hours.note = spell.note;
            if (spell.plan) {
                const auto& plan = world_.plans[*spell.plan];
                hours.job = plan.job;
                if (spell.pour && *spell.pour < plan.pours.size()) hours.pour = plan.pours[*spell.pour].id;
            }
            worked += spell.minutes;
            const int lunch = !lunchTaken && worked >= 240 ? 30 : 0;
            if (lunch > 0) lunchTaken = true;
            if (clocked) {
                hours.startedAt = clock(at);
                at += spell.minutes + lunch;
                hours.endedAt = clock(at);
                if (lunch > 0) hours.unpaidMinutes = Minutes::of(lunch);
            } else {
                hours.minutes = Minutes::of(spell.minutes);
            }
            world_.records.add(hours);
        }
    }

    /// Order through the day.
    static int rank(const Spell& spell)
    {
        switch (spell.phase) {
        case Phase::travel: return 0;
        case Phase::place: return 1;
        case Phase::finish: return 2;
        case Phase::stripCut: return 3;
        case Phase::prepForm: return 4;
        case Phase::seal: return 5;
        case Phase::rework: return 6;
        case Phase::shop: return 7;
        }
        return 8;
    }

    static constexpr std::array winterWork_{
        "built step forms", "saw and mixer service", "cleaned and oiled forms", "trailer bearings and lights"};
    static constexpr std::array rainWork_{
        "rain: sharpened stakes, sorted forms", "rain: fetched material", "rain: saw service", "rain: truck to the shop"};

    World& world_;
    Random random_{9};
};

}

void makeHours(World& world) { HoursWriter{world}.all(); }

}

#include "demo/world.h"
#include "takeoff/takeoff.h"

#include <algorithm>

namespace strikeoff::demo {

namespace {

/// Hours that preparing takes against a mild day, in thousandths.
int prepByWeather(const DayWeather& weather)
{
    const int average = weather.averageF();
    if (average < 32) return 1330;
    if (average < 42) return 1170;
    if (average < 52) return 1050;
    return weather.highF > 87 ? 1060 : 1000;
}

/// Minutes a slab takes to set at a temperature, on straight lines between the points of the usual table (100 °F to 30 °F by
/// tens).
int settingMinutes(int temperatureF)
{
    constexpr std::array minutes{100, 160, 240, 360, 480, 640, 880, 1140};
    const int under = std::clamp(100 - temperatureF, 0, 70);
    const auto index = static_cast<std::size_t>(std::min(under / 10, 6));
    return minutes[index] + (minutes[index + 1] - minutes[index]) * (under - static_cast<int>(index) * 10) / 10;
}

std::int64_t quartersUp(double yards) { return static_cast<std::int64_t>(yards * 4 + 0.999); }
Yards ofQuarters(std::int64_t quarters) { return Yards::ofUnits(quarters * 250); }

class PourPlanner {
public:
    explicit PourPlanner(World& world) : world_{world} {}

    void all()
    {
        std::vector<std::size_t> order;
        for (std::size_t i = 0; i < world_.plans.size(); ++i) {
            const auto& plan = world_.plans[i];
            if (plan.fate == Fate::won && plan.accepted && plan.target <= today() + 21) order.push_back(i);
        }
        // Days already promised come first, then whoever was promised the earlier day.
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            const auto& first = world_.plans[a];
            const auto& second = world_.plans[b];
            if (first.fixedPour.has_value() != second.fixedPour.has_value()) return first.fixedPour.has_value();
            return first.target < second.target;
        });
        for (const auto index : order) plan(index);
    }

private:
    void plan(std::size_t index)
    {
        auto& job = world_.plans[index];
        const int count = job.areaSqft > 1250 || job.work == Work::poolDeck ? 2 : 1;
        const std::size_t supplier = supplierFor(job.target);
        Date after = *job.accepted + 4;
        for (int i = 0; i < count; ++i) {
            PourPlan pour;
            pour.sequence = i + 1;
            pour.supplier = supplier;
            pour.strength = traitsOf(job.work).strength;
            const double share = count == 1 ? 1.0 : i == 0 ? 0.55 : 0.45;
            pour.areaSqft = job.areaSqft * share;
            pour.volumeYards = job.volumeYards * share;
            pour.ordered = ofQuarters(quartersUp(job.bidYards.toDouble() * share + (i == 0 ? job.extraYards : 0)));
            pour.planned = std::max({nextWorkday(job.target), nextWorkday(after), nextWorkday(*job.accepted + 5)});
            if (job.fixedPour && i == 0) pour.planned = *job.fixedPour;
            setDay(index, pour, i == 0 && job.fixedPour.has_value(), share);
            // What the winter pushes that far off has no day yet.
            if (pour.on > today() + 24) break;
            after = pour.on + random_.pick(1, 9);
            write(index, pour);
            job.pours.push_back(pour);
        }
    }

    /// The first plant is the rule. The second one is called when the first is booked out, and more often since the first went up
    /// in 2026.
    std::size_t supplierFor(Date target)
    {
        constexpr std::array booked{3, 5, 9, 11, 12};
        constexpr std::array since2026{4, 8, 10};
        const int month = target.month();
        const bool often = std::find(booked.begin(), booked.end(), month) != booked.end()
            || (target >= day(2026, 2, 1) && std::find(since2026.begin(), since2026.end(), month) != since2026.end());
        return random_.chance(550) && often ? 1 : 0;
    }

    /// Finds the day: dry and warm enough, hands there, and the forms can be ready.
    void setDay(std::size_t index, PourPlan& pour, bool fixed, double share)
    {
        auto& job = world_.plans[index];
        std::int64_t prep = (job.bidMinutes[0] * traitsOf(job.work).prepTruth / 1000) * job.paceTruth / 1000;
        prep =
            static_cast<std::int64_t>(static_cast<double>(prep) * share) * prepByWeather(world_.weather.at(pour.planned)) / 1000;
        if (pour.sequence == 1) prep += job.extraPrepMinutes;
        const auto wanted = static_cast<std::size_t>(pour.areaSqft < 160 ? 2
                : pour.areaSqft < 380                                    ? 3
                : pour.areaSqft < 800                                    ? 4
                                                                         : 5);
        for (int tries = 0; tries < 150; ++tries) {
            const auto date = pour.planned + (fixed ? 0 : tries);
            const bool saturday = date.weekday() == 6 && !isHoliday(date) && tries >= 3 && random_.chance(130);
            if (!fixed && ((!isWorkday(date) && !saturday) || !world_.weather.canPour(date) || pourDays_.contains(date))) continue;
            auto crew = crewFor(date, wanted);
            if (!fixed && (crew.size() < std::min<std::size_t>(wanted, 3) || !fits(*job.accepted, date, prep))) continue;
            if (crew.empty()) crew = {0, 1};
            pour.on = date;
            pour.crew = std::move(crew);
            pourDays_[date] = true;
            prepare(index, pour, prep);
            return;
        }
        throw DomainError{"a pour of the demonstration for which no day is found"};
    }

    std::vector<std::size_t> crewFor(Date date, std::size_t wanted) const
    {
        constexpr std::array order{std::size_t{1}, std::size_t{0}, std::size_t{2}, std::size_t{4}, std::size_t{3}};
        std::vector<std::size_t> crew;
        for (const auto person : order)
            if (crew.size() < wanted && world_.crewBook.isThere(person, date) && world_.crewBook.minutesTaken(person, date) <= 60)
                crew.push_back(person);
        return crew;
    }

    /// Days a form can be set on before a pour, the nearest first.
    std::vector<Date> formDays(Date accepted, Date pour) const
    {
        std::vector<Date> days;
        for (auto date = pour - 1; date > accepted + 1 && pour - date <= 21; date = date - 1) {
            const auto& weather = world_.weather.at(date);
            const bool soaked = weather.wet && weather.rainFrom->minutes() < 13 * 60;
            if (isWorkday(date) && !soaked && weather.highF >= 30) days.push_back(date);
        }
        return days;
    }

    bool fits(Date accepted, Date pour, std::int64_t minutes) const
    {
        for (const auto date : formDays(accepted, pour))
            for (const auto person : world_.crewBook.freest(date, 3, 120)) minutes -= world_.crewBook.minutesLeft(person, date);
        return minutes <= 60;
    }

    void prepare(std::size_t index, const PourPlan& pour, std::int64_t minutes)
    {
        const auto pourIndex = static_cast<std::size_t>(pour.sequence - 1);
        for (const auto date : formDays(*world_.plans[index].accepted, pour.on)) {
            if (minutes < 30) return;
            auto people = world_.crewBook.freest(date, minutes > 1300 ? 3 : 2, 120);
            for (std::size_t i = 0; i < people.size() && minutes >= 30; ++i) {
                const auto even = minutes / static_cast<std::int64_t>(people.size() - i) + 15;
                const auto left = world_.crewBook.minutesLeft(people[i], date);
                const int part = static_cast<int>(std::min<std::int64_t>({left, even, minutes})) / 15 * 15;
                world_.crewBook.book(people[i], date, {index, pourIndex, Phase::prepForm, part, {}, ""});
                minutes -= part;
            }
        }
    }

    /// What the plant is told, when the trucks come, and how the day goes.
    void write(std::size_t index, PourPlan& pour)
    {
        auto& job = world_.plans[index];
        const auto& weather = world_.weather.at(pour.on);
        const int average = weather.averageF();
        pour.fiber = job.fiber;
        pour.tint = job.tint;
        pour.accelerator = average < 47 && random_.chance(820);
        pour.retarder = weather.highF > 87 && random_.chance(450);
        pour.heat = pour.supplier == 1 && average < 41 && (pour.on.month() >= 11 || pour.on.month() <= 3) && random_.chance(430);
        pour.holiday = isHoliday(pour.on);
        if (pour.holiday) {
            pour.supplier = 0;
            pour.heat = false;
        }

        int start = 0;
        if (pour.holiday) start = 465;
        else if (average < 42) start = random_.pick(105, 125) * 5;
        else if (weather.highF > 82) start = random_.pick(77, 88) * 5;
        else start = random_.pick(88, 106) * 5;
        pour.afterHours = pour.supplier == 0 && weather.highF > 88 && random_.chance(220);
        if (pour.afterHours) start = 345;
        pour.placedAt = start;
        trucks(job, pour);

        const int air = (2 * weather.highF + weather.lowF) / 3;
        const int concrete = std::clamp(air / 2 + 38, 60, 88);
        int set = settingMinutes((2 * air + concrete) / 3) * 60 / 100;
        if (pour.accelerator) set = set * 86 / 100;
        if (pour.retarder) set = set * 115 / 100;
        set = static_cast<int>(random_.bell(set, set * 7 / 100));
        pour.broomedAt = std::min(std::max(pour.placedAt + set, pour.placedUntil + random_.pick(40, 60)), 20 * 60);
        const int more = job.finish == SurfaceFinish::smooth                               ? 75
            : job.finish == SurfaceFinish::exposed || job.finish == SurfaceFinish::stamped ? 55
                                                                                           : 25;
        pour.finishedAt = pour.broomedAt + more + random_.pick(-8, 12);

        const auto pourIndex = static_cast<std::size_t>(pour.sequence - 1);
        if (pour.done()) {
            const int placing = (pour.placedUntil - pour.placedAt + 50) / 5 * 5;
            const auto finishers = static_cast<std::size_t>(pour.areaSqft < 180 ? 1 : pour.areaSqft < 650 ? 2 : 3);
            for (std::size_t i = 0; i < pour.crew.size(); ++i) {
                world_.crewBook.book(pour.crew[i], pour.on, {index, pourIndex, Phase::place, placing, pour.placedAt - 35, ""});
                if (i < finishers)
                    world_.crewBook.book(pour.crew[i], pour.on,
                        {index, pourIndex, Phase::finish, (pour.finishedAt - pour.placedUntil) / 5 * 5, {}, ""});
            }
        }
        pour.id = world_.records.add(record(job, pour, weather));
    }

    void trucks(const JobPlan& job, PourPlan& pour)
    {
        const auto& settings = world_.records.all<Settings>().front();
        const double need = pour.volumeYards * static_cast<double>(random_.bell(traitsOf(job.work).overOrder, 24)) / 1000
            + (pour.sequence == 1 ? job.extraYards : 0);
        auto loads = loadsFor(pour.ordered, settings.truckYards, settings.orderStep);
        if (pour.done()) {
            Yards before;
            for (std::size_t i = 0; i + 1 < loads.size(); ++i) before += loads[i];
            if (loads.size() > 1) {
                // The last one waits at the plant until what is left is taped.
                const auto quarters = std::max<std::int64_t>(quartersUp(need - before.toDouble()) + random_.pick(0, 1), 4);
                loads.back() = ofQuarters(std::min<std::int64_t>(quarters, 40));
            } else if (need > pour.ordered.toDouble() + 0.2) {
                loads.push_back(ofQuarters(std::max<std::int64_t>(quartersUp(need - pour.ordered.toDouble()) / 2 * 2, 4)));
            } else if (pour.ordered.toDouble() - need > 0.7 && random_.chance(350)) {
                pour.returned = ofQuarters(static_cast<std::int64_t>((pour.ordered.toDouble() - need) * 4));
            }
        }
        int free = pour.placedAt + random_.pick(-5, 10);
        for (std::size_t i = 0; i < loads.size(); ++i) {
            Truck truck;
            truck.yards = loads[i];
            const double yards = loads[i].toDouble();
            truck.arrived = free + (i == 0 ? 0 : random_.pick(-6, 14));
            truck.batched = truck.arrived - random_.pick(17, 30);
            truck.began = std::max(truck.arrived + random_.pick(2, 6), free);
            const int perYardTenths = job.pump ? random_.pick(28, 38) : random_.pick(22, 33);
            truck.ended = truck.began + 3 + static_cast<int>(yards * perYardTenths / 10);
            // Now and then the crew holds a truck up: a form moved, a barrow run too long.
            if (random_.chance(85)) truck.ended += random_.pick(12, 26);
            truck.ended = std::min(truck.ended, truck.batched + 88);
            truck.ended = std::max(truck.ended, truck.began + 4);
            if (i > 0 && pour.trucks.size() == 1 && loads.size() == 2 && pour.ordered == loads.front()) {
                // Run short: the extra load is called in and comes late.
                const int late = random_.pick(35, 60);
                truck.batched += late, truck.arrived += late, truck.began += late, truck.ended += late;
            }
            free = truck.ended;
            pour.trucks.push_back(truck);
        }
        pour.placedUntil = free;
    }

    Pour record(const JobPlan& job, const PourPlan& plan, const DayWeather& weather)
    {
        Pour pour;
        pour.job = job.job;
        pour.sequence = plan.sequence;
        pour.plannedOn = plan.on;
        pour.plannedAt = clock((plan.placedAt + 7) / 15 * 15);
        pour.supplier = world_.suppliers[plan.supplier];
        pour.mix = mixCode(plan.supplier, plan.strength);
        pour.orderedYards = plan.ordered;
        pour.slumpOrdered = Quantity::ofWhole(job.work == Work::steps || job.work == Work::apron ? 4 : 5);
        pour.optionsOrdered = optionsText(plan);
        if (plan.sequence > 1 || job.pours.size() + 1 < (job.areaSqft > 1250 || job.work == Work::poolDeck ? 2U : 1U)
            || random_.chance(620))
            pour.area = Area::ofWhole(std::max<std::int64_t>(1,
                random_.bell(static_cast<std::int64_t>(plan.areaSqft + 0.5), static_cast<std::int64_t>(plan.areaSqft * 0.006))));
        if (job.work != Work::steps)
            pour.sawJoint = Quantity::ofWhole(static_cast<std::int64_t>(plan.areaSqft * 0.17 / 5 + 1) * 5);
        pour.reliefCut = job.work == Work::walk && random_.chance(400);
        pour.product = world_.products[static_cast<std::size_t>(traitsOf(job.work).product)];
        if (plan.on > plan.planned + 1 && random_.chance(700))
            pour.note =
                "moved from " + plan.planned.shown() + (world_.weather.at(plan.planned).wet ? ": rain" : ": crew was tied up");
        if (!plan.done()) {
            if (plan.holiday)
                pour.note = "their dock is idle on the holiday; plant opens for us from 6 to noon, holiday charge agreed";
            pour.crewSize = static_cast<std::int32_t>(plan.crew.size());
            return pour;
        }
        pour.pouredOn = plan.on;
        pour.placedAt = clock(plan.placedAt);
        if (!random_.chance(150)) pour.broomedAt = clock(plan.broomedAt);
        if (!random_.chance(60)) pour.finishedAt = clock(plan.finishedAt);
        if (!random_.chance(220)) pour.airTempF = weather.averageF() + random_.pick(-2, 2);
        if (!random_.chance(90)) pour.crewSize = static_cast<std::int32_t>(plan.crew.size());
        return pour;
    }

    static std::string optionsText(const PourPlan& pour)
    {
        std::string text;
        const auto add = [&](bool wanted, const char* first, const char* second) {
            const std::string_view code = pour.supplier == 0 ? first : second;
            if (!wanted || code.empty()) return;
            if (!text.empty()) text += ';';
            text += code;
        };
        add(pour.fiber, "FIBER=1.5", "FIB=1.5");
        add(pour.accelerator, "ACC=1", "NCA=1");
        add(pour.retarder, "RET", "SLOW");
        add(pour.tint, "TINT", "COL-3");
        add(pour.heat, "", "HEAT");
        add(pour.afterHours, "LATE", "");
        add(pour.holiday, "HOLIDAY", "");
        return text;
    }

    World& world_;
    Random random_{6};
    std::map<Date, bool> pourDays_;
};

}

void planPours(World& world) { PourPlanner{world}.all(); }

}

#include "demo/world.h"

#include <algorithm>
#include <map>

namespace strikeoff::demo {

namespace {

class VisitWriter {
public:
    explicit VisitWriter(World& world) : world_{world} {}

    void all()
    {
        for (std::size_t i = 0; i < world_.plans.size(); ++i) {
            const auto& plan = world_.plans[i];
            for (std::size_t p = 0; p < plan.pours.size(); ++p)
                if (plan.pours[p].done()) afterPour(i, p);
            if (!plan.pours.empty() && plan.pours.back().done()) {
                walkThrough(plan);
                reseal(plan);
                callBack(i);
            }
        }
    }

private:
    void afterPour(std::size_t index, std::size_t pourIndex)
    {
        const auto& plan = world_.plans[index];
        const auto& pour = plan.pours[pourIndex];
        const auto poured = pour.on;
        const auto stripMinutes = static_cast<int>(25 + plan.perimeterFt * pour.areaSqft / plan.areaSqft * 0.4) / 5 * 5;

        auto strip = visit(plan, pour, VisitKind::strip, poured + 1, poured + 3, {});
        const auto stripDay = nextWorkday(poured + 1);
        finish(strip, stripDay, stripMinutes);
        if (!strip.doneOn) plannedFor(strip, std::max(stripDay, today()), 13 * 60);
        keep(strip);
        if (strip.doneOn) book(index, pourIndex, *strip.doneOn, Phase::stripCut, stripMinutes, pour.areaSqft > 600 ? 2 : 1);

        if (plan.work != Work::steps) {
            const auto joints = pour.areaSqft * 0.17;
            const auto cutMinutes = static_cast<int>(20 + joints * 0.55) / 5 * 5;
            auto cut = visit(plan, pour, VisitKind::cut, poured, poured + 1, poured + 2);
            const bool hot = world_.weather.at(poured).averageF() > 70 && pour.finishedAt < 15 * 60;
            auto cutDay = hot && random_.chance(600) ? poured : poured + 1;
            if (cutDay.weekday() == 0) cutDay = poured;
            finish(cut, cutDay, cutMinutes);
            if (!cut.doneOn) plannedFor(cut, today(), 7 * 60 + 15);
            keep(cut);
            if (cut.doneOn) book(index, pourIndex, *cut.doneOn, Phase::stripCut, cutMinutes, 1);
        }
        seal(index, pourIndex);
    }

    void seal(std::size_t index, std::size_t pourIndex)
    {
        const auto& plan = world_.plans[index];
        const auto& pour = plan.pours[pourIndex];
        const auto& product = world_.records.get(world_.products[static_cast<std::size_t>(traitsOf(plan.work).product)]);
        const bool curing = product.kind == ProductKind::cureAndSeal;
        const auto first = curing ? pour.on : pour.on + *product.waitLeastHours / 24;
        const auto last = pour.on + std::max(*product.waitMostHours / 24, 2);
        const auto due = std::min(curing ? pour.on + 1 : first + (product.kind == ProductKind::filmForming ? 10 : 14), last);
        const auto coverage = plan.finish == SurfaceFinish::smooth ? product.coverageSmooth
            : plan.finish == SurfaceFinish::exposed                ? product.coverageExposed
                                                                   : product.coverageBroom;
        const auto gallons =
            static_cast<std::int64_t>(pour.areaSqft * 1000 / coverage.value_or(Quantity::ofWhole(250)).toDouble()) / 100 * 100
            + 100;
        const auto minutes = static_cast<int>(35 + pour.areaSqft * 0.1) / 5 * 5;

        // The first day the can allows, some time after the window opens.
        std::optional<Date> on;
        const auto latest = std::min(curing ? pour.on + 2 : last, weatherKnownTo_);
        const int lag = curing ? 1 : random_.chance(120) ? random_.pick(15, 40) : random_.pick(0, 12);
        for (auto date = curing ? pour.on + 1 : first + lag; date <= latest && !on; date = date + 1) {
            const auto& weather = world_.weather.at(date);
            const bool workable = isWorkday(date) || (curing && date.weekday() == 6);
            const bool warm = weather.highF >= *product.lowestAirF + 3 && weather.averageF() >= *product.lowestAirF - 4;
            if (workable && warm && !weather.wet
                && (curing || (seals_[date] < 2 && !world_.crewBook.freest(date, 1, minutes).empty())))
                on = date;
        }
        // One was put off and put off.
        const bool putOff = !late_ && product.kind == ProductKind::penetrating && due < today() - 1 && pour.on > today() - 62;
        if (putOff) {
            on.reset();
            late_ = true;
        }
        if (on) ++seals_[*on];
        for (std::int32_t coat = 1; coat <= product.coats; ++coat) {
            auto sealing = visit(plan, pour, VisitKind::seal, first, due, last + 1);
            sealing.coat = coat;
            sealing.product = product.id;
            if (on && *on < today()) {
                finish(sealing, *on, minutes);
                if (!random_.chance(120)) sealing.gallons = Quantity::ofUnits(gallons + random_.pick(-2, 3) * 100);
                if (sealing.gallons && *sealing.gallons <= Quantity{}) sealing.gallons.reset();
                if (coat == 2 && *on > today() - 30) {  // the evening got too cold for the second coat, and no warm day has come since
                    sealing.doneOn.reset();
                    sealing.plannedOn.reset();
                    sealing.gallons.reset();
                    sealing.minutes = Minutes::of(minutes);
                    sealing.putOffOn = *on;
                    sealing.putOffReason = "too cold by evening";
                    keep(sealing);
                    continue;
                }
                book(index, pourIndex, *on, Phase::seal, minutes, 1);
            } else if (last + 1 < today() - 12) {
                sealing.waivedOn = nextWorkday(last + 2);
                sealing.waivedReason = curing ? "rained through the window; wet-cured under blankets instead"
                                              : "too cold until the window closed; customer told, done at the reseal call";
            } else {
                sealing.minutes = Minutes::of(minutes);
                if (putOff) sealing.note = "gate was locked on Nov 20, customer has called";
                else if (due < today()) sealing.note = "too cold or wet so far";
                // The nearest warm and dry afternoon of the forecast, as far as the crew can see.
                if (first <= today() + 7 && (curing || plannedSeals_ < 4)) {
                    for (auto date = std::max(first, today()); date <= today() + 8; date = date + 1) {
                        const auto& weather = world_.weather.at(date);
                        if (!isWorkday(date) || weather.wet || weather.highF < *product.lowestAirF + 4
                            || (!curing && seals_[date] >= 2))
                            continue;
                        plannedFor(sealing, date, curing ? 15 * 60 : 13 * 60 + 75 * seals_[date]);
                        if (!curing) ++seals_[date];
                        ++plannedSeals_;
                        break;
                    }
                }
            }
            keep(sealing);
        }
    }

    void walkThrough(const JobPlan& plan)
    {
        const auto& pour = plan.pours.back();
        auto walk = visit(plan, pour, VisitKind::walkThrough, pour.on + 3, pour.on + 21, {});
        const auto on = nextWorkday(pour.on + random_.pick(4, 16));
        if (on < today() && !(pour.on > today() - 45 && random_.chance(300))) {
            finish(walk, on, random_.pick(3, 7) * 5);
            if (random_.chance(150))
                walk.note = random_.of(std::array{"asked about salt", "happy; wants a card for the neighbor",
                    "small chip at the step, patched on the spot", "wants the downspout moved", "will think about the sealer"});
        } else {
            walk.minutes = Minutes::of(30);
            if (pour.on > today() - 24 && random_.chance(500))
                plannedFor(walk, nextWorkday(today() + random_.pick(0, 6)), 16 * 60);
        }
        keep(walk);
    }

    void reseal(const JobPlan& plan)
    {
        const int months = traitsOf(plan.work).resealMonths;
        if (months == 0) return;
        const auto& pour = plan.pours.front();
        auto call = visit(plan, pour, VisitKind::resealCall, monthsOn(pour.on, months), monthsOn(pour.on, months) + 45, {});
        const auto on = nextWorkday(*call.notBefore + random_.pick(0, 40));
        if (on < today() && !random_.chance(call.notBefore > today() - 120 ? 250 : 0)) {
            call.doneOn = on;
            call.minutes = Minutes::of(10);
            if (random_.chance(170)) lead(plan, on);
            else if (random_.chance(400))
                call.note = random_.of(std::array{
                    "not yet, call next year", "does it himself", "left a message", "number no longer works", "wash only"});
        } else if (on < today() && random_.chance(300)) {
            call.waivedOn = on;
            call.waivedReason = "moved away";
        }
        keep(call);
    }

    void lead(const JobPlan& plan, Date on)
    {
        const auto& customer = world_.customerRow(plan);
        Lead lead;
        lead.receivedOn = on;
        lead.name = customer.name;
        lead.phone = customer.phone;
        lead.email = customer.email;
        lead.town = world_.records.get(plan.site).town;
        lead.source = LeadSource::reseal;
        lead.customer = customer.id;
        lead.jobType = world_.jobTypes[static_cast<std::size_t>(plan.work)];
        lead.area = Area::ofWhole(static_cast<std::int64_t>(plan.areaSqft));
        lead.wish = "Reseal of " + plan.title + ".";
        lead.calledOn = on;
        if (on < today() - 60) {
            lead.lostOn = on + random_.pick(5, 20);
            lead.lostReason = random_.of(std::array{"wants to wait another year", "price", "does it himself"});
        } else {
            lead.nextCallOn = today() + random_.pick(-2, 9);
        }
        world_.records.add(lead);
    }

    /// Going back without pay: a chipped corner, a puddle, a panel taken out. Walks and cold-weather pours have more of it.
    void callBack(std::size_t index)
    {
        const auto& plan = world_.plans[index];
        const auto& pour = plan.pours.front();
        int chance = plan.work == Work::walk ? 130 : plan.work == Work::steps ? 90 : 55;
        if (world_.weather.at(pour.on).averageF() < 42) chance += 70;
        if (!random_.chance(chance)) return;
        auto on = nextWorkday(pour.on + random_.pick(14, 170));
        const auto* note = random_.of(std::array{"call-back: corner broken off, patched",
            "call-back: puddle at the door, ground down", "call-back: scaling by the steps, surface patched",
            "call-back: panel cracked through, taken out and poured by hand", "call-back: forms left a lip, ground off"});
        const int hours = random_.chance(250) ? random_.pick(5, 8) : random_.pick(2, 4);
        const std::size_t people = hours > 4 ? 3 : 2;
        while (on < today() && world_.crewBook.freest(on, people, hours * 60).size() < people) on = nextWorkday(on + 1);
        if (on >= today()) return;
        for (const auto person : world_.crewBook.freest(on, people, hours * 60))
            world_.crewBook.book(person, on, {index, 0U, Phase::rework, hours * 60, {}, note});
    }

    Visit visit(
        const JobPlan& plan, const PourPlan& pour, VisitKind kind, Date notBefore, Date due, std::optional<Date> tooLate) const
    {
        Visit visit;
        visit.job = plan.job;
        visit.pour = pour.id;
        visit.kind = kind;
        visit.notBefore = notBefore;
        visit.due = due;
        visit.tooLate = tooLate;
        return visit;
    }

    void finish(Visit& visit, Date on, int minutes)
    {
        if (on >= today()) {
            visit.minutes = Minutes::of(minutes);
            return;
        }
        visit.plannedOn = on;
        visit.doneOn = on;
        if (!random_.chance(140)) visit.minutes = Minutes::of(minutes + random_.pick(-2, 4) * 5);
    }

    /// What is open has its window from the pour and the product, as the program reckons it; days stand only on what is over.
    void keep(Visit visit)
    {
        if (visit.isOpen()) {
            visit.notBefore.reset();
            visit.due.reset();
            visit.tooLate.reset();
        }
        world_.records.add(visit);
    }

    static void plannedFor(Visit& visit, Date on, int minutes)
    {
        visit.plannedOn = on;
        visit.plannedAt = clock(minutes);
    }

    std::vector<std::size_t> hands(Date date, int count) const
    {
        auto people = world_.crewBook.freest(date, static_cast<std::size_t>(count), 30);
        for (const auto person : {std::size_t{3}, std::size_t{1}, std::size_t{0}})
            if (people.size() < static_cast<std::size_t>(count) && std::find(people.begin(), people.end(), person) == people.end()
                && world_.crewBook.minutesTaken(person, date) < 510 && world_.crewBook.isThere(person, date))
                people.push_back(person);
        if (people.empty()) people.push_back(0);
        return people;
    }

    void book(std::size_t index, std::size_t pourIndex, Date date, Phase phase, int minutes, int count)
    {
        const auto people = hands(date, count);
        for (const auto person : people)
            world_.crewBook.book(
                person, date, {index, pourIndex, phase, std::max(15, minutes / static_cast<int>(people.size()) / 5 * 5), {}, ""});
    }

    World& world_;
    Random random_{8};
    Date weatherKnownTo_ = day(2027, 4, 30);
    std::map<Date, int> seals_;
    int plannedSeals_ = 0;
    bool late_ = false;
};

}

void makeVisits(World& world) { VisitWriter{world}.all(); }

}

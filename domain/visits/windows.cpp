#include "visits/windows.h"

#include "quantity/words.h"
#include "visits/equivalent_age.h"
#include "visits/load_out.h"
#include "weather/formulas.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

constexpr double agedAtF = 70;

// Hours after placing at 70 °F a joint is sawn in: 4 to 12 (ACI FAQ 915, citing ACI 302.1R-15); cracks may come first after a day (common practice, no
// source), and 72 hours are the longest anybody gives in the cold (concreteconstruction.net, "When to saw control joints").
constexpr double sawFrom = 4;
constexpr double sawBy = 12;
constexpr double sawTooLate = 24;
constexpr int longestToSaw = 72;

// Common practice, no source, all of it: forms come off the next day, and are wanted within three; walked through from three days on, within three weeks;
// the reseal call within six weeks of its month.
constexpr double stripFrom = 16;
constexpr int stripWithin = 48;
constexpr int longestToStrip = 7 * 24;
constexpr int walkAfterDays = 3;
constexpr int walkWithinDays = 21;
constexpr int resealMonths = 30;
constexpr int resealWithinDays = 45;
constexpr int sealWithinHours = 14 * 24;
constexpr int coatWaitHours = 4;
constexpr int coatWithinHours = 24;

Minutes hours(int count) { return Minutes::of(std::int64_t{60} * count); }

Moment endOf(Date date) { return Moment{date, *ClockTime::of(23, 59)}; }

std::string when(Moment moment) { return moment.date().shownShort() + ", " + moment.at().shown(); }

std::string hoursText(int count) { return count > 0 && count % 24 == 0 ? counted(count / 24, "day", "days") : counted(count, "hour", "hours"); }

std::string roundHours(Minutes minutes) { return std::to_string((minutes.count() + 30) / 60); }

/// Waits a kind of product has when its card gives none (common practice, no source): a cure on the day or the day after, others from 28 days on.
struct Waits {
    int least = 0;
    std::optional<int> most;
    bool assumed = false;
};

Waits waitsOf(const FinishingProduct* product)
{
    Waits waits;
    const bool curing = product && product->kind == ProductKind::cureAndSeal;
    waits.assumed = !product || !product->waitLeastHours;
    waits.least = product && product->waitLeastHours ? *product->waitLeastHours : curing ? 0 : 28 * 24;
    if (product && product->waitMostHours) waits.most = *product->waitMostHours;
    else if (curing) waits.most = std::max(waits.least, 48);
    return waits;
}

/// The moments a slab has aged so many hours at 70 °F since it was placed, each no later than the longest; and how warm it was on the way.
struct Aging {
    std::vector<Moment> at;
    double meanF = 0;
    bool known = true;
};

Aging age(const Weather& weather, const PourConditions& pour, std::initializer_list<double> wanted, int longestHours)
{
    SlabTemperature slab{weather, pour};
    const double quick = acceleratorFactor(pour.accelerator);
    const auto last = pour.placing + hours(longestHours);
    Aging aging;
    double aged = 0;
    double sum = 0;
    int count = 0;
    auto next = wanted.begin();
    while (next != wanted.end() && slab.at() < last) {
        slab.advance();
        // Of air nobody knows the least is promised: the slab is taken to age as at 70 °F, so that nothing is said to have time that has none.
        if (!slab.isKnownNow()) aging.known = false;
        else {
            sum += slab.f();
            ++count;
        }
        aged += quick * SlabTemperature::step / 60.0 * (slab.isKnownNow() ? ageFactor(celsiusOf(slab.f()), celsiusOf(agedAtF)) : 1);
        for (; next != wanted.end() && aged >= *next; ++next) aging.at.push_back(slab.at());
    }
    aging.at.resize(wanted.size(), last);
    aging.meanF = count > 0 ? sum / count : agedAtF;
    return aging;
}

std::string agedText(const Aging& aging)
{
    return aging.known ? "at the " + std::to_string(std::lround(aging.meanF)) + " \u00b0F of this slab"
                       : std::string{"the weather is not entered for all of it, so what is unknown counts as 70 \u00b0F; look at the slab"};
}

}

VisitWindows::VisitWindows(const Book& book) : book_{book}, weather_{book}, finishes_{book, weather_} {}

const Pour* VisitWindows::pourOf(const Visit& visit) const
{
    if (const auto* own = book_.find(visit.pour)) return own;
    const Pour* latest = nullptr;
    const auto dayOf = [](const Pour& pour) { return pour.pouredOn ? pour.pouredOn : pour.plannedOn; };
    for (const auto* pour : book_.referring<&Pour::job>(visit.job))
        if (!latest || dayOf(*pour) >= dayOf(*latest)) latest = pour;
    return latest;
}

const FinishingProduct* VisitWindows::productOf(const Visit& visit) const
{
    return visit.kind == VisitKind::seal ? strikeoff::productOf(book_, visit) : nullptr;
}

VisitWindow VisitWindows::cutWindow(const Pour& pour, const PourFinish& finish) const
{
    const auto aging = age(weather_, finishes_.conditionsOf(pour), {sawFrom, sawBy, sawTooLate}, longestToSaw);
    VisitWindow window;
    window.notBefore = std::max(aging.at[0], finish.at);
    window.due = std::max(aging.at[1], *window.notBefore);
    window.tooLate = std::max(aging.at[2], *window.due + hours(1));
    window.estimated = !aging.known;
    window.why = "Joints are sawn 4 to 12 hours after placing at 70 \u00b0F; " + agedText(aging) + (aging.known ? " that is " : ": ") +
                 roundHours(aging.at[0] - finish.placing) + " to " + roundHours(aging.at[1] - finish.placing) + " hours after " + when(finish.placing) + ", and past " +
                 roundHours(*window.tooLate - finish.placing) + " it may crack first";
    return window;
}

VisitWindow VisitWindows::stripWindow(const Pour& pour, const PourFinish& finish) const
{
    auto conditions = finishes_.conditionsOf(pour);
    conditions.placing = finish.at;
    const auto aging = age(weather_, conditions, {stripFrom}, longestToStrip);
    VisitWindow window;
    window.notBefore = aging.at[0];
    window.due = aging.at[0] + hours(stripWithin);
    window.estimated = !aging.known;
    window.why = "Forms stay 16 hours at 70 \u00b0F after finishing; " + agedText(aging) + (aging.known ? " that is " : ": ") + roundHours(aging.at[0] - finish.at) +
                 " hours after " + when(finish.at);
    return window;
}

VisitWindow VisitWindows::sealWindow(const Visit& visit, const PourFinish& finish) const
{
    const auto* product = productOf(visit);
    const auto waits = waitsOf(product);
    VisitWindow window;
    window.notBefore = finish.at + hours(waits.least);
    const bool curing = product && product->kind == ProductKind::cureAndSeal;
    window.due = *window.notBefore + hours(curing ? 24 : sealWithinHours);
    if (waits.most) {
        window.tooLate = finish.at + hours(*waits.most) + Minutes::of(1);
        window.due = std::min(*window.due, finish.at + hours(*waits.most));
    }
    window.why = (product ? product->name : std::string{"A sealer not named yet"}) +
                 (waits.least > 0 ? " waits " + hoursText(waits.least) + " after finishing" : " goes on from finishing on") + ", " + when(finish.at) +
                 (waits.most ? ", and goes on within " + hoursText(*waits.most) : "") + (waits.assumed ? "; its card gives no wait, so this is the usual one" : "");
    if (visit.coat > 1) followCoat(visit, product, window);
    return window;
}

void VisitWindows::followCoat(const Visit& visit, const FinishingProduct* product, VisitWindow& window) const
{
    const Visit* before = nullptr;
    for (const auto* other : book_.referring<&Visit::job>(visit.job))
        if (other->kind == VisitKind::seal && other->pour == visit.pour && other->coat == visit.coat - 1 && !other->waivedOn) before = other;
    if (!before) return;
    const auto wait = product && product->coatWaitHours ? *product->coatWaitHours : coatWaitHours;
    std::optional<Moment> on;
    if (before->doneOn) {
        // The hour is not kept: the one planned for that day, else noon, and the time it took.
        const auto start = before->plannedOn == before->doneOn && before->plannedAt ? *before->plannedAt : *ClockTime::of(12, 0);
        on = Moment{*before->doneOn, start} + before->minutes.value_or(Minutes{});
    } else {
        const auto first = windowOf(*before);
        on = before->plannedOn ? std::optional{Moment{*before->plannedOn, before->plannedAt.value_or(*ClockTime::of(12, 0))}} : first.notBefore;
        window.estimated = true;
    }
    if (!on) return;
    window.notBefore = *on + hours(wait);
    window.due = std::max(window.due.value_or(*window.notBefore), *window.notBefore + hours(coatWithinHours));
    if (window.tooLate) window.due = std::max(std::min(*window.due, *window.tooLate + Minutes::of(-1)), *window.notBefore);
    window.why = "Coat " + std::to_string(visit.coat) + " follows coat " + std::to_string(before->coat) + ", " + (before->doneOn ? "done " : "not before ") + when(*on) + ", by " + hoursText(wait) +
                 "; " + window.why;
}

VisitWindow VisitWindows::reckoned(const Visit& visit) const
{
    VisitWindow window;
    const auto* pour = pourOf(visit);
    const auto pourDay = pour ? pour->pouredOn ? pour->pouredOn : pour->plannedOn : std::nullopt;
    if (!pourDay) {
        window.estimated = true;
        window.why = pour ? "Waits for its pour, which has no day yet" : "Waits for a pour, which the job has none of yet";
        return window;
    }
    const auto day = *pourDay;
    // For what counts in days the hour of the finish does not matter.
    const bool byTheHour = visit.kind == VisitKind::cut || visit.kind == VisitKind::strip || visit.kind == VisitKind::seal;
    const auto finish = byTheHour ? finishOf(finishes_, *pour) : PourFinish{Moment::startOf(day), Moment::startOf(day), !pour->pouredOn};
    switch (visit.kind) {
    case VisitKind::cut: window = cutWindow(*pour, *finish); break;
    case VisitKind::strip: window = stripWindow(*pour, *finish); break;
    case VisitKind::seal: window = sealWindow(visit, *finish); break;
    case VisitKind::walkThrough:
        window.notBefore = Moment::startOf(day + walkAfterDays);
        window.due = endOf(day + walkWithinDays);
        window.why = "The customer is walked through from three days after the last pour, " + day.shownShort() + ", and within three weeks";
        break;
    case VisitKind::resealCall: {
        const auto* job = book_.find(visit.job);
        const auto* type = job ? book_.find(job->jobType) : nullptr;
        const int months = type && type->resealMonths ? *type->resealMonths : resealMonths;
        const auto call = monthsOn(day, months);
        window.notBefore = Moment::startOf(call);
        window.due = endOf(call + resealWithinDays);
        window.why = "The sealer of " + day.shown() + " has lasted " + counted(months, "month", "months") + " by " + call.shown();
        break;
    }
    }
    if (finish->estimated) {
        window.estimated = true;
        window.why += pour->pouredOn ? "; no finish is recorded, so this goes by the estimated one" : "; the pour is not finished, so this goes by its estimated finish";
    }
    return window;
}

VisitWindow VisitWindows::windowOf(const Visit& visit) const
{
    VisitWindow window;
    if (!(visit.notBefore && visit.due && visit.tooLate)) window = reckoned(visit);
    if (visit.notBefore) window.notBefore = Moment::startOf(*visit.notBefore);
    if (visit.due) window.due = endOf(*visit.due);
    if (visit.tooLate) window.tooLate = Moment::startOf(*visit.tooLate);
    // What was typed moves the rest along, so that the ends stay in order.
    if (!visit.due && window.due && window.notBefore && *window.due < *window.notBefore) window.due = endOf(window.notBefore->date());
    if (!visit.due && window.due && visit.tooLate && *window.due >= *window.tooLate) window.due = *window.tooLate + Minutes::of(-1);
    if (!visit.notBefore && window.notBefore && visit.due && *window.notBefore > *window.due) window.notBefore = Moment::startOf(*visit.due);
    if (!visit.notBefore && window.notBefore && visit.tooLate && *window.notBefore >= *window.tooLate) window.notBefore = Moment::startOf(*visit.tooLate - 1);
    if (!visit.tooLate && window.tooLate && window.due && *window.tooLate <= *window.due) window.tooLate = *window.due + Minutes::of(1);
    std::vector<std::string> typed;
    if (visit.notBefore) typed.emplace_back("not before");
    if (visit.due) typed.emplace_back("due");
    if (visit.tooLate) typed.emplace_back("too late");
    if (!typed.empty()) window.why += (window.why.empty() ? "" : "; ") + std::string{window.why.empty() ? "As typed on the visit: " : "typed on the visit: "} + listed(typed);
    return window;
}

Visit VisitWindows::inDays(const Visit& visit) const
{
    if (!visit.isOpen()) return visit;
    const auto window = windowOf(visit);
    auto filled = visit;
    if (window.notBefore) filled.notBefore = window.notBefore->date();
    if (window.due) filled.due = window.due->date();
    if (window.tooLate) filled.tooLate = window.tooLate->at() == ClockTime{} ? window.tooLate->date() : window.tooLate->date() + 1;
    return filled;
}

DayHours VisitWindows::hoursOn(const Visit& visit, Date date) const
{
    const auto window = windowOf(visit);
    const auto start = Moment::startOf(date);
    int from = 0;
    if (window.notBefore) from = static_cast<int>(std::clamp<std::int64_t>((*window.notBefore - start).count(), 0, 1440));
    DayHours day;
    if (from >= 1440) {
        day.why = "not before " + when(*window.notBefore);
        return day;
    }
    const std::vector<ClockSpan> inside{{from, 1440}};
    if (!window.notBefore && !window.due && !window.tooLate) {
        day.unknown = inside;
        day.why = window.why;
        return day;
    }
    const auto* product = productOf(visit);
    if (!product) {
        day.open = inside;
        if (visit.kind == VisitKind::seal) {
            day.open.clear();
            day.unknown = inside;
            day.why = "no product is named, so its lowest temperature and dry hours are not known";
        }
        return day;
    }
    day = gateHours(*product, weather_, date);
    day.open = common(day.open, inside);
    day.unknown = common(day.unknown, inside);
    if (from > 0) day.why = "not before " + ClockTime::ofMinutes(from)->shown() + (day.why.empty() ? "" : "; ") + day.why;
    return day;
}

VisitState stateOn(const Visit& visit, const VisitWindow& window, Date day)
{
    const auto morning = Moment::startOf(day);
    if (visit.doneOn) return VisitState::done;
    if (visit.waivedOn) return VisitState::waived;
    if (window.tooLate && *window.tooLate <= morning) return VisitState::tooLate;
    if (window.due && *window.due < morning) return VisitState::late;
    if (visit.plannedOn && *visit.plannedOn < day) return VisitState::late;
    if (visit.plannedOn && *visit.plannedOn == day) return VisitState::due;
    if (window.notBefore && *window.notBefore >= Moment::startOf(day + 1)) return VisitState::waiting;
    return window.due || window.notBefore || window.tooLate ? VisitState::due : VisitState::waiting;
}

VisitState VisitWindows::stateOn(const Visit& visit, Date day) const
{
    return strikeoff::stateOn(visit, visit.isOpen() ? windowOf(visit) : VisitWindow{}, day);
}

}

#include "visits/setting.h"

#include "quantity/words.h"
#include "statistics/distributions.h"
#include "takeoff/takeoff.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace strikeoff {

namespace {

struct TableRow {
    double f;
    double hours;
};
/// Attributed to Penn State course notes and ACI training: 100 to 70 °F read in a copy, 60 °F and under from memory.
constexpr std::array settingTable{TableRow{30, 19},         TableRow{40, 14 + 2.0 / 3}, TableRow{50, 10 + 2.0 / 3}, TableRow{60, 8},
                                  TableRow{70, 6},          TableRow{80, 4},            TableRow{90, 2 + 2.0 / 3},  TableRow{100, 1 + 2.0 / 3}};
constexpr double noSetF = 20;

/// Part of the setting time after which a surface takes the broom: between initial and final set (ASTM C403), about three quarters of the way to the
/// table's hours (common practice, no source).
constexpr double broomShare = 0.75;
constexpr double perInchOfSlump = 0.05;   // common practice, no source
constexpr double usualSlump = 4;
constexpr double placedPerHour = 400;     // ft² (common practice, no source)
constexpr double accelerationPerPercent = 1.4;
constexpr double mostAccelerator = 3;
constexpr double coolingHours = 5;
constexpr int longestMinutes = 72 * 60;
constexpr int usualStart = 8 * 60;        // common practice, no source

constexpr double priorPours = 2;
constexpr double priorDegrees = 6;
constexpr double priorSpread = 0.2;       // of the logarithm: a fifth (common practice, no source)
constexpr double wildRatio = 4;           // seen four times as fast or slow as reckoned is a slip of the pen, not a pour

std::string percentText(double percent) { return Quantity::ofUnits(std::llround(percent * 1000)).text() + " % accelerator"; }

Minutes minutesOf(double hours) { return Minutes::of(std::llround(hours * 60)); }

/// The next time a clock shows a time, from a moment on.
Moment atOrAfter(Moment from, ClockTime time)
{
    const Moment same{from.date(), time};
    return same >= from ? same : Moment{from.date() + 1, time};
}

}

std::optional<double> settingHours(double f)
{
    if (f <= noSetF) return std::nullopt;
    const auto& coldest = settingTable.front();
    if (f < coldest.f) return coldest.hours * (coldest.f - noSetF) / (f - noSetF);
    for (std::size_t i = 1; i < settingTable.size(); ++i) {
        const auto& low = settingTable[i - 1];
        const auto& high = settingTable[i];
        if (f <= high.f) return low.hours * std::pow(high.hours / low.hours, (f - low.f) / (high.f - low.f));
    }
    return settingTable.back().hours;
}

double acceleratorPercent(const Book& book, std::string_view options)
{
    if (options.empty()) return 0;
    const auto& settings = book.settings();
    const auto named = parseOptions(settings.acceleratorCodes).value_or(std::vector<TicketOption>{});
    // Without codes in the settings, a sheet that calls an option an accelerator is believed.
    const auto isCalledSo = [&](const std::string& code) {
        return std::any_of(book.all<SheetCharge>().begin(), book.all<SheetCharge>().end(), [&](const SheetCharge& charge) {
            return charge.charge == ChargeKind::option && charge.code == code && charge.meaning.find("ccelerat") != std::string::npos;
        });
    };
    double percent = 0;
    for (const auto& option : parseOptions(options).value_or(std::vector<TicketOption>{})) {
        const bool is = named.empty() ? isCalledSo(option.code) : std::any_of(named.begin(), named.end(), [&](const TicketOption& code) { return code.code == option.code; });
        if (is) percent += option.amount ? option.amount->toDouble() : 1;
    }
    return percent;
}

double usualConcreteF(double airF) { return std::clamp(airF, 60.0, 90.0); }

double acceleratorFactor(double percent) { return std::pow(accelerationPerPercent, std::clamp(percent, 0.0, mostAccelerator)); }

SlabTemperature::SlabTemperature(const Weather& weather, const PourConditions& pour) : weather_{weather}, seen_{pour.seen}, at_{pour.placing}
{
    const auto air = weather.airF(pour.placing, seen_);
    known_ = knownNow_ = air.has_value();
    if (pour.concreteF) f_ = *pour.concreteF;
    else if (air) f_ = usualConcreteF(*air);
}

void SlabTemperature::advance()
{
    at_ = at_ + Minutes::of(step);
    const auto air = weather_.airF(at_, seen_);
    knownNow_ = air.has_value();
    if (!air) known_ = false;
    else f_ = *air + (f_ - *air) * std::exp(-step / 60.0 / coolingHours);
}

std::optional<TableTime> tableTime(const Weather& weather, const PourConditions& pour)
{
    const double needed = broomShare * (1 + perInchOfSlump * (std::clamp(pour.slump, 0.0, 10.0) - usualSlump)) / acceleratorFactor(pour.accelerator);
    const double placing = pour.areaSqft / placedPerHour / 2;
    SlabTemperature slab{weather, pour};
    double done = 0;
    for (int minutes = 0; minutes < longestMinutes; minutes += SlabTemperature::step) {
        const auto before = settingHours(slab.f());
        slab.advance();
        const auto after = settingHours(slab.f());
        const double pace = ((before ? 1 / *before : 0) + (after ? 1 / *after : 0)) / 2;
        const double hours = SlabTemperature::step / 60.0;
        if (pace > 0 && done + pace * hours >= needed) return TableTime{placing + minutes / 60.0 + (needed - done) / pace, slab.isKnown()};
        done += pace * hours;
    }
    return std::nullopt;
}

void FinishCorrection::add(double seenHours, double reckonedHours)
{
    if (seenHours <= 0 || reckonedHours <= 0) return;
    const double y = std::log(seenHours / reckonedHours);
    if (std::abs(y) > std::log(wildRatio)) return;
    ++pours_;
    sum_ += y;
    squares_ += y * y;
}

double FinishCorrection::factor() const { return std::exp(sum_ / (priorPours + pours_)); }

double FinishCorrection::quantile(double probability) const
{
    const double weight = priorPours + pours_;
    const double degrees = priorDegrees + pours_;
    const double mean = sum_ / weight;
    // Squares about the posterior mean, the prior's pours lying at nothing: sum y² − (sum y)² / (k0 + n).
    const double squares = priorDegrees * priorSpread * priorSpread + squares_ - sum_ * mean;
    const double scale = std::sqrt(squares / degrees * (1 + 1 / weight));
    return std::exp(mean + scale * studentQuantile(probability, degrees));
}

FinishEstimator::FinishEstimator(const Book& book, const Weather& weather) : book_{book}, weather_{weather} {}

PourConditions FinishEstimator::conditionsOf(const Pour& pour) const
{
    PourConditions conditions;
    const auto date = pour.pouredOn ? pour.pouredOn : pour.plannedOn;
    const auto start = pour.placedAt ? pour.placedAt : pour.plannedAt;
    conditions.placing = Moment{date.value_or(Date{}), start.value_or(*ClockTime::ofMinutes(usualStart))};
    if (pour.area) conditions.areaSqft = pour.area->toDouble();
    else if (book_.referring<&Pour::job>(pour.job).size() <= 1) conditions.areaSqft = takeoffOf(book_, pour.job).areaSqft;
    conditions.accelerator = acceleratorPercent(book_, pour.optionsOrdered);
    if (pour.slumpOrdered) conditions.slump = pour.slumpOrdered->toDouble();
    if (date && pour.airTempF) conditions.seen = DayMean{*date, static_cast<double>(*pour.airTempF)};

    if (pour.concreteTempF) conditions.concreteF = *pour.concreteTempF;

    double slump = 0;
    double concrete = 0;
    int slumps = 0;
    int temperatures = 0;
    for (const auto* ticket : book_.referring<&Ticket::pour>(pour.id)) {
        if (ticket->slump) { slump += ticket->slump->toDouble(); ++slumps; }
        if (ticket->concreteTempF) { concrete += *ticket->concreteTempF; ++temperatures; }
    }
    if (slumps > 0) conditions.slump = slump / slumps;
    if (temperatures > 0) conditions.concreteF = concrete / temperatures;
    return conditions;
}

const FinishCorrection& FinishEstimator::correction() const
{
    if (correction_) return *correction_;
    std::vector<const Pour*> own;
    for (const auto& pour : book_.all<Pour>())
        if (pour.pouredOn && pour.placedAt && pour.broomedAt) own.push_back(&pour);
    std::stable_sort(own.begin(), own.end(), [](const auto* a, const auto* b) { return *a->pouredOn > *b->pouredOn; });
    correction_.emplace();
    for (const auto* pour : own) {
        if (correction_->pours() >= newestPours) break;
        const auto conditions = conditionsOf(*pour);
        if (!weather_.airF(conditions.placing, conditions.seen)) continue;
        const auto table = tableTime(weather_, conditions);
        if (!table) continue;
        const auto broomed = atOrAfter(conditions.placing, *pour->broomedAt);
        correction_->add(static_cast<double>((broomed - conditions.placing).count()) / 60, table->hours);
    }
    return *correction_;
}

FinishEstimate FinishEstimator::estimate(const PourConditions& conditions, const TableTime& table) const
{
    const auto& own = correction();
    FinishEstimate estimate;
    estimate.placing = conditions.placing;
    estimate.ownPours = own.pours();
    estimate.weatherKnown = table.weatherKnown;
    const auto after = [&](double factor) { return conditions.placing + minutesOf(table.hours * factor); };
    estimate.broom = after(own.factor());
    estimate.early = after(own.quantile(0.1));
    estimate.late = after(own.quantile(0.9));
    std::vector<std::string> from{"placing from " + conditions.placing.at().shown()};
    if (!table.weatherKnown) {
        // Nobody knows the air, so the range runs from a warm day to a cold one.
        const auto range = [&](double f) { return *settingHours(f) / *settingHours(60); };
        estimate.early = after(own.quantile(0.1) * range(80));
        estimate.late = after(own.quantile(0.9) * range(40));
        from.push_back("the weather not known");
    } else {
        const auto first = weather_.airF(conditions.placing, conditions.seen);
        const auto last = weather_.airF(estimate.broom, conditions.seen);
        if (first && last) from.push_back("air " + degreesText(*first) + " going to " + degreesText(*last));
    }
    if (conditions.concreteF) from.push_back("concrete " + degreesText(*conditions.concreteF));
    if (conditions.accelerator > 0) from.push_back(percentText(conditions.accelerator));
    // An estimate to the minute would claim too much.
    const auto clock = [&](Moment exact) {
        const auto moment = Moment::startOf(Date{}) + Minutes::of(divideHalfUp(exact.minutes(), 10) * 10);
        return moment.at().shown() + (moment.date() == conditions.placing.date() ? "" : moment.date() == conditions.placing.date() + 1 ? " the next day" : " on " + moment.date().shownShort());
    };
    estimate.inShort = "broom about " + clock(estimate.broom) + " (" + clock(estimate.early) + " to " + clock(estimate.late) + (table.weatherKnown ? ")" : ", as the weather is not known)");
    estimate.sentence = "Broom about " + clock(estimate.broom) + ", four times in five between " + clock(estimate.early) + " and " + clock(estimate.late) + ": " + listed(from) +
                        "; by the setting table" + (own.pours() > 0 ? " and " + counted(own.pours(), "pour", "pours") + " of your own" : " alone, as no pour of your own has its times and air recorded");
    return estimate;
}

std::optional<FinishEstimate> FinishEstimator::estimate(const Pour& pour) const
{
    if (!pour.pouredOn && !pour.plannedOn) return std::nullopt;
    const auto conditions = conditionsOf(pour);
    const auto table = tableTime(weather_, conditions);
    if (!table) return std::nullopt;
    return estimate(conditions, *table);
}

std::optional<PourFinish> finishOf(const FinishEstimator& finishes, const Pour& pour)
{
    const auto date = pour.pouredOn ? pour.pouredOn : pour.plannedOn;
    if (!date) return std::nullopt;
    const auto placing = finishes.conditionsOf(pour).placing;
    if (pour.pouredOn)
        for (const auto& time : {pour.finishedAt, pour.broomedAt})
            if (time) {
                const auto from = pour.placedAt ? placing : Moment::startOf(*date);
                const auto at = atOrAfter(from, *time);
                return PourFinish{std::min(placing, at), at, false};
            }
    if (const auto estimate = finishes.estimate(pour)) return PourFinish{placing, estimate->broom, true};
    // So cold that it would not set: nothing can be said but that it is not before the day is over.
    return PourFinish{placing, Moment::startOf(*date + 1), true};
}

}

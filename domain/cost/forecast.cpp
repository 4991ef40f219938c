#include "cost/forecast.h"

#include "cost/concrete_charges.h"
#include "cost/labor_bid.h"
#include "ready_mix/codes.h"
#include "ready_mix/expected_charge.h"
#include "takeoff/takeoff.h"

#include <algorithm>

namespace strikeoff {

namespace {

constexpr Money nothing{};

Money notLess(Money amount) { return amount < nothing ? nothing : amount; }

/// How far the placing is.
struct Progress {
    int pours = 0;
    int poured = 0;
    double share = 0;  ///< of the area, 0 to 1

    bool isAllPoured() const { return pours > 0 && poured == pours; }
};

Progress progressOf(const Book& book, const Job& job)
{
    Progress progress;
    double done = 0;
    double planned = 0;
    bool areasKnown = true;
    for (const auto* pour : book.referring<&Pour::job>(job.id)) {
        ++progress.pours;
        if (pour->pouredOn) ++progress.poured;
        if (!pour->area) areasKnown = false;
        const double area = pour->area ? pour->area->toDouble() : 0;
        planned += area;
        if (pour->pouredOn) done += area;
    }
    if (progress.isAllPoured()) progress.share = 1;
    else if (progress.poured > 0) {
        const double whole = std::max(planned, takeoffOf(book, job.id).areaSqft);
        progress.share = areasKnown && whole > 0 ? std::min(1.0, done / whole) : static_cast<double>(progress.poured) / progress.pours;
    }
    return progress;
}

/// An order by the sheet in force on its planned day, in loads that a truck holds; nothing when no sheet prices it.
std::optional<Money> orderedAmount(const Book& book, const Pour& pour)
{
    if (!pour.supplier || !pour.plannedOn || !pour.orderedYards || *pour.orderedYards <= Yards{}) return std::nullopt;
    const auto& settings = book.settings();
    if (settings.truckYards <= Yards{} || settings.orderStep <= Yards{}) return std::nullopt;
    Money sum;
    for (const auto yards : loadsFor(*pour.orderedYards, settings.truckYards, settings.orderStep)) {
        Ticket load;
        load.supplier = *pour.supplier;
        load.date = *pour.plannedOn;
        load.mix = pour.mix;
        load.options = pour.optionsOrdered;
        load.yards = yards;
        const auto charge = expectedCharge(book, load);
        if (!charge || std::none_of(charge->lines.begin(), charge->lines.end(), [](const ChargeLine& line) { return line.kind == ChargeKind::mix; })) return std::nullopt;
        sum += charge->total;
    }
    return sum;
}

void forecastConcrete(CostReckoner& reckoner, const Job& job, const std::vector<Carried>& carried, const Progress& progress, ClassForecast& forecast)
{
    const auto& book = reckoner.book();
    if (progress.isAllPoured()) return;
    Yards delivered;
    Money paid;
    for (const auto* ticket : ticketsOf(book, job.id))
        if (const auto cost = reckoner.of(*ticket).amount) {
            delivered += ticket->yards;
            paid += *cost;
        }
    Yards ordered;
    std::vector<std::string> how;
    for (const auto* pour : book.referring<&Pour::job>(job.id)) {
        if (pour->pouredOn) continue;
        if (const auto amount = orderedAmount(book, *pour)) {
            ordered += *pour->orderedYards;
            forecast.committed += *amount;
        }
    }
    if (ordered > Yards{}) how.push_back(ordered.text() + " yd\u00b3 ordered come to " + dollars(forecast.committed) + " by the sheet");
    forecast.toCome = forecast.committed;
    Yards bidYards;
    Money bidForYards;
    for (const auto& line : carried)
        if (line.quantity && plainUnit(line.unit) == "yd") {
            if (chargeOf(reckoner.codes(), line) == ConcreteCharge::mix) bidYards += Yards::ofUnits(line.quantity->units());
            bidForYards += line.cost;
        }
    const auto left = bidYards - delivered - ordered;
    if (bidYards > Yards{}) {
        if (left > Yards{}) {
            const bool seen = delivered > Yards{} && paid > nothing;
            const auto rest = atRate(seen ? paid : bidForYards, (seen ? delivered : bidYards).units(), left.units());
            forecast.toCome += rest;
            how.push_back(left.text() + " yd\u00b3 more at " + (seen ? eachText(paid, delivered.units()) + " a yard as paid so far" : eachText(bidForYards, bidYards.units()) + " a yard as bid"));
        }
    } else if (ordered <= Yards{} && forecast.bid > forecast.spent) {
        forecast.toCome = forecast.bid - forecast.spent;
        how.push_back("what the bid carries and is not spent");
    }
    forecast.how = listed(how);
}

void forecastLabor(const CostReckoner& reckoner, const Job& job, const std::vector<Carried>& carried, const Progress& progress, ClassForecast& forecast)
{
    const LaborBid bid{carried};
    std::array<std::int64_t, phaseCount> worked{};  // minutes
    std::int64_t all = 0;
    for (const auto* row : reckoner.book().referring<&Hours::job>(job.id))
        if (const auto* cost = reckoner.labor().of(row->id)) {
            worked[static_cast<std::size_t>(row->phase)] += cost->minutes.count();
            all += cost->minutes.count();
        }
    if (bid.all.thousandths <= 0) {
        if (!progress.isAllPoured()) forecast.toCome = notLess(forecast.bid - forecast.spent);
        if (forecast.toCome > nothing) forecast.how = "what the bid carries and is not spent";
        return;
    }
    // In thousandths of an hour, as the bid has them.
    std::int64_t left = 0;
    std::int64_t workedElsewhere = 0;
    for (std::size_t i = 0; i < phaseCount; ++i) {
        const auto phase = static_cast<Phase>(i);
        const auto hours = worked[i] * 1000 / 60;
        const auto carriedHours = bid.phases[i].thousandths;
        if (carriedHours <= 0) {
            if (phase != Phase::rework) workedElsewhere += hours;
            continue;
        }
        const bool isPouring = phase == Phase::place || phase == Phase::finish;
        const bool isBefore = phase == Phase::prepForm;
        if (progress.isAllPoured() && (isPouring || isBefore)) continue;
        if (isPouring && progress.share > 0 && progress.share < 1 && hours > 0)
            left += static_cast<std::int64_t>(static_cast<double>(hours) * (1 - progress.share) / progress.share);
        else left += std::max<std::int64_t>(0, carriedHours - hours);
    }
    if (bid.noPhase.thousandths > 0 && !progress.isAllPoured()) {
        const bool isPaceSeen = progress.share > 0 && workedElsewhere > 0;
        left += isPaceSeen ? static_cast<std::int64_t>(static_cast<double>(workedElsewhere) * (1 - progress.share) / progress.share)
                           : std::max<std::int64_t>(0, bid.noPhase.thousandths - workedElsewhere);
    }
    if (left <= 0) return;
    const bool isRateSeen = all >= 60 && forecast.spent > nothing;
    forecast.toCome = isRateSeen ? atRate(forecast.spent, all * 1000 / 60, left) : atRate(bid.all.cost, bid.all.thousandths, left);
    forecast.how = Minutes::of(divideHalfUp(static_cast<Int128>(left) * 60, 1000)).shown() + " h more at " +
                   (isRateSeen ? eachText(forecast.spent, all * 1000 / 60) + " an hour as they cost so far" : bid.all.rateText() + " as bid");
}

bool isBoughtAfterPouring(CostClass costClass)
{
    return costClass == CostClass::jointFinish || costClass == CostClass::sealer || costClass == CostClass::travel || costClass == CostClass::permitsDump;
}

std::string answerOf(const Forecast& forecast)
{
    auto text = "Job " + forecast.job->number;
    if (!forecast.open) return text + " is done and cost " + dollars(forecast.spent) + '.';
    text += " is expected to cost " + dollars(forecast.expected()) + ": " + dollars(forecast.spent) + " spent and " + dollars(forecast.toCome) + " to come";
    if (const auto profit = forecast.profit())
        text += *profit < nothing ? "; it is heading for a loss of " + dollars(-*profit) : "; that leaves " + dollars(*profit) + " of its price of " + dollars(*forecast.price);
    if (const auto* driver = forecast.driver(); driver && forecast.isHeadingForALoss())
        text += ", driven by " + lowered(labelOf(driver->costClass)) + ", " + dollars(driver->difference()) + " over its bid";
    return text + '.';
}

}

const ClassForecast* Forecast::driver() const
{
    const auto most = std::max_element(classes.begin(), classes.end(), [](const auto& a, const auto& b) { return a.difference() < b.difference(); });
    return most == classes.end() || most->difference() <= Money{} ? nullptr : &*most;
}

Forecast forecastOf(CostReckoner& reckoner, const Job& job)
{
    const auto& book = reckoner.book();
    const auto cost = reckoner.of(job);
    Forecast forecast;
    forecast.job = &job;
    forecast.open = cost.open;
    forecast.price = cost.bidPrice;
    const auto progress = progressOf(book, job);
    const auto carried = carriedBy(book, job, currentQuote(book, job.id));
    for (const auto& sums : cost.classes) {
        auto& each = forecast.classes.emplace_back(ClassForecast{sums.costClass, sums.bid, sums.actual, {}, {}, {}});
        if (cost.open) {
            const auto& lines = carried[static_cast<std::size_t>(sums.costClass)];
            switch (sums.costClass) {
            case CostClass::concrete: forecastConcrete(reckoner, job, lines, progress, each); break;
            case CostClass::labor: forecastLabor(reckoner, job, lines, progress, each); break;
            default:
                if (progress.isAllPoured() && !isBoughtAfterPouring(sums.costClass) && !sums.actual.isZero()) break;
                each.toCome = notLess(sums.bid - sums.actual);
                if (sums.costClass == CostClass::subcontract && cost.stage >= Stage::awarded) each.committed = each.toCome;
                if (each.toCome > nothing) each.how = "what the bid carries and is not spent";
            }
        }
        forecast.bid += each.bid;
        forecast.spent += each.spent;
        forecast.committed += each.committed;
        forecast.toCome += each.toCome;
    }
    forecast.answer = answerOf(forecast);
    return forecast;
}

std::vector<Forecast> headingForALoss(CostReckoner& reckoner)
{
    std::vector<Forecast> losing;
    for (const auto& job : reckoner.book().all<Job>()) {
        const auto stage = stageOf(reckoner.book(), job);
        if (stage < Stage::awarded || stage > Stage::returning) continue;
        auto forecast = forecastOf(reckoner, job);
        if (forecast.isHeadingForALoss()) losing.push_back(std::move(forecast));
    }
    std::stable_sort(losing.begin(), losing.end(), [](const Forecast& a, const Forecast& b) { return *a.profit() < *b.profit(); });
    return losing;
}

}

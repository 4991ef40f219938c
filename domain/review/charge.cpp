#include "review/charge.h"

#include "quantity/words.h"
#include "review/pay_words.h"
#include "review/price_to_win.h"
#include "season/price.h"
#include "statistics/distributions.h"
#include "statistics/quantiles.h"
#include "statistics/regression.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace strikeoff {

namespace {

constexpr auto concrete = static_cast<std::size_t>(CostClass::concrete);
constexpr auto labor = static_cast<std::size_t>(CostClass::labor);

/// Fewer jobs than these of a type or season have no term of their own in a regression.
constexpr int leastOfATerm = 4;

int seasonOfMonth(int month, bool southernHalf) { return (month % 12 / 3 + (southernHalf ? 2 : 0)) % 4; }

/// The finished jobs that tell about cost: with area, hours, concrete and yards.
struct Usable {
    const FinishedJob* job = nullptr;
    std::uint16_t type = 0;
    int season = 0;
    double hours = 0;
    double other = 0;      ///< neither concrete nor labor
    double overOrder = 1;  ///< yards on tickets over those called for
    double priceRatio = 1; ///< paid a yard over the month's price
};

/// Terms of a regression on area, type and season: a constant, log area, and a column each for types and seasons that are seen often enough.
class Terms {
public:
    Terms(const std::vector<Usable>& jobs, bool withSeasons)
    {
        std::map<int, int> types, seasons;
        for (const auto& each : jobs) {
            ++types[each.type];
            ++seasons[each.season];
        }
        take(types, types_);
        if (withSeasons) take(seasons, seasons_);
    }
    std::size_t columns() const { return 2 + types_.size() + seasons_.size(); }
    std::vector<double> row(double areaSqft, int type, int season) const
    {
        std::vector<double> row{1, std::log(areaSqft)};
        for (const int each : types_) row.push_back(each == type);
        for (const int each : seasons_) row.push_back(each == season);
        return row;
    }

private:
    /// All that are seen often enough but the most frequent, which the constant stands for.
    static void take(const std::map<int, int>& counts, std::vector<int>& kept)
    {
        const auto most = std::max_element(counts.begin(), counts.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
        for (const auto& [key, count] : counts)
            if (key != most->first && count >= leastOfATerm) kept.push_back(key);
    }
    std::vector<int> types_, seasons_;
};

FitResult fitted(const std::vector<Usable>& jobs, const Terms& terms, double Usable::*figure)
{
    Predictors predictors{terms.columns()};
    std::vector<double> observed;
    for (const auto& each : jobs) {
        predictors.add(terms.row(each.job->areaSqft, each.type, each.season));
        observed.push_back(std::log(each.*figure));
    }
    return fitLinear(predictors, observed);
}

double meanOf(const std::vector<double>& figures)
{
    double sum = 0;
    for (const double figure : figures) sum += figure;
    return sum / static_cast<double>(figures.size());
}

/// Mean and 80 % range of one more figure whose logarithm is told by a center, a scatter and how many degrees stand behind it.
Estimate rangeOf(double mean, double logCenter, double logScatter, double degrees)
{
    const double reach = studentReach(usualConfidence, degrees) * logScatter;
    return {mean, std::exp(logCenter - reach), std::exp(logCenter + reach)};
}

std::string percentText(double ratio)
{
    const auto percent = std::llround((ratio - 1) * 100);
    return percent >= 0 ? std::to_string(percent) + " % over" : std::to_string(-percent) + " % under";
}
std::string figureText(double figure, int decimals)
{
    return shownDecimal(std::llround(figure * std::pow(10, decimals)), decimals, decimals);
}

/// The price of a yard in a month, else of the nearest one before or after.
std::optional<double> priceIn(const ChargePrices& prices, Date month)
{
    const MonthPrice* nearest = nullptr;
    for (const auto& each : prices.past)
        if (!nearest || std::abs(each.month - month) < std::abs(nearest->month - month)) nearest = &each;
    return nearest ? std::optional{nearest->perYard} : std::nullopt;
}

/// Of the last twelve months with tickets, weighted by them.
std::optional<double> latestPrice(const ChargePrices& prices)
{
    double sum = 0, tickets = 0;
    for (auto each = prices.past.rbegin(); each != prices.past.rend() && each->month > monthsOn(prices.past.back().month, -12); ++each) {
        sum += each->perYard * each->tickets;
        tickets += each->tickets;
    }
    return tickets > 0 ? std::optional{sum / tickets} : std::nullopt;
}

std::vector<Usable> usableOf(const FinishedJobs& jobs, const ChargePrices& prices, bool southernHalf)
{
    std::vector<Usable> usable;
    for (const auto& job : jobs.jobs) {
        const double paid = job.byClass[concrete].toDouble();
        if (job.areaSqft <= 0 || job.volumeYards <= 0 || job.yards <= 0 || paid <= 0) continue;
        const auto price = priceIn(prices, firstOfMonth(job.day));
        if (!price || *price <= 0) continue;
        Usable each;
        each.job = &job;
        each.type = job.keys[0];
        each.season = seasonOfMonth(job.day.month(), southernHalf);
        each.hours = job.hours();
        each.other = (job.cost - job.byClass[concrete] - job.byClass[labor]).toDouble();
        each.overOrder = job.yards / job.volumeYards;
        each.priceRatio = paid / job.yards / *price;
        usable.push_back(each);
    }
    return usable;
}

/// What an hour cost over the last year of jobs, else over all.
double costOfAnHour(const std::vector<Usable>& jobs, Date asOf)
{
    double recent = 0, recentHours = 0, all = 0, allHours = 0;
    for (const auto& each : jobs) {
        const double paid = each.job->byClass[labor].toDouble();
        all += paid;
        allHours += each.hours;
        if (each.job->day < asOf - 365) continue;
        recent += paid;
        recentHours += each.hours;
    }
    return recentHours > 0 ? recent / recentHours : all / allHours;
}

double usualProfit(const FinishedJobs& jobs)
{
    double profit = 0, hours = 0;
    for (const auto& job : jobs.jobs) {
        profit += job.grossProfit().toDouble();
        hours += job.hours();
    }
    return hours > 0 ? profit / hours : 0;
}

struct Ground {
    const std::vector<Usable>& usable;
    const ChargeQuestion& question;
    std::uint16_t type;
    int season;
    double perYard;
    double perHour;
};

/// Cost, hours and parts, each finished job saying what this one would cost if it went like that one.
void reckon(Charge& charge, const Ground& ground)
{
    const auto& usable = ground.usable;
    const Terms hourTerms{usable, true};
    const auto hours = fitted(usable, hourTerms, &Usable::hours);
    if (!hours.fit) {
        charge.missing = "The finished jobs do not tell how hours go by size and season: " + hours.refusal;
        return;
    }
    // A job without any other cost has no logarithm; it keeps its share of nothing.
    std::vector<Usable> withOther;
    for (const auto& each : usable)
        if (each.other > 0) withOther.push_back(each);
    const Terms otherTerms{withOther.empty() ? usable : withOther, false};
    const auto other = withOther.size() > otherTerms.columns() + 1 ? fitted(withOther, otherTerms, &Usable::other) : FitResult{};

    const auto& question = ground.question;
    const auto row = hourTerms.row(question.areaSqft, ground.type, ground.season);
    const double hoursAt = hours.fit->meanAt(row).value;
    const double shareWithOther = static_cast<double>(withOther.size()) / static_cast<double>(usable.size());
    const double otherAt = other.fit ? other.fit->meanAt(otherTerms.row(question.areaSqft, ground.type, 0)).value : 0;
    const double calledFor = question.areaSqft * question.thicknessIn / 324;  // ft² × in in a yd³

    std::vector<double> costs, logs, concretes, labors, others, allHours, overOrders, ratios;
    std::size_t otherPlace = 0;
    for (std::size_t i = 0; i < usable.size(); ++i) {
        const auto& each = usable[i];
        const double itsHours = std::exp(hoursAt + hours.fit->residuals[i]);
        const double itsConcrete = calledFor * each.overOrder * ground.perYard * each.priceRatio;
        double itsOther = 0;
        if (each.other > 0 && other.fit) itsOther = std::exp(otherAt + other.fit->residuals[otherPlace++]);
        allHours.push_back(itsHours);
        concretes.push_back(itsConcrete);
        labors.push_back(itsHours * ground.perHour);
        others.push_back(itsOther);
        costs.push_back(itsConcrete + labors.back() + itsOther);
        logs.push_back(std::log(costs.back()));
        overOrders.push_back(each.overOrder);
        ratios.push_back(each.priceRatio);
    }
    const double center = meanOf(logs);
    double squares = 0;
    for (const double log : logs) squares += (log - center) * (log - center);
    const double degrees = hours.fit->degrees;
    const double scatter = std::sqrt(squares / degrees);
    // What the regression leaves open of this job's place, as a share of one job's scatter.
    const double open = hours.fit->residualSd > 0 ? hours.fit->standardErrorAt(row) / hours.fit->residualSd : 0;
    charge.cost = rangeOf(meanOf(costs), center, scatter * std::sqrt(1 + open * open), degrees);
    const auto next = hours.fit->nextAt(row);
    charge.hours = {meanOf(allHours), std::exp(next.low), std::exp(next.high)};

    const auto count = static_cast<int>(usable.size());
    charge.parts.push_back({"Concrete", meanOf(concretes),
                            figureText(calledFor, 1) + " yd\u00b3 with " + percentText(*median(overOrders)) + ", at $" + figureText(ground.perYard, 2) + " a yd\u00b3, fees in it; jobs paid " + percentText(*median(ratios)) + " their month's price", count});
    charge.parts.push_back({"Labor", meanOf(labors), figureText(charge.hours.value, 1) + " crew-hours at $" + figureText(ground.perHour, 2), count});
    if (other.fit) charge.parts.push_back({"All else", meanOf(others), std::to_string(std::llround(shareWithOther * 100)) + " % of the jobs had some", static_cast<int>(withOther.size())});
    charge.priceForProfit = std::ceil(charge.cost.value + charge.profitPerCrewHour * charge.hours.value);
    charge.judgedPrice = question.price ? question.price->toDouble() : charge.priceForProfit;
    if (question.price) charge.profitAtPrice = (charge.judgedPrice - charge.cost.value) / charge.hours.value;
    charge.chanceOfLoss = charge.judgedPrice <= 0 ? 1 : 1 - studentShareBelow((std::log(charge.judgedPrice) - center) / (scatter * std::sqrt(1 + open * open)), degrees);
}

std::string answerOf(const Charge& charge, const ChargeQuestion& question, const std::string& type)
{
    if (!charge.missing.empty()) return charge.missing;
    auto text = "Charge " + wholeDollars(charge.priceForProfit) + " for " + wholeDollars(charge.profitPerCrewHour) + " per crew-hour: " + type + " of " + figureText(question.areaSqft, 0) + " ft\u00b2 costs " +
                wholeDollars(charge.cost.value) + " (" + wholeDollars(charge.cost.low) + " to " + wholeDollars(charge.cost.high) + ", by " + counted(charge.jobsOfType, "job", "jobs") + " of the type)";
    if (question.price)
        text += "; at " + wholeDollars(charge.judgedPrice) + " it makes " + wholeDollars(*charge.profitAtPrice) + " per crew-hour";
    else text += "; at that price";
    text += std::string{question.price ? " and" : " it"} + " loses money with a chance of " + chanceWords(charge.chanceOfLoss);
    if (charge.chanceOfWinning) text += ", and it is won " + std::to_string(std::llround(charge.chanceOfWinning->value * 100)) + " times in a hundred";
    return text + '.';
}

}

Charge chargeFor(const FinishedJobs& jobs, const ChargeQuestion& question, const ChargePrices& prices, bool southernHalf, Date asOf)
{
    Charge charge;
    const auto known = std::find(jobs.types.begin(), jobs.types.end(), std::optional{question.type});
    const auto type = static_cast<std::uint16_t>(known - jobs.types.begin());
    const auto usable = usableOf(jobs, prices, southernHalf);
    charge.jobs = static_cast<int>(usable.size());
    charge.jobsOfType = static_cast<int>(std::count_if(usable.begin(), usable.end(), [&](const Usable& each) { return each.type == type; }));
    charge.profitPerCrewHour = question.profitPerCrewHour ? question.profitPerCrewHour->toDouble() : usualProfit(jobs);
    if (!(question.areaSqft > 0) || !(question.thicknessIn > 0)) charge.missing = "An area and a thickness above nothing are needed.";
    else if (charge.jobsOfType < leastJobsToCharge)
        charge.missing = "Not enough history: " + counted(charge.jobsOfType, "finished job", "finished jobs") + " of the type with area, hours, tickets and takeoff, and " + inWords(leastJobsToCharge) + " are needed.";
    if (charge.missing.empty()) {
        const auto ahead = std::ranges::find_if(prices.ahead, [&](const MonthPrice& each) { return each.month.month() == question.month; });
        const auto perYard = ahead != prices.ahead.end() ? std::optional{ahead->perYard} : latestPrice(prices);
        reckon(charge, {usable, question, type, seasonOfMonth(question.month, southernHalf), perYard.value_or(0), costOfAnHour(usable, asOf)});
    }
    if (charge.missing.empty()) {
        const auto win = chanceToWin(jobs, type, question.areaSqft, charge.judgedPrice);
        charge.chanceOfWinning = win.chance;
        charge.quotesWon = win.won;
        charge.quotesLost = win.lost;
        charge.winning = win.words;
    }
    charge.answer = answerOf(charge, question, known == jobs.types.end() ? "the type" : jobs.names[0][type]);
    return charge;
}

ChargePrices pricesToCharge(CostReckoner& reckoner, Date today)
{
    struct Sum {
        double paid = 0, yards = 0;
        int tickets = 0;
    };
    std::map<Date, Sum> months;
    for (const auto& ticket : reckoner.book().all<Ticket>()) {
        const auto cost = reckoner.of(ticket);
        if (!cost.amount || ticket.yards <= Yards{}) continue;
        auto& month = months[firstOfMonth(ticket.date)];
        month.paid += cost.amount->toDouble();
        month.yards += ticket.yards.toDouble();
        ++month.tickets;
    }
    ChargePrices prices;
    for (const auto& month : priceSeasons(reckoner.book(), reckoner.tickets(), SeasonScope{.today = today, .from = {}, .to = {}, .jobType = {}}).carry) prices.ahead.push_back({month.month, month.delivered.value, 0});
    for (const auto& [month, sum] : months)
        if (sum.paid > 0) prices.past.push_back({month, sum.paid / sum.yards, sum.tickets});
    return prices;
}

}

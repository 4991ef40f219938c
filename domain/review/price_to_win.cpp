#include "review/price_to_win.h"

#include "quantity/words.h"
#include "review/charge.h"
#include "statistics/logistic.h"
#include "statistics/random_effects.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace strikeoff {

WinChance chanceToWin(const FinishedJobs& jobs, std::uint16_t type, double areaSqft, double price)
{
    WinChance win;
    std::vector<const AnsweredQuote*> quotes;
    std::map<std::uint16_t, int> types;
    for (const auto& quote : jobs.quotes) {
        if (quote.areaSqft <= 0 || quote.price <= Money{}) continue;
        quotes.push_back(&quote);
        ++types[quote.keys[0]];
        ++(quote.won ? win.won : win.lost);
    }
    const auto counts = counted(win.won, "quote", "quotes") + " won and " + (win.lost == 0 ? std::string{"none"} : inWords(win.lost)) + " lost";
    if (std::min(win.won, win.lost) < leastQuotesOfEither) {
        win.words = "Not enough history for a chance of winning: " + counts + ", and " + inWords(leastQuotesOfEither) + " of each are needed.";
        return win;
    }
    // The usual price: by area, with a level of its own for each type that is quoted often enough.
    const auto most = std::max_element(types.begin(), types.end(), [](const auto& a, const auto& b) { return a.second < b.second; })->first;
    std::vector<std::uint16_t> own;
    for (const auto& [each, count] : types)
        if (each != most && count >= 4) own.push_back(each);
    const auto rowOf = [&](double area, std::uint16_t of) {
        std::vector<double> row{1, std::log(area)};
        for (const auto each : own) row.push_back(each == of);
        return row;
    };
    Predictors usualBy{2 + own.size()};
    std::vector<double> logs;
    for (const auto* quote : quotes) {
        usualBy.add(rowOf(quote->areaSqft, quote->keys[0]));
        logs.push_back(std::log(quote->price.toDouble()));
    }
    const auto usual = fitLinear(usualBy, logs);
    if (!usual.fit) {
        win.words = "The quotes so far do not tell a usual price: " + usual.refusal;
        return win;
    }
    Predictors dear{2};
    std::vector<bool> outcomes;
    for (std::size_t i = 0; i < quotes.size(); ++i) {
        dear.add({1, usual.fit->residuals[i]});
        outcomes.push_back(quotes[i]->won);
    }
    const auto chance = fitLogistic(dear, outcomes);
    if (!chance.fit) {
        win.words = "The quotes so far do not tell a chance by price: " + chance.refusal;
        return win;
    }
    if (chance.fit->coefficients[1] >= 0) {
        const auto limits = shareLimits(win.won, win.won + win.lost, usualConfidence);
        win.chance = Estimate{static_cast<double>(win.won) / (win.won + win.lost), limits.low, limits.high};
        win.words = "Of " + counts + ", dearer ones were not lost more often; the chance is the share won, whatever the price.";
        return win;
    }
    const double above = price > 0 ? std::log(price) - usual.fit->meanAt(rowOf(areaSqft, type)).value : -50;
    const double row[] = {1, above};
    win.chance = chance.fit->chanceAt(row);
    const auto percent = std::llround((std::exp(above) - 1) * 100);
    win.words = "By " + counts + "; the price is " + (percent >= 0 ? std::to_string(percent) + " % above" : std::to_string(-percent) + " % below") + " what is usual for the type and area.";
    return win;
}

}

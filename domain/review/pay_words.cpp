#include "review/pay_words.h"

#include "quantity/words.h"
#include "ready_mix/codes.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

std::string jobsText(int jobs) { return counted(jobs, "job", "jobs"); }

/// "$61 per crew-hour (80 % sure: $48 to $74)".
std::string figureText(const PerCrewHour& figure)
{
    auto text = wholeDollars(figure.estimate) + " per crew-hour";
    if (figure.low && figure.high) text += " (" + wholeDollars(*figure.low) + " to " + wholeDollars(*figure.high) + ')';
    return text;
}

/// Names of some groups, the first two by name and the rest by count.
std::string someOf(const std::vector<std::string>& names)
{
    if (names.size() <= 3) return listed(names);
    std::vector<std::string> some{names[0], names[1], inWords(static_cast<std::int64_t>(names.size() - 2)) + " more"};
    return listed(some);
}

/// "surely above Walk and Steps", "surely below …", with those it cannot be told from.
std::string standing(const WhatPays& review, std::size_t place)
{
    const auto& own = review.groups[place].perCrewHour;
    std::vector<std::string> above, below, undecided;
    for (std::size_t i = 0; i < review.groups.size(); ++i) {
        if (i == place) continue;
        const auto& other = review.groups[i];
        if (own.isSurelyAbove(other.perCrewHour)) above.push_back(other.name);
        else if (other.perCrewHour.isSurelyAbove(own)) below.push_back(other.name);
        else undecided.push_back(other.name);
    }
    const auto others = review.groups.size() - 1;
    if (others == 0) return {};
    if (!own.low) return ", on too few jobs to tell it from the others";
    if (above.size() == others) return ", surely above all others";
    if (below.size() == others) return ", surely below all others";
    std::string text;
    if (!above.empty()) text += ", surely above " + someOf(above);
    if (!below.empty()) text += ", surely below " + someOf(below);
    if (!undecided.empty()) text += ", undecided against " + (undecided.size() == others ? std::string{"all others"} : someOf(undecided));
    return text;
}

std::string sentenceOf(const WhatPays& review, std::size_t place)
{
    const auto& group = review.groups[place];
    std::string text = group.perCrewHour.estimate < 0 ? "loses " + wholeDollars(-group.perCrewHour.estimate) : "pays " + wholeDollars(group.perCrewHour.estimate);
    text += " per crew-hour" + standing(review, place);
    if (group.chanceOfLoss && *group.chanceOfLoss >= 0.1) text += "; the next one loses money with a chance of " + chanceWords(*group.chanceOfLoss);
    if (group.driver) text += "; " + driverWords(*group.driver) + " is what hurts it";
    else text += "; no class ran over its bids";
    return text;
}

std::string_view pluralOf(Grouping by)
{
    switch (by) {
    case Grouping::jobType: return "job types";
    case Grouping::leadSource: return "lead sources";
    case Grouping::sizeBand: return "sizes";
    case Grouping::season: return "seasons";
    case Grouping::supplier: return "suppliers";
    case Grouping::crewSize: return "crew sizes";
    case Grouping::town: return "towns";
    }
    return {};
}

std::string answerOf(const WhatPays& review, std::size_t leftOut)
{
    if (review.groups.empty())
        return leftOut == 0 ? "No finished job has hours, a bid and a bill yet."
                            : "No finished job has hours, a bid and a bill yet; " + counted(static_cast<std::int64_t>(leftOut), "job is", "jobs are") + " left out.";
    const auto& best = review.groups.front();
    auto text = best.name + (best.perCrewHour.estimate < 0 ? " loses least, " : " pays best, ") + figureText(best.perCrewHour) + " over " + jobsText(best.jobs);
    if (review.groups.size() > 1) {
        const auto& last = review.groups.back();
        text += "; " + last.name + " pays least, " + figureText(last.perCrewHour) + " over " + jobsText(last.jobs);
        if (last.driver) text += ", where " + driverWords(*last.driver) + " hurts most";
        if (!best.perCrewHour.isSurelyAbove(last.perCrewHour)) text += "; between them it is undecided";
    }
    if (leftOut > 0) text += "; " + counted(static_cast<std::int64_t>(leftOut), "job is", "jobs are") + " left out";
    return text + '.';
}

std::string undecidedOf(const WhatPays& review)
{
    if (review.undecided.empty()) return {};
    const auto pairs = review.groups.size() * (review.groups.size() - 1) / 2;
    const auto open = review.undecided.size();
    std::vector<std::string> named;
    for (const auto& [a, b] : review.undecided)
        if (named.size() < 3 && b == a + 1) named.push_back(review.groups[a].name + " or " + review.groups[b].name);
    std::string text = pairs == 1    ? std::string{"The jobs so far do not decide which pays better"}
                       : open == pairs ? std::string{"The jobs so far decide between none of the "} + std::string{pluralOf(review.by)}
                                       : capitalized(inWords(static_cast<std::int64_t>(open))) + " of " + inWords(static_cast<std::int64_t>(pairs)) + " pairs are undecided, as their intervals overlap";
    if (!named.empty()) text += (open > named.size() ? ", among them " : ": ") + listed(named);
    return text + '.';
}

std::string methodOf(const WhatPays& review)
{
    std::string text = "Raw is all gross profit over all crew-hours. ";
    if (review.groups.empty() || !review.groups.front().perCrewHour.low) return text + "How sure it is can be told once a group has two jobs.";
    if (review.pooled)
        text += "The estimate draws each raw value toward the common mean of " + wholeDollars(review.mean) + ", the more, the fewer jobs stand behind it (random effects by DerSimonian and Laird; the true values lie " +
                wholeDollars(review.spread) + " apart, one standard deviation). The interval holds the truth eight times in ten and allows for not knowing that spread.";
    else
        text += "With fewer than three groups nothing is drawn together: the estimate is the raw value, and the interval holds the truth eight times in ten by the scatter of the jobs.";
    return text + " The chance of a loss is that of the next job of middling length, before overhead.";
}

}

void writeWords(WhatPays& review, std::size_t leftOut)
{
    for (std::size_t i = 0; i < review.groups.size(); ++i) review.groups[i].sentence = sentenceOf(review, i);
    review.answer = answerOf(review, leftOut);
    review.undecidedSentence = undecidedOf(review);
    review.method = methodOf(review);
}

std::string driverWords(const PayDriver& driver)
{
    const auto name = lowered(labelOf(driver.costClass));
    const std::string_view reason = driver.reason;
    if (reason.empty()) return name;
    if (const auto colon = reason.find(": "); colon != reason.npos) return name + ' ' + std::string{reason.substr(0, colon)} + " (" + std::string{reason.substr(colon + 2)} + ')';
    if (reason.starts_with("not ") || reason.starts_with("receipts") || reason.starts_with("unplanned") || reason.starts_with("what ") || reason.find(" against ") != reason.npos) return name + " (" + std::string{reason} + ')';
    return name + ' ' + std::string{reason};
}

std::string wholeDollars(double amount)
{
    const auto whole = std::llround(amount);
    return (whole < 0 ? "\u2212$" : "$") + shownDecimal(std::abs(whole), 0, 0);
}

std::string chanceWords(double chance)
{
    if (chance < 0.01) return "less than one in a hundred";
    if (chance > 0.99) return "more than ninety-nine in a hundred";
    if (chance >= 0.45 && chance < 0.55) return "one in two";
    if (chance < 0.45) return "one in " + inWords(std::max<std::int64_t>(2, std::llround(1 / chance)));
    return inWords(std::min<std::int64_t>(9, std::llround(chance * 10))) + " in ten";
}

}

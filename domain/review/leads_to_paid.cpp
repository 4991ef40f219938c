#include "review/leads_to_paid.h"

#include "billing/billing.h"
#include "job/stage.h"
#include "quantity/words.h"
#include "statistics/quantiles.h"

#include <algorithm>
#include <vector>

namespace strikeoff {

namespace {

constexpr std::size_t place(LeadStep step) { return static_cast<std::size_t>(step); }

/// How far one lead came, the day of each step where it is known, and whether it can still go on.
struct Way {
    LeadStep last = LeadStep::asked;
    std::array<std::optional<Date>, leadStepCount> days;
    bool lost = false;
};

void earliest(std::optional<Date>& day, std::optional<Date> other)
{
    if (other && (!day || *other < *day)) day = other;
}

void latest(std::optional<Date>& day, std::optional<Date> other)
{
    if (other && (!day || *other > *day)) day = other;
}

/// What one job adds to its lead's way.
void follow(const Book& book, const Job& job, const SeasonScope& scope, Way& way)
{
    const auto past = [&](std::optional<Date> day) { return day && *day <= scope.today ? day : std::nullopt; };
    auto& days = way.days;
    for (const auto* quote : book.referring<&Quote::job>(job.id)) {
        earliest(days[place(LeadStep::quoted)], past(quote->sentOn));
        earliest(days[place(LeadStep::won)], past(quote->acceptedOn));
    }
    for (const auto* pour : book.referring<&Pour::job>(job.id)) earliest(days[place(LeadStep::poured)], past(pour->pouredOn));
    const auto billing = billingOf(book, job.id);
    if (billing.inFull) {
        for (const auto* invoice : book.referring<&Invoice::job>(job.id)) {
            if (totalOf(book, *invoice).isVoid()) continue;
            latest(days[place(LeadStep::billed)], past(invoice->issuedOn));
            if (billing.balance <= Money{} && billing.retainageHeld.isZero())
                for (const auto* share : book.referring<&PaymentShare::invoice>(invoice->id)) latest(days[place(LeadStep::paid)], past(book.get(share->payment).receivedOn));
        }
    }
}

Way wayOf(const Book& book, const Lead& lead, const SeasonScope& scope)
{
    Way way;
    way.days[0] = lead.receivedOn;
    const auto jobs = book.referring<&Job::lead>(lead.id);
    bool allEnded = !jobs.empty();
    for (const auto* job : jobs) {
        follow(book, *job, scope, way);
        const auto stage = stageOf(book, *job);
        allEnded = allEnded && (stage == Stage::declined || stage == Stage::dropped || stage == Stage::closed);
    }
    for (std::size_t i = leadStepCount; i-- > 0;)
        if (way.days[i]) {
            way.last = static_cast<LeadStep>(i);
            break;
        }
    way.lost = way.last != LeadStep::paid && (lead.lostOn.has_value() || allEnded);
    return way;
}

std::string answerOf(const LeadsToPaid& leads)
{
    const auto& asked = leads.steps[0];
    if (asked.reached == 0) return "No lead came in within these days.";
    const auto reached = [&](LeadStep step) { return inWords(leads.steps[place(step)].reached); };
    auto answer = "Of " + counted(asked.reached, "lead", "leads") + ", " + reached(LeadStep::quoted) + (leads.steps[1].reached == 1 ? " was" : " were") + " quoted, " + reached(LeadStep::won) + " won and "
                  + reached(LeadStep::paid) + " paid";
    if (leads.days) answer += "; from asking to the last payment it takes " + counted(static_cast<std::int64_t>(*leads.days + 0.5), "day", "days");
    return answer + ".";
}

}

LeadsToPaid leadsToPaid(const Book& book, const SeasonScope& scope)
{
    LeadsToPaid result;
    std::array<std::vector<double>, leadStepCount> between;
    std::vector<double> whole;
    for (std::size_t i = 0; i < leadStepCount; ++i) result.steps[i].step = static_cast<LeadStep>(i);
    for (const auto& lead : book.all<Lead>()) {
        if (!scope.holds(lead.receivedOn)) continue;
        if (scope.jobType) {
            const auto jobs = book.referring<&Job::lead>(lead.id);
            const bool ofType = jobs.empty() ? lead.jobType == scope.jobType : std::ranges::any_of(jobs, [&](const Job* job) { return job->jobType == scope.jobType; });
            if (!ofType) continue;
        }
        const auto way = wayOf(book, lead, scope);
        const auto last = place(way.last);
        for (std::size_t i = 0; i <= last; ++i) {
            ++result.steps[i].reached;
            if (i > 0 && way.days[i] && way.days[i - 1] && *way.days[i] >= *way.days[i - 1]) between[i].push_back(*way.days[i] - *way.days[i - 1]);
        }
        if (way.last == LeadStep::paid) {
            if (*way.days[last] >= lead.receivedOn) whole.push_back(*way.days[last] - lead.receivedOn);
        } else ++(way.lost ? result.steps[last].lost : result.steps[last].open);
    }
    for (std::size_t i = 1; i < leadStepCount; ++i) {
        result.steps[i].days = median(between[i]);
        result.steps[i].daysKnown = static_cast<int>(between[i].size());
    }
    result.days = median(whole);
    result.answer = answerOf(result);
    return result;
}

}

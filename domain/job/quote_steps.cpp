#include "job/stage.h"
#include "job/steps.h"

#include <algorithm>

namespace strikeoff {

namespace {

std::optional<Step> answered(const Quote& quote)
{
    if (quote.acceptedOn) return Step::refused("Quote " + quoteName(quote) + " was accepted on " + quote.acceptedOn->shown());
    if (quote.declinedOn) return Step::refused("Quote " + quoteName(quote) + " was declined on " + quote.declinedOn->shown() + "; make a new revision");
    return std::nullopt;
}

/// The newest revision of a quote's number.
const Quote& newest(const Book& book, const Quote& quote)
{
    const auto* found = &quote;
    for (const auto* other : book.referring<&Quote::job>(quote.job))
        if (other->number == quote.number && other->issue > found->issue) found = other;
    return *found;
}

}

std::string quoteName(const Quote& quote) { return quote.issue > 1 ? quote.number + " revision " + std::to_string(quote.issue) : quote.number; }

Step startQuote(const Book& book, const Job& job, Date day)
{
    if (const auto* accepted = acceptedQuote(book, job.id)) return Step::refused("Quote " + quoteName(*accepted) + " was accepted; write a change order for more work");
    for (const auto* quote : book.referring<&Quote::job>(job.id))
        if (!quote->sentOn) return Step::refused("Quote " + quoteName(*quote) + " is still a draft; finish that one");
    const auto& settings = book.settings();
    const auto* customer = book.find(job.customer);
    Quote quote;
    quote.job = job.id;
    quote.draftedOn = day;
    quote.terms = settings.quoteTerms;
    quote.markup = settings.markup;
    quote.taxRate = customer && customer->taxExempt ? Rate{} : settings.taxRate;
    quote.deposit = settings.deposit;
    Edit edit{"Begin a quote for job " + job.number};
    edit.add(quote);
    return Step::of(std::move(edit));
}

Step reviseQuote(const Book& book, const Quote& quote, Date day)
{
    if (!quote.sentOn) return Step::refused("Quote " + quoteName(quote) + " was not sent yet; change it as it is");
    if (const auto* accepted = acceptedQuote(book, quote.job); accepted && accepted->number == quote.number)
        return Step::refused("Quote " + quoteName(*accepted) + " was accepted; write a change order for more work");
    const auto& last = newest(book, quote);
    if (!last.sentOn) return Step::refused("Quote " + quoteName(last) + " is a draft already; finish that one");
    auto next = quote;
    next.issue = last.issue + 1;
    next.draftedOn = std::max(day, quote.draftedOn);
    next.sentOn.reset();
    next.validUntil.reset();
    next.acceptedOn.reset();
    next.declinedOn.reset();
    next.declinedReason.clear();
    Edit edit{"Begin revision " + std::to_string(next.issue) + " of quote " + quote.number};
    const auto id = edit.add(next);
    for (const auto* line : book.referring<&QuoteLine::quote>(quote.id)) {
        auto copy = *line;
        copy.quote = id;
        edit.add(copy);
    }
    return Step::of(std::move(edit));
}

Step sendQuote(const Book& book, const Quote& quote, Date day)
{
    if (quote.sentOn) return Step::refused("Quote " + quoteName(quote) + " was sent on " + quote.sentOn->shown());
    if (book.referring<&QuoteLine::quote>(quote.id).empty()) return Step::refused("Quote " + quoteName(quote) + " has no lines yet; write them, or draft them from the takeoff");
    auto sent = quote;
    sent.sentOn = std::max(day, quote.draftedOn);
    sent.validUntil = daysOn(*sent.sentOn, book.settings().quoteValidDays);
    Edit edit{"Send quote " + quoteName(quote)};
    edit.change(sent);
    auto step = Step::of(std::move(edit));
    const auto total = totalOf(book, quote);
    if (total.net < total.cost) step.remarks.emplace_back("The price is below what the work is reckoned to cost");
    for (const auto* line : book.referring<&QuoteLine::quote>(quote.id))
        if (line->unitCost == UnitPrice{} && !line->quantity.isZero()) step.remarks.push_back("\u201c" + line->description + "\u201d has no cost");
    return step;
}

Step acceptQuote(const Book& book, const Quote& quote, Date day)
{
    if (auto step = answered(quote)) return *step;
    if (!quote.sentOn) return Step::refused("Quote " + quoteName(quote) + " was not sent yet; send it first");
    auto accepted = quote;
    accepted.acceptedOn = std::max(day, *quote.sentOn);
    Edit edit{"Accept quote " + quoteName(quote)};
    edit.change(accepted);
    auto step = Step::of(std::move(edit));
    if (quote.validUntil && day > *quote.validUntil) step.remarks.push_back("Its price held until " + quote.validUntil->shown() + " only");
    if (newest(book, quote).issue != quote.issue) step.remarks.emplace_back("There is a newer revision of it");
    return step;
}

Step declineQuote(const Book&, const Quote& quote, const std::string& reason, Date day)
{
    if (auto step = answered(quote)) return *step;
    if (!quote.sentOn) return Step::refused("Quote " + quoteName(quote) + " was not sent yet; remove it, or drop the job");
    if (reason.empty()) return Step::refused("Say in a few words why quote " + quoteName(quote) + " was declined");
    auto declined = quote;
    declined.declinedOn = std::max(day, *quote.sentOn);
    declined.declinedReason = reason;
    Edit edit{"Decline quote " + quoteName(quote)};
    edit.change(declined);
    return Step::of(std::move(edit));
}

Step acceptChange(const Book&, const ChangeOrder& order, Date day)
{
    const auto name = "Change order " + std::to_string(order.number);
    if (order.acceptedOn) return Step::refused(name + " was accepted on " + order.acceptedOn->shown());
    auto accepted = order;
    accepted.declinedOn.reset();
    accepted.acceptedOn = std::max(day, order.askedOn);
    Edit edit{"Accept change order " + std::to_string(order.number)};
    edit.change(accepted);
    return Step::of(std::move(edit));
}

Step declineChange(const Book&, const ChangeOrder& order, Date day)
{
    const auto name = "Change order " + std::to_string(order.number);
    if (order.declinedOn) return Step::refused(name + " was declined on " + order.declinedOn->shown());
    if (order.acceptedOn) return Step::refused(name + " was accepted on " + order.acceptedOn->shown() + "; clear Accepted on its form if that was a mistake");
    auto declined = order;
    declined.declinedOn = std::max(day, order.askedOn);
    Edit edit{"Decline change order " + std::to_string(order.number)};
    edit.change(declined);
    return Step::of(std::move(edit));
}

}

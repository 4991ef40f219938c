#include "billing/billing.h"
#include "job/stage.h"
#include "quantity/letters.h"
#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

namespace {

/// Whether a number given out by the book or written by hand comes before another one: digits compare as numbers, so Q999 is before Q1000.
bool numberBefore(std::string_view a, std::string_view b)
{
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < a.size() && j < b.size()) {
        if (!isDigit(a[i]) || !isDigit(b[j])) {
            if (a[i] != b[j]) return a[i] < b[j];
            ++i;
            ++j;
            continue;
        }
        const auto digits = [](std::string_view text, std::size_t& at) {
            while (at < text.size() && text[at] == '0') ++at;
            const auto start = at;
            while (at < text.size() && isDigit(text[at])) ++at;
            return text.substr(start, at - start);
        };
        const auto first = digits(a, i);
        const auto second = digits(b, j);
        if (first.size() != second.size()) return first.size() < second.size();
        if (first != second) return first < second;
    }
    return a.size() - i < b.size() - j;
}

bool isOlder(const Quote* a, const Quote* b)
{
    if (a->number == b->number) return a->issue < b->issue;
    return numberBefore(a->number, b->number);
}

}

const Quote* acceptedQuote(const Book& book, Id<Job> job)
{
    const Quote* found = nullptr;
    for (const auto* quote : book.referring<&Quote::job>(job)) {
        if (!quote->acceptedOn) continue;
        if (!found || *found->acceptedOn < *quote->acceptedOn ||
            (*found->acceptedOn == *quote->acceptedOn && isOlder(found, quote)))
            found = quote;
    }
    return found;
}

const Quote* currentQuote(const Book& book, Id<Job> job)
{
    if (const auto* accepted = acceptedQuote(book, job)) return accepted;
    const auto quotes = book.referring<&Quote::job>(job);
    const auto newest = std::max_element(quotes.begin(), quotes.end(), isOlder);
    return newest == quotes.end() ? nullptr : *newest;
}

const Quote* unansweredQuote(const Book& book, Id<Job> job)
{
    auto quotes = book.referring<&Quote::job>(job);
    std::sort(quotes.begin(), quotes.end(), isOlder);
    const Quote* out = nullptr;
    for (std::size_t i = 0; i < quotes.size(); ++i) {
        if (quotes[i]->acceptedOn) return nullptr;
        const bool newest = i + 1 == quotes.size() || quotes[i + 1]->number != quotes[i]->number;
        if (newest && quotes[i]->sentOn && !quotes[i]->declinedOn) out = quotes[i];
    }
    return out;
}

QuoteTotal totalOf(const Book& book, const Quote& quote) { return totalOf(book, quote, book.referring<&QuoteLine::quote>(quote.id)); }

QuoteTotal totalOf(const Book& book, const Quote& quote, std::span<const QuoteLine* const> lines)
{
    QuoteTotal total;
    Money taxableNet;
    std::vector<Money> taxable;
    for (const auto* line : lines) {
        const auto price = line->price(quote.markup);
        total.cost += line->cost();
        total.net += price;
        if (!line->taxable) continue;
        taxable.push_back(price);
        taxableNet += price;
    }
    const auto rate = isTaxExempt(book, quote.job) ? Rate{} : quote.taxRate;
    const auto basis = book.settings().taxBasis;
    total.tax = salesTax(taxable, rate, basis);
    total.total = total.net + total.tax;
    const std::array depositTaxable{percentOf(taxableNet, quote.deposit)};
    total.deposit = percentOf(total.net, quote.deposit) + salesTax(depositTaxable, rate, basis);
    return total;
}

std::string quoteAnswer(const QuoteTotal& total)
{
    std::string text = "Price " + dollars(total.net);
    if (!total.tax.isZero()) text += " before tax, " + dollars(total.total) + " with " + dollars(total.tax) + " sales tax";
    text += "; reckoned to cost " + dollars(total.cost);
    const auto left = total.net - total.cost;
    if (left < Money{}) return text + ", so it falls short by " + dollars(-left);
    text += ", which leaves " + dollars(left);
    if (total.net > Money{})  // the share of the price, to a tenth of a per cent
        text += " (" + shownDecimal(divideHalfUp(checkedMultiply(left.units(), 1000), total.net.units()), 1, 1) + "% of the price)";
    return text + " for overhead and profit";
}

std::optional<Bid> bidOf(const Book& book, Id<Job> job)
{
    std::optional<Bid> bid;
    if (const auto* quote = currentQuote(book, job)) {
        const auto total = totalOf(book, *quote);
        bid = Bid{quote, total.cost, total.net};
    }
    for (const auto* order : book.referring<&ChangeOrder::job>(job)) {
        if (!order->acceptedOn) continue;
        if (!bid) bid = Bid{};
        bid->cost += order->cost;
        bid->price += order->price;
    }
    return bid;
}

}

#include "season/load_prices.h"

#include "ready_mix/codes.h"

#include <algorithm>

namespace strikeoff {

LoadPrices::LoadPrices(const Book& book, const TicketPrices& prices, const SeasonScope& scope) : prices_{prices}
{
    for (const auto& codes : {book.settings().heatCodes, book.settings().acceleratorCodes})
        if (const auto options = parseOptions(codes)) seasonal_.insert(seasonal_.end(), options->begin(), options->end());
    loads_.reserve(book.all<Ticket>().size());
    for (const auto& ticket : book.all<Ticket>())
        if (scope.holds(ticket.date) && (!scope.jobType || scope.holds(book.find(ticket.job)))) take(ticket);
    std::stable_sort(loads_.begin(), loads_.end(), [](const LoadPrice& a, const LoadPrice& b) { return a.ticket->date < b.ticket->date; });
}

bool LoadPrices::isOfTheSeason(std::string_view code) const
{
    return std::any_of(seasonal_.begin(), seasonal_.end(), [&](const TicketOption& option) { return sameCode(option.code, code); });
}

const LoadPrices::OnTicket& LoadPrices::optionsOf(const Ticket& ticket)
{
    const auto [place, isNew] = options_.try_emplace(ticket.options.str());
    auto& found = place->second;
    if (!isNew) return found;
    found.options = parseOptions(ticket.options.str()).value_or(std::vector<TicketOption>{});
    std::vector<std::string> lasting;
    for (const auto& option : found.options)
        if (!isOfTheSeason(option.code)) lasting.push_back(lowered(option.code) + (option.amount ? "=" + option.amount->text() : ""));
    std::sort(lasting.begin(), lasting.end());
    for (const auto& option : lasting) found.withoutSeason += option + ';';
    return found;
}

void LoadPrices::buy(Id<Supplier> supplier, ChargeKind kind, std::string_view code, std::optional<Quantity> amount, Money paid)
{
    if (paid <= Money{}) return;
    key_.assign(std::to_string(supplier.value()));
    key_ += kind == ChargeKind::mix ? 'm' : 'o';
    for (const auto c : code) key_ += lowered(c);
    if (amount) key_.append("=").append(std::to_string(amount->units()));
    const auto [place, isNew] = goodAt_.try_emplace(key_, static_cast<int>(goods_.size()));
    if (isNew) goods_.push_back({supplier, kind, lowered(code), amount});
    bought_.push_back({place->second, paid.toDouble()});
}

void LoadPrices::take(const Ticket& ticket)
{
    if (ticket.yards <= Yards{}) return;
    LoadPrice load;
    load.ticket = &ticket;
    load.firstBought = static_cast<std::uint32_t>(bought_.size());
    const auto& on = optionsOf(ticket);
    const auto amountOf = [&](std::string_view code) -> std::optional<Quantity> {
        for (const auto& option : on.options)
            if (sameCode(option.code, code)) return option.amount;
        return std::nullopt;
    };
    bool isShort = false;
    Money mix;
    if (const auto billed = prices_.billedFor(ticket); !billed.empty()) {
        for (const auto& part : billed) {
            load.paid += part.amount;
            if (part.from != BilledFrom::line) continue;
            const auto charge = chargeOf(prices_.codes(), ticket, *part.line);
            if (charge == ConcreteCharge::shortLoad) isShort = isShort || part.amount > Money{};
            if (charge == ConcreteCharge::mix) {
                mix += part.amount;
                buy(ticket.supplier, ChargeKind::mix, ticket.mix.empty() ? std::string_view{part.line->code} : std::string_view{ticket.mix}, {}, part.amount);
            }
            if (charge == ConcreteCharge::option) buy(ticket.supplier, ChargeKind::option, part.line->code, amountOf(part.line->code), part.amount);
        }
    } else {
        const auto charge = prices_.expectedFor(ticket);
        if (!charge) return;
        load.expected = true;
        load.paid = charge->total;
        for (const auto& line : charge->lines) {
            if (line.kind == ChargeKind::shortLoad) isShort = isShort || line.amount > Money{};
            if (line.kind == ChargeKind::mix) {
                mix += line.amount;
                buy(ticket.supplier, ChargeKind::mix, line.code, {}, line.amount);
            }
            if (line.kind == ChargeKind::option) buy(ticket.supplier, ChargeKind::option, line.code, amountOf(line.code), line.amount);
        }
    }
    load.boughtCount = static_cast<std::uint32_t>(bought_.size()) - load.firstBought;
    if (load.paid <= Money{}) return;  // a load whose credit took all of it back says nothing about prices
    if (mix > Money{}) load.mix = mix;
    load.month = monthNumber(ticket.date);
    load.yards = ticket.yards.toDouble();
    key_.assign(std::to_string(ticket.supplier.value())).append(isShort ? "s" : "f");
    for (const auto c : ticket.mix.str()) key_ += lowered(c);
    key_.append(";").append(on.withoutSeason);
    load.likeness = likenessAt_.try_emplace(key_, static_cast<int>(likenessAt_.size())).first->second;
    loads_.push_back(load);
}

}

#pragma once

#include "cost/ticket_prices.h"
#include "season/scope.h"

#include <unordered_map>
#include <vector>

namespace strikeoff {

/// A mix or an option of one supplier, the same amount of it a yard.
struct Good {
    Id<Supplier> supplier;
    ChargeKind kind = ChargeKind::mix;
    std::string code;                 ///< in small letters
    std::optional<Quantity> amount;   ///< of an option, where the ticket gives one
};

/// What a load paid for a good.
struct Bought {
    int good = 0;
    double amount = 0;  ///< dollars
};

/// One load taken apart.
struct LoadPrice {
    const Ticket* ticket = nullptr;
    int month = 0;               ///< years × 12 + months
    double yards = 0;
    Money paid;
    std::optional<Money> mix;    ///< of it, the mix
    bool expected = false;
    int likeness = 0;            ///< the same for loads of one supplier, mix and options, short or full
    std::uint32_t firstBought = 0, boughtCount = 0;
};

inline int monthNumber(Date day)
{
    const auto calendar = day.calendar();
    return static_cast<int>(calendar.year()) * 12 + static_cast<int>(static_cast<unsigned>(calendar.month())) - 1;
}
inline Date monthOfNumber(int number) { return *Date::of(number / 12, number % 12 + 1, 1); }

/// All loads of a scope with a price, by their days, with what they bought.
class LoadPrices {
public:
    LoadPrices(const Book& book, const TicketPrices& prices, const SeasonScope& scope);

    const std::vector<LoadPrice>& loads() const { return loads_; }
    const std::vector<Good>& goods() const { return goods_; }
    std::span<const Bought> boughtOn(const LoadPrice& load) const { return std::span{bought_}.subspan(load.firstBought, load.boughtCount); }

private:
    struct OnTicket {
        std::vector<TicketOption> options;
        std::string withoutSeason;  ///< the options that make a load another, in one order
    };
    void take(const Ticket& ticket);
    const OnTicket& optionsOf(const Ticket& ticket);
    void buy(Id<Supplier> supplier, ChargeKind kind, std::string_view code, std::optional<Quantity> amount, Money paid);
    bool isOfTheSeason(std::string_view code) const;

    const TicketPrices& prices_;
    std::vector<TicketOption> seasonal_;
    std::vector<LoadPrice> loads_;
    std::vector<Good> goods_;
    std::vector<Bought> bought_;
    std::unordered_map<std::string, int> goodAt_;
    std::unordered_map<std::string, int> likenessAt_;
    std::unordered_map<std::string_view, OnTicket> options_;
    std::string key_;
};

}

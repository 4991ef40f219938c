#pragma once

#include "record/choices.h"

namespace strikeoff {

struct Quote {
    Id<Quote> id;
    std::int32_t revision = 0;
    std::string number;
    std::int32_t issue = 1;
    Id<Job> job;
    Date draftedOn;
    std::optional<Date> sentOn;
    std::optional<Date> validUntil;
    std::optional<Date> acceptedOn;
    std::optional<Date> declinedOn;
    std::string declinedReason;
    std::string scope;
    std::string exclusions;
    std::string terms;
    Rate markup;
    Rate taxRate;
    Rate deposit;
    std::optional<Date> pourMonth;
};

struct QuoteLine {
    Id<QuoteLine> id;
    std::int32_t revision = 0;
    Id<Quote> quote;
    std::int32_t position = 1;
    CostClass costClass = CostClass::concrete;
    std::optional<Phase> phase;
    std::string description;
    std::string code;
    Quantity quantity = Quantity::ofWhole(1);
    std::string unit;
    UnitPrice unitCost;
    std::optional<UnitPrice> unitPrice;
    bool taxable = true;

    /// What the line is reckoned to cost: quantity × unit cost, rounded once.
    Money cost() const;
    /// What the customer pays: quantity × unit price, or the cost with the quote's mark-up on it.
    Money price(Rate markup) const;
};

}

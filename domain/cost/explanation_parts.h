#pragma once

#include "cost/explanation.h"

#include <array>

namespace strikeoff {

/// What the bid carries of a class: a line of the quote, or an accepted change order.
struct Carried {
    std::string_view description;
    std::string_view code;
    std::string_view unit;
    std::optional<Quantity> quantity;  ///< none for a change order that gives its sum alone, and where the quantity is zero
    Money cost;
    std::optional<Phase> phase;
    bool isChange = false;             ///< from a change order
};

/// What the bid carries, by class; `quote` is the one that counts, or nullptr.
std::array<std::vector<Carried>, costClassCount> carriedBy(const Book& book, const Job& job, const Quote* quote);

/// What explains one class of one job.
struct ClassFacts {
    const Job& job;
    CostClass costClass{};
    bool open = false;
    const Quote* quote = nullptr;
    std::vector<Carried> carried;
    std::vector<const Receipt*> receipts;

    Money carriedCost() const;
    Money receiptsPaid() const;
};

/// Takes up the reasons of a class. Parts of nothing are left out, and words are only made where they are wanted.
class Reasons {
public:
    explicit Reasons(Words words) : words_{words} {}

    template <class Detail>
    void add(std::string_view name, Money amount, Detail detail)
    {
        if (amount.isZero()) return;
        auto& reason = because_.emplace_back();
        reason.name = name;
        reason.amount = amount;
        if (words_ == Words::written) reason.detail = detail() + ": " + costMoreOrLess(amount);
    }
    std::vector<Reason> taken() { return std::move(because_); }

private:
    Words words_;
    std::vector<Reason> because_;
};

/// Reasons of the class's loads, and what these cost; `explainReceipts` adds what was bought besides.
Money explainConcrete(Reasons& reasons, CostReckoner& reckoner, const ClassFacts& facts);
/// Reasons of the class's hours, and what these cost.
Money explainLabor(Reasons& reasons, const CostReckoner& reckoner, const ClassFacts& facts);
/// Reasons of a class that is bought by receipts alone.
void explainBought(Reasons& reasons, const ClassFacts& facts);

/// Receipts of a class that has a way of its own to be bought (bags of mix, a day laborer's slip).
void explainReceipts(Reasons& reasons, const ClassFacts& facts);

/// A unit as it is compared: "yd", "sq ft", "ft", "h" … however it is written; other units in small letters.
std::string plainUnit(std::string_view unit);

/// A cost at a rate known as so much money for so many thousandths of something: money × of / for, rounded once.
Money atRate(Money money, std::int64_t perThousandths, std::int64_t ofThousandths);

/// "$8.1250": so much money over so many thousandths, to the cent, for a sentence.
std::string eachText(Money money, std::int64_t thousandths);

}

#pragma once

#include "domain/book_maker.h"

#include "labor/labor_cost.h"

namespace strikeoff {

/// A book of people and their hours.
struct Yard : BookMaker {
    Id<CrewMember> person(const std::string& name, std::string_view hourly = "20.00", const std::string& compClass = {})
    {
        const auto id = add(CrewMember{.name = name, .compClass = compClass});
        if (!hourly.empty()) add(PayRate{.person = id, .fromDate = on("2020-01-01"), .hourlyRate = each(hourly)});
        return id;
    }
    Id<Hours> worked(Id<CrewMember> who, Date day, int minutes, std::optional<Id<Job>> where = {}, Phase phase = Phase::place)
    {
        return add(Hours{.person = who, .date = day, .job = where, .phase = where ? phase : Phase::shop, .minutes = Minutes::of(minutes)});
    }
    void burden(BurdenItem item, std::string_view from, std::string_view rate, std::optional<Money> base = {}, BurdenBasis basis = BurdenBasis::percent,
                bool onPremium = true, const std::string& compClass = {})
    {
        add(BurdenRate{.item = item, .fromDate = on(from), .compClass = compClass, .basis = basis, .rate = each(rate), .wageBase = base, .onPremium = onPremium});
    }
    template <class Change>
    void set(Change change)
    {
        if (book.all<Settings>().empty()) add(Settings{});
        BookMaker::change(book.settings().id, change);
    }
};

constexpr std::size_t at(BurdenItem item) { return static_cast<std::size_t>(item); }

}

#pragma once

#include "cost/explanation.h"

#include "domain/book_maker.h"

#include <algorithm>

namespace strikeoff {

/// A job with an accepted quote to hold costs against.
struct Story {
    BookMaker maker;
    Id<Job> job = maker.job("Alder Court driveway");
    Id<Supplier> supplier = maker.add(Supplier{.name = "Northgate"});
    Id<CrewMember> ada = maker.add(CrewMember{.name = "Ada"});
    Id<Quote> quote = maker.acceptedQuote(job, "Q1");

    void carried(CostClass costClass, const std::string& description, std::string_view quantity, const std::string& unit, std::string_view cost, std::optional<Phase> phase = {},
                 const std::string& code = {})
    {
        maker.add(QuoteLine{.quote = quote,
                            .position = static_cast<std::int32_t>(maker.book.referring<&QuoteLine::quote>(quote).size()) + 1,
                            .costClass = costClass,
                            .phase = phase,
                            .description = description,
                            .code = code,
                            .quantity = Quantity::parse(quantity).value(),
                            .unit = unit,
                            .unitCost = each(cost)});
    }
    void receipt(CostClass costClass, std::string_view amount, std::string_view quantity = {}, const std::string& unit = {}, const std::string& what = "things")
    {
        maker.add(Receipt{.number = "R" + std::to_string(maker.book.all<Receipt>().size() + 1),
                          .date = on("2026-03-20"),
                          .job = job,
                          .costClass = costClass,
                          .vendor = "Tarnley",
                          .description = what,
                          .quantity = Quantity::parse(quantity),
                          .unit = unit,
                          .amount = usd(amount)});
    }
    void hours(std::string_view day, Phase phase, int minutes) { maker.add(Hours{.person = ada, .date = on(day), .job = job, .phase = phase, .minutes = Minutes::of(minutes)}); }
    void rate(std::string_view hourly) { maker.add(PayRate{.person = ada, .fromDate = on("2026-01-01"), .hourlyRate = each(hourly)}); }
    void charge(ChargeKind kind, const std::string& code, std::string_view amount, ChargeUnit unit, const std::string& meaning = {})
    {
        maker.add(SheetCharge{.supplier = supplier, .effectiveOn = on("2026-01-01"), .charge = kind, .code = code, .meaning = meaning, .amount = each(amount), .unit = unit});
    }
    Id<Ticket> ticket(const std::string& number, std::string_view yards, const std::string& mix = "4000AE")
    {
        return maker.add(Ticket{.supplier = supplier, .number = number, .date = on("2026-03-26"), .mix = mix, .yards = Yards::parse(yards).value(), .job = job});
    }
    Id<StatementLine> billed(const std::string& ticket, std::string_view amount, const std::string& code, std::string_view quantity = {})
    {
        if (maker.book.all<Statement>().empty()) maker.add(Statement{.supplier = supplier, .number = "S3", .date = on("2026-03-31")});
        return maker.add(StatementLine{.statement = maker.book.all<Statement>()[0].id,
                                       .line = static_cast<std::int32_t>(maker.book.all<StatementLine>().size()) + 1,
                                       .ticketNumber = ticket,
                                       .date = on("2026-03-26"),
                                       .code = code,
                                       .quantity = Quantity::parse(quantity),
                                       .amount = usd(amount)});
    }
    void finished() { maker.change(job, [](Job& one) { one.closedOn = on("2026-05-01"); }); }

    JobExplanation why()
    {
        CostReckoner reckoner{maker.book};
        return explain(reckoner, maker.book.get(job));
    }
};

inline const ClassExplanation* classOf(const JobExplanation& explained, CostClass wanted)
{
    const auto found = std::find_if(explained.classes.begin(), explained.classes.end(), [&](const ClassExplanation& one) { return one.costClass == wanted; });
    return found == explained.classes.end() ? nullptr : &*found;
}

/// The amount of a reason; nothing when it is not given.
inline std::optional<Money> reason(const JobExplanation& explained, CostClass costClass, std::string_view name)
{
    const auto* found = classOf(explained, costClass);
    if (!found) return std::nullopt;
    for (const auto& one : found->because)
        if (one.name == name) return one.amount;
    return std::nullopt;
}

inline std::string detailOf(const JobExplanation& explained, CostClass costClass, std::string_view name)
{
    if (const auto* found = classOf(explained, costClass))
        for (const auto& one : found->because)
            if (one.name == name) return one.detail;
    return {};
}

inline Money sumOf(const ClassExplanation& one)
{
    Money sum;
    for (const auto& reason : one.because) sum += reason.amount;
    return sum;
}

}


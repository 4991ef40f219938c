#include "demo/records.h"

#include <algorithm>
#include <numeric>

namespace strikeoff::demo {

namespace {

/// For each kind, what a row's id here became in the edit.
using NewIds = std::array<std::vector<std::int64_t>, kindCount>;

/// Adds the rows of a kind in the order of a sort key (rows alike stay as they were made); `number` names the row by its place.
template <class Record, class Key, class Number>
void put(Edit& edit, NewIds& newIds, std::vector<Record>& rows, const Key& key, const Number& number)
{
    std::vector<std::size_t> order(rows.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(rows[a]) < key(rows[b]); });
    auto& ids = newIds[static_cast<std::size_t>(kindOf<Record>)];
    ids.resize(rows.size());
    const auto fields = describe(kindOf<Record>).fields;
    for (std::size_t place = 0; place < order.size(); ++place) {
        auto& record = rows[order[place]];
        number(record, place);
        auto row = rowOf(record);
        for (std::size_t i = 0; i < fields.size(); ++i) {
            auto* reference = fields[i].type == FieldType::reference ? std::get_if<std::int64_t>(&row.values[i]) : nullptr;
            if (reference)
                *reference = newIds[static_cast<std::size_t>(fields[i].refersTo)].at(static_cast<std::size_t>(*reference - 1));
        }
        edit.add(std::move(row));
        ids[order[place]] = edit.changes().back().row.id;
    }
}

/// "Q1001" and on, in the order of the rows.
auto counted(const char* prefix)
{
    return [prefix](auto& record, std::size_t place) { record.number = prefix + std::to_string(1001 + place); };
}

}

Edit Records::edit(std::string title)
{
    Edit edit{std::move(title)};
    NewIds newIds;
    const auto unnumbered = [](const auto&, std::size_t) {};
    const auto asMade = [](const auto&) { return 0; };
    const auto plain = [&]<class Record>(std::vector<Record>& rows) { put(edit, newIds, rows, asMade, unnumbered); };
    const auto byDate = [&]<class Record>(
                            std::vector<Record>& rows, const auto& key) { put(edit, newIds, rows, key, unnumbered); };

    plain(all<Settings>());
    plain(all<Customer>());
    plain(all<Site>());
    plain(all<FinishingProduct>());
    plain(all<JobType>());
    plain(all<Supplier>());
    plain(all<CrewMember>());
    put(edit, newIds, all<Lead>(), [](const Lead& lead) { return lead.receivedOn; }, counted("L"));
    put(edit, newIds, all<Job>(), [](const Job& job) { return job.openedOn; }, counted(""));
    byDate(all<TakeoffSection>(), [&](const TakeoffSection& section) {
        return std::tuple{get(section.job).openedOn, section.job, section.position};
    });

    // A revision keeps its quote's number, so quotes are counted by their first issue.
    auto& quotes = all<Quote>();
    std::vector<Date> firstDrafted(all<Job>().size());
    for (const auto& quote : quotes)
        if (quote.issue == 1) firstDrafted[static_cast<std::size_t>(quote.job.value() - 1)] = quote.draftedOn;
    int quoteNumber = 1000;
    put(
        edit, newIds, quotes,
        [&](const Quote& quote) {
            return std::tuple{firstDrafted[static_cast<std::size_t>(quote.job.value() - 1)], quote.job, quote.issue};
        },
        [&](Quote& quote, std::size_t) {
            if (quote.issue == 1) ++quoteNumber;
            quote.number = "Q" + std::to_string(quoteNumber);
        });
    plain(all<QuoteLine>());
    byDate(all<ChangeOrder>(), [](const ChangeOrder& order) { return order.askedOn; });
    byDate(all<Pour>(), [](const Pour& pour) { return pour.pouredOn ? *pour.pouredOn : pour.plannedOn.value_or(Date{}); });
    byDate(all<SheetCharge>(), [](const SheetCharge& charge) { return charge.effectiveOn; });
    byDate(all<Ticket>(), [](const Ticket& ticket) { return std::tuple{ticket.date, ticket.supplier, ticket.number}; });
    byDate(all<Statement>(), [](const Statement& statement) { return std::tuple{statement.date, statement.supplier}; });
    plain(all<StatementLine>());
    put(edit, newIds, all<Claim>(), [](const Claim& claim) { return claim.openedOn; }, counted("D"));
    byDate(all<PayRate>(), [](const PayRate& rate) { return rate.fromDate; });
    byDate(all<Bonus>(), [](const Bonus& bonus) { return bonus.earnedTo; });
    plain(all<BurdenRate>());
    byDate(all<Hours>(), [](const Hours& hours) { return std::tuple{hours.date, hours.person}; });
    put(edit, newIds, all<Receipt>(), [](const Receipt& receipt) { return receipt.date; }, counted("R"));
    byDate(all<Overhead>(), [](const Overhead& overhead) { return overhead.year; });
    byDate(all<Visit>(), [](const Visit& visit) { return visit.notBefore.value_or(Date{}); });
    byDate(all<DayForecast>(), [](const DayForecast& day) { return day.date; });
    plain(all<TownDrive>());
    put(edit, newIds, all<Invoice>(), [](const Invoice& invoice) { return invoice.draftedOn; }, counted("I"));
    plain(all<InvoiceLine>());
    put(edit, newIds, all<Payment>(), [](const Payment& payment) { return payment.receivedOn; }, counted("P"));
    plain(all<PaymentShare>());
    put(edit, newIds, all<Credit>(), [](const Credit& credit) { return credit.issuedOn; }, counted("C"));
    return edit;
}

}

#pragma once

#include "record/book.h"
#include "record/edit.h"

#include <array>
#include <string>
#include <tuple>
#include <vector>

namespace strikeoff::demo {

/// The rows while the book is being made up. A row's id counts from 1 within its kind and holds only here; edit() puts the rows
/// into the order an owner would have written them in, numbers them and turns the ids into the edit's own.
class Records {
public:
    template <class Record>
    std::vector<Record>& all() { return std::get<std::vector<Record>>(rows_); }
    template <class Record>
    const std::vector<Record>& all() const { return std::get<std::vector<Record>>(rows_); }

    template <class Record>
    Record& get(Id<Record> id) { return all<Record>()[static_cast<std::size_t>(id.value() - 1)]; }
    template <class Record>
    const Record& get(Id<Record> id) const { return all<Record>()[static_cast<std::size_t>(id.value() - 1)]; }

    template <class Record>
    Id<Record> add(Record record)
    {
        auto& rows = all<Record>();
        record.id = Id<Record>{static_cast<std::int64_t>(rows.size()) + 1};
        rows.push_back(std::move(record));
        return rows.back().id;
    }

    Edit edit(std::string title);

private:
    std::tuple<std::vector<Settings>, std::vector<Customer>, std::vector<Site>, std::vector<FinishingProduct>,
        std::vector<JobType>, std::vector<Supplier>, std::vector<CrewMember>, std::vector<Lead>, std::vector<Job>,
        std::vector<TakeoffSection>, std::vector<Quote>, std::vector<QuoteLine>, std::vector<ChangeOrder>, std::vector<Pour>,
        std::vector<SheetCharge>, std::vector<Ticket>, std::vector<Statement>, std::vector<StatementLine>, std::vector<Claim>,
        std::vector<PayRate>, std::vector<Bonus>, std::vector<BurdenRate>, std::vector<Hours>, std::vector<Receipt>, std::vector<Overhead>, std::vector<Visit>,
        std::vector<DayForecast>, std::vector<TownDrive>, std::vector<Invoice>, std::vector<InvoiceLine>, std::vector<Payment>, std::vector<PaymentShare>,
        std::vector<Credit>>
        rows_;
};

}

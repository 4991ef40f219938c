#pragma once

#include "record/billing.h"
#include "record/cost.h"
#include "record/job.h"
#include "record/people.h"
#include "record/quote.h"
#include "record/ready_mix.h"
#include "record/row.h"
#include "record/settings.h"
#include "record/shelf.h"
#include "record/visit.h"

#include <memory>
#include <tuple>

namespace strikeoff {

class KeyIndex;

/// The id type a reference member holds.
template <auto Member>
struct ReferredId {
    using Type = typename detail::IsOptional<typename detail::MemberOf<Member>::Type>::Inner;
};

/// All records of one outfit as plain data: a shelf a kind, with indexes for what refers to a row and for the names rows go by. The indexes
/// are made when first asked for and kept up from then on, so a Book is not for several threads at once; copy it for a worker.
class Book {
public:
    Book();
    Book(const Book& other);
    Book(Book&&) noexcept;
    Book& operator=(const Book& other);
    Book& operator=(Book&&) noexcept;
    ~Book();

    template <class Record>
    const Shelf<Record>& all() const { return std::get<Shelf<Record>>(shelves_); }

    /// The row an id names, or nullptr (also for a reference that is not recorded).
    template <class Record>
    const Record* find(Id<Record> id) const { return all<Record>().find(id); }
    template <class Record>
    const Record* find(const std::optional<Id<Record>>& id) const { return id ? find(*id) : nullptr; }

    /// The row an id names; DomainError when there is none.
    template <class Record>
    const Record& get(Id<Record> id) const
    {
        const auto* row = find(id);
        if (!row) throw DomainError{"a record that is not in the book"};
        return *row;
    }

    /// The rows whose reference points at an id, in the order of their own ids: book.referring<&Ticket::job>(job.id).
    template <auto Member>
    auto referring(typename ReferredId<Member>::Type id) const;

    /// The one row of settings, or the defaults.
    const Settings& settings() const;

    // Any kind, by description.
    std::size_t count(RecordKind kind) const;
    const void* at(RecordKind kind, std::size_t index) const;
    const void* find(RecordKind kind, std::int64_t id) const;
    std::int64_t idAt(RecordKind kind, std::size_t index) const;
    std::int64_t lastId(RecordKind kind) const;
    /// The row with an id as plain values, or nothing.
    std::optional<Row> row(RecordKind kind, std::int64_t id) const;
    /// Ids of the rows of a kind whose reference field points at an id.
    std::vector<std::int64_t> referring(RecordKind kind, std::size_t field, std::int64_t id) const;
    /// Ids of the rows with these values in the kind's key fields, in the key's order.
    std::vector<std::int64_t> withKey(RecordKind kind, std::span<const Value> key) const;
    /// Whether another row has the same values in the key fields as this one.
    bool isKeyShared(RecordKind kind, std::int64_t id) const;

    /// Adds a row or replaces the one with its id. DomainError when a value does not fit its field; the book is then unchanged.
    void put(const Row& row);
    void erase(RecordKind kind, std::int64_t id);
    void eraseAll(RecordKind kind, std::vector<std::int64_t> ids);
    /// Before many rows are put on one shelf: makes room, and drops what would cost more to keep up than to make again.
    void expectMany(RecordKind kind, std::size_t rows);
    /// For reading a whole shelf: a blank record behind the last one. Ids must rise.
    void* append(RecordKind kind, std::int64_t id, std::int64_t revision);

    /// Counts up with every change; what was reckoned from the book holds while it stands still.
    std::uint64_t version() const { return version_; }

private:
    struct Indexes;
    struct ShelfAccess;
    const KeyIndex& keysOf(RecordKind kind) const;
    static const ShelfAccess& accessTo(RecordKind kind);
    template <class Record> static ShelfAccess accessFor();

    std::tuple<Shelf<Settings>, Shelf<Customer>, Shelf<Site>, Shelf<FinishingProduct>, Shelf<JobType>, Shelf<Supplier>, Shelf<CrewMember>, Shelf<Lead>,
               Shelf<Job>, Shelf<TakeoffSection>, Shelf<Quote>, Shelf<QuoteLine>, Shelf<ChangeOrder>, Shelf<Pour>, Shelf<SheetCharge>, Shelf<Ticket>,
               Shelf<Statement>, Shelf<StatementLine>, Shelf<Claim>, Shelf<PayRate>, Shelf<Bonus>, Shelf<BurdenRate>, Shelf<Hours>, Shelf<Receipt>, Shelf<Overhead>, Shelf<Visit>,
               Shelf<DayForecast>, Shelf<TownDrive>, Shelf<Invoice>, Shelf<InvoiceLine>, Shelf<Payment>, Shelf<PaymentShare>, Shelf<Credit>>
        shelves_;
    std::unique_ptr<Indexes> indexes_;
    std::uint64_t version_ = 0;
};

/// Place among its kind's fields of the member a field describes.
template <auto Member>
std::size_t memberIndex()
{
    static const std::size_t index = [] {
        const auto fields = describe(kindOf<typename detail::MemberOf<Member>::Record>).fields;
        for (std::size_t i = 0; i < fields.size(); ++i)
            if (fields[i].get == &detail::Access<Member>::get) return i;
        throw DomainError{"a member that no field describes"};
    }();
    return index;
}

template <auto Member>
auto Book::referring(typename ReferredId<Member>::Type id) const
{
    using Record = typename detail::MemberOf<Member>::Record;
    std::vector<const Record*> rows;
    for (const auto row : referring(kindOf<Record>, memberIndex<Member>(), id.value())) rows.push_back(find(Id<Record>{row}));
    return rows;
}

}

#pragma once

#include "record/check.h"

#include <catch2/catch.hpp>

#include <string>
#include <string_view>

// Records in tests name the members that matter and leave the rest at their defaults, which GCC 12 warns about even when they are named.
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"

namespace strikeoff {

inline Money usd(std::string_view text) { return Money::parse(text).value(); }
inline UnitPrice each(std::string_view text) { return UnitPrice::parse(text).value(); }
inline Rate percent(std::string_view text) { return Rate::parse(text).value(); }
inline Date on(std::string_view iso) { return Date::parse(iso).value(); }
inline ClockTime at(std::string_view time) { return ClockTime::parse(time).value(); }

/// Fills a book record by record, each under the rules every edit meets: a book that could not exist proves nothing.
class BookMaker {
public:
    Book book;

    template <class Record>
    Id<Record> add(Record record)
    {
        record.id = Id<Record>{book.lastId(kindOf<Record>) + 1};
        record.revision = 1;
        return put(ChangeType::add, record);
    }
    template <class Record, class Change>
    void change(Id<Record> id, Change change)
    {
        auto record = book.get(id);
        change(record);
        put(ChangeType::change, record);
    }

    Id<Customer> customer(const std::string& name) { return add(Customer{.name = name}); }
    Id<Job> job(const std::string& title, Id<Customer> customer)
    {
        return add(Job{.number = std::to_string(1001 + book.all<Job>().size()),
                       .title = title,
                       .customer = customer,
                       .openedOn = on("2026-03-02")});
    }
    /// With a customer of its own.
    Id<Job> job(const std::string& title) { return job(title, customer("Customer of " + title)); }

    Id<Quote> quote(Id<Job> job, const std::string& number, std::string_view drafted = "2026-03-03")
    {
        return add(Quote{.number = number, .job = job, .draftedOn = on(drafted)});
    }
    Id<Quote> acceptedQuote(Id<Job> job, const std::string& number)
    {
        return add(Quote{.number = number,
                         .job = job,
                         .draftedOn = on("2026-03-03"),
                         .sentOn = on("2026-03-04"),
                         .acceptedOn = on("2026-03-10")});
    }
    void quoteLine(Id<Quote> quote, CostClass costClass, std::string_view cost, std::string_view price, bool taxable = true)
    {
        const auto position = static_cast<std::int32_t>(book.referring<&QuoteLine::quote>(quote).size()) + 1;
        add(QuoteLine{.quote = quote,
                      .position = position,
                      .costClass = costClass,
                      .description = "line",
                      .unitCost = each(cost),
                      .unitPrice = each(price),
                      .taxable = taxable});
    }

    Id<Invoice> invoice(Id<Job> job, const std::string& number, InvoiceKind kind, std::string_view issued, std::string_view due)
    {
        return add(
            Invoice{.number = number, .job = job, .kind = kind, .draftedOn = on(issued), .issuedOn = on(issued), .dueOn = on(due)});
    }
    void invoiceLine(Id<Invoice> invoice, std::string_view amount, bool taxable = true)
    {
        const auto position = static_cast<std::int32_t>(book.referring<&InvoiceLine::invoice>(invoice).size()) + 1;
        add(InvoiceLine{
            .invoice = invoice, .position = position, .description = "work", .unitPrice = each(amount), .taxable = taxable});
    }
    Id<Payment> payment(Id<Customer> customer, std::string_view received, std::string_view amount)
    {
        return add(Payment{.number = "P" + std::to_string(1001 + book.all<Payment>().size()),
                           .customer = customer,
                           .receivedOn = on(received),
                           .amount = usd(amount)});
    }
    void share(Id<Payment> payment, Id<Invoice> invoice, std::string_view amount)
    {
        add(PaymentShare{.payment = payment, .invoice = invoice, .amount = usd(amount)});
    }
    /// A payment of the invoice's own customer, all of it on this invoice.
    void paid(Id<Invoice> invoice, std::string_view received, std::string_view amount)
    {
        share(payment(book.get(book.get(invoice).job).customer, received, amount), invoice, amount);
    }

private:
    template <class Record>
    Id<Record> put(ChangeType what, const Record& record)
    {
        Edit edit{"a step of a test"};
        edit.changes().push_back({what, rowOf(record)});
        const auto outcome = applyEdit(book, edit, Freezing::lifted);
        for (const auto& problem : outcome.problems)
            FAIL(std::string{describe(kindOf<Record>).name} << '.' << problem.field << ": " << problem.message);
        return record.id;
    }
};

}

#pragma once

#include "record/choices.h"

namespace strikeoff {

struct Invoice {
    Id<Invoice> id;
    std::int32_t revision = 0;
    std::string number;
    Id<Job> job;
    InvoiceKind kind = InvoiceKind::final;
    Date draftedOn;
    std::optional<Date> issuedOn;
    std::optional<Date> dueOn;
    Rate taxRate;
    Rate retainage;
    std::string heading;
    std::string terms;
    std::string note;
};

struct InvoiceLine {
    Id<InvoiceLine> id;
    std::int32_t revision = 0;
    Id<Invoice> invoice;
    std::int32_t position = 1;
    std::string description;
    Quantity quantity = Quantity::ofWhole(1);
    std::string unit;
    UnitPrice unitPrice;
    bool taxable = true;

    Money amount() const { return lineAmount(unitPrice, quantity); }
};

struct Payment {
    Id<Payment> id;
    std::int32_t revision = 0;
    std::string number;
    Id<Customer> customer;
    Date receivedOn;
    Money amount;
    PaymentMethod method = PaymentMethod::check;
    std::string reference;
    std::string note;
};

struct PaymentShare {
    Id<PaymentShare> id;
    std::int32_t revision = 0;
    Id<Payment> payment;
    Id<Invoice> invoice;
    Money amount;
};

/// A credit note against an issued invoice.
struct Credit {
    Id<Credit> id;
    std::int32_t revision = 0;
    std::string number;
    Id<Invoice> invoice;
    Date issuedOn;
    Money amount;
    std::string reason;
};

}

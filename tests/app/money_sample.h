#pragma once

#include "app/application.h"

#include "job/steps.h"

namespace strikeoff::test {

/// A customer with a job, and invoices on it that are issued as the owner would: drafted with a line, then issued.
struct MoneySample {
    Office& office;
    Id<Customer> customer;
    Id<Job> job;

    explicit MoneySample(Office& in, const char* name = "Nora Bell") : office{in}, customer{in.addCustomer(name)}, job{in.addJob(customer, "Patio by the creek")} {}

    Id<Invoice> draft(const char* drafted, const char* amount)
    {
        Edit edit{"Draft"};
        Invoice invoice;
        invoice.job = job;
        invoice.draftedOn = day(drafted);
        InvoiceLine line;
        line.invoice = edit.add(invoice);
        line.description = "Patio";
        line.unitPrice = *UnitPrice::parse(amount);
        line.taxable = false;
        edit.add(line);
        return Id<Invoice>{office.commit(edit).front()};
    }
    Id<Invoice> issued(const char* on, const char* due, const char* amount)
    {
        const auto id = draft(on, amount);
        auto invoice = office.book().get(id);
        invoice.issuedOn = day(on);
        invoice.dueOn = day(due);
        Edit edit{"Issue"};
        edit.change(invoice);
        office.commit(edit);
        return id;
    }
};

}

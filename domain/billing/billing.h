#pragma once

#include "record/book.h"

#include <array>
#include <span>
#include <string>
#include <vector>

namespace strikeoff {

/// Sales tax on taxable amounts: on each and rounded each time, or once on their sum.
Money salesTax(std::span<const Money> taxable, Rate rate, TaxBasis basis);
/// Whether the job's customer pays no sales tax.
bool isTaxExempt(const Book& book, Id<Job> job);

/// An invoice added up.
struct InvoiceTotal {
    Money net;        ///< sum of the lines, each rounded once
    Money tax;        ///< by setting on each line or once on the sum of the taxable lines; none for a customer who is exempt
    Money total;      ///< net + tax
    Money retained;   ///< retainage held back, of net; an invoice that releases retainage holds none
    Money payable;    ///< total − retained
    Money paid;       ///< shares of payments received up to the day asked
    Money credited;   ///< credits issued up to that day
    Money balance;    ///< payable − paid − credited; nothing while it is a draft on that day

    /// A credit took all of it back: it is as if it had never been sent.
    bool isVoid() const { return payable > Money{} && credited >= payable; }
};
InvoiceTotal totalOf(const Book& book, const Invoice& invoice, std::optional<Date> asOf = {});

/// Last day to pay; for an issued invoice that lacks it, by the customer's terms, else the settings'.
Date dueDay(const Book& book, const Invoice& invoice);

/// What was billed and received on a job. Invoices taken back in full by a credit do not count.
struct JobBilling {
    Money net;            ///< lines of issued invoices, tax not included, less the credits' net share; a release of retainage is not counted again
    Money paid;           ///< shares of payments, tax included
    Money balance;        ///< owed on issued invoices
    Money retainageHeld;  ///< held back and not billed yet
    bool anyIssued = false;
    bool inFull = false;            ///< a final invoice was issued and no change order accepted since, or the whole bid is billed
    std::optional<Date> lastFinal;  ///< the day of the last final invoice
    const Invoice* draft = nullptr; ///< an invoice that was not issued yet
};
JobBilling billingOf(const Book& book, Id<Job> job);

enum class AgingBucket { notDue, days1to30, days31to60, days61to90, over90 };
inline constexpr std::array agingBucketChoices{Choice{"not_due", "Not due"}, Choice{"days_1_30", "1\u201330 days"}, Choice{"days_31_60", "31\u201360 days"},
                                               Choice{"days_61_90", "61\u201390 days"}, Choice{"over_90", "Over 90 days"}};
template <> inline constexpr std::span<const Choice> choicesOf<AgingBucket> = agingBucketChoices;
AgingBucket bucketOf(int daysLate);

struct OwedInvoice {
    const Invoice* invoice = nullptr;
    const Customer* customer = nullptr;
    Date due;
    Money balance;
    int daysLate = 0;  ///< negative or zero while not past due
    AgingBucket bucket{};
    Money lateCharge;  ///< simple, at the settings' monthly rate, days past due over 365; zero without a rate
};

/// Who owes what on a day: every issued invoice with a balance, the latest first. An overpaid one has a negative balance, is never late and
/// counts as not due.
struct Owed {
    std::vector<OwedInvoice> invoices;
    std::array<Money, 5> buckets{};
    Money total;
    Money unassigned;    ///< received by that day and not split over invoices; not taken off the total
    std::string answer;  ///< in one sentence with numbers
};
Owed owedOn(const Book& book, Date day);

/// Interest: principal × rate × days / yearDays, rounded once, half up.
Money simpleInterest(Money principal, Rate yearly, int days, int yearDays);

/// One line of a customer's statement of account.
struct AccountLine {
    Date date;
    std::string what;  ///< "Invoice I1004", "Payment, check 2210", …
    Money charge;
    Money received;
    Money balance;
};
std::vector<AccountLine> statementOfAccount(const Book& book, Id<Customer> customer, Date upTo);

/// Splits a payment received on a day over the customer's invoices issued by then that still have a balance (later payments taken off), the
/// oldest due first; what is left over is not assigned.
std::vector<std::pair<Id<Invoice>, Money>> spreadPayment(const Book& book, Id<Customer> customer, Money amount, Date day);

/// Draft rows for the next invoice of a job, without ids or number (the book gives them):
/// - deposit: the accepted quote's rate of its price, once;
/// - final: what was bid and changed, less what was billed; after a final invoice only the change orders accepted since;
/// - progress: the share of the pours that are poured, less what was billed;
/// - retainage: what was held back and not released, without tax (it was on the invoice that held it).
/// Parts with and without sales tax stand on lines of their own. Nothing when there is no accepted quote (retainage needs none) or nothing is
/// left to bill.
struct InvoiceDraft {
    Invoice invoice;
    std::vector<InvoiceLine> lines;
};
std::optional<InvoiceDraft> draftInvoice(const Book& book, const Job& job, InvoiceKind kind, Date day);

}

#pragma once

#include "record/book.h"

#include <array>
#include <string>
#include <vector>

namespace strikeoff {

/// An invoice added up.
struct InvoiceTotal {
    Money net;        ///< sum of the lines, each rounded once
    Money tax;        ///< by setting on each line or once on the sum of the taxable lines
    Money total;      ///< net + tax
    Money retained;   ///< retainage held back, of net
    Money payable;    ///< total − retained
    Money paid;       ///< shares of payments received up to the day asked
    Money credited;   ///< credits issued up to that day
    Money balance;    ///< payable − paid − credited; nothing while it is a draft
};
InvoiceTotal totalOf(const Book& book, const Invoice& invoice, std::optional<Date> asOf = {});

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

/// Who owes what on a day: every issued invoice with a balance, the latest first.
struct Owed {
    std::vector<OwedInvoice> invoices;
    std::array<Money, 5> buckets{};
    Money total;
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

/// Splits a payment over a customer's open invoices, the oldest due first; what is left over is not assigned.
std::vector<std::pair<Id<Invoice>, Money>> spreadPayment(const Book& book, Id<Customer> customer, Money amount, Date day);

/// Draft rows for the next invoice of a job: the deposit by the accepted quote's rate, or the final one with what was bid and changed, less what was
/// billed. Nothing when there is no accepted quote or nothing is left to bill.
struct InvoiceDraft {
    Invoice invoice;
    std::vector<InvoiceLine> lines;
};
std::optional<InvoiceDraft> draftInvoice(const Book& book, const Job& job, InvoiceKind kind, Date day);

}

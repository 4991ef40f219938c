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
/// The same for lines that need not be in the book yet.
InvoiceTotal totalOf(const Book& book, const Invoice& invoice, std::span<const InvoiceLine* const> lines, std::optional<Date> asOf = {});
/// What the lines come to, in one sentence: lines, tax, retainage held back, what is to be paid.
std::string invoiceAnswer(const InvoiceTotal& total);

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
/// With a day, only what was issued, credited and paid by its end; billed in full is then only what a final invoice closed.
JobBilling billingOf(const Book& book, Id<Job> job, std::optional<Date> upTo = {});

enum class AgingBucket { notDue, days1to30, days31to60, days61to90, over90 };
inline constexpr std::array agingBucketChoices{Choice{"not_due", "Not due"}, Choice{"days_1_30", "1\u201330 days"}, Choice{"days_31_60", "31\u201360 days"},
                                               Choice{"days_61_90", "61\u201390 days"}, Choice{"over_90", "Over 90 days"}};
template <> inline constexpr std::span<const Choice> choicesOf<AgingBucket> = agingBucketChoices;
AgingBucket bucketOf(int daysLate);

enum class InvoiceState { draft, owed, late, paid, overpaid, takenBack };
inline constexpr std::array invoiceStateChoices{Choice{"draft", "Draft"}, Choice{"owed", "Owed"}, Choice{"late", "Late"},
                                                Choice{"paid", "Paid"}, Choice{"overpaid", "Overpaid"}, Choice{"taken_back", "Taken back"}};
template <> inline constexpr std::span<const Choice> choicesOf<InvoiceState> = invoiceStateChoices;

/// Where one invoice stands on a day.
struct InvoiceStanding {
    InvoiceTotal total;
    Date due;          ///< as it is or would be
    int daysLate = 0;  ///< negative or zero while not past due; never positive without a balance
    AgingBucket bucket{};
    Money lateCharge;  ///< simple, at the settings' monthly rate, days past due over 365; zero without a rate
    InvoiceState state{};
};
InvoiceStanding standingOf(const Book& book, const Invoice& invoice, Date day);

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

/// Retainage held back on all jobs and not billed yet.
Money retainageHeld(const Book& book);

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

/// What one customer owes on a day.
struct CustomerAccount {
    const Customer* customer = nullptr;
    int open = 0;             ///< invoices with a balance
    Money owed;               ///< on them
    Money late;               ///< of this past due
    int daysLate = 0;         ///< of the oldest
    Money unassigned;         ///< received and not split over invoices
    Money balance() const { return owed - unassigned; }
};
/// The accounts with a balance or with money that is not assigned, the latest first, then the largest.
std::vector<CustomerAccount> accountsOn(const Book& book, Date day);
CustomerAccount accountOf(const Book& book, Id<Customer> customer, Date day);
/// "Nora Bell owes $412.50 on two invoices; $200.00 of it is past due, the oldest by 12 days."
std::string accountAnswer(const CustomerAccount& account);

/// The credit that would take back what is still open on an issued invoice, without number or reason.
Credit proposedCredit(const Book& book, const Invoice& invoice, Date day);

/// An invoice a payment can go to: what is open on it without this payment, and this payment's share.
struct SplitLine {
    Id<Invoice> invoice;
    std::string number;
    Date due;
    Money open;
    Money share;
};
/// How a payment is split over its customer's invoices, the oldest due first: one of the book as it is recorded, along with the other invoices open
/// on its day; a new one (without id) as spreadPayment proposes.
std::vector<SplitLine> splitOf(const Book& book, const Payment& payment);
/// A split added up.
struct SplitSum {
    Money shared;
    Money left;            ///< not assigned; negative when more is split than came in
    std::string sentence;  ///< what goes where, or what does not add up and what to do
    bool addsUp = true;
};
SplitSum addUp(Money amount, std::span<const SplitLine> lines);

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

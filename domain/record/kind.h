#pragma once

#include <cstddef>

namespace strikeoff {

/// The kinds of record a book keeps, in the order in which they can be loaded: what is referred to comes first.
enum class RecordKind {
    settings,
    customer,
    site,
    finishingProduct,
    jobType,
    supplier,
    crewMember,
    lead,
    job,
    takeoffSection,
    quote,
    quoteLine,
    changeOrder,
    pour,
    priceSheet,
    ticket,
    statement,
    statementLine,
    claim,
    payRate,
    bonus,
    burdenRate,
    hours,
    receipt,
    overhead,
    visit,
    forecast,
    townDrive,
    invoice,
    invoiceLine,
    payment,
    paymentShare,
    credit,
};

inline constexpr std::size_t kindCount = 33;
/// Stands for "refers to nothing" in a field's description.
inline constexpr RecordKind noKind = static_cast<RecordKind>(-1);

struct Settings;
struct Customer;
struct Site;
struct JobType;
struct FinishingProduct;
struct Supplier;
struct CrewMember;
struct Lead;
struct Job;
struct TakeoffSection;
struct Quote;
struct QuoteLine;
struct ChangeOrder;
struct Pour;
struct SheetCharge;
struct Ticket;
struct Statement;
struct StatementLine;
struct Claim;
struct PayRate;
struct Bonus;
struct BurdenRate;
struct Hours;
struct Receipt;
struct Overhead;
struct Visit;
struct DayForecast;
struct TownDrive;
struct Invoice;
struct InvoiceLine;
struct Payment;
struct PaymentShare;
struct Credit;

/// The kind of a record type: kindOf<Job> is RecordKind::job.
template <class Record>
inline constexpr RecordKind kindOf = noKind;
template <> inline constexpr RecordKind kindOf<Settings> = RecordKind::settings;
template <> inline constexpr RecordKind kindOf<Customer> = RecordKind::customer;
template <> inline constexpr RecordKind kindOf<Site> = RecordKind::site;
template <> inline constexpr RecordKind kindOf<JobType> = RecordKind::jobType;
template <> inline constexpr RecordKind kindOf<FinishingProduct> = RecordKind::finishingProduct;
template <> inline constexpr RecordKind kindOf<Supplier> = RecordKind::supplier;
template <> inline constexpr RecordKind kindOf<CrewMember> = RecordKind::crewMember;
template <> inline constexpr RecordKind kindOf<Lead> = RecordKind::lead;
template <> inline constexpr RecordKind kindOf<Job> = RecordKind::job;
template <> inline constexpr RecordKind kindOf<TakeoffSection> = RecordKind::takeoffSection;
template <> inline constexpr RecordKind kindOf<Quote> = RecordKind::quote;
template <> inline constexpr RecordKind kindOf<QuoteLine> = RecordKind::quoteLine;
template <> inline constexpr RecordKind kindOf<ChangeOrder> = RecordKind::changeOrder;
template <> inline constexpr RecordKind kindOf<Pour> = RecordKind::pour;
template <> inline constexpr RecordKind kindOf<SheetCharge> = RecordKind::priceSheet;
template <> inline constexpr RecordKind kindOf<Ticket> = RecordKind::ticket;
template <> inline constexpr RecordKind kindOf<Statement> = RecordKind::statement;
template <> inline constexpr RecordKind kindOf<StatementLine> = RecordKind::statementLine;
template <> inline constexpr RecordKind kindOf<Claim> = RecordKind::claim;
template <> inline constexpr RecordKind kindOf<PayRate> = RecordKind::payRate;
template <> inline constexpr RecordKind kindOf<Bonus> = RecordKind::bonus;
template <> inline constexpr RecordKind kindOf<BurdenRate> = RecordKind::burdenRate;
template <> inline constexpr RecordKind kindOf<Hours> = RecordKind::hours;
template <> inline constexpr RecordKind kindOf<Receipt> = RecordKind::receipt;
template <> inline constexpr RecordKind kindOf<Overhead> = RecordKind::overhead;
template <> inline constexpr RecordKind kindOf<Visit> = RecordKind::visit;
template <> inline constexpr RecordKind kindOf<DayForecast> = RecordKind::forecast;
template <> inline constexpr RecordKind kindOf<TownDrive> = RecordKind::townDrive;
template <> inline constexpr RecordKind kindOf<Invoice> = RecordKind::invoice;
template <> inline constexpr RecordKind kindOf<InvoiceLine> = RecordKind::invoiceLine;
template <> inline constexpr RecordKind kindOf<Payment> = RecordKind::payment;
template <> inline constexpr RecordKind kindOf<PaymentShare> = RecordKind::paymentShare;
template <> inline constexpr RecordKind kindOf<Credit> = RecordKind::credit;

}

#include "record/billing.h"
#include "record/fields.h"

namespace strikeoff {

namespace {

constexpr std::array invoiceFields{
    field<&Invoice::number>("number", "Number", "given by the book when left blank"),
    field<&Invoice::job>("job", "Job", "which job is billed"),
    field<&Invoice::kind>("kind", "Kind", "").defaulted(),
    field<&Invoice::draftedOn>("drafted_on", "Drafted", "the day it was begun"),
    field<&Invoice::issuedOn>("issued_on", "Issued", "the day it went out; from then on it stays as it is"),
    field<&Invoice::dueOn>("due_on", "Due", "last day to pay"),
    field<&Invoice::taxRate>("tax_pct", "Sales tax", "on taxable lines").in("%").within(0, 1'000'000).defaulted(),
    field<&Invoice::retainage>("retainage_pct", "Retainage", "held back until released").in("%").within(0, 1'000'000).defaulted(),
    field<&Invoice::heading>("heading", "Heading", "what it is for, as the customer reads it"),
    field<&Invoice::terms>("terms", "Terms", "").as(FieldType::note),
    field<&Invoice::note>("note", "Note", "for ourselves; not printed").as(FieldType::note),
};
constexpr std::array<std::string_view, 1> invoiceKey{"number"};

constexpr std::array invoiceLineFields{
    field<&InvoiceLine::invoice>("invoice", "Invoice", "which invoice"),
    field<&InvoiceLine::position>("position", "No.", "place on the invoice").within(1, 9999),
    field<&InvoiceLine::description>("description", "Description", "as the customer reads it").needed(),
    field<&InvoiceLine::quantity>("quantity", "Quantity", "").within(-1'000'000'000, 1'000'000'000).defaulted(),
    field<&InvoiceLine::unit>("unit", "Unit", ""),
    field<&InvoiceLine::unitPrice>("unit_price", "Unit price", "").in("$").within(-mostPrice, mostPrice),
    field<&InvoiceLine::taxable>("taxable", "Taxable", "sales tax is on it"),
};
constexpr std::array<std::string_view, 2> invoiceLineKey{"invoice", "position"};

constexpr std::array paymentFields{
    field<&Payment::number>("number", "Number", "given by the book when left blank"),
    field<&Payment::customer>("customer", "Customer", "who paid"),
    field<&Payment::receivedOn>("received_on", "Received", "the day it came in"),
    field<&Payment::amount>("amount", "Amount", "all of it").in("$").within(1, mostMoney),
    field<&Payment::method>("method", "How", "").defaulted(),
    field<&Payment::reference>("reference", "Reference", "check number"),
    field<&Payment::note>("note", "Note", "").as(FieldType::note),
};
constexpr std::array<std::string_view, 1> paymentKey{"number"};

constexpr std::array paymentShareFields{
    field<&PaymentShare::payment>("payment", "Payment", "which payment"),
    field<&PaymentShare::invoice>("invoice", "Invoice", "which invoice it pays"),
    field<&PaymentShare::amount>("amount", "Amount", "how much of it").in("$").within(1, mostMoney),
};
constexpr std::array<std::string_view, 2> paymentShareKey{"payment", "invoice"};

constexpr std::array creditFields{
    field<&Credit::number>("number", "Number", "given by the book when left blank"),
    field<&Credit::invoice>("invoice", "Invoice", "the invoice it takes from"),
    field<&Credit::issuedOn>("issued_on", "Issued", ""),
    field<&Credit::amount>("amount", "Amount", "tax included").in("$").within(1, mostMoney),
    field<&Credit::reason>("reason", "Reason", "as the customer reads it").needed(),
};
constexpr std::array<std::string_view, 1> creditKey{"number"};

}

namespace fields {

constinit const KindDescription invoice{RecordKind::invoice, "invoice", "Invoice", "Invoices", "a bill to a customer; a correction after issuing is a credit", invoiceFields, invoiceKey, "I"};
constinit const KindDescription invoiceLine{RecordKind::invoiceLine, "invoice_line", "Invoice line", "Invoice lines", "one line of an invoice", invoiceLineFields, invoiceLineKey, {}};
constinit const KindDescription payment{RecordKind::payment, "payment", "Payment", "Payments", "money a customer sent", paymentFields, paymentKey, "P"};
constinit const KindDescription paymentShare{RecordKind::paymentShare, "payment_share", "Payment share", "Payment shares", "the part of a payment that pays one invoice", paymentShareFields, paymentShareKey, {}};
constinit const KindDescription credit{RecordKind::credit, "credit", "Credit", "Credits", "an amount taken off an issued invoice", creditFields, creditKey, "C"};

}

}

#include "verbs/verb.h"

#include "billing/billing.h"
#include "json_writer.h"
#include "text_table.h"

#include <ostream>

namespace strikeoff {

namespace {

std::string asJson(const Owed& owed)
{
    JsonWriter json;
    json.beginObject().key("invoices").beginArray();
    for (const auto& open : owed.invoices) {
        json.beginObject().text("invoice", open.invoice->number).textOrNull("customer", open.customer ? open.customer->name : "");
        json.date("due", open.due)
            .money("balance", open.balance)
            .whole("days_late", open.daysLate)
            .text("bucket", codeOf(open.bucket))
            .end();
    }
    json.end().key("buckets").beginObject();
    for (std::size_t i = 0; i < owed.buckets.size(); ++i) json.key(agingBucketChoices[i].code).money(owed.buckets[i]);
    json.end().money("total", owed.total).end();
    return json.finished();
}

std::string asText(const Owed& owed)
{
    auto text = owed.answer + '\n';
    if (owed.invoices.empty()) return text;
    TextTable invoices;
    invoices.words("Invoice")
        .words("Customer", 32)
        .words("Due")
        .figures("Days late")
        .words("Bucket")
        .figures("Balance $")
        .figures("Late charge $");
    for (const auto& open : owed.invoices)
        invoices.row({open.invoice->number, open.customer ? open.customer->name : "\u2013", open.due.shown(),
                      open.daysLate > 0 ? std::to_string(open.daysLate) : "", std::string{labelOf(open.bucket)},
                      open.balance.shown(), open.lateCharge.isZero() ? "" : open.lateCharge.shown()});
    TextTable buckets;
    buckets.words("Bucket").figures("Balance $");
    for (std::size_t i = 0; i < owed.buckets.size(); ++i)
        buckets.row({std::string{agingBucketChoices[i].label}, owed.buckets[i].shown()});
    buckets.row({"Total", owed.total.shown()});
    return text + '\n' + invoices.text() + '\n' + buckets.text();
}

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto day = arguments.date(surroundings.today);
    const auto store = openToRead(arguments.words[0]);
    const auto owed = owedOn(store->book(), day);
    surroundings.out << (arguments.has("json") ? asJson(owed) : asText(owed));
    return done;
}

}

const Verb owedVerb{
    "owed",
    "BOOK",
    "who owes me: open invoices by days past due",
    {dateOption, jsonOption},
    "A late charge is shown only where the settings have a rate; whether it may be asked depends on your contract and state.\n",
    run};

}

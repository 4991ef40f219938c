#include "page.h"
#include "records/records_page.h"

#include <QCoreApplication>

namespace strikeoff {

namespace {

QString words(const char* text) { return QCoreApplication::translate("Pages", text); }

/// A page that lists and edits its records, with nothing reckoned yet.
std::function<Page*(Desk&)> recordsOf(const char* question, std::vector<RecordKind> kinds)
{
    return [question, kinds](Desk& desk) -> Page* {
        std::vector<PanelSetup> tabs;
        for (const auto kind : kinds) tabs.push_back({.kind = kind});
        return new RecordsPage{desk, words(question), std::move(tabs)};
    };
}

}

std::vector<PageEntry> allPages()
{
    using enum RecordKind;
    const std::vector jobs{job, lead, customer, site, takeoffSection, quote, quoteLine, changeOrder, pour, receipt};
    const std::vector tickets{ticket, statement, statementLine, claim};
    const std::vector visits{visit, forecast};
    const std::vector money{invoice, invoiceLine, payment, paymentShare, credit};
    const std::vector rates{hours, crewMember, payRate, supplier, priceSheet, finishingProduct, jobType, overhead, settings};
    return {
        {words("Day sheet"), recordsOf("What needs me today?", {lead, pour, visit}), {}},
        {words("Job folders"), recordsOf("Where does each job stand?", jobs), jobs},
        {words("Ticket desk"), recordsOf("Does the supplier\u2019s bill agree with my tickets?", tickets), tickets},
        {words("Return visits"), recordsOf("Who do I go back to, and when?", visits), visits},
        {words("Money in"), recordsOf("Who owes me?", money), money},
        {words("What pays"), recordsOf("Which work makes money?", {jobType}), {}},
        {words("Seasons"), recordsOf("How do the seasons move price and pace?", {priceSheet}), {}},
        {words("Rates"), recordsOf("What do my hours and yards cost me?", rates), rates},
    };
}

}

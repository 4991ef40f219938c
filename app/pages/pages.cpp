#include "page.h"
#include "pages/rates/rates_page.h"
#include "pages/seasons/seasons_page.h"
#include "pages/ticket_desk/ticket_desk_page.h"
#include "pages/visits/visits_page.h"
#include "pages/what_pays/what_pays_page.h"
#include "records/records_page.h"

#include <QCoreApplication>

namespace strikeoff {

namespace {

QString words(const char* text) { return QCoreApplication::translate("Pages", text); }

template <class PageType>
std::function<Page*(Desk&)> pageOf()
{
    return [](Desk& desk) -> Page* { return new PageType{desk}; };
}

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
        {words("Ticket desk"), pageOf<TicketDeskPage>(), tickets},
        {words("Return visits"), pageOf<VisitsPage>(), visits},
        {words("Money in"), recordsOf("Who owes me?", money), money},
        {words("What pays"), pageOf<WhatPaysPage>(), {}},
        {words("Seasons"), pageOf<SeasonsPage>(), {}},
        {words("Rates"), pageOf<RatesPage>(), rates},
    };
}

}

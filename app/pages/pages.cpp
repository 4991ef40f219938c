#include "page.h"
#include "pages/day_sheet/day_sheet_page.h"
#include "pages/job_folders/job_folders_page.h"
#include "pages/money_in/money_in_page.h"
#include "pages/rates/rates_page.h"
#include "pages/seasons/seasons_page.h"
#include "pages/ticket_desk/ticket_desk_page.h"
#include "pages/visits/visits_page.h"
#include "pages/what_pays/what_pays_page.h"

#include <QCoreApplication>

namespace strikeoff {

namespace {

QString words(const char* text) { return QCoreApplication::translate("Pages", text); }

template <class PageType>
std::function<Page*(Desk&, QWidget*)> pageOf()
{
    return [](Desk& desk, QWidget* parent) -> Page* { return new PageType{desk, parent}; };
}

}

std::vector<PageEntry> allPages()
{
    using enum RecordKind;
    const std::vector jobs{job, lead, customer, site, takeoffSection, quote, quoteLine, changeOrder, pour, receipt};
    const std::vector tickets{ticket, statement, statementLine, claim};
    const std::vector visits{visit, forecast, townDrive};
    const std::vector money{invoice, invoiceLine, payment, paymentShare, credit};
    const std::vector rates{hours, crewMember, payRate, bonus, burdenRate, supplier, priceSheet, finishingProduct, jobType, overhead, settings};
    return {
        {words("Day sheet"), pageOf<DaySheetPage>(), {}},
        {words("Job folders"), pageOf<JobFoldersPage>(), jobs},
        {words("Ticket desk"), pageOf<TicketDeskPage>(), tickets},
        {words("Return visits"), pageOf<VisitsPage>(), visits},
        {words("Money in"), pageOf<MoneyInPage>(), money},
        {words("What pays"), pageOf<WhatPaysPage>(), {}},
        {words("Seasons"), pageOf<SeasonsPage>(), {}},
        {words("Rates"), pageOf<RatesPage>(), rates},
    };
}

}

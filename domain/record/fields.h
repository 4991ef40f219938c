#pragma once

#include "record/description.h"

/// The descriptions of all kinds, one by one; describe() and allKinds() are the way to them.
namespace strikeoff::fields {

extern const KindDescription settings, customer, site, jobType, finishingProduct, supplier, crewMember, lead, job, takeoffSection, quote, quoteLine,
    changeOrder, pour, priceSheet, ticket, statement, statementLine, claim, payRate, bonus, burdenRate, hours, receipt, overhead, visit, forecast, townDrive, invoice, invoiceLine,
    payment, paymentShare, credit;

}

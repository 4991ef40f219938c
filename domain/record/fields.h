#pragma once

#include "record/description.h"

namespace strikeoff {

inline constexpr std::int64_t mostMoney = 100'000'000'000;  ///< cents a field of money takes: a thousand million dollars
inline constexpr std::int64_t mostPrice = 100'000'000'000;  ///< ten-thousandths a unit price takes: ten million dollars

}

/// The descriptions of all kinds, one by one; describe() and allKinds() are the way to them.
namespace strikeoff::fields {

extern const KindDescription settings, customer, site, jobType, finishingProduct, supplier, crewMember, lead, job, takeoffSection, quote, quoteLine,
    changeOrder, pour, priceSheet, ticket, statement, statementLine, claim, payRate, bonus, burdenRate, hours, receipt, overhead, visit, forecast, townDrive, invoice, invoiceLine,
    payment, paymentShare, credit;

}

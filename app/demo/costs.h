#pragma once

#include "demo/world.h"

namespace strikeoff::demo {

/// What things cost in the made-up county on a day; a bid looks at what was paid some months before.
inline UnitPrice basePerTon(Date date) { return grown(21'50, 42, date); }
inline UnitPrice formsPerFoot(Date date) { return grown(1'28, 45, date); }
inline UnitPrice meshPerSqft(Date date) { return grown(43, 36, date); }
inline UnitPrice barPerSqft(Date date) { return grown(71, 36, date); }
inline UnitPrice jointPerFoot(Date date) { return grown(52, 30, date); }
inline UnitPrice pumpPerPour(Date date) { return grown(540'00, 35, date); }
inline UnitPrice dumpPerLoad(Date date) { return grown(96'00, 30, date); }
inline UnitPrice compactorPerDay(Date date) { return grown(74'00, 38, date); }
inline UnitPrice bladePerFoot(Date date) { return grown(21, 20, date); }
inline UnitPrice permitFee(Date date) { return grown(55'00, 25, date); }

/// Days by which the owner's price list lags behind what is paid.
inline constexpr int priceListLag = 210;

}

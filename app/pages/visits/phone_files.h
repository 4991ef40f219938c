#pragma once

#include "desk.h"

namespace strikeoff {

/// Writes the planned visits and pours of the next two weeks as a calendar for the phone (RFC 5545). Asks for the file unless one is given; false when
/// nothing was written.
bool saveCalendar(Desk& desk, const QString& path = {});
/// Writes the addresses of those visits and pours as cards for the phone (RFC 6350).
bool saveAddresses(Desk& desk, const QString& path = {});

}

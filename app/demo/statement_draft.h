#pragma once

#include "demo/world.h"
#include "ready_mix/expected_charge.h"

namespace strikeoff::demo {

/// A line as the supplier is about to print it, and what is wrong with it.
struct DraftLine {
    ChargeKind kind{};
    std::string code, description;
    std::optional<Quantity> quantity;
    std::string unit;
    std::optional<UnitPrice> unitPrice;
    Money amount;
    bool taxable = false;
    std::optional<PlantedFault> fault;
    int event = -1;              ///< faults of one cause share a number
    std::optional<int> credits;  ///< the event this line gives back
};

/// The lines of one load.
struct DraftLoad {
    const Ticket* ticket = nullptr;  ///< none for a load that never came and for lines without a ticket
    std::string printedNumber;
    Date date;
    std::vector<DraftLine> lines;
    bool faulty = false;
};

struct DraftStatement {
    std::size_t supplier = 0;
    Date month;                      ///< its first day
    std::vector<DraftLoad> loads;
    std::vector<PlantedFault> whole; ///< faults of no line
    Money totalOff;                  ///< printed total less the sum of the lines
    bool numbersFaulty = false;      ///< a number mistyped, a load left out or one too many: at most one of these a statement
    int faults = 0;
    std::string number;
    Date date() const { return lastOfMonth(month); }
};

/// What a fault cost and whether it was noticed: one per event.
struct FaultEvent {
    std::size_t statement = 0;
    Money comesBack;
    std::string reason;
    const Ticket* ticket = nullptr;
};

/// Spoils the drafts, every kind of fault at least once, and returns what was done.
std::vector<FaultEvent> plantFaults(World& world, std::vector<DraftStatement>& drafts);

/// A line of the sheet in the supplier's words.
DraftLine draftLine(const ChargeLine& line, const std::string& meaning);

}

#include "demo/demonstration.h"

#include "demo/world.h"

namespace strikeoff {

namespace {

demo::World makeWorld()
{
    demo::World world;
    demo::makeOutfit(world);
    demo::makeCatalog(world);
    demo::makePriceSheets(world);
    demo::planJobs(world);
    demo::makeQuotes(world);
    demo::planPours(world);
    demo::makeTickets(world);
    demo::makeStatements(world);
    demo::makeVisits(world);
    demo::makeHours(world);
    demo::makeReceipts(world);
    demo::makeInvoices(world);
    demo::makeForecasts(world);
    return world;
}

constexpr std::array samples{
    RecordKind::customer,
    RecordKind::site,
    RecordKind::finishingProduct,
    RecordKind::jobType,
    RecordKind::supplier,
    RecordKind::crewMember,
    RecordKind::lead,
    RecordKind::job,
    RecordKind::pour,
    RecordKind::priceSheet,
    RecordKind::ticket,
    RecordKind::statement,
    RecordKind::statementLine,
    RecordKind::payRate,
    RecordKind::bonus,
    RecordKind::burdenRate,
    RecordKind::hours,
    RecordKind::forecast,
    RecordKind::townDrive,
};
}

Edit demonstrationEdit() { return makeWorld().records.edit("Demonstration book"); }

std::vector<PlantedFault> plantedFaults() { return makeWorld().faults; }

Date demonstrationDay() { return demo::today(); }

std::span<const RecordKind> demonstrationSamples() { return samples; }

}

#pragma once

#include "demo/crew_book.h"
#include "demo/demonstration.h"
#include "demo/random.h"
#include "demo/records.h"
#include "demo/weather.h"

#include <array>
#include <string_view>
#include <vector>

namespace strikeoff::demo {

enum class Work { patio, driveway, walk, garage, steps, poolDeck, shedPad, apron };
inline constexpr std::size_t workCount = 8;

enum class ProductIndex { cureAndSeal, gloss, saltward, densifier };
inline constexpr std::size_t productCount = 4;

/// What sets one kind of work apart: how it is measured, bid and priced, and how it truly goes.
struct WorkTraits {
    const char* name;
    int thicknessIn;
    int allowancePct;
    int bidPaceTenths;      ///< ft² per crew-hour the bid reckons with, in tenths
    int markupPct;
    SurfaceFinish finish;
    ProductIndex product;
    int resealMonths;       ///< 0 for none
    int leastSqft, mostSqft;
    int share;              ///< of all jobs, in a thousand
    int prepTruth;          ///< hours that preparing truly takes, in a thousandth of the bid's
    std::array<int, 6> phasePct;  ///< of the bid's hours: prep & form, place, finish, strip & cut, seal, travel
    int overOrder;          ///< concrete it truly takes, in a thousandth of the measured volume
    int strength;           ///< psi of the usual mix
    const char* note;
};
const WorkTraits& traitsOf(Work work);

inline constexpr std::size_t townCount = 8;
struct Town {
    const char* name;
    int latitudeMicro, longitudeMicro;  ///< offset from the shop, millionths of a degree
    int driveMinutes;
};
const Town& townAt(std::size_t index);
Degrees shopLatitude();
Degrees shopLongitude();

enum class CustomerType { homeowner, builder, business, exempt };

struct CustomerInfo {
    Id<Customer> id;
    CustomerType type{};
    std::size_t town = 0;
    std::vector<Id<Site>> sites;
};

/// One load on its way from batching to empty, in minutes after midnight.
struct Truck {
    Yards yards;
    int batched = 0, arrived = 0, began = 0, ended = 0;
};

/// One pour of a job: what was planned, and what came of it when its day is past.
struct PourPlan {
    int sequence = 1;
    Date planned;           ///< the day first agreed on
    Date on;                ///< the day it was, or is now, planned for
    double areaSqft = 0;
    double volumeYards = 0;
    Yards ordered;
    std::size_t supplier = 0;
    int strength = 0;
    bool fiber = false, accelerator = false, retarder = false, heat = false, tint = false, afterHours = false, holiday = false;
    int placedAt = 0;       ///< minutes after midnight
    int placedUntil = 0;    ///< the last truck empty
    int broomedAt = 0;
    int finishedAt = 0;
    std::vector<std::size_t> crew;
    std::vector<Truck> trucks;
    Yards returned;
    Id<Pour> id;
    bool done() const { return on < today(); }
};

/// What a job takes besides concrete and hours, as the bid reckons it.
struct Materials {
    std::int64_t baseHalfTons = 0;
    std::int64_t formsFt = 0;
    std::int64_t steelSqft = 0;
    std::int64_t jointFt = 0;
    std::int64_t sealerTenths = 0;  ///< tenths of a gallon
    std::int64_t dumpLoads = 0;
};

enum class Fate { won, declined, dropped, unanswered };

/// A job from the first call to the last check, before its records are written.
struct JobPlan {
    Work work{};
    Fate fate = Fate::won;
    std::size_t customer = 0;
    Id<Site> site;
    Id<Job> job;
    std::optional<Id<Lead>> lead;
    LeadSource source = LeadSource::referral;
    Date received, opened, target;
    std::optional<Date> fixedPour;    ///< a pour agreed for this very day
    int wantedSqft = 0;               ///< what the customer asked about
    double areaSqft = 0;              ///< by the takeoff
    double volumeYards = 0;
    double perimeterFt = 0;
    Yards bidYards;
    SurfaceFinish finish{};
    bool pump = false, demolish = false, fiber = false, mesh = true, tint = false;
    int markupPct = 0;
    std::optional<Date> accepted;
    Rate taxRate;
    Money net;                        ///< accepted quote and accepted change orders
    Money quoteNet;
    Rate deposit;
    Materials materials;
    std::array<std::int64_t, 6> bidMinutes{};  ///< by phase, as quoted
    std::int64_t extraPrepMinutes = 0;         ///< by accepted change orders
    double extraYards = 0;
    int extraBaseTons = 0;
    int paceTruth = 1000;             ///< this job's own luck with hours
    std::vector<PourPlan> pours;
    std::optional<Date> finalIssued;
    std::optional<Date> paidInFull;
    std::string title;
};

/// What is known to all who make up the book.
struct World {
    Records records;
    Weather weather;
    CrewBook crewBook;
    std::vector<CustomerInfo> customers;
    std::array<Id<JobType>, workCount> jobTypes{};
    std::array<Id<FinishingProduct>, productCount> products{};
    std::array<Id<Supplier>, 2> suppliers{};
    std::array<Id<CrewMember>, crewCount> crew{};
    std::vector<JobPlan> plans;
    std::vector<PlantedFault> faults;

    Id<Customer> customerOf(const JobPlan& plan) const { return customers[plan.customer].id; }
    const Customer& customerRow(const JobPlan& plan) const { return records.get(customerOf(plan)); }
};

// The steps, in this order; each reads what the earlier ones left in the world.
void makeOutfit(World& world);
void makeCatalog(World& world);
void makePriceSheets(World& world);
void planJobs(World& world);        ///< customers, sites, leads, jobs and takeoffs
void makeQuotes(World& world);      ///< quotes with their lines, change orders
void planPours(World& world);       ///< days and crews, the hours of preparing, placing and finishing
void makeTickets(World& world);
void makeStatements(World& world);  ///< with the planted faults and the claims
void makeVisits(World& world);      ///< with the hours they take, and call-backs
void makeHours(World& world);       ///< travel and shop time, and all that was booked up to the last day
void makeReceipts(World& world);    ///< and overhead
void makeInvoices(World& world);    ///< payments and credits, and the days on which jobs are closed
void makeForecasts(World& world);

/// A price that grows evenly by so much a year from January 2023, rounded to the cent.
UnitPrice grown(int centsIn2023, int perMilleAYear, Date date);
/// Whole cents as a unit price.
inline UnitPrice priceOfCents(std::int64_t cents) { return UnitPrice::ofUnits(cents * 100); }
inline Quantity quantityOfThousandths(std::int64_t thousandths) { return Quantity::ofUnits(thousandths); }

/// The code by which a supplier writes a mix of a strength.
std::string mixCode(std::size_t supplier, int strength);
/// The charges of a supplier's sheet in force on a day.
std::vector<const SheetCharge*> sheetOf(const World& world, std::size_t supplier, Date date);
/// The price per yd³ of a mix on a day.
UnitPrice mixPrice(const World& world, std::size_t supplier, int strength, Date date);
bool crewMemberWorks(std::size_t person, Date date);

}

#include "demo/costs.h"

#include <algorithm>

namespace strikeoff::demo {

namespace {

constexpr const char* quarry = "Pellin Grove Stone & Gravel";
constexpr const char* lumber = "Tarnley Lumber Yard";
constexpr const char* steelYard = "Hobbin Crossing Steel Supply";
constexpr const char* pumper = "Ferry Landing Pumping";
constexpr const char* finishHouse = "Orchard Hill Contractor Supply";
constexpr const char* rental = "Quillmere Tool Rental";
constexpr const char* landfill = "Gravel Pit Lane Transfer Station";
constexpr const char* drainMan = "Upper Common Drain & Ditch";

class ReceiptWriter {
public:
    explicit ReceiptWriter(World& world) : world_{world} {}

    void all()
    {
        for (const auto& plan : world_.plans)
            if (plan.fate == Fate::won && !plan.pours.empty()) ofJob(plan);
        ofShop();
        overhead();
    }

private:
    void ofJob(const JobPlan& plan)
    {
        const auto& traits = traitsOf(plan.work);
        const auto& need = plan.materials;
        const auto pourDay = plan.pours.front().on;
        // Base and forms come when preparing begins, the rest nearer the pour.
        const auto early = std::max(*plan.accepted + 1, pourDay - random_.pick(2, 6));
        const auto tons = std::max<std::int64_t>(2, (need.baseHalfTons + 2 * plan.extraBaseTons) * random_.bell(1030, 75) / 1000);
        buy(plan, early, CostClass::base, quarry, "crushed base", Quantity::ofUnits(tons * 500), "ton", basePerTon(early), true);
        // Form boards are used again; what is bought is stakes, pins and what got cut up.
        const auto feet = std::max<std::int64_t>(10,
            need.formsFt
                * random_.bell(plan.work == Work::steps ? 1180
                        : plan.work == Work::walk       ? 1060
                                                        : 960,
                    120)
                / 5000 * 5);
        buy(plan, early, CostClass::forms, lumber, "form boards, stakes, pins", Quantity::ofWhole(feet), "ft",
            formsPerFoot(early), false);
        if (need.steelSqft > 0) {
            const bool bar = plan.work == Work::garage || plan.work == Work::driveway || plan.work == Work::apron;
            const auto sqft = std::max<std::int64_t>(50, need.steelSqft * random_.bell(1020, 40) / 10'000 * 10);
            buy(plan, pourDay - 1, CostClass::steel, steelYard, bar ? "#4 bar, chairs, wire" : "mesh sheets and chairs",
                Quantity::ofWhole(sqft), "sq ft", bar ? barPerSqft(pourDay) : meshPerSqft(pourDay), false);
        }
        for (const auto& pour : plan.pours) {
            if (!plan.pump && !(plan.work == Work::poolDeck && random_.chance(120))) break;
            lump(plan, pour.on, CostClass::pump, pumper, pour.trucks.size() > 2 ? "line pump, long day" : "line pump, half day",
                 Money::ofCents(pumpPerPour(pour.on).units() / 100 * random_.pick(95, pour.trucks.size() > 2 ? 135 : 112) / 100));
        }
        const auto joints = std::max<std::int64_t>(20, need.jointFt * random_.bell(1010, 90) / 5000 * 5);
        buy(plan, pourDay - 1, CostClass::jointFinish, finishHouse, "isolation strip, sealant, evaporation aid",
            Quantity::ofWhole(joints), "ft", jointPerFoot(pourDay), false);
        sealer(plan);
        if (random_.chance(830))
            lump(plan, early + 1, CostClass::equipment, rental, "plate compactor",
                Money::ofCents(compactorPerDay(early).units() / 100 * (plan.areaSqft > 500 ? 2 : 1)));
        if (traits.phasePct[3] > 0 && random_.chance(500))
            buy(plan, pourDay + 1, CostClass::equipment, finishHouse, "saw blade, wear by the foot",
                Quantity::ofWhole(static_cast<std::int64_t>(plan.areaSqft * 0.17) + 5), "ft", bladePerFoot(pourDay), false);
        for (std::int64_t i = 0; i < need.dumpLoads + (random_.chance(200) && need.dumpLoads > 0 ? 1 : 0); ++i)
            lump(plan, early, CostClass::permitsDump, landfill, "broken concrete, by the load",
                Money::ofCents(dumpPerLoad(early).units() / 100 + random_.pick(-600, 900)));
        if (plan.work == Work::apron || (plan.work == Work::driveway && plan.areaSqft > 800))
            lump(plan, early, CostClass::permitsDump, "Town clerk", "street opening permit",
                Money::ofCents(permitFee(early).units() / 100 / 500 * 500));
        if (plan.work == Work::poolDeck)
            lump(plan, pourDay - 2, CostClass::subcontract, drainMan, "drain line and deck drains",
                Money::ofCents(grown(680'00, 40, pourDay).units() / 100 * random_.pick(92, 118) / 100));
        if (world_.records.get(plan.site).driveMinutes.value_or(Minutes{}) >= Minutes::of(28))
            lump(plan, pourDay, CostClass::travel, "Ferry Landing Fuel", "fuel for the long drive, two trucks",
                Money::ofCents(random_.pick(52'00, 96'00)));
        for (const auto& order : world_.records.all<ChangeOrder>()) {
            if (order.job != plan.job || !order.acceptedOn) continue;
            if (order.costClass == CostClass::steel || order.costClass == CostClass::other
                || order.costClass == CostClass::permitsDump)
                lump(plan, pourDay - 1, order.costClass,
                    order.costClass == CostClass::steel       ? steelYard
                        : order.costClass == CostClass::other ? lumber
                                                              : landfill,
                    order.description.c_str(), Money::ofCents(order.cost.cents() * random_.pick(88, 121) / 100));
        }
        if (random_.chance(45))
            lump(plan, pourDay + 20, CostClass::other, lumber, "mailbox post put back",
                Money::ofCents(random_.pick(24'00, 88'00)));
    }

    void sealer(const JobPlan& plan)
    {
        const auto& product = world_.records.get(world_.products[static_cast<std::size_t>(traitsOf(plan.work).product)]);
        const auto tenths = std::max<std::int64_t>(5, plan.materials.sealerTenths * random_.bell(1060, 80) / 1000);
        const bool curing = product.kind == ProductKind::cureAndSeal;
        buy(plan, plan.pours.back().on + (curing ? 1 : random_.pick(24, 40)), CostClass::sealer, finishHouse,
            product.name.c_str(), Quantity::ofUnits(tenths * 100), "gal",
            grown(static_cast<int>(product.pricePerGallon->units() / 100) * 92 / 100, 32, plan.pours.back().on), false);
    }

    void buy(const JobPlan& plan, Date date, CostClass costClass, const char* vendor, const char* what, Quantity quantity,
        const char* unit, UnitPrice price, bool hauled)
    {
        Receipt receipt;
        receipt.quantity = quantity;
        receipt.unit = unit;
        receipt.unitPrice = UnitPrice::ofUnits(price.units() * random_.bell(1000, 18) / 1000 / 100 * 100);
        receipt.amount = lineAmount(*receipt.unitPrice, quantity);
        if (hauled && quantity < Quantity::ofWhole(6)) {
            // A part load costs the truck all the same, and the slip gives the sum alone.
            receipt.amount += Money::ofCents(45'00);
            receipt.quantity.reset();
            receipt.unit.clear();
            receipt.unitPrice.reset();
        } else if (random_.chance(170)) {
            receipt.quantity.reset();
            receipt.unit.clear();
            receipt.unitPrice.reset();
        }
        keep(receipt, plan, date, costClass, vendor, what);
    }

    void lump(const JobPlan& plan, Date date, CostClass costClass, const char* vendor, const char* what, Money amount)
    {
        Receipt receipt;
        receipt.amount = amount;
        keep(receipt, plan, date, costClass, vendor, what);
    }

    void keep(Receipt& receipt, const JobPlan& plan, Date date, CostClass costClass, const char* vendor, const char* what)
    {
        if (date >= today() || date <= firstDay()) {
            if (date >= today()) return;
            date = firstDay() + 1;
        }
        if (date.weekday() == 0) date = date - 1;
        receipt.date = date;
        receipt.job = plan.job;
        receipt.costClass = costClass;
        receipt.vendor = vendor;
        receipt.description = what;
        if (random_.chance(640)) receipt.reference = std::to_string(random_.pick(2'000, 79'999));
        const auto paid = date + (random_.chance(450) ? 0 : random_.pick(12, 34));
        if (paid < today()) receipt.paidOn = paid;
        world_.records.add(receipt);
    }

    void ofShop()
    {
        static constexpr std::array things{"work gloves, boots", "blade for the walk-behind saw", "shovels and rakes",
            "trailer tire", "pressure washer hose", "knee boards", "safety glasses, respirator filters", "two-way radios"};
        for (auto date = firstDay() + 9; date < today(); date = date + random_.pick(12, 30)) {
            Receipt receipt;
            receipt.date = date;
            receipt.costClass = random_.chance(700) ? CostClass::equipment : CostClass::other;
            receipt.vendor = random_.chance(600) ? finishHouse : lumber;
            receipt.description = random_.of(things);
            receipt.amount = Money::ofCents(random_.pick(18'00, 340'00));
            receipt.paidOn = date;
            world_.records.add(receipt);
        }
    }

    void overhead()
    {
        struct Item {
            const char* words;
            std::int64_t dollars;
            int perMilleAYear;
            const char* note;
        };
        static constexpr std::array<Item, 11> items{{{"Truck notes", 16'800, 0, "two trucks"},
            {"Truck insurance and plates", 6'900, 70, ""}, {"Liability insurance", 7'400, 55, ""}, {"Yard rent", 9'600, 30, ""},
            {"Truck fuel and repairs", 12'300, 45, "what no job carries by itself"}, {"Phones and internet", 2'150, 20, ""},
            {"Bookkeeper and tax return", 3'900, 40, ""}, {"Signs and advertising", 2'600, 90, ""},
            {"License, bond, permits of the shop", 1'250, 15, ""}, {"Small tools", 3'400, 50, ""},
            {"Office and owner's unbilled hours", 14'500, 35, "measuring, quoting, telephone"}}};
        for (int year = 2023; year <= 2026; ++year)
            for (const auto& item : items) {
                Overhead overhead;
                overhead.year = year;
                overhead.item = item.words;
                auto dollars = item.dollars * (1000 + item.perMilleAYear * (year - 2023)) / 1000;
                overhead.note = item.note;
                if (year == 2023) {
                    dollars = dollars * 7 / 12;
                    overhead.note = "June to December";
                } else if (year == 2026) {
                    dollars = dollars * 11 / 12;
                    overhead.note = "to November";
                }
                overhead.amount = Money::ofCents(dollars * 100);
                world_.records.add(overhead);
            }
    }

    World& world_;
    Random random_{10};
};

}

void makeReceipts(World& world) { ReceiptWriter{world}.all(); }

}

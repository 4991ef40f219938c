#include "demo/world.h"

namespace strikeoff::demo {

namespace {

/// Adds the charges of one sheet one after the other.
class SheetWriter {
public:
    SheetWriter(World& world, std::size_t supplier, Date effectiveOn)
        : world_{world}, supplier_{world.suppliers[supplier]}, effectiveOn_{effectiveOn}
    {
    }

    SheetCharge& add(
        ChargeKind kind, const char* code, const char* meaning, std::int64_t cents, ChargeUnit unit, bool taxable = false)
    {
        SheetCharge charge;
        charge.supplier = supplier_;
        charge.effectiveOn = effectiveOn_;
        charge.charge = kind;
        charge.code = code;
        charge.meaning = meaning;
        charge.amount = priceOfCents(cents);
        charge.unit = unit;
        charge.taxable = taxable;
        return world_.records.get(world_.records.add(charge));
    }
    void mix(const char* code, const char* meaning, std::int64_t cents)
    {
        add(ChargeKind::mix, code, meaning, cents, ChargeUnit::perYard, true);
    }
    void option(const char* code, const char* meaning, std::int64_t cents)
    {
        add(ChargeKind::option, code, meaning, cents, ChargeUnit::perYard, true);
    }
    void load(ChargeKind kind, const char* code, const char* meaning, std::int64_t cents)
    {
        add(kind, code, meaning, cents, ChargeUnit::perLoad);
    }
    void ranged(ChargeKind kind, const char* code, const char* meaning, std::int64_t cents, int fromQuarters,
        std::optional<int> toQuarters)
    {
        auto& charge = add(kind, code, meaning, cents, ChargeUnit::perLoad);
        charge.fromYards = Yards::ofUnits(fromQuarters * 250);
        if (toQuarters) charge.toYards = Yards::ofUnits(*toQuarters * 250);
    }
    void percent(ChargeKind kind, const char* code, const char* meaning, int hundredths)
    {
        add(kind, code, meaning, hundredths, ChargeUnit::percent);
    }

private:
    World& world_;
    Id<Supplier> supplier_;
    Date effectiveOn_;
};

struct FirstSheet {
    Date from;
    int mix3500, mix4000, mix4500, fiber, accelerator, retarder, tint, environment, fuelSmall, fuelLarge, winter, shortest,
        shorter, shortish, waiting;
};

/// The first supplier: a flat short-load ladder, waiting by the minutes free for each yard, winter service on every load of the
/// season.
void write(World& world, const FirstSheet& sheet)
{
    SheetWriter writer{world, 0, sheet.from};
    writer.mix("3500AE", "3500 psi, air entrained", sheet.mix3500);
    writer.mix("4000AE", "4000 psi, air entrained", sheet.mix4000);
    writer.mix("4500AE", "4500 psi, air entrained", sheet.mix4500);
    writer.option("FIBER", "Fiber, per lb in each yd\u00b3", sheet.fiber);
    writer.option("ACC", "Non-chloride accelerator, per 1 %", sheet.accelerator);
    writer.option("RET", "Retarder", sheet.retarder);
    writer.option("TINT", "Integral color, charcoal", sheet.tint);
    writer.load(ChargeKind::load, "ENV", "Washout and environment", sheet.environment);
    writer.ranged(ChargeKind::shortLoad, "SHORT3", "Short load under 3 yd\u00b3", sheet.shortest, 0, 12);
    writer.ranged(ChargeKind::shortLoad, "SHORT5", "Short load 3 to under 5 yd\u00b3", sheet.shorter, 12, 20);
    writer.ranged(ChargeKind::shortLoad, "SHORT6", "Short load 5 to under 6 yd\u00b3", sheet.shortish, 20, 24);
    auto& waiting =
        writer.add(ChargeKind::waiting, "WAIT", "Waiting over 6 minutes for each yd\u00b3", sheet.waiting, ChargeUnit::perMinute);
    waiting.freeMinutes = Quantity::ofWhole(6);
    waiting.freeBasis = FreeBasis::perYard;
    waiting.stepMinutes = 1;
    writer.load(ChargeKind::saturday, "SAT", "Saturday delivery", 65'00);
    writer.load(ChargeKind::afterHours, "LATE", "Loaded before 6 or after 4", 85'00);
    writer.load(ChargeKind::holiday, "HOLIDAY", "Plant opened on a holiday", 220'00);
    auto& winter =
        writer.add(ChargeKind::winter, "WINTER", "Winter service, heated water", sheet.winter, ChargeUnit::perYard, true);
    winter.seasonFrom = MonthDay::of(11, 15);
    winter.seasonTo = MonthDay::of(3, 31);
    writer.add(ChargeKind::returned, "RETURN", "Returned concrete", 38'00, ChargeUnit::perYard);
    writer.ranged(ChargeKind::fuel, "FUEL", "Fuel, loads under 5 yd\u00b3", sheet.fuelSmall, 0, 20);
    writer.ranged(ChargeKind::fuel, "FUEL", "Fuel, loads of 5 yd\u00b3 and over", sheet.fuelLarge, 20, {});
    writer.percent(ChargeKind::tax, "TAX", "Sales tax on concrete and what is batched in", 6'25);
    writer.percent(ChargeKind::discount, "DISC", "Paid within 10 days of the statement", 2'00);
}

struct SecondSheet {
    Date from;
    int mix3500, mix4000, mix4500, fiber, accelerator, retarder, tint, delivery, fuel, heat, shortUnder, waiting, saturday;
};

/// The second supplier: so much for each yard a load is short of six, waiting by the load in quarter hours, heat only when
/// ordered.
void write(World& world, const SecondSheet& sheet)
{
    SheetWriter writer{world, 1, sheet.from};
    writer.mix("35-A", "3500 psi exterior", sheet.mix3500);
    writer.mix("40-A", "4000 psi exterior", sheet.mix4000);
    writer.mix("45-A", "4500 psi exterior", sheet.mix4500);
    writer.option("FIB", "Fiber, per lb in each yd\u00b3", sheet.fiber);
    writer.option("NCA", "Accelerator, per 1 %", sheet.accelerator);
    writer.option("SLOW", "Retarder", sheet.retarder);
    writer.option("COL-3", "Color, slate", sheet.tint);
    writer.load(ChargeKind::load, "DEL", "Delivery", sheet.delivery);
    auto& shortLoad =
        writer.add(ChargeKind::shortLoad, "MIN6", "For each yd\u00b3 under 6", sheet.shortUnder, ChargeUnit::perYardUnder);
    shortLoad.toYards = Yards::ofWhole(6);
    auto& waiting = writer.add(
        ChargeKind::waiting, "STANDBY", "Standby over 45 minutes a load, in quarter hours", sheet.waiting, ChargeUnit::perMinute);
    waiting.freeMinutes = Quantity::ofWhole(45);
    waiting.freeBasis = FreeBasis::perLoad;
    waiting.stepMinutes = 15;
    writer.add(ChargeKind::saturday, "SATURDAY", "Saturday, per yd\u00b3", sheet.saturday, ChargeUnit::perYard);
    auto& heat = writer.add(ChargeKind::winter, "HEAT", "Hot water, when ordered", sheet.heat, ChargeUnit::perYard, true);
    heat.seasonFrom = MonthDay::of(11, 1);
    heat.seasonTo = MonthDay::of(4, 15);
    heat.onlyWhenOrdered = true;
    writer.add(ChargeKind::returned, "BACK", "Brought back", 42'00, ChargeUnit::perYard);
    writer.load(ChargeKind::fuel, "FSC", "Fuel surcharge", sheet.fuel);
    writer.percent(ChargeKind::tax, "TAX", "Sales tax on materials", 6'25);
    writer.add(ChargeKind::discount, "EARLY", "Paid within 15 days, per yd\u00b3", 2'00, ChargeUnit::perYard);
}

}

std::string mixCode(std::size_t supplier, int strength)
{
    return supplier == 0 ? std::to_string(strength) + "AE" : std::to_string(strength / 100) + "-A";
}

std::vector<const SheetCharge*> sheetOf(const World& world, std::size_t supplier, Date date)
{
    std::optional<Date> newest;
    const auto id = world.suppliers[supplier];
    const auto& charges = world.records.all<SheetCharge>();
    for (const auto& charge : charges)
        if (charge.supplier == id && charge.effectiveOn <= date && (!newest || charge.effectiveOn > *newest))
            newest = charge.effectiveOn;
    std::vector<const SheetCharge*> sheet;
    for (const auto& charge : charges)
        if (newest && charge.supplier == id && charge.effectiveOn == *newest) sheet.push_back(&charge);
    return sheet;
}

UnitPrice mixPrice(const World& world, std::size_t supplier, int strength, Date date)
{
    const auto code = mixCode(supplier, strength);
    for (const auto* charge : sheetOf(world, supplier, date))
        if (charge->charge == ChargeKind::mix && charge->code == code) return charge->amount;
    throw DomainError{"a mix of the demonstration that is on no sheet"};
}

void makePriceSheets(World& world)
{
    write(world,
        FirstSheet{day(2023, 4, 1), 142'00, 148'50, 155'00, 4'80, 5'50, 4'25, 46'00, 9'00, 14'00, 20'00, 6'00, 130'00, 95'00,
            55'00, 2'10});
    write(world,
        FirstSheet{day(2024, 7, 1), 151'00, 158'00, 165'00, 5'00, 5'75, 4'50, 48'00, 10'00, 15'00, 21'50, 6'50, 140'00, 100'00,
            60'00, 2'25});
    write(world,
        FirstSheet{day(2026, 2, 1), 162'50, 170'00, 177'50, 5'20, 6'10, 4'75, 51'00, 12'00, 16'50, 23'00, 7'00, 150'00, 110'00,
            65'00, 2'40});
    write(world,
        SecondSheet{day(2023, 5, 1), 139'00, 146'00, 153'50, 5'10, 5'90, 4'00, 44'00, 28'00, 12'00, 5'50, 26'00, 1'90, 6'00});
    write(world,
        SecondSheet{day(2025, 3, 1), 149'50, 156'75, 164'25, 5'40, 6'25, 4'40, 47'50, 31'00, 13'50, 6'25, 29'00, 2'15, 6'50});
}

}

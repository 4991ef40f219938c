#include "demo/world.h"

#include "labor/burden.h"

namespace strikeoff::demo {

namespace {

struct Person {
    const char* name;
    const char* role;
    const char* phone;
    Date hired;
    std::optional<Date> left;
    const char* compClass;
    const char* note;
};

std::array<Person, crewCount> people()
{
    return {{
        {"Desmond Arkwell", "owner, finisher", "555-0100", day(2014, 3, 3), {}, "",
            "the rate is what the owner reckons for his own hour"},
        {"Ruben Tasker", "foreman, finisher", "555-0102", day(2017, 5, 8), {}, "concrete flatwork",
            "runs the pour when the owner is measuring"},
        {"Wendell Garthman", "finisher", "555-0103", day(2021, 4, 12), day(2025, 3, 28), "concrete flatwork",
            "moved away; parted on good terms"},
        {"Cale Brindleworth", "laborer, driver", "555-0104", day(2022, 3, 21), {}, "concrete flatwork",
            "drives the dump trailer"},
        {"Nadia Tarnwell", "laborer, then finisher", "555-0105", day(2024, 4, 15), {}, "concrete flatwork",
            "broom and edger on her own since spring 2025"},
    }};
}

struct Raise {
    std::size_t person;
    int year, month, dayOfMonth;
    int cents;
    const char* note;
};
constexpr std::array<Raise, 18> raises{{
    {0, 2023, 1, 2, 3800, ""},
    {0, 2024, 1, 1, 3950, ""},
    {0, 2025, 1, 6, 4100, ""},
    {0, 2026, 1, 5, 4250, ""},
    {1, 2023, 1, 2, 2950, ""},
    {1, 2024, 1, 1, 3100, ""},
    {1, 2025, 1, 6, 3225, ""},
    {1, 2026, 1, 5, 3375, ""},
    {2, 2023, 1, 2, 2450, ""},
    {2, 2024, 1, 1, 2575, ""},
    {2, 2025, 1, 6, 2650, ""},
    {3, 2023, 1, 2, 2200, ""},
    {3, 2024, 1, 1, 2325, "took over the trailer"},
    {3, 2025, 1, 6, 2475, ""},
    {3, 2026, 1, 5, 2600, ""},
    {4, 2024, 4, 15, 2150, "to start"},
    {4, 2025, 4, 7, 2400, "finisher"},
    {4, 2026, 1, 5, 2525, ""},
}};

constexpr const char* quoteTerms =
    "Thirty per cent on acceptance, the rest within 14 days of the final invoice. Concrete cracks; joints are placed to say "
    "where, and a hairline crack away from a joint is no defect. Keep salt off the surface through the first winter. Weather may "
    "move the day of a pour; we call the evening before. Work not named here is done after a signed change order only.";
constexpr const char* invoiceTerms =
    "Due on the day printed above. A late charge of 1 % per month is due on what is paid later, where your state allows it. Thank "
    "you for your business.";

}

namespace {

/// The tables a book begins with, and what the outfit's own notices and policies say. The state is nobody's.
void makeBurden(World& world)
{
    const auto set = [&](BurdenItem item, Date from, BurdenBasis basis, const char* rate, bool onPremium, const char* source, const char* compClass = "") {
        BurdenRate row;
        row.item = item;
        row.fromDate = from;
        row.compClass = compClass;
        row.basis = basis;
        row.rate = UnitPrice::parse(rate).value();
        row.onPremium = onPremium;
        row.source = source;
        if (item == BurdenItem::stateUnemployment) row.wageBase = Money::ofWhole(from.year() < 2025 ? 9'500 : 10'000);
        world.records.add(row);
    };
    for (const auto& row : startingBurden())
        if (row.rate) world.records.add(row);
    const auto start = day(2023, 1, 1);
    set(BurdenItem::stateUnemployment, start, BurdenBasis::percent, "2.1", true, "notice of the state, December 2022");
    set(BurdenItem::stateUnemployment, day(2025, 1, 1), BurdenBasis::percent, "1.9", true, "notice of the state, December 2024");
    set(BurdenItem::workersComp, start, BurdenBasis::perHundred, "0.00", false, "the owner is not covered");
    set(BurdenItem::workersComp, start, BurdenBasis::perHundred, "7.42", false, "policy of July 2022", "concrete flatwork");
    set(BurdenItem::workersComp, day(2024, 7, 1), BurdenBasis::perHundred, "7.88", false, "policy of July 2024", "concrete flatwork");
    set(BurdenItem::liability, start, BurdenBasis::perHundred, "1.65", false, "policy of July 2022");
    set(BurdenItem::paidLeave, start, BurdenBasis::perHour, "0.85", false, "a week and the holidays over a year's hours");
    set(BurdenItem::smallTools, start, BurdenBasis::perHour, "0.60", false, "blades, trowels and boots of a year over its hours");
}

}

bool crewMemberWorks(std::size_t person, Date date)
{
    static const auto all = people();
    return date >= all[person].hired && (!all[person].left || date <= *all[person].left);
}

UnitPrice grown(int centsIn2023, int perMilleAYear, Date date)
{
    const std::int64_t days = date - day(2023, 1, 1);
    return priceOfCents(divideHalfUp(static_cast<Int128>(centsIn2023) * (365'000 + perMilleAYear * days), 365'000));
}

void makeOutfit(World& world)
{
    auto& records = world.records;
    Settings settings;
    settings.outfitName = "Arkwell Flatwork";
    settings.outfitAddress = "14 Mill Race Road";
    settings.outfitTown = "Tarnley";
    settings.outfitPhone = "555-0100";
    settings.outfitEmail = "office@example.com";
    settings.license = "FW-20417";
    settings.markup = Rate::ofWhole(32);
    settings.lateChargeMonthly = Rate::ofWhole(1);
    settings.lienNoticeDays = 75;
    settings.quoteTerms = quoteTerms;
    settings.invoiceTerms = invoiceTerms;
    settings.shopLatitude = shopLatitude();
    settings.shopLongitude = shopLongitude();
    settings.acceleratorCodes = "ACC;NCA";
    settings.bladeFeetLeft = Quantity::ofWhole(620);
    records.add(settings);
    const auto between = [&](std::size_t from, std::size_t to, int minutes) {
        TownDrive drive;
        drive.fromTown = townAt(from).name;
        drive.toTown = townAt(to).name;
        drive.minutes = Minutes::of(minutes);
        records.add(drive);
    };
    for (std::size_t town = 1; town < townCount; ++town) between(0, town, townAt(town).driveMinutes);
    between(1, 4, 24);
    between(2, 7, 31);
    between(3, 5, 22);
    between(6, 7, 17);

    Supplier supplier;
    supplier.name = "Quillmere Ready-Mix";
    supplier.phone = "555-0110";
    supplier.email = "billing.quillmere@example.com";
    supplier.address = "2 Gravel Pit Lane, Quillmere";
    supplier.accountNumber = "A-3318";
    supplier.termsDays = 30;
    supplier.discountDays = 10;
    supplier.note = "Dispatch opens at 5:30. Ask for the River Road plant when pouring south of Tarnley.";
    world.suppliers[0] = records.add(supplier);
    supplier = {};
    supplier.name = "Dunmarrow Concrete Supply";
    supplier.phone = "555-0111";
    supplier.email = "accounts.dunmarrow@example.com";
    supplier.address = "880 Quarry Spur, Dunmarrow";
    supplier.accountNumber = "0417";
    supplier.termsDays = 30;
    supplier.discountDays = 15;
    supplier.note = "Heat is only sent when asked for: say so with the order.";
    world.suppliers[1] = records.add(supplier);

    const auto crew = people();
    for (std::size_t i = 0; i < crew.size(); ++i) {
        CrewMember member;
        member.name = crew[i].name;
        member.role = crew[i].role;
        member.phone = crew[i].phone;
        member.hiredOn = crew[i].hired;
        member.leftOn = crew[i].left;
        member.compClass = crew[i].compClass;
        member.note = crew[i].note;
        world.crew[i] = records.add(member);
    }
    for (const auto& raise : raises) {
        PayRate rate;
        rate.person = world.crew[raise.person];
        rate.fromDate = day(raise.year, raise.month, raise.dayOfMonth);
        rate.hourlyRate = priceOfCents(raise.cents);
        rate.note = raise.note;
        records.add(rate);
    }
    makeBurden(world);
    Bonus bonus;
    bonus.person = world.crew[1];
    bonus.amount = Money::ofWhole(600);
    bonus.earnedFrom = day(2025, 5, 1);
    bonus.earnedTo = day(2025, 10, 31);
    bonus.paidOn = day(2025, 11, 14);
    bonus.note = "a season without a call-back";
    records.add(bonus);
    bonus.person = world.crew[4];
    bonus.amount = Money::ofWhole(250);
    bonus.earnedFrom = day(2026, 6, 1);
    bonus.earnedTo = day(2026, 8, 30);
    bonus.paidOn = day(2026, 9, 11);
    bonus.note = "stamped the pool deck on her own";
    records.add(bonus);
}

void makeForecasts(World& world)
{
    for (Date date = forecastFrom(); date <= forecastTo(); date = date + 1) {
        const auto& weather = world.weather.at(date);
        DayForecast forecast;
        forecast.date = date;
        forecast.lowF = weather.lowF;
        forecast.highF = weather.highF;
        forecast.rainChance = weather.rainChance;
        forecast.rainFrom = weather.rainFrom;
        forecast.rainTo = weather.rainTo;
        // The last days ahead were read off with their temperatures alone.
        if (forecastTo() - date >= 2) {
            forecast.windMph = weather.windMph;
            forecast.humidity = weather.humidity;
        }
        world.records.add(forecast);
    }
}

}

#include "demo/world.h"

namespace strikeoff::demo {

namespace {

using enum SurfaceFinish;

constexpr std::array<WorkTraits, workCount> traits{{
    {"Patio", 4, 5, 105, 37, broom, ProductIndex::cureAndSeal, 30, 280, 880, 215, 960, {50, 16, 18, 6, 3, 7}, 1030, 4000,
        "walls, posts and drains get isolation joints"},
    {"Driveway", 5, 5, 138, 33, broom, ProductIndex::saltward, 30, 720, 1950, 300, 1000, {49, 18, 17, 7, 3, 6}, 1040, 4000,
        "ask about the water line and the downspouts"},
    {"Walk", 4, 7, 88, 15, broom, ProductIndex::cureAndSeal, 30, 100, 380, 110, 1700, {48, 17, 18, 6, 3, 8}, 1075, 4000,
        "quoted by the foot by everybody in town"},
    {"Garage slab", 5, 5, 132, 31, smooth, ProductIndex::densifier, 0, 520, 1350, 130, 940, {42, 20, 25, 5, 2, 6}, 1020, 3500,
        "vapor retarder under heated ones"},
    {"Steps & landing", 6, 8, 60, 26, broom, ProductIndex::saltward, 24, 140, 290, 55, 1090, {58, 13, 13, 6, 2, 8}, 1060, 4500,
        "forms are built, not bought"},
    {"Pool deck", 4, 6, 96, 41, saltFinish, ProductIndex::gloss, 24, 850, 1750, 75, 1040, {51, 17, 18, 5, 4, 5}, 1045, 4000,
        "two pours; keep the coping wet"},
    {"Shed pad", 4, 6, 92, 46, broom, ProductIndex::cureAndSeal, 0, 130, 420, 60, 640, {44, 19, 21, 5, 3, 8}, 1030, 3500, ""},
    {"Curb & apron", 6, 5, 84, 32, broom, ProductIndex::saltward, 30, 300, 1100, 70, 1080, {52, 17, 18, 6, 2, 5}, 1035, 4500,
        "the town wants to see the base before the pour"},
}};
}

const WorkTraits& traitsOf(Work work) { return traits[static_cast<std::size_t>(work)]; }

void makeCatalog(World& world)
{
    auto& records = world.records;
    const auto keep = [&](ProductIndex index, const FinishingProduct& product) {
        world.products[static_cast<std::size_t>(index)] = records.add(product);
    };

    FinishingProduct product;
    product.name = "Pellin CS-25 cure-and-seal";
    product.kind = ProductKind::cureAndSeal;
    product.waitLeastHours = 1;
    product.waitMostHours = 48;
    product.lowestAirF = 40;
    product.lowestSurfaceF = 40;
    product.warmHoursAfter = 8;
    product.dryHours = 4;
    product.coverageBroom = Quantity::ofWhole(300);
    product.coverageSmooth = Quantity::ofWhole(400);
    product.coverageExposed = Quantity::ofWhole(200);
    product.pricePerGallon = priceOfCents(24'50);
    product.canGallons = Quantity::ofWhole(5);
    product.onHandGallons = quantityOfThousandths(7'500);
    product.countedOn = day(2026, 11, 16);
    product.cleaning = "None on the day of the pour; blow off saw slurry on the day after.";
    product.cautions = "Flammable: no pilot light near, gloves and goggles. Read the label; it governs.";
    keep(ProductIndex::cureAndSeal, product);

    product = {};
    product.name = "Pellin Gloss film seal";
    product.kind = ProductKind::filmForming;
    product.waitLeastHours = 28 * 24;
    product.waitMostHours = 150 * 24;
    product.lowestAirF = 50;
    product.lowestSurfaceF = 50;
    product.warmHoursAfter = 24;
    product.dryHours = 24;
    product.coverageBroom = Quantity::ofWhole(250);
    product.coverageSmooth = Quantity::ofWhole(300);
    product.coverageExposed = Quantity::ofWhole(175);
    product.coats = 2;
    product.coatWaitHours = 4;
    product.pricePerGallon = priceOfCents(36'00);
    product.canGallons = Quantity::ofWhole(5);
    product.onHandGallons = quantityOfThousandths(3'000);
    product.countedOn = day(2026, 11, 16);
    product.cleaning = "Pressure wash and let dry for a day; tape off the coping.";
    product.cautions =
        "Slippery when put on thick: add grit around pools. Solvent vapors: respirator in closed yards. Read the label; it governs.";
    keep(ProductIndex::gloss, product);

    product = {};
    product.name = "Dunmarrow Saltward penetrating sealer";
    product.kind = ProductKind::penetrating;
    product.waitLeastHours = 28 * 24;
    product.waitMostHours = 180 * 24;
    product.lowestAirF = 40;
    product.lowestSurfaceF = 40;
    product.warmHoursAfter = 12;
    product.dryHours = 12;
    product.coverageBroom = Quantity::ofWhole(200);
    product.coverageSmooth = Quantity::ofWhole(250);
    product.coverageExposed = Quantity::ofWhole(150);
    product.pricePerGallon = priceOfCents(41'00);
    product.canGallons = Quantity::ofWhole(5);
    product.onHandGallons = quantityOfThousandths(12'500);
    product.countedOn = day(2026, 11, 16);
    product.cleaning = "Broom and blow clean; no standing water in the joints.";
    product.cautions = "Etches glass: cover windows and cars. Goggles. Read the label; it governs.";
    keep(ProductIndex::saltward, product);

    product = {};
    product.name = "Hadden trowel densifier";
    product.kind = ProductKind::penetrating;
    product.waitLeastHours = 3 * 24;
    product.waitMostHours = 60 * 24;
    product.lowestAirF = 40;
    product.lowestSurfaceF = 40;
    product.warmHoursAfter = 6;
    product.dryHours = 6;
    product.coverageBroom = Quantity::ofWhole(220);
    product.coverageSmooth = Quantity::ofWhole(350);
    product.pricePerGallon = priceOfCents(28'75);
    product.canGallons = Quantity::ofWhole(5);
    product.onHandGallons = quantityOfThousandths(5'000);
    product.countedOn = day(2026, 11, 16);
    product.cleaning = "Sweep; scrub off cure with the floor machine.";
    product.cautions = "Alkaline: gloves and goggles; rinse skin at once. Read the label; it governs.";
    keep(ProductIndex::densifier, product);

    for (std::size_t i = 0; i < workCount; ++i) {
        const auto& trait = traits[i];
        JobType type;
        type.name = trait.name;
        type.thickness = TapeLength::ofInches(trait.thicknessIn);
        type.allowance = Rate::ofWhole(trait.allowancePct);
        type.pace = quantityOfThousandths(trait.bidPaceTenths * 100);
        type.finish = trait.finish;
        type.product = world.products[static_cast<std::size_t>(trait.product)];
        type.cutVisit = static_cast<Work>(i) != Work::steps;
        if (trait.resealMonths > 0) type.resealMonths = trait.resealMonths;
        type.note = trait.note;
        world.jobTypes[i] = records.add(type);
    }
}

}

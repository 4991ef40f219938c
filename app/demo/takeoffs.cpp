#include "demo/takeoffs.h"

#include "takeoff/takeoff.h"

#include <algorithm>
#include <numbers>

namespace strikeoff::demo {

namespace {

/// A length near so many feet, as a tape would be read: to the inch where it is short, to three inches where it is long.
TapeLength near(double feet)
{
    const auto inches = static_cast<std::int64_t>(feet * 12 + 0.5);
    return TapeLength::ofInches(std::max<std::int64_t>(feet < 12 ? inches : (inches + 1) / 3 * 3, 6));
}

class Writer {
public:
    Writer(World& world, JobPlan& plan) : world_{world}, plan_{plan} {}

    TakeoffSection& add(const char* name, SectionShape shape, int thicknessIn)
    {
        TakeoffSection section;
        section.job = plan_.job;
        section.position = ++count_;
        section.name = name;
        section.shape = shape;
        section.thickness = TapeLength::ofInches(thicknessIn);
        section.finish = plan_.finish;
        return world_.records.get(world_.records.add(section));
    }
    TakeoffSection& slab(const char* name, double lengthFt, double widthFt, int thicknessIn)
    {
        auto& section = add(name, SectionShape::rectangle, thicknessIn);
        section.length = near(lengthFt);
        section.width = near(widthFt);
        section.jointSpacing = TapeLength::ofFeet(thicknessIn <= 4 ? 10 : 12);
        return section;
    }
    TakeoffSection& run(const char* name, SectionShape shape, double lengthFt, int widthIn, int depthIn)
    {
        auto& section = add(name, shape, depthIn);
        section.length = near(lengthFt);
        section.width = TapeLength::ofInches(widthIn);
        return section;
    }
    int count() const { return count_; }

private:
    World& world_;
    JobPlan& plan_;
    int count_ = 0;
};

std::string pointText(std::initializer_list<std::pair<int, int>> corners)
{
    std::string text;
    for (const auto& [x, y] : corners) {
        if (!text.empty()) text += "; ";
        text += std::to_string(x) + ' ' + std::to_string(y);
    }
    return text;
}

void patio(Writer& to, Random& random, double area, int thickness)
{
    const double width = random.pick(11, 16);
    switch (random.pick(0, 5)) {
    case 0:
    case 1: to.slab("Patio", area / width, width, thickness); return;
    case 2: {
        const double rise = random.pick(3, 5);
        const double length = area / (width + rise * 0.68);
        to.slab("Patio", length, width, thickness);
        auto& bow = to.add("Bowed edge", SectionShape::circularSegment, thickness);
        bow.length = near(length);
        bow.width = near(rise);
        return;
    }
    case 3: {
        // An L: the long leg along the house, the short one round the corner.
        const int leg = static_cast<int>(width), cut = random.pick(6, 10);
        const int length = std::max(leg + 4, static_cast<int>((area - cut * leg) / leg) + 1);
        auto& bent = to.add("L-shaped patio", SectionShape::polygon, thickness);
        bent.points = pointText({{0, 0}, {length, 0}, {length, leg}, {leg, leg}, {leg, leg + cut}, {0, leg + cut}});
        bent.jointSpacing = TapeLength::ofFeet(10);
        return;
    }
    case 4: {
        const int across = random.pick(9, 13);
        const double left = std::max(80.0, area - across * across * std::numbers::pi / 4);
        to.slab("Patio", left / width, width, thickness);
        auto& ring = to.add("Fire pit circle", SectionShape::circle, thickness);
        ring.length = TapeLength::ofFeet(across);
        return;
    }
    default: {
        to.slab("Patio", area * 0.82 / width, width, thickness);
        to.slab("Strip along the house", area * 0.18 / 4, 4, thickness);
        return;
    }
    }
}

void driveway(Writer& to, Random& random, double area, int thickness)
{
    const double width = area < 800 ? random.pick(10, 14) : random.pick(14, 20);
    const bool turnaround = area > 900 && random.chance(350);
    const double flare = 5 * (width + 3);
    const double main = area - flare - (turnaround ? 180 : 0);
    to.slab("Driveway", std::max(main, 200.0) / width, width, thickness);
    auto& mouth = to.add("Flare at the street", SectionShape::trapezoid, thickness + 1);
    mouth.length = near(width);
    mouth.secondLength = near(width + 6);
    mouth.width = TapeLength::ofFeet(5);
    if (turnaround) to.slab("Turnaround", 15, 12, thickness);
}

void walk(Writer& to, Random& random, double area, int thickness)
{
    const double width = random.chance(700) ? 4 : 3.5;
    if (area > 150 && random.chance(600)) {
        const double radius = width + random.pick(1, 3);
        auto& corner = to.add("Corner", SectionShape::circularSector, thickness);
        corner.length = near(radius);
        corner.width = near(radius * std::numbers::pi / 2);
        const double left = area - radius * radius * std::numbers::pi / 4;
        to.slab("Walk to the corner", left * 0.6 / width, width, thickness).jointSpacing = near(width);
        to.slab("Walk to the door", left * 0.4 / width, width, thickness).jointSpacing = near(width);
    } else {
        to.slab("Walk", area / width, width, thickness).jointSpacing = near(width);
    }
}

void garage(Writer& to, Random& random, double area, int thickness)
{
    const int depth = random.pick(22, 30);
    const double wide = area / depth;
    to.slab("Slab", wide, depth, thickness);
    auto& edge = to.run("Thickened edge", SectionShape::thickenedEdge, 2 * (wide + depth), 10, 8);
    edge.secondLength = TapeLength::ofInches(8);
    if (random.chance(400)) to.slab("Door apron", std::min(16.0, wide - 2), 3, thickness + 1);
}

void steps(Writer& to, Random& random, double area)
{
    const double width = random.pick(5, 8);
    const int risers = random.pick(2, 5);
    to.slab("Landing", std::max(area - risers * width, 20.0) / width, width, 6).jointSpacing.reset();
    auto& treads = to.slab("Treads, average depth", width, 1, 12);
    treads.count = risers;
    treads.jointSpacing.reset();
    to.run("Footing under the bottom step", SectionShape::footing, width, 12, 30);
}

void poolDeck(Writer& to, Random& random, double area, int thickness)
{
    const int poolLong = random.pick(26, 34), poolWide = random.pick(13, 17);
    const bool kidney = random.chance(300);
    const double pool = kidney ? 18 * 18 * std::numbers::pi / 4 + 60 : poolLong * poolWide;
    const int high = poolWide + random.pick(12, 16);
    const int nook = 8;
    const int length = static_cast<int>((area + pool + nook * 10) / high) + 1;
    auto& deck = to.add("Deck, outer edge", SectionShape::polygon, thickness);
    deck.points =
        pointText({{0, 0}, {length, 0}, {length, high - nook}, {length - 10, high - nook}, {length - 10, high}, {0, high}});
    deck.jointSpacing = TapeLength::ofFeet(9);
    if (kidney) {
        auto& round = to.add("Pool, round end", SectionShape::circle, thickness);
        round.length = TapeLength::ofFeet(18);
        round.deduct = true;
        auto& rest = to.slab("Pool, straight end", 10, 6, thickness);
        rest.deduct = true;
    } else {
        to.slab("Pool", poolLong, poolWide, thickness).deduct = true;
    }
    if (random.chance(500)) {
        auto& stand = to.add("Pump stand, corner piece", SectionShape::triangle, thickness);
        stand.length = TapeLength::ofFeet(6);
        stand.width = TapeLength::ofFeet(5);
    }
}

void shedPad(Writer& to, Random& random, double area, int thickness)
{
    const double width = random.pick(8, 14);
    to.slab("Pad", area / width, width, thickness);
    if (random.chance(300)) {
        auto& piers = to.add("Corner piers", SectionShape::pier, 36);
        piers.length = TapeLength::ofInches(10);
        piers.count = 4;
    }
}

void apron(Writer& to, Random& random, double area, int thickness)
{
    const double width = random.pick(10, 24);
    to.slab("Apron", area / width, width, thickness);
    if (random.chance(750)) to.run("Curb", SectionShape::footing, random.pick(24, 90), 6, 18);
    if (random.chance(200)) {
        auto& drain = to.slab("Trench drain", width, 1, thickness);
        drain.deduct = true;
        drain.jointSpacing.reset();
    }
}

}

void makeTakeoff(World& world, JobPlan& plan, Random& random)
{
    const auto& traits = traitsOf(plan.work);
    const auto before = world.records.all<TakeoffSection>().size();
    Writer to{world, plan};
    const double area = plan.wantedSqft;
    const int thickness = plan.work == Work::patio && random.chance(120) ? 5 : traits.thicknessIn;
    switch (plan.work) {
    case Work::patio: patio(to, random, area, thickness); break;
    case Work::driveway: driveway(to, random, area, thickness); break;
    case Work::walk: walk(to, random, area, thickness); break;
    case Work::garage: garage(to, random, area, thickness); break;
    case Work::steps: steps(to, random, area); break;
    case Work::poolDeck: poolDeck(to, random, area, thickness); break;
    case Work::shedPad: shedPad(to, random, area, thickness); break;
    case Work::apron: apron(to, random, area, thickness); break;
    }
    const auto& sections = world.records.all<TakeoffSection>();
    for (auto i = before; i < sections.size(); ++i) {
        const auto measured = measure(sections[i]);
        if (!measured.fault.empty())
            throw DomainError{"a takeoff of the demonstration that cannot be measured: " + measured.fault};
        plan.areaSqft += measured.areaSqft;
        plan.volumeYards += measured.volumeYards;
        if (!sections[i].deduct)
            plan.perimeterFt += measured.perimeterFt * (sections[i].name.starts_with("Treads") ? sections[i].count : 1);
    }
    plan.bidYards =
        orderFor(plan.volumeYards, Rate::ofWhole(traits.allowancePct), world.records.all<Settings>().front().orderStep);
}

}

#include "demo/costs.h"

#include <algorithm>

namespace strikeoff::demo {

namespace {

constexpr std::array phases{Phase::prepForm, Phase::place, Phase::finish, Phase::stripCut, Phase::seal, Phase::travel};
constexpr std::array phaseWords{
    "Prepare base and set forms", "Place concrete", "Finish", "Strip forms and cut joints", "Seal", "Travel"};

UnitPrice laborRateInBids(Date date)
{
    constexpr std::array cents{34'00, 35'50, 37'00, 38'00};
    return priceOfCents(cents[static_cast<std::size_t>(std::clamp(date.year() - 2023, 0, 3))]);
}

std::int64_t roundTo(double value, std::int64_t step)
{
    return static_cast<std::int64_t>((value + static_cast<double>(step) / 2) / static_cast<double>(step)) * step;
}

Materials materialsFor(const JobPlan& plan, const FinishingProduct& product)
{
    Materials need;
    const int baseIn = plan.work == Work::garage || plan.work == Work::driveway || plan.work == Work::apron ? 6 : 4;
    need.baseHalfTons = static_cast<std::int64_t>(plan.areaSqft * baseIn * 1.4 / 12 / 27 * 2) + 1;
    need.formsFt = roundTo(plan.perimeterFt * (plan.work == Work::garage ? 0.35 : 1.0), 5) + (plan.work == Work::steps ? 40 : 0);
    need.steelSqft = plan.mesh ? roundTo(plan.areaSqft, 10) : 0;
    need.jointFt = roundTo(plan.areaSqft * 0.17 + plan.perimeterFt * 0.2, 5);
    const auto coverage = plan.finish == SurfaceFinish::smooth ? product.coverageSmooth
        : plan.finish == SurfaceFinish::exposed                ? product.coverageExposed
                                                               : product.coverageBroom;
    need.sealerTenths =
        static_cast<std::int64_t>(plan.areaSqft * product.coats * 10 / coverage.value_or(Quantity::ofWhole(250)).toDouble()) + 1;
    need.dumpLoads = plan.demolish ? static_cast<std::int64_t>(plan.areaSqft / 260) + 1 : 0;
    return need;
}

class Estimator {
public:
    Estimator(World& world, JobPlan& plan, Date date, Random& random) : world_{world}, plan_{plan}, date_{date}, random_{random} {}

    std::vector<QuoteLine> lines()
    {
        const auto& traits = traitsOf(plan_.work);
        const auto listed = date_ - priceListLag;
        const auto& product = world_.records.get(world_.products[static_cast<std::size_t>(traits.product)]);
        const auto& need = plan_.materials = materialsFor(plan_, product);

        concrete();
        if (plan_.pump) add(CostClass::pump, "Pump", pours(), "ea", pumpPerPour(listed));
        add(CostClass::base, "Crushed base, compacted", Quantity::ofUnits(need.baseHalfTons * 500), "ton", basePerTon(listed));
        add(CostClass::forms, "Forms, stakes and pins", Quantity::ofWhole(need.formsFt), "ft", formsPerFoot(listed));
        if (need.steelSqft > 0) {
            const bool bar = plan_.work == Work::garage || plan_.work == Work::driveway || plan_.work == Work::apron;
            add(CostClass::steel, bar ? "#4 bar at 18 in each way" : "Welded wire mesh on chairs",
                Quantity::ofWhole(need.steelSqft), "sq ft", bar ? barPerSqft(listed) : meshPerSqft(listed));
        }
        add(CostClass::jointFinish, "Isolation strip, joint sealant, finishing aids", Quantity::ofWhole(need.jointFt), "ft",
            jointPerFoot(listed));
        add(CostClass::sealer, product.name, Quantity::ofUnits(need.sealerTenths * 100), "gal", *product.pricePerGallon);
        add(CostClass::equipment, "Compactor and saw", Quantity::ofWhole(plan_.areaSqft > 500 ? 2 : 1), "day",
            compactorPerDay(listed));
        if (need.dumpLoads > 0)
            add(CostClass::permitsDump, "Break out and haul off the old slab", Quantity::ofWhole(need.dumpLoads), "load",
                dumpPerLoad(listed));
        if (plan_.work == Work::apron || (plan_.work == Work::driveway && plan_.areaSqft > 800))
            add(CostClass::permitsDump, "Street opening permit", Quantity::ofWhole(1), "ea", permitFee(listed));
        if (plan_.work == Work::poolDeck)
            add(CostClass::subcontract, "Drain line and deck drains", Quantity::ofWhole(1), "ea", grown(680'00, 40, listed));
        labor(need);
        return std::move(lines_);
    }

private:
    Quantity pours() const { return Quantity::ofWhole(plan_.areaSqft > 1250 || plan_.work == Work::poolDeck ? 2 : 1); }

    void concrete()
    {
        const auto strength = traitsOf(plan_.work).strength;
        // The owner carries the sheet's price with its tax, to the whole dollar.
        const auto carried = [](UnitPrice sheet) {
            return UnitPrice::ofUnits((sheet.units() * 10'625 / 10'000 + 9'999) / 10'000 * 10'000);
        };
        const auto yards = Quantity::ofUnits(plan_.bidYards.units());
        const auto words = "Concrete, " + std::to_string(strength) + " psi with air, "
            + std::to_string(traitsOf(plan_.work).thicknessIn) + " in";
        add(CostClass::concrete, words, yards, "yd", carried(mixPrice(world_, 0, strength, date_)), mixCode(0, strength));
        if (plan_.fiber) add(CostClass::concrete, "Fiber in the mix", yards, "yd", grown(8'00, 25, date_), "FIBER");
        if (plan_.tint) add(CostClass::concrete, "Integral color", yards, "yd", grown(49'00, 25, date_), "TINT");
        // Only from the second year on does a bid carry the supplier's small charges and the winter.
        if (date_ > day(2024, 5, 1)) {
            const auto loads = (plan_.bidYards.units() + 9'999) / 10'000;
            add(CostClass::concrete, "Delivery, fuel and washout", Quantity::ofWhole(loads), "load", grown(30'00, 40, date_));
            if (plan_.bidYards < Yards::ofWhole(5) && date_ > day(2025, 5, 1))
                add(CostClass::concrete, "Short load", Quantity::ofWhole(1), "load", grown(95'00, 40, date_));
            const int month = plan_.target.month();
            if ((month == 12 || month <= 3) && date_ > day(2025, 9, 1))
                add(CostClass::concrete, "Winter service", yards, "yd", priceOfCents(7'00), "WINTER");
        }
    }

    void labor(const Materials& need)
    {
        const auto& traits = traitsOf(plan_.work);
        const double allMinutes = plan_.areaSqft * 60 * 10 / traits.bidPaceTenths;
        for (std::size_t i = 0; i < phases.size(); ++i) {
            auto minutes = roundTo(allMinutes * traits.phasePct[i] / 100, 30);
            if (i == 0) minutes += need.dumpLoads * 240;
            minutes = std::max<std::int64_t>(minutes, 30);
            plan_.bidMinutes[i] = minutes;
            add(CostClass::labor, phaseWords[i], Quantity::ofUnits(minutes * 1000 / 60), "h", laborRateInBids(date_)).phase =
                phases[i];
        }
    }

    QuoteLine& add(
        CostClass costClass, std::string description, Quantity quantity, const char* unit, UnitPrice cost, std::string code = {})
    {
        QuoteLine line;
        line.position = static_cast<std::int32_t>(lines_.size()) + 1;
        line.costClass = costClass;
        line.description = std::move(description);
        line.code = std::move(code);
        line.quantity = quantity;
        line.unit = unit;
        line.unitCost = cost;
        // A round figure the owner is used to asking for hauling.
        if (costClass == CostClass::permitsDump && quantity > Quantity::ofWhole(1) && random_.chance(500))
            line.unitPrice = priceOfCents(150'00);
        lines_.push_back(std::move(line));
        return lines_.back();
    }

    World& world_;
    JobPlan& plan_;
    Date date_;
    Random& random_;
    std::vector<QuoteLine> lines_;
};

std::string scopeOf(const World& world, const JobPlan& plan)
{
    static constexpr std::array finishes{
        "Broom finish", "Smooth trowel finish", "Exposed aggregate finish", "Stamped finish", "Salt finish"};
    auto text = "Form, place and finish about " + std::to_string(roundTo(plan.areaSqft, 5)) + " square feet: ";
    bool first = true;
    for (const auto& section : world.records.all<TakeoffSection>()) {
        if (section.job != plan.job || section.deduct) continue;
        if (!first) text += ", ";
        auto name = section.name;
        if (!first && name.front() >= 'A' && name.front() <= 'Z' && !name.starts_with("L-"))
            name.front() = static_cast<char>(name.front() - 'A' + 'a');
        text += name;
        first = false;
    }
    text += ". " + std::string{finishes[static_cast<std::size_t>(plan.finish)]}
        + ", contraction joints cut or tooled at the spacing shown, edges rounded.";
    if (plan.demolish) text += " Old concrete is broken out and hauled off.";
    if (plan.tint) text += " Colored through the mix; the shade of concrete varies from load to load.";
    text += " Surface treated with "
        + world.records.get(world.products[static_cast<std::size_t>(traitsOf(plan.work).product)]).name + '.';
    return text;
}

class Quoter {
public:
    explicit Quoter(World& world) : world_{world} {}

    void quote(JobPlan& plan)
    {
        auto drafted = plan.opened + random_.pick(0, 3);
        if (drafted > today()) return;
        Quote quote;
        quote.job = plan.job;
        quote.draftedOn = drafted;
        quote.scope = scopeOf(world_, plan);
        quote.exclusions =
            "Rock, unsuitable soil and buried utilities found after we begin; lawn repair beyond a foot of the forms; permits not named.";
        quote.terms = world_.records.all<Settings>().front().quoteTerms;
        quote.markup = Rate::ofWhole(plan.markupPct);
        quote.taxRate = plan.taxRate;
        quote.deposit = plan.deposit;
        quote.pourMonth = firstOfMonth(plan.target);
        auto sent = drafted + random_.pick(0, 2);
        auto lines = Estimator{world_, plan, drafted, random_}.lines();
        if (sent > today() || plan.opened >= today() - 2) {
            keep(quote, lines);
            return;
        }
        const bool revised = plan.fate == Fate::won && !plan.fixedPour && plan.target - sent > 16 && random_.chance(270);
        send(quote, sent);
        if (revised) {
            keep(quote, lines);
            quote.issue = 2;
            quote.draftedOn = sent + random_.pick(3, 6);
            sent = quote.draftedOn + random_.pick(0, 1);
            if (random_.chance(600)) quote.markup = Rate::ofWhole(plan.markupPct -= random_.pick(2, 4));
            else if (!plan.fiber) {
                plan.fiber = true;
                lines = Estimator{world_, plan, quote.draftedOn, random_}.lines();
            }
            send(quote, sent);
        }
        auto answer = sent + random_.pick(2, 11);
        switch (plan.fate) {
        case Fate::won:
        case Fate::dropped:
            answer = std::max(sent, std::min(answer, plan.target - 6));
            if (answer < today()) {
                quote.acceptedOn = answer;
                plan.accepted = answer;
                auto& job = world_.records.get(plan.job);
                if (job.droppedOn) job.droppedOn = std::max(*job.droppedOn, answer + 2);
            }
            break;
        case Fate::declined:
            if (answer < today()) {
                quote.declinedOn = answer + random_.pick(0, 9);
                quote.declinedReason = random_.of(reasons_);
            }
            break;
        case Fate::unanswered:
            if (plan.lead && sent < today() - 8) world_.records.get(*plan.lead).nextCallOn = sent + 21;
            break;
        }
        keep(quote, lines);
        for (const auto& line : lines) plan.quoteNet += line.price(quote.markup);
        plan.net = plan.quoteNet;
        if (plan.fate == Fate::won && plan.accepted) changeOrders(plan);
    }

private:
    void send(Quote& quote, Date sent) const
    {
        quote.sentOn = sent;
        quote.validUntil = sent + 30;
    }

    void keep(const Quote& quote, const std::vector<QuoteLine>& lines)
    {
        const auto id = world_.records.add(quote);
        for (auto line : lines) {
            line.quote = id;
            line.taxable = quote.taxRate > Rate{};
            world_.records.add(line);
        }
    }

    struct Extra {
        const char* words;
        CostClass costClass;
        std::optional<Phase> phase;
        int quantityTenths;
        const char* unit;
        int costCents;  ///< of one unit in 2023
    };
    static constexpr std::array<Extra, 9> extras_{{
        {"Soft spot dug out and filled with base", CostClass::base, {}, 60, "ton", 24'00},
        {"Stump and roots under the forms taken out", CostClass::labor, Phase::prepForm, 50, "h", 37'00},
        {"A foot wider along one side", CostClass::concrete, {}, 15, "yd", 176'00},
        {"Bar instead of mesh", CostClass::steel, {}, 10, "ea", 165'00},
        {"Sleeve for a water line under the slab", CostClass::other, {}, 10, "ea", 62'00},
        {"Extra landing at the side door", CostClass::labor, Phase::prepForm, 80, "h", 37'00},
        {"Downspout drained through the slab edge", CostClass::labor, Phase::prepForm, 30, "h", 37'00},
        {"Second coat of sealer", CostClass::sealer, {}, 30, "gal", 38'00},
        {"Haul off the dirt pile by the garage", CostClass::permitsDump, {}, 20, "load", 98'00},
    }};

    void changeOrders(JobPlan& plan)
    {
        if (!random_.chance(plan.net > Money::ofCents(900'000) ? 300 : 180)) return;
        const int count = random_.chance(180) ? 2 : 1;
        for (int i = 1; i <= count; ++i) {
            const auto& extra = extras_[random_.weighted(std::array{140, 150, 140, 70, 90, 80, 110, 60, 90})];
            ChangeOrder order;
            order.job = plan.job;
            order.number = i;
            order.askedOn = std::max(*plan.accepted, plan.target - random_.pick(1, 4));
            if (order.askedOn >= today()) return;
            order.description = extra.words;
            order.costClass = extra.costClass;
            order.phase = extra.phase;
            order.quantity = quantityOfThousandths(extra.quantityTenths * 100);
            order.unit = extra.unit;
            order.cost = lineAmount(grown(extra.costCents, 35, order.askedOn), *order.quantity);
            order.price = Money::ofCents((order.cost.cents() * random_.pick(125, 155) / 100 + 499) / 500 * 500);
            if (random_.chance(860)) {
                order.acceptedOn = order.askedOn;
                plan.net += order.price;
                if (extra.phase) plan.extraPrepMinutes += extra.quantityTenths * 6;
                if (extra.costClass == CostClass::concrete) plan.extraYards += extra.quantityTenths / 10.0;
                if (extra.costClass == CostClass::base) plan.extraBaseTons += extra.quantityTenths / 10;
            } else if (order.askedOn < today() - 40) {
                order.declinedOn = order.askedOn + random_.pick(0, 3);
                order.note = "left as it was";
            }
            world_.records.add(order);
        }
    }

    static constexpr std::array reasons_{"price", "price", "price", "went with a neighbor's contractor",
        "timing: wanted it sooner", "put off to next year", "no answer after two calls"};

    World& world_;
    Random random_{4};
};

}

void makeQuotes(World& world)
{
    Quoter quoter{world};
    for (auto& plan : world.plans) quoter.quote(plan);
}

}

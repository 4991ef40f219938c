#include "visits/load_out.h"

#include "quantity/words.h"
#include "takeoff/takeoff.h"
#include "visits/visit_words.h"
#include "visits/windows.h"

#include <algorithm>
#include <map>

namespace strikeoff {

namespace {

SurfaceFinish finishOf(const Book& book, const Job& job)
{
    for (const auto* section : book.referring<&TakeoffSection::job>(job.id))
        if (!section->deduct) return section->finish;
    const auto* type = book.find(job.jobType);
    return type ? type->finish : SurfaceFinish::broom;
}

std::optional<Quantity> coverageFor(const FinishingProduct& product, SurfaceFinish finish)
{
    if (finish == SurfaceFinish::smooth) return product.coverageSmooth;
    if (finish == SurfaceFinish::exposed) return product.coverageExposed;
    return product.coverageBroom;
}

/// Hundredths of a square foot; 0 when not recorded.
std::int64_t areaOf(const Book& book, Id<Job> job, const Pour* pour)
{
    if (pour && pour->area) return pour->area->units();
    auto left = static_cast<std::int64_t>(takeoffOf(book, job).areaSqft * 100 + 0.5);
    if (!pour) return left;
    std::int64_t without = 0;
    for (const auto* other : book.referring<&Pour::job>(job)) {
        if (other->area) left -= other->area->units();
        else ++without;
    }
    return std::max<std::int64_t>(0, left / std::max<std::int64_t>(1, without));
}

std::int64_t dividedUp(Int128 number, Int128 by) { return static_cast<std::int64_t>((number + by - 1) / by); }

/// Thousandths of a gallon for one coat, up to the next.
std::optional<Quantity> gallonsFor(const Book& book, Id<Job> job, const Pour* pour, const FinishingProduct& product)
{
    const auto* found = book.find(job);
    if (!found) return std::nullopt;
    const auto coverage = coverageFor(product, finishOf(book, *found));
    const auto area = areaOf(book, job, pour);
    if (!coverage || coverage->units() <= 0 || area <= 0) return std::nullopt;
    return Quantity::ofUnits(dividedUp(static_cast<Int128>(area) * 10'000, coverage->units()));
}

Quantity withSpare(Quantity gallons, Rate spare)
{
    const Int128 whole = 100 * Rate::one;
    return Quantity::ofUnits(dividedUp(static_cast<Int128>(gallons.units()) * (whole + spare.units()), whole));
}

Quantity inCans(Quantity gallons, const std::optional<Quantity>& can)
{
    const auto step = can && can->units() > 0 ? can->units() : 100;  // a tenth of a gallon where cans are not recorded
    // What is over by a thousandth is what rounding up at each stop left, not another can.
    return Quantity::ofUnits(checkedMultiply(dividedUp(std::max<std::int64_t>(0, gallons.units() - 1), step), step));
}

std::string gallonsText(Quantity gallons) { return gallons.shown(gallons.units() % 1000 == 0 ? 0 : 1) + " gal"; }

/// Needs are said up to the next tenth, stock down to it, so that a sentence about both never says "12.5 needed, 12.5 there".
std::string neededText(Quantity gallons) { return gallonsText(Quantity::ofUnits((gallons.units() + 99) / 100 * 100)); }
std::string leftText(Quantity gallons) { return gallonsText(Quantity::ofUnits(gallons.units() / 100 * 100)); }

std::string cansText(Quantity gallons, Quantity can)
{
    return counted(gallons.units() / can.units(), "can", "cans") + " of " + gallonsText(can);
}

/// A first sentence of a card's text, without its stop.
std::string firstSentence(const std::string& text)
{
    auto end = text.find_first_of("\n");
    if (const auto stop = text.find(". "); stop != std::string::npos) end = std::min(end, stop);
    auto first = text.substr(0, end);
    while (!first.empty() && (first.back() == '.' || first.back() == ' ' || first.back() == '\r')) first.pop_back();
    return first;
}

/// Gathers what several stops need, each thing once.
class Loading {
public:
    explicit Loading(const Book& book) : book_{book} {}

    void pour(const Pour& pour, bool sealsToo, bool cutsToo)
    {
        thing("Placing and finishing tools");
        thing("Cones", "to keep people off the slab");
        thing("Plastic", "covers for rain and the first night");
        caution("Wet concrete burns skin and eyes: gloves, boots, eye wash; the mix's safety data sheet governs.");
        if (const auto* product = book_.find(pour.product); product && sealsToo && product->kind == ProductKind::cureAndSeal)
            seal(*product, gallonsFor(book_, pour.job, &pour, *product));
        if (cutsToo && pour.sawJoint && *pour.sawJoint > Quantity{}) cut(pour.sawJoint);
    }

    void visit(const Visit& visit)
    {
        switch (visit.kind) {
        case VisitKind::strip:
            thing("Pry bars, and room for the forms");
            return;
        case VisitKind::cut: return cut(jointFeet(book_, visit));
        case VisitKind::seal:
            if (const auto* product = productOf(book_, visit)) seal(*product, gallonsOnSlab(book_, visit));
            else thing("Sealer", "no product is named; name one on the visit"), sprayer();
            return;
        case VisitKind::walkThrough: return thing("The quote and the invoice");
        case VisitKind::resealCall: return;
        }
    }

    LoadOut done()
    {
        LoadOut out;
        for (const auto& id : order_) out.items.push_back(ofProduct(book_.get(id), needs_.at(id.value())));
        if (cutting_) addSaw(out);
        for (auto& item : things_) out.items.push_back(std::move(item));
        out.cautions = std::move(cautions_);
        return out;
    }

private:
    struct Need {
        Quantity gallons;
        int unknown = 0;
        int stops = 0;
    };

    void thing(const std::string& item, const std::string& why = {})
    {
        for (const auto& known : things_)
            if (known.item == item) return;
        LoadItem made;
        made.item = item;
        made.why = why;
        things_.push_back(std::move(made));
    }
    void caution(const std::string& sentence)
    {
        if (!sentence.empty() && std::find(cautions_.begin(), cautions_.end(), sentence) == cautions_.end()) cautions_.push_back(sentence);
    }

    void sprayer()
    {
        thing("Sprayer", "with a spare tip");
        thing("Plastic", "to mask walls and doors");
        thing("Cones", "to keep people off the slab");
    }

    void seal(const FinishingProduct& product, const std::optional<Quantity>& gallons)
    {
        auto& need = needs_[product.id.value()];
        if (need.stops++ == 0) order_.push_back(product.id);
        if (gallons) need.gallons += *gallons;
        else ++need.unknown;
        sprayer();
        if (!product.cleaning.empty()) thing("Cleaner", product.name + ": " + firstSentence(product.cleaning));
        else thing("Cleaner", "for the slab and the sprayer");
        caution(product.name + ": the label governs" + (product.cautions.empty() ? ". Gloves, eye protection, fresh air." : ". " + product.cautions));
    }

    void cut(const std::optional<Quantity>& feet)
    {
        cutting_ = true;
        if (feet) feet_ += *feet;
        else ++feetUnknown_;
        caution("Dry cutting makes silica dust that harms the lungs: cut wet, or with the shroud and vacuum, and wear what the rules ask for.");
    }

    LoadItem ofProduct(const FinishingProduct& product, const Need& need) const
    {
        LoadItem item;
        item.item = product.name;
        item.unit = "gal";
        item.product = product.id;
        if (need.unknown == need.stops) {
            item.why = "gallons unknown: area or coverage is not recorded";
            return item;
        }
        item.needed = withSpare(need.gallons, book_.settings().sealerSpare);
        item.amount = inCans(*item.needed, product.canGallons);
        item.why = product.canGallons && product.canGallons->units() > 0 ? cansText(*item.amount, *product.canGallons) : std::string{};
        const auto also = [&](const std::string& part) { item.why += (item.why.empty() ? "" : "; ") + part; };
        also(neededText(*item.needed) + " needed with " + book_.settings().sealerSpare.text() + " % spare");
        if (const auto left = stockOf(book_, product).left())
            also(*left < *item.needed ? "only " + leftText(*left) + " in the shop" : leftText(*left) + " in the shop");
        if (need.unknown > 0) also(counted(need.unknown, "stop", "stops") + " more whose gallons are unknown");
        return item;
    }

    void addSaw(LoadOut& out) const
    {
        LoadItem saw;
        saw.item = "Saw and blade";
        if (feet_ > Quantity{}) {
            saw.amount = feet_;
            saw.unit = "ft";
        } else {
            saw.why = "feet of joint are not recorded";
        }
        if (const auto left = book_.settings().bladeFeetLeft) {
            const auto feet = left->shown(0) + " ft left in the blade";
            saw.why += (saw.why.empty() ? "" : "; ") + (*left < feet_ ? "only " + feet + ", take another one" : feet);
        }
        out.items.push_back(std::move(saw));
        LoadItem water;
        water.item = "Water";
        water.why = "for wet cutting";
        out.items.push_back(std::move(water));
    }

    const Book& book_;
    std::vector<Id<FinishingProduct>> order_;
    std::map<std::int64_t, Need> needs_;
    bool cutting_ = false;
    Quantity feet_;
    int feetUnknown_ = 0;
    std::vector<LoadItem> things_;
    std::vector<std::string> cautions_;
};

}

std::string LoadItem::text() const
{
    auto text = item;
    if (amount) text = product ? gallonsText(*amount) + " of " + item : item + " for " + amount->shown(0) + ' ' + unit + " of joint";
    return why.empty() ? text : text + " (" + why + ')';
}

std::string LoadOut::brief() const
{
    std::vector<std::string> parts;
    for (const auto& item : items) {
        auto part = item.item;
        if (item.product) {
            part = item.needed ? neededText(*item.needed) + " of " + part : part + " (" + item.why + ')';
        } else {
            part.front() = part.front() >= 'A' && part.front() <= 'Z' ? static_cast<char>(part.front() - 'A' + 'a') : part.front();
            if (item.amount) part += " for " + item.amount->shown(0) + " ft of joint";
        }
        parts.push_back(std::move(part));
    }
    return listed(parts);
}

const FinishingProduct* productOf(const Book& book, const Visit& visit)
{
    if (const auto* product = book.find(visit.product)) return product;
    if (const auto* pour = book.find(visit.pour))
        if (const auto* product = book.find(pour->product)) return product;
    const auto* job = book.find(visit.job);
    const auto* type = job ? book.find(job->jobType) : nullptr;
    return type ? book.find(type->product) : nullptr;
}

std::optional<Quantity> gallonsOnSlab(const Book& book, const Visit& visit)
{
    if (visit.gallons) return visit.gallons;
    const auto* product = productOf(book, visit);
    return product ? gallonsFor(book, visit.job, book.find(visit.pour), *product) : std::nullopt;
}

std::optional<Quantity> jointFeet(const Book& book, const Visit& visit)
{
    if (const auto* pour = book.find(visit.pour)) return pour->sawJoint;
    std::optional<Quantity> feet;
    for (const auto* pour : book.referring<&Pour::job>(visit.job))
        if (pour->sawJoint) feet = feet.value_or(Quantity{}) + *pour->sawJoint;
    return feet;
}

LoadOut loadOut(const Book& book, std::span<const Pour* const> pours, std::span<const Visit* const> visits)
{
    Loading loading{book};
    for (const auto* pour : pours) {
        // What a visit of the same run does at the pour is not done by the pour itself as well.
        const auto isDoneBy = [&](VisitKind kind) {
            return std::any_of(visits.begin(), visits.end(), [&](const Visit* visit) {
                return visit->kind == kind && (visit->pour ? *visit->pour == pour->id : visit->job == pour->job);
            });
        };
        loading.pour(*pour, !isDoneBy(VisitKind::seal), !isDoneBy(VisitKind::cut));
    }
    for (const auto* visit : visits) loading.visit(*visit);
    return loading.done();
}

LoadOut loadOut(const Book& book, const Visit& visit)
{
    const Visit* const one[] = {&visit};
    return loadOut(book, {}, one);
}

LoadOut loadOut(const Book& book, const Pour& pour)
{
    const Pour* const one[] = {&pour};
    return loadOut(book, one, {});
}

std::optional<Quantity> Stock::left() const
{
    if (!counted) return std::nullopt;
    return std::max(Quantity{}, *counted - used);
}

Stock stockOf(const Book& book, const FinishingProduct& product)
{
    Stock stock;
    stock.counted = product.onHandGallons;
    stock.countedOn = product.countedOn;
    if (!stock.counted || !stock.countedOn) return stock;
    for (const auto& visit : book.all<Visit>()) {
        if (visit.kind != VisitKind::seal || !visit.doneOn || *visit.doneOn <= *stock.countedOn) continue;
        const auto* used = productOf(book, visit);
        if (!used || used->id != product.id) continue;
        if (const auto gallons = gallonsOnSlab(book, visit)) {
            stock.used += *gallons;
            if (!visit.gallons) ++stock.usedByGuess;
        } else {
            ++stock.usedUnknown;
        }
    }
    return stock;
}

std::vector<VisitDay> sealingAhead(const Book& book, Date from, int days)
{
    std::vector<VisitDay> ahead;
    const auto last = daysOn(from, days);
    const VisitWindows windows{book};
    for (const auto& visit : book.all<Visit>()) {
        if (!visit.isOpen() || visit.kind != VisitKind::seal) continue;
        const auto* job = book.find(visit.job);
        if (!job || job->droppedOn) continue;
        const auto inDays = windows.inDays(visit);
        const auto day = inDays.plannedOn ? inDays.plannedOn : inDays.due ? inDays.due : inDays.notBefore;
        if (day && last && *day <= *last) ahead.push_back({&visit, std::max(*day, from)});
    }
    return ahead;
}

std::vector<Shortage> shortages(const Book& book, std::span<const VisitDay> visits, Date today)
{
    std::map<std::int64_t, std::vector<VisitDay>> byProduct;
    for (const auto& one : visits)
        if (const auto* product = productOf(book, *one.visit); product && one.visit->kind == VisitKind::seal) byProduct[product->id.value()].push_back(one);
    std::vector<Shortage> found;
    for (auto& [id, uses] : byProduct) {
        const auto& product = book.get(Id<FinishingProduct>{id});
        const auto left = stockOf(book, product).left();
        if (!left) continue;
        std::stable_sort(uses.begin(), uses.end(), [](const VisitDay& a, const VisitDay& b) { return a.day < b.day; });
        Quantity gallons;
        std::optional<Shortage> shortage;
        for (const auto& use : uses) {
            gallons += gallonsOnSlab(book, *use.visit).value_or(Quantity{});
            const auto needed = withSpare(gallons, book.settings().sealerSpare);
            if (needed <= *left) continue;
            if (!shortage) shortage = Shortage{product.id, use.day, needed, *left, {}, {}};
            if (use.day == shortage->day) shortage->needed = needed;
        }
        if (!shortage) continue;
        shortage->toBuy = inCans(withSpare(gallons, book.settings().sealerSpare) - *left, product.canGallons);
        const auto buy = product.canGallons && product.canGallons->units() > 0 ? cansText(shortage->toBuy, *product.canGallons) : gallonsText(shortage->toBuy);
        shortage->text = product.name + " runs short " + (shortage->day - today > 1 ? "on " : "") + dayText(shortage->day, today) + ": " +
                         neededText(shortage->needed) + " needed by then and " + leftText(*left) + " in the shop; buy " + buy +
                         (shortage->day > today + 1 ? " by " + dayText(shortage->day - 1, today) : " today");
        found.push_back(std::move(*shortage));
    }
    std::stable_sort(found.begin(), found.end(), [](const Shortage& a, const Shortage& b) { return a.day < b.day; });
    return found;
}

}

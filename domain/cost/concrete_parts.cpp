#include "cost/concrete_charges.h"
#include "cost/explanation_parts.h"
#include "cost/ticket_billing.h"
#include "quantity/words.h"
#include "ready_mix/codes.h"
#include "takeoff/takeoff.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace strikeoff {

namespace {

/// A charge on both sides.
struct ChargeSums {
    Money carried, paid;
    int loads = 0;
};

struct CarriedMix {
    std::string_view code;
    std::optional<int> strength;
    UnitPrice perYard;
    bool isNamed() const { return !code.empty() || strength; }
};

/// The mix of one load, with what it was paid or should cost.
struct LoadMix {
    const Ticket* ticket = nullptr;
    Money paid;                    ///< less what is claimed of it
    std::int64_t thousandths = 0;  ///< yd³ on the ticket
};

/// What the takeoff calls for, as far as it can be told.
struct Measured {
    std::int64_t thousandths = 0;
    Rate allowance;
    double areaSqft = 0;
    bool byPour = false;  ///< scaled to the area written at the pours
};

std::string yardsText(std::int64_t thousandths) { return Yards::ofUnits(thousandths).text() + " yd\u00b3"; }
std::string areaText(double area) { return Area::ofUnits(std::llround(area * 100)).shown(0) + " sq ft"; }

class ConcreteStory {
public:
    ConcreteStory(Reasons& reasons, CostReckoner& reckoner, const ClassFacts& facts)
        : reasons_{reasons}, reckoner_{reckoner}, book_{reckoner.book()}, codes_{reckoner.codes()}, facts_{facts}
    {
    }

    /// What the loads cost.
    Money run()
    {
        for (const auto& line : facts_.carried) take(line);
        for (const auto* ticket : ticketsOf(book_, facts_.job.id)) take(*ticket);
        splitDelivery();
        explainMix();
        for (std::size_t i = 0; i < concreteChargeCount; ++i) explainCharge(static_cast<ConcreteCharge>(i), charges_[i]);
        reasons_.add("open claims", claimed_, [&] { return dollars(claimed_) + " billed that is claimed back and not credited yet"; });
        return actual_;
    }

private:
    ChargeSums& at(ConcreteCharge charge) { return charges_[static_cast<std::size_t>(charge)]; }

    void take(const Carried& line)
    {
        const auto charge = chargeOf(codes_, line);
        if (charge == ConcreteCharge::mix && line.quantity && *line.quantity > Quantity{} && plainUnit(line.unit) == "yd") {
            const auto thousandths = line.quantity->units();
            auto strength = strengthIn(line.description);
            if (const auto* meaning = codes_.ofAny(line.code); meaning && !strength) strength = strengthIn(meaning->words);
            mixes_.push_back({line.code, strength, UnitPrice::ofUnits(divideHalfUp(static_cast<Int128>(line.cost.cents()) * 100'000, thousandths))});
            carriedThousandths_ = checkedAdd(carriedThousandths_, thousandths);
            carriedMix_ += line.cost;
        } else if (!charge || charge == ConcreteCharge::mix) {
            asSum_ += line.cost;
            sumWords_.push_back(std::string{line.description} + ' ' + dollars(line.cost));
        } else if (charge == ConcreteCharge::delivery && plainUnit(line.unit) == "job") {
            deliveryOfAll_ += line.cost;
        } else {
            at(*charge).carried += line.cost;
        }
    }

    void take(const Ticket& ticket)
    {
        LoadMix load;
        load.ticket = &ticket;
        load.thousandths = ticket.yards.units();
        bool hasMix = false;
        if (const auto parts = reckoner_.billedFor(ticket); !parts.empty()) hasMix = takeBilled(ticket, parts, load);
        else if (!takeExpected(ticket, load, hasMix)) return;
        if (hasMix) {
            loads_.push_back(load);
            paidMix_ += load.paid;
            usedThousandths_ = checkedAdd(usedThousandths_, load.thousandths);
        }
        if (ticket.returnedYards) returned_ += *ticket.returnedYards;
    }

    /// By the statements' lines; true when the mix is among them.
    bool takeBilled(const Ticket& ticket, std::span<const BilledPart> parts, LoadMix& load)
    {
        bool hasMix = false;
        bool allYards = true;  // every line of the mix gives its yards
        std::int64_t yardsBilled = 0;
        Money billed;
        Money claimedOfMix;
        std::array<bool, concreteChargeCount> seen{};
        for (const auto& part : parts) {
            actual_ += part.amount;
            const auto charge = part.from == BilledFrom::tax      ? ConcreteCharge::tax
                                : part.from == BilledFrom::credit ? ConcreteCharge::credit
                                                                  : chargeOf(codes_, ticket, *part.line);
            const auto claim = part.from == BilledFrom::line ? reckoner_.openClaimOn(part.line->id) : Money{};
            claimed_ += claim;
            if (charge == ConcreteCharge::mix) {
                hasMix = true;
                billed += part.amount;
                claimedOfMix += claim;
                if (part.line->quantity) yardsBilled = checkedAdd(yardsBilled, part.line->quantity->units());
                else allYards = false;
                continue;
            }
            auto& sums = at(charge);
            sums.paid += part.amount - claim;
            if (!std::exchange(seen[static_cast<std::size_t>(charge)], true)) ++sums.loads;
        }
        load.paid = billed - claimedOfMix;
        if (hasMix && allYards && yardsBilled > 0 && yardsBilled != load.thousandths) {
            auto beyond = atRate(billed, yardsBilled, yardsBilled - load.thousandths);
            // What is claimed is taken out of the yards that were not delivered before it is taken out of the price.
            if (beyond > Money{}) beyond -= std::min(beyond, std::max(claimedOfMix, Money{}));
            beyondTickets_ += beyond;
            if (!beyond.isZero()) billedOff_.push_back("ticket " + ticket.number + " billed " + yardsText(yardsBilled) + " for " + yardsText(load.thousandths));
        }
        return hasMix;
    }

    /// By the sheet in force; false when it has no price for the load, which then is no part of the cost.
    bool takeExpected(const Ticket& ticket, LoadMix& load, bool& hasMix)
    {
        const auto* sheet = reckoner_.sheetFor(ticket);
        if (!sheet) return false;
        const auto charge = expectedCharge(ticket, *sheet, Words::leftOut);
        if (std::none_of(charge.lines.begin(), charge.lines.end(), [](const ChargeLine& line) { return line.kind == ChargeKind::mix; })) return false;
        hasMix = true;
        actual_ += charge.total;
        for (const auto& line : charge.lines) {
            if (line.kind == ChargeKind::mix) load.paid += line.amount;
            else addCharge(concreteCharge(line.kind), line.amount);
        }
        if (!charge.tax.isZero()) addCharge(ConcreteCharge::tax, charge.tax);
        return true;
    }

    void addCharge(ConcreteCharge charge, Money amount)
    {
        at(charge).paid += amount;
        ++at(charge).loads;
    }

    /// A bid drafted from the takeoff carries everything beyond the mix in one line: its parts follow from the loads it was reckoned with.
    void splitDelivery()
    {
        if (deliveryOfAll_.isZero()) return;
        std::array<std::int64_t, concreteChargeCount> weights{};
        for (const auto& [charge, amount] : loadsOfTheBid()) weights[static_cast<std::size_t>(charge)] += std::max<std::int64_t>(amount.cents(), 0);
        if (std::all_of(weights.begin(), weights.end(), [](auto weight) { return weight == 0; })) weights[static_cast<std::size_t>(ConcreteCharge::delivery)] = 1;
        const auto shares = split(deliveryOfAll_, weights);
        for (std::size_t i = 0; i < shares.size(); ++i) charges_[i].carried += shares[i];
    }

    std::vector<std::pair<ConcreteCharge, Money>> loadsOfTheBid() const
    {
        std::vector<std::pair<ConcreteCharge, Money>> found;
        if (!facts_.quote || mixes_.empty() || loads_.empty()) return found;
        Ticket ticket;
        ticket.supplier = loads_.front().ticket->supplier;
        ticket.date = facts_.quote->pourMonth.value_or(facts_.quote->draftedOn);
        while (ticket.date.weekday() == static_cast<int>(Weekday::sunday) || ticket.date.weekday() == static_cast<int>(Weekday::saturday)) ticket.date = ticket.date + 1;
        const auto* sheet = reckoner_.sheetFor(ticket);
        const auto* mix = sheet ? mixOn(*sheet, mixes_.front()) : nullptr;
        if (!mix) return found;
        ticket.mix = mix->code;
        const auto& settings = book_.settings();
        for (const auto yards : loadsFor(Yards::ofUnits(carriedThousandths_), settings.truckYards, settings.orderStep)) {
            ticket.yards = yards;
            const auto charge = expectedCharge(ticket, *sheet, Words::leftOut);
            for (const auto& line : charge.lines)
                if (line.kind != ChargeKind::mix) found.emplace_back(concreteCharge(line.kind), line.amount);
            found.emplace_back(ConcreteCharge::tax, charge.tax);
        }
        return found;
    }

    // The mix: yards, which mix, and what was paid for it.

    Money atBid(std::int64_t thousandths) const { return atRate(carriedMix_, carriedThousandths_, thousandths); }
    std::string bidRate() const { return eachText(carriedMix_, carriedThousandths_) + " per yd\u00b3"; }

    void explainMix()
    {
        if (carriedThousandths_ == 0) {
            if (sumWords_.empty())
                reasons_.add("not in the bid", paidMix_, [&] { return yardsText(usedThousandths_) + " for " + dollars(paidMix_) + ", and the bid carries no concrete"; });
            else
                reasons_.add("mix against the sum carried", paidMix_ - asSum_, [&] {
                    return dollars(paidMix_) + " for " + yardsText(usedThousandths_) + " against " + listed(sumWords_) + " carried without yards, so price and quantity cannot be told apart";
                });
            return;
        }
        reasons_.add("carried without yards", -asSum_, [&] { return listed(sumWords_) + " carried as a sum, with no yards to hold the loads against"; });
        if (usedThousandths_ <= 0) {
            reasons_.add(facts_.open ? "not delivered yet" : "not delivered", paidMix_ - carriedMix_,
                         [&] { return yardsText(carriedThousandths_) + " carried at " + bidRate() + " and no load with a price" + (facts_.open ? " yet" : ""); });
            return;
        }
        explainYards();
        const auto mixChange = changeOfMix();
        reasons_.add("mix change", mixChange, [&] { return listed(otherMixes_) + " in place of " + carriedMixText() + ", by what lies between them on the sheet"; });
        reasons_.add("yards billed", beyondTickets_, [&] { return listed(billedOff_); });
        const auto basis = atBid(usedThousandths_) + mixChange;
        reasons_.add("price", paidMix_ - basis - beyondTickets_, [&] {
            return "the mix came to " + eachText(paidMix_ - beyondTickets_, usedThousandths_) + " per yd\u00b3 against " + eachText(basis, usedThousandths_) + " carried, on " + yardsText(usedThousandths_);
        });
    }

    void explainYards()
    {
        const auto used = atBid(usedThousandths_);
        const auto measured = measure();
        if (!measured) {
            reasons_.add(isToCome() ? "not delivered yet" : "yards", used - carriedMix_, [&] {
                return yardsText(usedThousandths_) + " delivered against " + yardsText(carriedThousandths_) + " carried, at " + bidRate() +
                       "; without a takeoff, measure and over-order cannot be told apart";
            });
            return;
        }
        const auto called = atBid(measured->thousandths);
        explainMeasure(*measured, called);
        const bool isMissing = isToCome() && usedThousandths_ < measured->thousandths;
        reasons_.add(isMissing ? "not delivered yet" : "over-order", used - called, [&] {
            auto text = yardsText(usedThousandths_) + " delivered against " + yardsText(measured->thousandths) + " that the measure calls for with " + measured->allowance.text() +
                        "% over, at " + bidRate();
            if (returned_ > Yards{}) text += "; " + yardsText(returned_.units()) + " of it went back";
            return text;
        });
    }

    /// Area and thickness apart where the bid gives the area it was reckoned for.
    void explainMeasure(const Measured& measured, Money called)
    {
        const auto from = [&] { return measured.byPour ? " (" + areaText(measured.areaSqft) + " by the pours)" : " (" + areaText(measured.areaSqft) + " by the takeoff)"; };
        const auto carriedArea = areaInBid();
        if (!carriedArea || measured.areaSqft <= 0) {
            reasons_.add("measured area or thickness", called - carriedMix_, [&] {
                return yardsText(measured.thousandths) + " called for" + from() + " against " + yardsText(carriedThousandths_) + " carried, at " + bidRate();
            });
            return;
        }
        const auto byArea = Money::ofCents(std::llround(static_cast<double>(carriedMix_.cents()) * measured.areaSqft / *carriedArea));
        reasons_.add("measured area", byArea - carriedMix_,
                     [&] { return areaText(measured.areaSqft) + (measured.byPour ? " poured" : " measured") + " against " + areaText(*carriedArea) + " carried, at what the bid pays for the concrete of a square foot"; });
        reasons_.add("thickness", called - byArea, [&] {
            return yardsText(measured.thousandths) + " called for" + from() + " where the bid's yards for that area come to " + dollars(byArea);
        });
    }

    bool isToCome() const
    {
        if (!facts_.open) return false;
        const auto pours = book_.referring<&Pour::job>(facts_.job.id);
        return std::any_of(pours.begin(), pours.end(), [](const Pour* pour) { return !pour->pouredOn; });
    }

    /// The area the bid's base is carried for, where it is by the square foot.
    std::optional<double> areaInBid() const
    {
        if (!facts_.quote) return std::nullopt;
        double area = 0;
        for (const auto* line : book_.referring<&QuoteLine::quote>(facts_.quote->id))
            if (line->costClass == CostClass::base && plainUnit(line->unit) == "sqft") area += line->quantity.toDouble();
        // A change order that widened the slab is in the yards carried and not in this area.
        const bool widened = std::any_of(facts_.carried.begin(), facts_.carried.end(), [&](const Carried& line) { return line.isChange && plainUnit(line.unit) == "yd"; });
        return area > 0 && !widened ? std::optional{area} : std::nullopt;
    }

    std::optional<Measured> measure() const
    {
        const auto sections = book_.referring<&TakeoffSection::job>(facts_.job.id);
        if (sections.empty()) return std::nullopt;
        const auto takeoff = takeoffOf(book_, facts_.job.id);
        if (!takeoff.faults.empty() || takeoff.ordered <= Yards{}) return std::nullopt;
        Measured measured{takeoff.ordered.units(), takeoff.allowance, takeoff.areaSqft, false};
        const auto poured = areaPoured();
        if (poured <= 0 || takeoff.areaSqft <= 0) return measured;
        double flat = 0;
        for (const auto* section : sections)
            if (const auto one = strikeoff::measure(*section); one.areaSqft != 0) flat += one.volumeYards;
        const double volume = takeoff.volumeYards + flat * (poured - takeoff.areaSqft) / takeoff.areaSqft;
        measured.thousandths = orderFor(volume, takeoff.allowance, book_.settings().orderStep).units();
        measured.areaSqft = poured;
        measured.byPour = true;
        return measured;
    }

    /// The area written at the pours; zero unless every pour is poured and has it.
    double areaPoured() const
    {
        double area = 0;
        for (const auto* pour : book_.referring<&Pour::job>(facts_.job.id)) {
            if (!pour->pouredOn || !pour->area || *pour->area <= Area{}) return 0;
            area += pour->area->toDouble();
        }
        return area;
    }

    std::optional<int> strengthOf(const Ticket& ticket) const
    {
        const auto* meaning = codes_.of(ticket.supplier, ticket.mix);
        return meaning ? strengthIn(meaning->words) : std::nullopt;
    }

    /// The carried mix a load is of; nothing when it is of none of them.
    const CarriedMix* carriedFor(const Ticket& ticket) const
    {
        if (ticket.mix.empty()) return &mixes_.front();
        const auto strength = strengthOf(ticket);
        for (const auto& mix : mixes_)
            if (mix.isNamed() && (sameCode(mix.code, ticket.mix) || (strength && strength == mix.strength))) return &mix;
        // A bid that names no mix means whatever was poured.
        return std::none_of(mixes_.begin(), mixes_.end(), [](const CarriedMix& mix) { return mix.isNamed(); }) ? &mixes_.front() : nullptr;
    }

    static const SheetCharge* mixOn(const PriceSheet& sheet, const CarriedMix& wanted)
    {
        for (const auto* charge : sheet.charges)
            if (charge->charge == ChargeKind::mix && sameCode(charge->code, wanted.code)) return charge;
        for (const auto* charge : sheet.charges)
            if (charge->charge == ChargeKind::mix && wanted.strength && strengthIn(charge->meaning) == wanted.strength) return charge;
        return nullptr;
    }

    const CarriedMix& namedMix() const
    {
        const auto named = std::find_if(mixes_.begin(), mixes_.end(), [](const CarriedMix& mix) { return mix.isNamed(); });
        return named == mixes_.end() ? mixes_.front() : *named;
    }

    std::string carriedMixText() const
    {
        const auto& mix = namedMix();
        return mix.code.empty() ? std::to_string(mix.strength.value_or(0)) + " psi" : std::string{mix.code};
    }

    Money changeOfMix()
    {
        const auto average = UnitPrice::ofUnits(divideHalfUp(static_cast<Int128>(carriedMix_.cents()) * 100'000, carriedThousandths_));
        const bool several = std::count_if(mixes_.begin(), mixes_.end(), [](const CarriedMix& mix) { return mix.isNamed(); }) > 1;
        Money change;
        for (const auto& load : loads_) {
            const auto yards = Yards::ofUnits(load.thousandths);
            if (const auto* same = carriedFor(*load.ticket)) {
                if (several && same->isNamed()) change += lineAmount(same->perYard - average, yards);
                continue;
            }
            if (std::find(otherMixes_.begin(), otherMixes_.end(), load.ticket->mix) == otherMixes_.end()) otherMixes_.push_back(load.ticket->mix);
            const auto* sheet = reckoner_.sheetFor(*load.ticket);
            const auto* poured = sheet ? mixOn(*sheet, CarriedMix{load.ticket->mix, {}, {}}) : nullptr;
            const auto* meant = sheet ? mixOn(*sheet, namedMix()) : nullptr;
            // Without a sheet that has both, all that was paid beyond the bid's price is the other mix.
            change += poured && meant ? lineAmount(poured->amount - meant->amount, yards) : load.paid - atBid(load.thousandths);
        }
        if (otherMixes_.empty()) otherMixes_.emplace_back("the mixes poured");
        return change;
    }

    void explainCharge(ConcreteCharge charge, const ChargeSums& sums)
    {
        if (charge == ConcreteCharge::mix) return;
        reasons_.add(nameOf(charge), sums.paid - sums.carried, [&] {
            const auto onLoads = sums.loads > 0 ? " on " + counted(sums.loads, "load", "loads") : std::string{};
            if (charge == ConcreteCharge::credit) return dollars(-sums.paid) + " credited" + onLoads;
            if (charge == ConcreteCharge::tax && sums.carried.isZero())
                return dollars(sums.paid) + " of sales tax" + onLoads + ", and no line of the bid carries it (its price per yd\u00b3 may have it in)";
            return (sums.paid.isZero() ? std::string{"nothing"} : dollars(sums.paid)) + onLoads + " against " + (sums.carried.isZero() ? std::string{"none"} : dollars(sums.carried)) + " carried";
        });
    }

    Reasons& reasons_;
    CostReckoner& reckoner_;
    const Book& book_;
    const SheetCodes& codes_;
    const ClassFacts& facts_;

    std::vector<CarriedMix> mixes_;
    std::int64_t carriedThousandths_ = 0;
    Money carriedMix_;
    Money deliveryOfAll_;
    Money asSum_;
    std::vector<std::string> sumWords_;

    std::vector<LoadMix> loads_;
    std::int64_t usedThousandths_ = 0;
    Money actual_;
    Money paidMix_;
    Money beyondTickets_;
    std::vector<std::string> billedOff_;
    std::vector<std::string> otherMixes_;
    Money claimed_;
    Yards returned_;
    std::array<ChargeSums, concreteChargeCount> charges_{};
};

}

Money explainConcrete(Reasons& reasons, CostReckoner& reckoner, const ClassFacts& facts) { return ConcreteStory{reasons, reckoner, facts}.run(); }

}

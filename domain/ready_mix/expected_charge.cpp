#include "ready_mix/expected_charge.h"

#include "ready_mix/codes.h"
#include "record/fields.h"

#include <algorithm>

namespace strikeoff {

namespace {

constexpr std::int64_t mostUnits = 1'000'000'000'000;  // of any factor, so that no product of three leaves 128 bits
constexpr std::int64_t priceUnitsPerCent = UnitPrice::one / Money::one;
constexpr std::int64_t mostYards = 1'000'000;
constexpr const char* yardUnit = "yd\u00b3";

std::string dollars(UnitPrice price) { return "$" + price.text(); }

/// One ticket on its way through a sheet.
class Reckoning {
public:
    Reckoning(const Ticket& ticket, const PriceSheet& sheet, Words words)
        : ticket_{ticket}, sheet_{sheet}, worded_{words == Words::written} {}

    ExpectedCharge run()
    {
        if (ticket_.yards > Yards::ofWhole(mostYards) || ticket_.yards <= Yards{}) {
            unknown("the yards are none that a truck can hold; check the ticket");
            return std::move(result_);
        }
        result_.lines.reserve(8);
        readOptions();
        priceMix();
        for (const auto* charge : sheet_.charges) price(*charge);
        sayWhatTheSheetLacks();
        addUp();
        return std::move(result_);
    }

private:
    /// What the ticket names, and what came of it.
    struct Named {
        TicketOption option;
        bool onSheet = false;
        bool charged = false;
    };

    void unknown(std::string text) { result_.unknown.push_back(std::move(text)); }

    void readOptions()
    {
        auto options = parseOptions(ticket_.options);
        if (!options) return unknown("the options \u201c" + ticket_.options + "\u201d are not understood");
        named_.reserve(options->size());
        for (auto& option : *options) named_.push_back({std::move(option)});
    }

    /// The yards a charge goes by: of returned concrete those that went back, else the load's.
    Yards yardsOf(const SheetCharge& charge) const
    {
        return charge.charge == ChargeKind::returned ? ticket_.returnedYards.value_or(Yards{}) : ticket_.yards;
    }

    bool fits(const SheetCharge& charge) const
    {
        const auto yards = yardsOf(charge);
        if ((charge.fromYards && yards < *charge.fromYards) || (charge.toYards && yards >= *charge.toYards)) return false;
        return !charge.seasonFrom || !charge.seasonTo || isWithin(ticket_.date, *charge.seasonFrom, *charge.seasonTo);
    }

    void priceMix()
    {
        if (ticket_.mix.empty()) return unknown("the mix is not recorded");
        bool onSheet = false;
        for (const auto* charge : sheet_.charges) {
            if (charge->charge != ChargeKind::mix || !sameCode(charge->code, ticket_.mix)) continue;
            onSheet = true;
            if (!fits(*charge)) continue;
            if (add(*charge, "Mix of the ticket", std::nullopt)) mix_ = result_.lines.back().amount;
            return;
        }
        unknown("mix " + ticket_.mix + (onSheet ? " is on the sheet, but not for this load" : " is not on the sheet"));
    }

    void price(const SheetCharge& charge)
    {
        switch (charge.charge) {
        case ChargeKind::mix:
        case ChargeKind::tax:
        case ChargeKind::discount: return;
        case ChargeKind::option:
        case ChargeKind::afterHours:
        case ChargeKind::holiday: return priceNamed(charge);
        case ChargeKind::load: return priceAlways(charge, "Every load");
        case ChargeKind::shortLoad: return priceShortLoad(charge);
        case ChargeKind::waiting: return priceWaiting(charge);
        case ChargeKind::saturday: return priceAlways(charge, "A Saturday", ticket_.date.weekday() == static_cast<int>(Weekday::saturday));
        case ChargeKind::winter: return priceAlways(charge, "Winter service");
        case ChargeKind::returned: return priceAlways(charge, "Concrete sent back", ticket_.returnedYards && *ticket_.returnedYards > Yards{});
        case ChargeKind::fuel: return priceAlways(charge, "Fuel surcharge");
        }
    }

    /// A charge that is only on loads whose ticket names it, as often as it is named.
    void priceNamed(const SheetCharge& charge)
    {
        const bool fitting = fits(charge);
        for (auto& named : named_) {
            if (!sameCode(named.option.code, nameOf(charge))) continue;
            named.onSheet = true;
            if (!fitting) continue;
            named.charged = true;
            add(charge, worded_ ? named.option.code + " on the ticket" : std::string{}, named.option.amount);
        }
    }

    /// A charge that comes with the load, unless it was to be ordered and was not.
    void priceAlways(const SheetCharge& charge, std::string_view why, bool due = true)
    {
        if (charge.onlyWhenOrdered) {
            if (due) priceNamed(charge);
            else noteNamed(charge, false);
            return;
        }
        due = due && fits(charge);
        noteNamed(charge, due);
        if (due) add(charge, why, std::nullopt);
    }

    bool isNamed(const SheetCharge& charge) const
    {
        return std::any_of(named_.begin(), named_.end(), [&](const Named& named) { return sameCode(named.option.code, nameOf(charge)); });
    }

    void noteNamed(const SheetCharge& charge, bool charged)
    {
        for (auto& named : named_) {
            if (!sameCode(named.option.code, nameOf(charge))) continue;
            named.onSheet = true;
            named.charged = named.charged || charged;
        }
    }

    void priceShortLoad(const SheetCharge& charge)
    {
        if (!charge.fromYards && !charge.toYards) return unknown("the sheet's short-load charge names no size");
        if (!worded_ || !fits(charge)) return priceAlways(charge, {});
        std::string why = "Load of " + ticket_.yards.text() + " yd\u00b3";
        if (charge.fromYards) why += ", from " + charge.fromYards->text();
        if (charge.toYards) why += (charge.fromYards ? " to under " : " under ") + charge.toYards->text();
        priceAlways(charge, why);
    }

    void priceWaiting(const SheetCharge& charge)
    {
        if (!fits(charge) || (charge.onlyWhenOrdered && !isNamed(charge))) return noteNamed(charge, false);
        const auto waiting = waitingOf(ticket_, charge, worded_ ? Words::written : Words::leftOut);
        if (!waiting.onSite) {
            noteNamed(charge, true);
            return unknown("waiting: " + waiting.rule);
        }
        const bool due = waiting.charged > Minutes{};
        noteNamed(charge, due);
        if (!due) return;
        minutes_ = waiting.charged;
        add(charge, waiting.rule, std::nullopt);
        minutes_.reset();
    }

    /// Adds the line of a charge; false, and a word about it, when the ticket does not say how much of it there is.
    bool add(const SheetCharge& charge, std::string_view why, std::optional<Quantity> times)
    {
        const auto name = nameOf(charge);
        const auto factor = times.value_or(Quantity::ofWhole(1));
        std::int64_t base = Quantity::one;
        const char* unit = "load";
        switch (charge.unit) {
        case ChargeUnit::perLoad: break;
        case ChargeUnit::perYard:
            base = yardsOf(charge).units();
            unit = yardUnit;
            break;
        case ChargeUnit::perYardUnder:
            if (!charge.toYards) return refused(name, "is per yd\u00b3 under a size that the sheet does not give");
            base = (*charge.toYards - yardsOf(charge)).units();
            unit = yardUnit;
            break;
        case ChargeUnit::perMinute:
            if (!minutes_) return refused(name, "is per minute, and the ticket has no minutes for it");
            base = minutes_->count() * Quantity::one;
            unit = "min";
            break;
        case ChargeUnit::percent:
            if (!mix_) return refused(name, "is a percentage of the mix, which has no price here");
            break;
        }
        const bool percent = charge.unit == ChargeUnit::percent;
        const auto amount = percent ? product(mix_->cents(), charge.amount.units(), factor.units(), Int128{1'000'000} * Quantity::one)
                                    : product(charge.amount.units(), base, factor.units(), priceUnitsPerCent * Quantity::one * Quantity::one);
        if (!amount) return refused(name, "comes to an amount that no bill can hold; check the ticket");
        const auto unitPrice = percent ? UnitPrice::ofUnits(amount->cents() * priceUnitsPerCent) : timesPrice(charge.amount, factor);

        auto& line = result_.lines.emplace_back();
        line.kind = charge.charge;
        line.code = charge.code;
        line.quantity = Quantity::ofUnits(base);
        line.unit = unit;
        line.unitPrice = unitPrice;
        line.amount = *amount;
        line.taxable = charge.taxable;
        if (worded_) {
            line.description = description(charge);
            line.rule = rule(charge, line, why, times);
        }
        return true;
    }

    static std::string rule(const SheetCharge& charge, const ChargeLine& line, std::string_view why, std::optional<Quantity> times)
    {
        std::string text;
        text.reserve(64);
        text += why;
        if (charge.seasonFrom && charge.seasonTo) text += ", " + charge.seasonFrom->text() + " to " + charge.seasonTo->text();
        text += ": ";
        if (times) text += times->text() + " \u00d7 ";
        if (charge.unit == ChargeUnit::percent) return text + charge.amount.text() + "% of the mix";
        text += dollars(charge.amount);
        if (charge.unit == ChargeUnit::perLoad) return text;
        text += " \u00d7 " + line.quantity.text() + ' ' + line.unit;
        if (charge.unit == ChargeUnit::perYardUnder) text += " under " + charge.toYards->text();
        return text;
    }

    bool refused(std::string_view name, const char* why)
    {
        unknown(std::string{name} + ' ' + why);
        return false;
    }

    static std::string description(const SheetCharge& charge)
    {
        std::string text;
        if (charge.charge != ChargeKind::mix && !charge.meaning.empty()) return charge.meaning;
        text += labelOf(charge.charge);
        if (!charge.code.empty()) text += ' ' + charge.code;
        return text;
    }

    static std::optional<Money> product(std::int64_t a, std::int64_t b, std::int64_t c, Int128 divisor)
    {
        for (const auto factor : {a, b, c})
            if (factor > mostUnits || factor < -mostUnits) return std::nullopt;
        const Int128 exact = static_cast<Int128>(a) * b * c;
        if (exact / divisor > mostMoney || exact / divisor < -mostMoney) return std::nullopt;
        return Money::ofCents(divideHalfUp(exact, divisor));
    }

    static UnitPrice timesPrice(UnitPrice price, Quantity times)
    {
        if (times == Quantity::ofWhole(1)) return price;
        return UnitPrice::ofUnits(divideHalfUp(static_cast<Int128>(price.units()) * times.units(), Quantity::one));
    }

    void sayWhatTheSheetLacks()
    {
        for (const auto& named : named_) {
            if (named.charged) continue;
            unknown(named.option.code + (named.onSheet ? " is on the sheet, but not for this load" : " is not on the sheet"));
        }
    }

    void addUp()
    {
        Money taxable;
        for (const auto& line : result_.lines) {
            result_.net += line.amount;
            if (line.taxable) taxable += line.amount;
        }
        Rate tax;
        bool taxed = false;
        for (const auto* charge : sheet_.charges) {
            if (charge->charge == ChargeKind::tax && fits(*charge)) {
                if (charge->unit != ChargeUnit::percent) {
                    refused(nameOf(*charge), "is a sales tax that is no percentage; correct the sheet");
                    continue;
                }
                tax += Rate::ofUnits(charge->amount.units());
                taxed = true;
            } else if (charge->charge == ChargeKind::discount && fits(*charge)) {
                discount(*charge);
            }
        }
        if (taxed) {
            result_.tax = percentOf(taxable, tax);
            if (worded_) result_.taxRule = tax.text() + "% on $" + taxable.shown();
        }
        result_.total = result_.net + result_.tax;
    }

    void discount(const SheetCharge& charge)
    {
        switch (charge.unit) {
        case ChargeUnit::percent: result_.earlyDiscount += percentOf(result_.net, Rate::ofUnits(charge.amount.units())); return;
        case ChargeUnit::perYard: result_.earlyDiscount += lineAmount(charge.amount, ticket_.yards); return;
        case ChargeUnit::perLoad: result_.earlyDiscount += lineAmount(charge.amount, Quantity::ofWhole(1)); return;
        case ChargeUnit::perYardUnder:
        case ChargeUnit::perMinute: refused(nameOf(charge), "is a discount that is neither a percentage nor per yd\u00b3; correct the sheet"); return;
        }
    }

    const Ticket& ticket_;
    const PriceSheet& sheet_;
    bool worded_;
    ExpectedCharge result_;
    std::vector<Named> named_;
    std::optional<Money> mix_;
    std::optional<Minutes> minutes_;
};

}

std::string_view nameOf(const SheetCharge& charge) { return charge.code.empty() ? codeOf(charge.charge) : std::string_view{charge.code}; }

ExpectedCharge expectedCharge(const Ticket& ticket, const PriceSheet& sheet, Words words) { return Reckoning{ticket, sheet, words}.run(); }

std::optional<ExpectedCharge> expectedCharge(const Book& book, const Ticket& ticket)
{
    const auto sheet = sheetInForce(book, ticket.supplier, ticket.date);
    return sheet ? std::optional{expectedCharge(ticket, *sheet)} : std::nullopt;
}

std::optional<ExpectedCharge> expectedCharge(const PriceSheets& sheets, const Ticket& ticket, Words words)
{
    const auto* sheet = sheets.inForce(ticket.supplier, ticket.date);
    return sheet ? std::optional{expectedCharge(ticket, *sheet, words)} : std::nullopt;
}

}

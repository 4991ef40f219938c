#pragma once

#include "domain/book_maker.h"
#include "ready_mix/expected_charge.h"

#include <map>
#include <random>
#include <set>

namespace strikeoff {

/// What a check has to say about a line of a made statement.
struct LineTruth {
    std::string finding;                 ///< as findings are coded
    std::optional<Id<Ticket>> ticket;
    bool planted = false;                ///< a fault, or a number that is mistyped
};

/// Books with known faults in their statements: two suppliers that use the same numbers, one of them with two plants that do, two sheets each,
/// two monthly statements each, 1 to 5 % of numbers mistyped, about every fourth load with a fault or two.
class FaultyBook {
public:
    explicit FaultyBook(unsigned seed) : random_{seed}
    {
        typoPerMille_ = between(10, 50);
        for (int i = 0; i < 2; ++i) makeSupplier(i);
        for (auto& draft : drafts_) write(draft);
    }

    const Book& book() const { return maker_.book; }
    const std::map<std::int64_t, LineTruth>& truths() const { return truths_; }
    const std::set<std::int64_t>& unbilled() const { return unbilled_; }

private:
    struct Line {
        StatementLine line;
        ChargeKind kind{};
        bool taxable = false;
        std::string finding = "agrees";
        bool planted = false;
    };
    struct Load {
        std::optional<Id<Ticket>> ticket;
        std::string number;
        Date date;
        std::vector<Line> lines;
        bool copied = false;
    };
    struct Draft {
        Id<Supplier> supplier;
        std::string number;
        Date date;
        std::vector<Load> loads;
    };

    int between(int least, int most) { return least + static_cast<int>(random_() % static_cast<unsigned>(most - least + 1)); }
    bool chance(int perMille) { return between(0, 999) < perMille; }
    static constexpr Rate tax = Rate::ofUnits(6'2500);

    SheetCharge& charge(SheetCharge made)
    {
        sheet_.push_back(std::move(made));
        return sheet_.back();
    }

    void makeSheet(Id<Supplier> supplier, const char* from, int raise)
    {
        sheet_.clear();
        const auto add = [&](ChargeKind kind, const char* code, const char* meaning, int cents, ChargeUnit unit, bool taxable) -> SheetCharge& {
            return charge(SheetCharge{.supplier = supplier, .effectiveOn = on(from), .charge = kind, .code = code, .meaning = meaning, .amount = UnitPrice::ofUnits(cents * 100), .unit = unit, .taxable = taxable});
        };
        add(ChargeKind::mix, "35A", "3500 psi", 150'00 + raise, ChargeUnit::perYard, true);
        add(ChargeKind::mix, "40A", "4000 psi", 158'00 + raise, ChargeUnit::perYard, true);
        add(ChargeKind::mix, "45A", "4500 psi", 166'50 + raise, ChargeUnit::perYard, true);
        add(ChargeKind::option, "ACC", "Accelerator, per 1 %", 5'75, ChargeUnit::perYard, true);
        add(ChargeKind::option, "FIB", "Fiber, per lb", 4'90, ChargeUnit::perYard, true);
        add(ChargeKind::load, "ENV", "Washout", 11'00, ChargeUnit::perLoad, false);
        auto& small = add(ChargeKind::fuel, "FUEL", "Fuel", 15'00, ChargeUnit::perLoad, false);
        small.fromYards = Yards{};
        small.toYards = Yards::ofWhole(5);
        add(ChargeKind::fuel, "FUEL", "Fuel", 22'00, ChargeUnit::perLoad, false).fromYards = Yards::ofWhole(5);
        auto& shortest = add(ChargeKind::shortLoad, "SHORT4", "Short load under 4", 120'00, ChargeUnit::perLoad, false);
        shortest.fromYards = Yards{};
        shortest.toYards = Yards::ofWhole(4);
        auto& shorter = add(ChargeKind::shortLoad, "SHORT6", "Short load 4 to under 6", 70'00, ChargeUnit::perLoad, false);
        shorter.fromYards = Yards::ofWhole(4);
        shorter.toYards = Yards::ofWhole(6);
        auto& waiting = add(ChargeKind::waiting, "WAIT", "Waiting", 2'25, ChargeUnit::perMinute, false);
        waiting.freeMinutes = Quantity::ofWhole(6);
        waiting.freeBasis = FreeBasis::perYard;
        waiting.stepMinutes = 1;
        add(ChargeKind::saturday, "SAT", "Saturday", 65'00, ChargeUnit::perLoad, false);
        auto& winter = add(ChargeKind::winter, "HEAT", "Hot water", 6'50, ChargeUnit::perYard, true);
        winter.seasonFrom = MonthDay::of(10, 15);
        winter.seasonTo = MonthDay::of(4, 1);
        winter.onlyWhenOrdered = true;
        add(ChargeKind::tax, "TAX", "Sales tax", 6'25, ChargeUnit::percent, false);
        for (const auto& made : sheet_) maker_.add(made);
    }

    void makeSupplier(int index)
    {
        const auto supplier = maker_.add(Supplier{.name = index == 0 ? "Lindmoor Ready Mix" : "Saltmere Concrete"});
        makeSheet(supplier, "2025-06-01", 0);
        makeSheet(supplier, "2026-11-10", between(4, 16) * 50);  // in the middle of the first month
        const char* ends[] = {"2026-11-30", "2026-12-31"};
        const int firstNumber = between(40, 60) * 1000;  // both suppliers count through the same numbers
        for (int month = 0; month < 2; ++month) {
            Draft draft;
            draft.supplier = supplier;
            draft.number = "S" + std::to_string(index) + std::to_string(month);
            draft.date = on(ends[month]);
            const auto first = on(month == 0 ? "2026-11-02" : "2026-12-01");
            for (int i = 0; i < 18; ++i) {
                const auto date = first + between(0, 26);
                const int number = firstNumber + (date - on("2026-11-01")) * 37 + between(0, 36);
                addLoad(draft, supplier, std::to_string(number), date, index == 0 && chance(300) ? "North" : "");
                // The other plant has the same number on a day near by.
                if (index == 0 && chance(60)) addLoad(draft, supplier, std::to_string(number), date + between(0, 2), "South");
            }
            std::stable_sort(draft.loads.begin(), draft.loads.end(), [](const auto& a, const auto& b) { return a.date < b.date; });
            drafts_.push_back(std::move(draft));
        }
        plant(drafts_[drafts_.size() - 2], &drafts_.back());
        plant(drafts_.back(), nullptr);
    }

    void addLoad(Draft& draft, Id<Supplier> supplier, const std::string& number, Date date, const std::string& plant)
    {
        Ticket ticket{.supplier = supplier, .number = number, .plant = plant, .date = date};
        if (!taken_.insert({supplier.value(), plant, number, date.days()}).second) return;
        const char* mixes[] = {"35A", "40A", "45A"};
        ticket.mix = mixes[between(0, 2)];
        ticket.yards = Yards::ofUnits(between(8, 40) * 250);
        if (chance(250)) ticket.options = chance(500) ? "ACC=1" : "ACC=2;FIB=1.5";
        if (chance(300)) ticket.options = ticket.options + (ticket.options.empty() ? "HEAT" : ";HEAT");
        if (!chance(120)) {
            const int arrived = between(7 * 60, 14 * 60);
            ticket.arrivedAt = ClockTime::ofMinutes(arrived);
            ticket.dischargeEndedAt = ClockTime::ofMinutes(arrived + between(12, 65));
        }
        if (chance(500)) ticket.concreteTempF = between(56, 68);
        const auto id = maker_.add(ticket);
        Load load;
        load.ticket = id;
        load.number = number;
        load.date = date;
        bill(load, ticket);
        draft.loads.push_back(std::move(load));
    }

    void bill(Load& load, const Ticket& ticket)
    {
        const auto expected = expectedCharge(maker_.book, ticket).value();
        for (const auto& made : expected.lines) {
            Line line;
            line.kind = made.kind;
            line.taxable = made.taxable;
            line.line.code = made.code;
            line.line.description = made.description;
            line.line.quantity = made.quantity;
            line.line.unit = made.unit;
            line.line.unitPrice = made.unitPrice;
            line.line.amount = made.amount;
            load.lines.push_back(std::move(line));
        }
        Line line;
        line.kind = ChargeKind::tax;
        line.line.code = "TAX";
        line.line.description = "Sales tax";
        line.line.amount = expected.tax;
        load.lines.push_back(std::move(line));
    }

    static Line* lineOf(Load& load, ChargeKind kind)
    {
        for (auto& line : load.lines)
            if (line.kind == kind) return &line;
        return nullptr;
    }

    static void spoil(Line& line, const char* finding)
    {
        line.finding = finding;
        line.planted = true;
    }

    /// The tax of a load follows what is billed.
    static void retax(Load& load)
    {
        auto* line = lineOf(load, ChargeKind::tax);
        if (!line || line->planted) return;
        Money base;
        for (const auto& other : load.lines)
            if (other.taxable) base += other.line.amount;
        if (percentOf(base, tax) == line->line.amount) return;
        line->line.amount = percentOf(base, tax);
        spoil(*line, "tax_off");
    }

    void addLine(Load& load, ChargeKind kind, const char* code, Quantity quantity, const char* unit, UnitPrice price, bool taxable, const char* finding)
    {
        Line line;
        line.kind = kind;
        line.taxable = taxable;
        line.line.code = code;
        line.line.quantity = quantity;
        line.line.unit = unit;
        line.line.unitPrice = price;
        line.line.amount = lineAmount(price, quantity);
        spoil(line, finding);
        load.lines.insert(load.lines.end() - 1, std::move(line));
        retax(load);
    }

    void plant(Draft& draft, Draft* next)
    {
        std::vector<Load> copies;
        for (auto& load : draft.loads) {
            if (load.copied) continue;
            if (chance(200)) fault(load);
            if (chance(60)) fault(load);
            if (chance(typoPerMille_)) mistype(load);
        }
        std::vector<Load> kept;
        for (auto& load : draft.loads) {
            if (!load.copied && chance(25)) {
                unbilled_.insert(load.ticket->value());
                continue;
            }
            kept.push_back(load);
            if (load.copied || !chance(40)) continue;
            auto copy = load;
            copy.copied = true;
            for (auto& line : copy.lines) spoil(line, "billed_twice");
            if (next && chance(500)) next->loads.push_back(std::move(copy));
            else copies.push_back(std::move(copy));
        }
        draft.loads = std::move(kept);
        for (auto& copy : copies) draft.loads.push_back(std::move(copy));
        if (chance(400)) stranger(draft);
    }

    void fault(Load& load)
    {
        const auto& ticket = maker_.book.get(*load.ticket);
        auto* mix = lineOf(load, ChargeKind::mix);
        if (mix->planted) mix = nullptr;
        switch (between(0, 11)) {
        case 0:
        case 1:
            if (!mix) return;
            mix->line.unitPrice = *mix->line.unitPrice + UnitPrice::ofUnits(between(2, 30) * 2500 * (chance(100) ? -1 : 1));
            mix->line.amount = lineAmount(*mix->line.unitPrice, *mix->line.quantity);
            spoil(*mix, "price_off");
            return retax(load);
        case 2:
            if (!mix) return;
            mix->line.quantity = *mix->line.quantity + Quantity::ofUnits(between(1, 4) * 250);
            mix->line.amount = lineAmount(*mix->line.unitPrice, *mix->line.quantity);
            spoil(*mix, "yards_off");
            return retax(load);
        case 3:
            if (!mix) return;
            mix->line.amount += Money::ofCents(between(10, 200) * 100);
            spoil(*mix, "sum_off");
            return retax(load);
        case 4:
            if (std::any_of(load.lines.begin(), load.lines.end(), [](const auto& line) { return line.line.code == "PLANT"; })) return;
            return addLine(load, ChargeKind::load, "PLANT", Quantity::ofWhole(1), "load", UnitPrice::ofWhole(between(9, 60)), false, "charge_not_on_sheet");
        case 5:
            if (ticket.yards < Yards::ofWhole(6) || lineOf(load, ChargeKind::shortLoad)) return;
            return addLine(load, ChargeKind::shortLoad, "SHORT6", Quantity::ofWhole(1), "load", UnitPrice::ofWhole(70), false, "not_earned");
        case 6: {
            if (lineOf(load, ChargeKind::waiting)) return;
            addLine(load, ChargeKind::waiting, "WAIT", Quantity::ofWhole(between(8, 40)), "min", UnitPrice::ofUnits(2'2500), false, "not_earned");
            // Times that are not recorded prove nothing.
            if (!ticket.arrivedAt) lineOf(load, ChargeKind::waiting)->finding = "agrees";
            return;
        }
        case 7:
            if (lineOf(load, ChargeKind::option)) return;
            return addLine(load, ChargeKind::option, "ACC", Quantity::ofUnits(ticket.yards.units()), "yd\u00b3", UnitPrice::ofUnits(5'7500), true, "not_earned");
        case 8:
            if (lineOf(load, ChargeKind::winter)) return;
            return addLine(load, ChargeKind::winter, "HEAT", Quantity::ofUnits(ticket.yards.units()), "yd\u00b3", UnitPrice::ofUnits(6'5000), true, "not_earned");
        case 9:
            if (ticket.date.weekday() == 6 || lineOf(load, ChargeKind::saturday)) return;
            return addLine(load, ChargeKind::saturday, "SAT", Quantity::ofWhole(1), "load", UnitPrice::ofWhole(65), false, "not_earned");
        case 10: {
            auto* winter = lineOf(load, ChargeKind::winter);
            auto* taxLine = lineOf(load, ChargeKind::tax);
            if (!winter || winter->planted || taxLine->planted) return;
            maker_.change(*load.ticket, [&](Ticket& row) { row.concreteTempF = between(40, 54); });
            spoil(*winter, "not_earned");
            spoil(*taxLine, "tax_off");
            return;
        }
        case 11: {
            auto* taxLine = lineOf(load, ChargeKind::tax);
            if (taxLine->planted) return;
            taxLine->line.amount += Money::ofCents(between(100, 2000));
            return spoil(*taxLine, "tax_off");
        }
        }
    }

    void mistype(Load& load)
    {
        auto number = load.number;
        const auto at = static_cast<std::size_t>(between(1, static_cast<int>(number.size()) - 1));
        switch (between(0, 3)) {
        case 0: std::swap(number[at], number[at - 1]); break;
        case 1: number.erase(at, 1); break;
        case 2: number[at] = static_cast<char>('0' + (number[at] - '0' + between(1, 9)) % 10); break;
        case 3: number.insert(at, 1, number[at]); break;
        }
        load.number = number;
    }

    /// A load that never came; its number is far from all on file, else nobody could tell it from one of ours mistyped.
    void stranger(Draft& draft)
    {
        Ticket ticket{.supplier = draft.supplier, .number = std::to_string(between(100, 999) * 100'000 + between(0, 99'999)), .date = draft.date - between(1, 26), .mix = "40A", .yards = Yards::ofUnits(between(12, 40) * 250)};
        Load load;
        load.number = ticket.number;
        load.date = ticket.date;
        bill(load, ticket);
        for (auto& line : load.lines) spoil(line, "no_ticket");
        draft.loads.push_back(std::move(load));
    }

    void write(const Draft& draft)
    {
        const auto statement = maker_.add(Statement{.supplier = draft.supplier, .number = draft.number, .date = draft.date, .periodFrom = draft.date - 31, .periodTo = draft.date});
        int place = 0;
        for (const auto& load : draft.loads)
            for (auto line : load.lines) {
                line.line.statement = statement;
                line.line.line = ++place;
                line.line.ticketNumber = load.number;
                line.line.date = load.date;
                const auto id = maker_.add(line.line);
                const bool mistyped = load.ticket && load.number != maker_.book.get(*load.ticket).number;
                truths_[id.value()] = {line.finding, load.ticket, line.planted || mistyped};
            }
    }

    std::mt19937 random_;
    int typoPerMille_ = 0;
    BookMaker maker_;
    std::vector<SheetCharge> sheet_;
    std::set<std::tuple<std::int64_t, std::string, std::string, std::int64_t>> taken_;
    std::vector<Draft> drafts_;
    std::map<std::int64_t, LineTruth> truths_;
    std::set<std::int64_t> unbilled_;
};

}

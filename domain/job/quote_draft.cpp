#include "job/pour_day.h"
#include "job/stage.h"
#include "job/steps.h"
#include "quantity/words.h"
#include "ready_mix/expected_charge.h"
#include "ready_mix/yield.h"
#include "season/seasons.h"
#include "takeoff/takeoff.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace strikeoff {

namespace {

/// Shares of a flatwork job's hours, per cent (common practice, no source); used until the book has enough jobs of the type to go by.
constexpr std::array usualShares{std::pair{Phase::prepForm, 40}, std::pair{Phase::place, 22}, std::pair{Phase::finish, 20}, std::pair{Phase::stripCut, 13},
                                 std::pair{Phase::seal, 5}};
constexpr std::size_t jobsToGoBy = 3;

class QuoteDraft {
public:
    QuoteDraft(const Book& book, const Job& job, Date day) : book_{book}, job_{job}, day_{day}, takeoff_{takeoffOf(book, job.id)}, type_{book.find(job.jobType)}
    {
        sections_ = book.referring<&TakeoffSection::job>(job.id);
        std::stable_sort(sections_.begin(), sections_.end(), [](const auto* a, const auto* b) { return a->position < b->position; });
        month_ = pourMonthOf(book, job, day);
    }

    Step run()
    {
        Step step;
        if (sections_.empty()) {
            step.obstacle = "The job has no takeoff yet; measure it first";
            return step;
        }
        if (const auto* accepted = acceptedQuote(book_, job_.id)) {
            step.obstacle = "Quote " + quoteName(*accepted) + " was accepted; write a change order for more work";
            return step;
        }
        for (const auto& fault : takeoff_.faults) remark("Left out: " + fault);
        addConcrete();
        addBaseAndForms();
        addLabor();
        addSealer();
        if (lines_.empty()) {
            step.obstacle = "The takeoff measures nothing yet; " + (takeoff_.faults.empty() ? std::string{"check it"} : takeoff_.faults.front());
            return step;
        }
        step.edit = edit();
        step.remarks = std::move(remarks_);
        return step;
    }

private:
    void remark(std::string text) { remarks_.push_back(std::move(text)); }

    QuoteLine& add(CostClass costClass, std::string description, Quantity quantity, std::string unit, UnitPrice unitCost)
    {
        QuoteLine line;
        line.position = static_cast<std::int32_t>(lines_.size()) + 1;
        line.costClass = costClass;
        line.description = std::move(description);
        line.quantity = quantity;
        line.unit = std::move(unit);
        line.unitCost = unitCost;
        lines_.push_back(std::move(line));
        return lines_.back();
    }

    /// The unit cost of the newest quote line of a class and unit.
    UnitPrice costBefore(CostClass costClass, std::string_view unit, const std::string& what)
    {
        const QuoteLine* found = nullptr;
        Date when;
        for (const auto& line : book_.all<QuoteLine>()) {
            if (line.costClass != costClass || line.unit != unit || line.unitCost <= UnitPrice{}) continue;
            const auto* quote = book_.find(line.quote);
            if (!quote || (found && quote->draftedOn < when)) continue;
            found = &line;
            when = quote->draftedOn;
        }
        if (found) return found->unitCost;
        remark(what + " has no price yet: fill in its unit cost");
        return {};
    }

    const Pour* plannedPour() const
    {
        for (const auto* pour : book_.referring<&Pour::job>(job_.id))
            if (!pour->pouredOn && pour->supplier) return pour;
        return nullptr;
    }

    /// The sheet to reckon with: of the supplier planned, else of the one who delivered last, else any.
    std::optional<PriceSheet> sheet() const
    {
        if (const auto* pour = plannedPour())
            if (auto planned = sheetInForce(book_, *pour->supplier, month_)) return planned;
        const Ticket* newest = nullptr;
        for (const auto& ticket : book_.all<Ticket>())
            if (!newest || ticket.date >= newest->date) newest = &ticket;
        if (newest)
            if (auto last = sheetInForce(book_, newest->supplier, month_)) return last;
        for (const auto& supplier : book_.all<Supplier>())
            if (auto any = sheetInForce(book_, supplier.id, month_)) return any;
        return std::nullopt;
    }

    /// The mix on a sheet: as planned, else the one poured most for jobs of the type, else the first.
    const SheetCharge* mixOn(const PriceSheet& sheet) const
    {
        std::vector<const SheetCharge*> mixes;
        for (const auto* charge : sheet.charges)
            if (charge->charge == ChargeKind::mix) mixes.push_back(charge);
        if (mixes.empty()) return nullptr;
        const auto byCode = [&](const std::string& code) -> const SheetCharge* {
            const auto found = std::find_if(mixes.begin(), mixes.end(), [&](const auto* mix) { return mix->code == code; });
            return found == mixes.end() ? nullptr : *found;
        };
        if (const auto* pour = plannedPour())
            if (const auto* mix = byCode(pour->mix)) return mix;
        std::map<std::string, int> loads;
        for (const auto& ticket : book_.all<Ticket>()) {
            const auto* job = book_.find(ticket.job);
            if (job && ticket.supplier == sheet.supplier && job->jobType == job_.jobType) ++loads[ticket.mix];
        }
        const SheetCharge* best = nullptr;
        int most = 0;
        for (const auto* mix : mixes)
            if (const auto found = loads.find(mix->code); found != loads.end() && found->second > most) {
                best = mix;
                most = found->second;
            }
        return best ? best : mixes.front();
    }

    void addConcrete()
    {
        if (takeoff_.ordered <= Yards{}) return;
        if (type_)
            if (const auto known = suggestedAllowance(book_, type_->id); known && known->suggested != takeoff_.allowance)
                remark(known->answer + " " + known->suggested.text() + "% would cover them");
        const auto quantity = Quantity::ofUnits(takeoff_.ordered.units());
        const auto sheet = this->sheet();
        const auto* mix = sheet ? mixOn(*sheet) : nullptr;
        if (!mix) {
            add(CostClass::concrete, "Concrete", quantity, "yd", costBefore(CostClass::concrete, "yd", "Concrete"));
            remark(sheet ? "The sheet in force has no mix on it" : "No price sheet is in force on " + month_.shown() + "; enter the supplier's under Rates");
            return;
        }
        add(CostClass::concrete, "Concrete, " + (mix->meaning.empty() ? mix->code : mix->meaning), quantity, "yd", mix->amount).code = mix->code;

        // What the loads cost beyond the mix: charges a load, short load, winter, tax. Each load is priced as its ticket will be.
        const auto loads = loadsFor(takeoff_.ordered, book_.settings().truckYards, book_.settings().orderStep);
        Money delivered;
        for (const auto yards : loads) {
            Ticket ticket;
            ticket.supplier = sheet->supplier;
            ticket.date = month_;
            ticket.mix = mix->code;
            ticket.yards = yards;
            delivered += expectedCharge(ticket, *sheet).total;
        }
        const auto rest = delivered - lines_.back().cost();
        if (rest > Money{}) add(CostClass::concrete, "Delivery of the concrete", Quantity::ofWhole(1), "job", UnitPrice::ofUnits(checkedMultiply(rest.cents(), 100)));
        const auto* supplier = book_.find(sheet->supplier);
        remark("Concrete by the sheet of " + (supplier ? supplier->name : std::string{"the supplier"}) + " in force from " + sheet->effectiveOn.shown() + ", " +
               counted(static_cast<std::int64_t>(loads.size()), "load", "loads") + " in " + shownMonth(month_));
        offerCarry(Money::ofCents(divideHalfUp(static_cast<Int128>(delivered.cents()) * Yards::one, takeoff_.ordered.units())));
    }

    SeasonScope wholeBook() const { return {.today = day_, .from = {}, .to = {}, .jobType = {}}; }

    /// What trend and season make of a delivered yard by the month of the pour, beside what the sheet of today says.
    void offerCarry(Money perYard)
    {
        const auto prices = priceSeasons(book_, wholeBook());
        const auto* carry = carryFor(prices, month_);
        if (!carry) return;
        const auto inDollars = [](double amount) { return dollars(Money::ofCents(std::llround(amount * 100))); };
        remark("By trend and season a delivered yard of last year's loads costs " + inDollars(carry->delivered.value) + " in " + shownMonth(month_) + " (" + inDollars(carry->delivered.low) + " to " +
               inDollars(carry->delivered.high) + ", four times in five); this draft carries " + dollars(perYard));
    }

    void addBaseAndForms()
    {
        if (takeoff_.areaSqft > 0) {
            const auto area = Quantity::ofWhole(static_cast<std::int64_t>(std::ceil(takeoff_.areaSqft - 1e-6)));
            add(CostClass::base, "Base, graded and compacted", area, "sf", costBefore(CostClass::base, "sf", "Base"));
        }
        double edges = 0;
        for (const auto* section : sections_)
            if (!section->deduct) edges += measure(*section).perimeterFt * section->count;
        if (edges > 0) add(CostClass::forms, "Forms and stakes", Quantity::ofWhole(static_cast<std::int64_t>(std::ceil(edges - 1e-6))), "ft", costBefore(CostClass::forms, "ft", "Forms"));
    }

    /// Minutes by phase on jobs of the type that are over; nothing when there are too few.
    std::map<Phase, std::int64_t> minutesSoFar() const
    {
        std::map<Phase, std::int64_t> minutes;
        std::size_t jobs = 0;
        if (!job_.jobType) return {};
        for (const auto* job : book_.referring<&Job::jobType>(*job_.jobType)) {
            const auto hours = book_.referring<&Hours::job>(job->id);
            if (hours.empty() || isOpenStage(stageOf(book_, *job))) continue;
            ++jobs;
            for (const auto* row : hours)
                if (row->phase <= Phase::seal) minutes[row->phase] += row->worked().value_or(Minutes{}).count();
        }
        return jobs < jobsToGoBy ? std::map<Phase, std::int64_t>{} : minutes;
    }

    void addLabor()
    {
        if (takeoff_.areaSqft <= 0) return;
        const auto carry = type_ ? hoursToCarry(book_, paceSeasons(book_, wholeBook()), type_->id, takeoff_.areaSqft, month_) : std::nullopt;
        if (!type_ || (!type_->pace && !carry)) {
            remark(type_ ? "Job type " + type_->name + " has no pace and too few pours, so no hours were reckoned: write them by hand" : "The job has no type, so no hours were reckoned: give it one or write them by hand");
            return;
        }
        std::vector<Phase> phases;
        std::vector<std::int64_t> weights;
        for (const auto& [phase, minutes] : minutesSoFar()) {
            phases.push_back(phase);
            weights.push_back(minutes);
        }
        if (phases.empty() || std::all_of(weights.begin(), weights.end(), [](auto weight) { return weight == 0; })) {
            phases.clear();
            weights.clear();
            for (const auto& [phase, share] : usualShares) {
                if (phase == Phase::seal && !type_->sealVisit && !type_->product) continue;
                phases.push_back(phase);
                weights.push_back(share);
            }
        }
        const double hours = type_->pace ? takeoff_.areaSqft / type_->pace->toDouble() : carry->hours.value;
        const auto quarters = static_cast<std::int64_t>(std::ceil(hours * 4 - 1e-6));
        if (carry)
            remark("The crew's own pace says " + carry->words + (type_->pace ? "; this draft carries " + Quantity::ofUnits(quarters * 250).shown(2) + " by the type's pace" : "; this draft carries them"));
        auto shares = splitByWeight(quarters, weights);
        holdUntilBroom(phases, shares);
        for (std::size_t i = 0; i < phases.size(); ++i) {
            if (shares[i] == 0) continue;
            auto& line = add(CostClass::labor, std::string{labelOf(phases[i])}, Quantity::ofUnits(shares[i] * 250), "h", book_.settings().laborRate);
            line.phase = phases[i];
        }
    }

    /// Nobody leaves a slab before the broom: where that takes longer than the pace gives placing and finishing, finishing carries the rest.
    void holdUntilBroom(const std::vector<Phase>& phases, std::vector<std::int64_t>& quarters)
    {
        const auto ahead = pourDayAhead(book_, job_, month_, takeoff_.areaSqft);
        if (!ahead) return;
        std::int64_t onSlab = 0;
        for (std::size_t i = 0; i < phases.size(); ++i)
            if (phases[i] == Phase::place || phases[i] == Phase::finish) onSlab += quarters[i];
        const auto finishing = std::ranges::find(phases, Phase::finish);
        const auto missing = static_cast<std::int64_t>(std::ceil(ahead->hours * 4 - 1e-6)) - onSlab;
        const auto inHours = [](std::int64_t count) { return Quantity::ofUnits(count * 250).shown(2); };
        auto text = "Pour day in " + shownMonth(ahead->day) + ": " + ahead->words + ". The pace gives placing and finishing " + inHours(onSlab) + " h";
        if (missing > 0 && finishing != phases.end()) {
            quarters[static_cast<std::size_t>(finishing - phases.begin())] += missing;
            text += ", so " + inHours(missing) + " h more are carried for finishing";
        } else {
            text += ", which holds that day";
        }
        remark(std::move(text));
    }

    void addSealer()
    {
        const auto* product = type_ ? book_.find(type_->product) : nullptr;
        if (!product) return;
        double gallons = 0;
        for (const auto* section : sections_) {
            const auto area = measure(*section).areaSqft;
            const auto& coverage = section->finish == SurfaceFinish::smooth ? product->coverageSmooth
                                 : section->finish == SurfaceFinish::exposed ? product->coverageExposed : product->coverageBroom;
            if (area == 0) continue;
            if (!coverage) {
                remark("No coverage of " + product->name + " is recorded for " + std::string{labelOf(section->finish)} + ", so no sealer was reckoned for " + section->name);
                continue;
            }
            gallons += area * product->coats / coverage->toDouble();
        }
        if (gallons <= 0) return;
        if (!product->pricePerGallon) remark(product->name + " has no price yet: fill in its unit cost");
        add(CostClass::sealer, product->name, Quantity::ofUnits(static_cast<std::int64_t>(std::ceil(gallons * 10 - 1e-6)) * 100), "gal", product->pricePerGallon.value_or(UnitPrice{}));
    }

    std::string scope() const
    {
        std::string text = "Form, place and finish:";
        for (const auto* section : sections_) {
            const auto measured = measure(*section);
            if (!measured.fault.empty() || section->deduct) continue;
            text += "\n" + section->name;
            if (section->count > 1) text += ", " + inWords(section->count) + " pieces";
            if (measured.areaSqft > 0) text += ", " + Area::ofUnits(std::llround(measured.areaSqft * 100)).shown(0) + " sq ft";
            if (section->thickness) text += ", " + section->thickness->text() + (measured.areaSqft > 0 ? " thick" : " deep");
            if (measured.areaSqft > 0) text += ", " + std::string{labelOf(section->finish)};
        }
        return text;
    }

    Edit edit()
    {
        const auto* current = currentQuote(book_, job_.id);
        if (current && !current->sentOn) {
            Edit edit{"Draft quote " + quoteName(*current) + " from the takeoff"};
            for (const auto* line : book_.referring<&QuoteLine::quote>(current->id)) edit.remove(*line);
            if (current->scope.empty()) {
                auto changed = *current;
                changed.scope = scope();
                edit.change(changed);
            }
            putLines(edit, current->id);
            return edit;
        }
        if (current) {
            const auto step = reviseQuote(book_, *current, day_);
            auto next = recordOf<Quote>(step.edit->changes().front().row);
            next.id = {};
            next.scope = scope();
            Edit edit{"Draft revision " + std::to_string(next.issue) + " of quote " + next.number + " from the takeoff"};
            putLines(edit, edit.add(next));
            return edit;
        }
        auto quote = recordOf<Quote>(startQuote(book_, job_, day_).edit->changes().front().row);
        quote.id = {};
        quote.scope = scope();
        Edit edit{"Draft a quote for job " + job_.number + " from the takeoff"};
        putLines(edit, edit.add(quote));
        return edit;
    }

    void putLines(Edit& edit, Id<Quote> quote)
    {
        for (auto& line : lines_) {
            line.quote = quote;
            edit.add(line);
        }
    }

    const Book& book_;
    const Job& job_;
    Date day_;
    Takeoff takeoff_;
    const JobType* type_;
    std::vector<const TakeoffSection*> sections_;
    Date month_;
    std::vector<QuoteLine> lines_;
    std::vector<std::string> remarks_;
};

}

Step draftQuote(const Book& book, const Job& job, Date day) { return QuoteDraft{book, job, day}.run(); }

}

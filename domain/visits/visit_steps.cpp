#include "visits/visit_steps.h"

#include "job/stage.h"
#include "quantity/words.h"
#include "takeoff/takeoff.h"
#include "visits/load_out.h"
#include "visits/visit_words.h"
#include "visits/windows.h"

#include <algorithm>
#include <map>

namespace strikeoff {

namespace {

constexpr int daysToCallAgain = 7;  // as long as a quote waits for its answer, common practice

std::string jobNumber(const Book& book, const Visit& visit)
{
    const auto* job = book.find(visit.job);
    return job ? job->number : std::string{};
}

/// Why a visit is no longer to be touched, or nothing.
std::string settledText(const Visit& visit)
{
    if (visit.doneOn) return "This visit was done on " + visit.doneOn->shown();
    if (visit.waivedOn) return "This visit was waived on " + visit.waivedOn->shown() + "; clear Waived on its form if it was done all the same";
    return {};
}

bool hasHours(const Book& book, Id<CrewMember> person, Date day, Id<Job> job, Phase phase)
{
    for (const auto* row : book.referring<&Hours::job>(job))
        if (row->person == person && row->date == day && row->phase == phase) return true;
    return false;
}

/// A sealer receipt of the job that names the product and was not written by a visit.
bool hasOwnReceipt(const Book& book, const Visit& visit, const FinishingProduct& product)
{
    for (const auto* receipt : book.referring<&Receipt::job>(visit.job))
        if (receipt->costClass == CostClass::sealer && receipt->description.find(product.name) != std::string::npos && receipt->reference.empty()) return true;
    return false;
}

class DoneWriter {
public:
    DoneWriter(const Book& book, const Visit& visit, const VisitDone& done)
        : book_{book}, visit_{visit}, done_{done}, edit_{std::string{labelOf(visit.kind)} + " done on job " + jobNumber(book, visit)}
    {
    }

    Step step()
    {
        auto finished = visit_;
        finished.doneOn = done_.day;
        finished.minutes = done_.minutes;
        finished.gallons = visit_.kind == VisitKind::seal ? done_.gallons : std::nullopt;
        finished.photos = done_.photos;
        if (!done_.people.empty()) finished.people = static_cast<std::int32_t>(done_.people.size());
        if (!done_.note.empty()) finished.note += (finished.note.empty() ? "" : "\n") + done_.note;
        edit_.change(finished);
        hours();
        material();
        blade();
        Step step;
        step.edit = std::move(edit_);
        step.remarks = std::move(remarks_);
        return step;
    }

private:
    void hours()
    {
        if (done_.people.empty()) return;
        if (!done_.minutes && !done_.drive) {
            remarks_.push_back("No time was given, so no hours were written for " + names(done_.people));
            return;
        }
        const auto phase = phaseOf(visit_.kind);
        std::vector<Id<CrewMember>> already;
        const auto write = [&](Id<CrewMember> person, Phase as, Minutes minutes) {
            if (minutes <= Minutes{}) return;
            if (hasHours(book_, person, done_.day, visit_.job, as)) {
                if (std::find(already.begin(), already.end(), person) == already.end()) already.push_back(person);
                return;
            }
            Hours row;
            row.person = person;
            row.date = done_.day;
            row.job = visit_.job;
            row.pour = visit_.pour;
            row.phase = as;
            row.minutes = minutes;
            edit_.add(row);
        };
        for (const auto person : done_.people) {
            auto travel = done_.drive.value_or(Minutes{});
            if (phase == Phase::travel) travel += done_.minutes.value_or(Minutes{});  // one row: the key has room for one
            else write(person, phase, done_.minutes.value_or(Minutes{}));
            write(person, Phase::travel, travel);
        }
        if (!already.empty())
            remarks_.push_back(names(already) + (already.size() == 1 ? " has" : " have") +
                               " hours on this job and day already; look at the day's hours, as nothing was added there");
    }

    void material()
    {
        if (visit_.kind != VisitKind::seal || !done_.gallons || *done_.gallons <= Quantity{} || !done_.writeMaterial) return;
        const auto* product = productOf(book_, visit_);
        if (!product) {
            remarks_.push_back("No product is named on the visit, so its cost is not on the job");
            return;
        }
        if (!product->pricePerGallon) {
            remarks_.push_back(product->name + " has no price per gallon, so its cost is not on the job; fill the price in on its card");
            return;
        }
        Receipt receipt;
        receipt.date = done_.day;
        receipt.job = visit_.job;
        receipt.costClass = CostClass::sealer;
        receipt.vendor = "From the shop";
        receipt.reference = "visit";
        receipt.description = product->name;
        receipt.quantity = done_.gallons;
        receipt.unit = "gal";
        receipt.unitPrice = product->pricePerGallon;
        receipt.amount = lineAmount(*product->pricePerGallon, *done_.gallons);
        receipt.paidOn = done_.day;  // it was bought before
        edit_.add(receipt);
    }

    void blade()
    {
        const auto feet = visit_.kind == VisitKind::cut ? jointFeet(book_, visit_) : std::nullopt;
        auto settings = book_.settings();
        if (!feet || !settings.bladeFeetLeft || settings.id == Id<Settings>{}) return;
        settings.bladeFeetLeft = std::max(Quantity{}, *settings.bladeFeetLeft - *feet);
        if (settings.bladeFeetLeft->isZero()) remarks_.push_back("By the feet cut the blade is used up; put a new one in and write its feet into the settings");
        edit_.change(settings);
    }

    std::string names(std::span<const Id<CrewMember>> people) const
    {
        std::vector<std::string> names;
        for (const auto id : people)
            if (const auto* person = book_.find(id)) names.push_back(person->name);
        return listed(names);
    }

    const Book& book_;
    const Visit& visit_;
    const VisitDone& done_;
    Edit edit_;
    std::vector<std::string> remarks_;
};

/// What sealing was charged in the job's quote; nothing without such a line.
std::optional<Money> sealingPrice(const Book& book, Id<Job> job)
{
    const auto* quote = currentQuote(book, job);
    if (!quote) return std::nullopt;
    std::optional<Money> price;
    for (const auto* line : book.referring<&QuoteLine::quote>(quote->id))
        if (line->costClass == CostClass::sealer) price = price.value_or(Money{}) + line->price(quote->markup);
    return price;
}

std::optional<Area> areaOf(const Book& book, const Visit& visit)
{
    if (const auto* pour = book.find(visit.pour); pour && pour->area) return pour->area;
    const auto area = takeoffOf(book, visit.job).areaSqft;
    return area > 0 ? std::optional{Area::ofWhole(static_cast<std::int64_t>(area + 0.5))} : std::nullopt;
}

}

Phase phaseOf(VisitKind kind)
{
    switch (kind) {
    case VisitKind::strip:
    case VisitKind::cut: return Phase::stripCut;
    case VisitKind::seal: return Phase::seal;
    case VisitKind::walkThrough:
    case VisitKind::resealCall: return Phase::travel;
    }
    return Phase::travel;
}

std::vector<const CrewMember*> visitPeople(const Book& book, Date day)
{
    std::vector<const CrewMember*> people;
    for (const auto& person : book.all<CrewMember>())
        if ((!person.hiredOn || *person.hiredOn <= day) && (!person.leftOn || *person.leftOn >= day)) people.push_back(&person);
    std::stable_sort(people.begin(), people.end(), [](const CrewMember* a, const CrewMember* b) { return a->doesVisits && !b->doesVisits; });
    return people;
}

VisitDone proposedDone(const Book& book, const Visit& visit, Date day)
{
    VisitDone done;
    done.day = day;
    done.minutes = visit.minutes;
    done.photos = visit.photos;
    if (visit.kind == VisitKind::seal)
        if (const auto gallons = gallonsOnSlab(book, visit))
            done.gallons = Quantity::ofUnits((gallons->units() + 99) / 100 * 100);  // as a can is read: to the tenth
    const auto people = visitPeople(book, day);
    const auto able = std::count_if(people.begin(), people.end(), [](const CrewMember* person) { return person->doesVisits; });
    if (able == 1) done.people.push_back(people.front()->id);
    if (const auto* product = productOf(book, visit)) done.writeMaterial = !hasOwnReceipt(book, visit, *product);
    return done;
}

Step finishVisit(const Book& book, const Visit& visit, const VisitDone& done)
{
    if (const auto settled = settledText(visit); !settled.empty()) return Step::refused(settled);
    const auto isTooLong = [](const std::optional<Minutes>& minutes) { return minutes && (minutes->count() < 0 || minutes->count() > 1440); };
    if (isTooLong(done.minutes)) return Step::refused("The minutes on site do not fit a day; write them as 45, 1:30 or 1.5h");
    if (isTooLong(done.drive)) return Step::refused("The minutes on the road do not fit a day; write them as 45, 1:30 or 1.5h");
    return DoneWriter{book, visit, done}.step();
}

Step putOffVisit(const Book& book, const Visit& visit, const std::string& reason, Date day, std::optional<Date> next)
{
    if (const auto settled = settledText(visit); !settled.empty()) return Step::refused(settled);
    if (reason.empty()) return Step::refused("Say in a few words why it is put off");
    if (next && *next <= day) return Step::refused("The next day to try is not after " + day.shown() + "; give a later one or leave it blank");
    auto later = visit;
    later.putOffOn = day;
    later.putOffReason = reason;
    later.plannedOn = next;
    later.plannedAt.reset();
    later.pinned = false;
    Step step;
    Edit edit{"Put off: " + visitTitle(book, visit)};
    edit.change(later);
    step.edit = std::move(edit);
    const auto inDays = VisitWindows{book}.inDays(visit);
    if (inDays.tooLate && (next ? *next >= *inDays.tooLate : day >= *inDays.tooLate))
        step.remarks.push_back("It is too late from " + dayText(*inDays.tooLate, day) + "; do it all the same or leave it out with a reason");
    else if (next && inDays.due && *next > *inDays.due) step.remarks.push_back("It is due " + dayText(*inDays.due, day) + ", before the day it is put off to");
    return step;
}

Step waiveVisit(const Book& book, const Visit& visit, const std::string& reason, Date day)
{
    if (const auto settled = settledText(visit); !settled.empty()) return Step::refused(settled);
    if (reason.empty()) return Step::refused("Say in a few words why it is left out");
    auto waived = visit;
    waived.waivedOn = day;
    waived.waivedReason = reason;
    Step step;
    Edit edit{"Leave out: " + visitTitle(book, visit)};
    edit.change(waived);
    step.edit = std::move(edit);
    return step;
}

Step resealLead(const Book& book, const Visit& visit, Date day)
{
    if (visit.kind != VisitKind::resealCall) return Step::refused("Only a reseal call becomes a lead");
    if (const auto settled = settledText(visit); !settled.empty()) return Step::refused(settled);
    const auto* job = book.find(visit.job);
    if (!job) return Step::refused("The job of this call is not in the book");
    const auto* customer = book.find(job->customer);
    const auto* site = book.find(job->site);

    Lead lead;
    lead.receivedOn = day;
    lead.calledOn = day;
    lead.nextCallOn = daysOn(day, daysToCallAgain);
    lead.source = LeadSource::reseal;
    lead.customer = job->customer;
    lead.jobType = job->jobType;
    lead.area = areaOf(book, visit);
    if (customer) {
        lead.name = customer->name;
        lead.phone = customer->phone;
        lead.email = customer->email;
        lead.town = site && !site->town.empty() ? site->town : customer->town;
    }
    lead.wish = "Reseal of " + job->title + " (job " + job->number + ")";
    if (const auto* pour = book.find(visit.pour); pour && pour->pouredOn) lead.wish += ", poured " + pour->pouredOn->shown();
    if (const auto* product = productOf(book, visit)) lead.wish += "; sealed with " + product->name;
    if (const auto price = sealingPrice(book, job->id)) lead.wish += "; sealing was priced at " + dollars(*price) + " then";
    if (const auto bid = bidOf(book, job->id)) lead.wish += "; the whole job at " + dollars(bid->price);
    lead.wish += '.';

    Step step;
    Edit edit{"Reseal lead from job " + job->number};
    edit.add(lead);
    auto called = visit;
    called.doneOn = day;
    edit.change(called);
    step.edit = std::move(edit);
    return step;
}

std::vector<std::string> visitReasons(const Book& book)
{
    std::map<std::string, int> counts;
    for (const auto& visit : book.all<Visit>()) {
        if (!visit.waivedReason.empty()) ++counts[visit.waivedReason];
        if (!visit.putOffReason.empty()) ++counts[visit.putOffReason.str()];
    }
    std::vector<std::pair<std::string, int>> sorted(counts.begin(), counts.end());
    std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
    std::vector<std::string> reasons;
    for (auto& [reason, times] : sorted) reasons.push_back(std::move(reason));
    return reasons;
}

}

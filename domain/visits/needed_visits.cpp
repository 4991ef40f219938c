#include "visits/needed_visits.h"

#include "quantity/words.h"
#include "takeoff/takeoff.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

// Minutes on site (common practice, no source).
constexpr int stripMinutes = 45;
constexpr int walkMinutes = 30;
constexpr int callMinutes = 10;
constexpr double cutStart = 20, cutPerFoot = 0.55;
constexpr double sealStart = 35, sealPerSquareFoot = 0.1;

Minutes toFive(double minutes) { return Minutes::of(std::llround(minutes / 5) * 5); }

class Needs {
public:
    /// `poured` stands for the pour of its id as it will be.
    Needs(const Book& book, const Job& job, const Pour* poured = nullptr) : book_{book}, job_{job}, type_{book.find(job.jobType)}
    {
        for (const auto* pour : book.referring<&Pour::job>(job.id)) pours_.push_back(poured && poured->id == pour->id ? poured : pour);
    }

    std::vector<NeededVisit> all()
    {
        for (const auto* pour : pours_)
            if (pour->pouredOn) ofPour(*pour);
        const bool isLast = !pours_.empty() && std::all_of(pours_.begin(), pours_.end(), [](const auto* pour) { return pour->pouredOn.has_value(); });
        if (isLast) ofJob();
        return std::move(needed_);
    }

private:
    void add(const Pour* pour, VisitKind kind, std::int32_t coat, std::optional<Minutes> minutes, std::string why)
    {
        NeededVisit visit;
        visit.job = job_.id;
        if (pour) visit.pour = pour->id;
        visit.kind = kind;
        visit.coat = coat;
        visit.minutes = minutes;
        visit.why = std::move(why);
        needed_.push_back(std::move(visit));
    }

    double areaOf(const Pour& pour) const
    {
        if (pour.area) return pour.area->toDouble();
        return takeoffOf(book_, job_.id).areaSqft / static_cast<double>(std::max<std::size_t>(1, pours_.size()));
    }

    void ofPour(const Pour& pour)
    {
        const auto typeName = type_ ? "jobs of type " + type_->name + " " : std::string{};
        if (!type_ || type_->stripVisit) add(&pour, VisitKind::strip, 1, Minutes::of(stripMinutes), type_ ? typeName + "are stripped on a return visit" : "forms come off after a pour");

        const bool hasJoints = pour.sawJoint && *pour.sawJoint > Quantity{};
        const bool noJoints = pour.sawJoint && !hasJoints;
        const double feet = pour.sawJoint ? pour.sawJoint->toDouble() : 0;
        const auto cutting = hasJoints ? toFive(cutStart + cutPerFoot * feet) : Minutes::of(60);
        if (pour.reliefCut) add(&pour, VisitKind::cut, 1, cutting, "the pour's tooled joint needs a relief cut at a crossing");
        else if (type_ ? type_->cutVisit && !noJoints : hasJoints)
            add(&pour, VisitKind::cut, 1, cutting, hasJoints ? "the pour has " + pour.sawJoint->shown() + " ft of joint to saw" : typeName + "have their joints cut on a return visit");

        const auto product = pour.product ? pour.product : type_ ? type_->product : std::nullopt;
        if (type_ ? !type_->sealVisit : !product) return;
        const auto* named = book_.find(product);
        const auto coats = named ? named->coats : 1;
        for (std::int32_t coat = 1; coat <= coats; ++coat) {
            add(&pour, VisitKind::seal, coat, toFive(sealStart + sealPerSquareFoot * areaOf(pour)),
                named ? named->name + " goes on in " + counted(coats, "coat", "coats") : typeName + "are sealed, the product is not named yet");
            needed_.back().product = product;
        }
    }

    void ofJob()
    {
        const Pour* last = pours_.front();
        for (const auto* pour : pours_)
            if (*pour->pouredOn >= *last->pouredOn) last = pour;
        if (!type_ || type_->walkThrough) add(last, VisitKind::walkThrough, 1, Minutes::of(walkMinutes), "a last look with the customer");
        if (type_ && type_->resealMonths)
            add(last, VisitKind::resealCall, 1, Minutes::of(callMinutes), "jobs of type " + type_->name + " are called about resealing after " + counted(*type_->resealMonths, "month", "months"));
    }

    const Book& book_;
    const Job& job_;
    const JobType* type_;
    std::vector<const Pour*> pours_;
    std::vector<NeededVisit> needed_;
};

bool isOnList(const std::vector<const Visit*>& visits, const NeededVisit& needed)
{
    const bool ofWholeJob = needed.kind == VisitKind::walkThrough || needed.kind == VisitKind::resealCall;
    return std::any_of(visits.begin(), visits.end(), [&](const Visit* visit) {
        return visit->kind == needed.kind && (visit->kind != VisitKind::seal || visit->coat == needed.coat) && (ofWholeJob || !visit->pour || visit->pour == needed.pour);
    });
}

std::vector<NeededVisit> notOnList(const Book& book, Id<Job> job, std::vector<NeededVisit> needed)
{
    const auto visits = book.referring<&Visit::job>(job);
    std::erase_if(needed, [&](const NeededVisit& visit) { return isOnList(visits, visit); });
    return needed;
}

std::string_view nameOf(VisitKind kind)
{
    switch (kind) {
    case VisitKind::strip: return "strip";
    case VisitKind::cut: return "cut";
    case VisitKind::seal: return "seal";
    case VisitKind::walkThrough: return "walk-through";
    case VisitKind::resealCall: return "reseal call";
    }
    return "visit";
}

}

std::vector<NeededVisit> neededVisits(const Book& book, const Job& job) { return Needs{book, job}.all(); }

std::vector<NeededVisit> missingVisits(const Book& book, const Job& job) { return notOnList(book, job.id, neededVisits(book, job)); }

std::vector<NeededVisit> missingVisits(const Book& book)
{
    std::vector<NeededVisit> missing;
    for (const auto& job : book.all<Job>()) {
        if (job.closedOn || job.droppedOn) continue;
        for (auto& visit : missingVisits(book, job)) missing.push_back(std::move(visit));
    }
    return missing;
}

void addVisits(Edit& edit, const std::vector<NeededVisit>& visits)
{
    for (const auto& needed : visits) {
        Visit visit;
        visit.job = needed.job;
        visit.pour = needed.pour;
        visit.kind = needed.kind;
        visit.coat = needed.coat;
        visit.product = needed.product;
        visit.minutes = needed.minutes;
        edit.add(visit);
    }
}

std::optional<Edit> addMissingVisits(const Book& book, const Job& job)
{
    const auto missing = missingVisits(book, job);
    if (missing.empty()) return std::nullopt;
    Edit edit{"Put on the list what job " + job.number + " needs: " + neededText(missing)};
    addVisits(edit, missing);
    return edit;
}

std::optional<Edit> addMissingVisits(const Book& book)
{
    const auto missing = missingVisits(book);
    if (missing.empty()) return std::nullopt;
    Edit edit{"Put on the list what pours need: " + counted(static_cast<std::int64_t>(missing.size()), "visit", "visits")};
    addVisits(edit, missing);
    return edit;
}

std::string missingText(const std::vector<NeededVisit>& missing)
{
    if (missing.empty()) return {};
    const auto count = static_cast<std::int64_t>(missing.size());
    return capitalized(counted(count, "visit", "visits")) + (count == 1 ? " that a pour needs is" : " that pours need are") + " not on the list yet: " + neededText(missing) + ".";
}

std::vector<NeededVisit> missingWhenPoured(const Book& book, const Pour& poured)
{
    const auto* job = book.find(poured.job);
    return job ? notOnList(book, job->id, Needs{book, *job, &poured}.all()) : std::vector<NeededVisit>{};
}

std::string neededText(const std::vector<NeededVisit>& visits)
{
    std::vector<std::string> parts;
    for (const auto& visit : visits) {
        auto text = std::string{nameOf(visit.kind)} + (visit.coat > 1 ? " (coat " + std::to_string(visit.coat) + ")" : "");
        if (std::find(parts.begin(), parts.end(), text) == parts.end()) parts.push_back(std::move(text));
    }
    return listed(parts);
}

}

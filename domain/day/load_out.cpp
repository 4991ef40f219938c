#include "day/sections.h"
#include "quantity/words.h"
#include "takeoff/takeoff.h"
#include "visits/visit_words.h"

#include <algorithm>
#include <cmath>

namespace strikeoff::day {

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

/// Gallons of one coat, up to the next tenth: area over coverage. Nothing when either is not known.
std::optional<Quantity> gallonsFor(const Book& book, const Job& job, const Pour* pour, const FinishingProduct& product)
{
    const auto coverage = coverageFor(product, finishOf(book, job));
    const double area = pour && pour->area ? pour->area->toDouble() : takeoffOf(book, job.id).areaSqft;
    if (!coverage || area <= 0) return std::nullopt;
    return Quantity::ofUnits(static_cast<std::int64_t>(std::ceil(area / coverage->toDouble() * 10 - 1e-6)) * 100);
}

std::string productText(const FinishingProduct& product, std::optional<Quantity> gallons)
{
    if (!gallons) return product.name + " (gallons unknown: area or coverage is not recorded) and the sprayer";
    auto text = gallons->shown(1) + " gal of " + product.name;
    if (product.onHandGallons && *product.onHandGallons < *gallons)
        text += " (" + product.onHandGallons->shown(1) + " gal on hand)";
    return text + " and the sprayer";
}

std::string forPour(const Book& book, const Pour& pour)
{
    Reason load;
    load.also("placing and finishing tools");
    const auto* job = book.find(pour.job);
    if (const auto* product = book.find(pour.product); product && job && product->kind == ProductKind::cureAndSeal)
        load.also(productText(*product, gallonsFor(book, *job, &pour, *product)));
    if (pour.sawJoint && *pour.sawJoint > Quantity{}) load.also("saw for " + pour.sawJoint->text() + " ft of joint, with water");
    return load.also("gloves, boots and eye wash, as wet concrete burns skin and eyes").text();
}

std::string forVisit(const Book& book, const Visit& visit)
{
    const auto* pour = book.find(visit.pour);
    const auto* job = book.find(visit.job);
    switch (visit.kind) {
    case VisitKind::strip: return "pry bars and room for the forms";
    case VisitKind::cut: {
        const std::string joints = pour && pour->sawJoint ? " for " + pour->sawJoint->text() + " ft of joint" : "";
        return "saw and blade" + joints + "; water, as dry cutting makes silica dust";
    }
    case VisitKind::seal: {
        const auto* product = book.find(visit.product);
        if (!product && pour) product = book.find(pour->product);
        if (!product || !job) return "sealer (no product named) and the sprayer";
        return productText(*product, visit.gallons ? visit.gallons : gallonsFor(book, *job, pour, *product));
    }
    case VisitKind::walkThrough: return "the quote and the invoice";
    case VisitKind::resealCall: return "";
    }
    return "";
}

DayItem item(const std::string& what, const std::string& why, std::optional<ClockTime> at, RecordKind kind, std::int64_t id)
{
    DayItem made;
    made.section = DaySection::loadOut;
    made.what = what;
    made.why = why;
    made.at = at;
    made.verb = "Open";
    made.kind = kind;
    made.id = id;
    return made;
}

}

void addLoadOut(const Book& book, Date date, Items& items)
{
    const auto tomorrow = date + 1;
    for (const auto* pour : poursPlanned(book, tomorrow))
        items.push_back(item("Load for pouring " + workPlace(book, pour->job, pour->id), forPour(book, *pour), pour->plannedAt,
                             RecordKind::pour, pour->id.value()));
    for (const auto* visit : visitsOn(book, tomorrow)) {
        const bool isTomorrow = visit->plannedOn ? *visit->plannedOn == tomorrow : visit->due == tomorrow;
        if (!isTomorrow) continue;
        std::string kind{labelOf(visit->kind)};
        kind.front() = static_cast<char>(kind.front() - 'A' + 'a');
        items.push_back(item("Load to " + (visit->kind == VisitKind::walkThrough ? "walk through" : kind) + " at " +
                                 workPlace(book, visit->job, visit->pour),
                             forVisit(book, *visit), visit->plannedOn == tomorrow ? visit->plannedAt : std::nullopt,
                             RecordKind::visit, visit->id.value()));
    }
}

}

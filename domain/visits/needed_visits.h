#pragma once

#include "record/book.h"
#include "record/edit.h"

#include <optional>
#include <string>
#include <vector>

namespace strikeoff {

/// A visit that a job or one of its pours needs by its type, joints and product.
struct NeededVisit {
    Id<Job> job;
    std::optional<Id<Pour>> pour;
    VisitKind kind = VisitKind::strip;
    std::int32_t coat = 1;
    std::optional<Id<FinishingProduct>> product;
    std::optional<Minutes> minutes;  ///< what it usually takes on site
    std::string why;                 ///< "the job type has its joints cut on a return visit"
};

/// What every pour needs: strip; cut, unless its saw joints are written as none and no relief cut is asked for; the coats of its product. Once a job's
/// last pour is done: a walk-through, and a reseal call where the job type has one. The flags of the job type decide; a job without a type is stripped and
/// walked through, cut when joints are written down, and sealed when a product is named. Only of pours that are done; whether the visits are on the list is
/// not looked at. Minutes are common practice, no source.
std::vector<NeededVisit> neededVisits(const Book& book, const Job& job);

/// Those of them that are neither done, waived nor open on the list. A visit written without a pour stands for all the job's pours.
std::vector<NeededVisit> missingVisits(const Book& book, const Job& job);
/// Of all jobs that are neither closed nor dropped.
std::vector<NeededVisit> missingVisits(const Book& book);

/// Puts visits on the list, without days: their windows follow from the pour.
void addVisits(Edit& edit, const std::vector<NeededVisit>& visits);
/// The edit for all that is missing of a job; nothing when nothing is.
std::optional<Edit> addMissingVisits(const Book& book, const Job& job);
/// The same of all jobs that are neither closed nor dropped, in one edit.
std::optional<Edit> addMissingVisits(const Book& book);
/// "Three visits that pours need are not on the list yet: strip, cut and seal." Empty when there are none.
std::string missingText(const std::vector<NeededVisit>& missing);
/// What a pour will need when it is marked as done, for the same edit; what stands on the list already is left out.
std::vector<NeededVisit> missingWhenPoured(const Book& book, const Pour& poured);

/// "strip, cut and two coats of sealer" of some visits, and where.
std::string neededText(const std::vector<NeededVisit>& visits);

}

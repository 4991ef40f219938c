#pragma once

#include "paper/paper_document.h"
#include "record/job.h"

namespace strikeoff {

/// A section's tape readings in words: `40' × 10'`, `12' across`, `3 pieces, 30' long, 12" wide`. Says which reading is not recorded.
std::string sizeText(const TakeoffSection& section);

/// How a section is drawn: its outline, the lengths that were measured, and its joints. Without an outline for runs, piers and sections that cannot be measured.
PlanShape planShape(const TakeoffSection& section);

/// The drawable sections of a job in their order.
PaperPlan planOf(const std::vector<const TakeoffSection*>& sections);

}

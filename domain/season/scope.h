#pragma once

#include "record/book.h"

namespace strikeoff {

/// What part of a book the seasons are asked about.
struct SeasonScope {
    Date today;                          ///< records after it are not looked at; the months ahead start behind its own
    std::optional<Date> from;            ///< records before it are left out
    std::optional<Date> to;              ///< records after it are left out
    std::optional<Id<JobType>> jobType;  ///< only records of jobs of it

    bool holds(Date day) const { return day <= today && (!from || day >= *from) && (!to || day <= *to); }
    bool holds(const Job* job) const { return !jobType || (job && job->jobType == jobType); }
};

}

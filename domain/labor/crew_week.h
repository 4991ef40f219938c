#pragma once

#include "labor/labor_cost.h"

#include <string>

namespace strikeoff {

/// What somebody did on a day: one job and phase.
struct WorkOfDay {
    const Job* job = nullptr;  ///< nullptr: the shop
    Phase phase{};
    Minutes minutes;
};

struct DayOfWeek {
    Date date;
    Minutes minutes;
    Money cost;  ///< true cost
    std::vector<WorkOfDay> work;
};

struct PersonWeek {
    const CrewMember* person = nullptr;
    WeekPay pay;
    std::vector<DayOfWeek> days;  ///< all seven, from the first day of the workweek
    std::vector<Minutes> minutesByDay() const;
};

/// The crew's week for whoever runs payroll: hours by day, straight and overtime, pay and what it truly cost.
struct CrewWeek {
    Date from, to;
    std::vector<PersonWeek> people;  ///< who worked, by name
    WeekPay all;                     ///< the sums of everybody; its person and regular rate mean nothing
    std::string answer;              ///< in one sentence with numbers
    std::vector<std::string> cautions;  ///< what is left out, what is not set, and whom to ask
    /// Everybody's, added up.
    std::vector<Minutes> minutesByDay() const;
};

/// The workweek that holds a day.
CrewWeek crewWeek(const Book& book, const LaborCost& labor, Date day);

}

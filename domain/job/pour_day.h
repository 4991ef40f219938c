#pragma once

#include "record/book.h"
#include "visits/setting.h"

#include <optional>
#include <string>

namespace strikeoff {

/// What the day of a pour asks of the crew: nobody leaves before the broom. Crew-hours of placing and finishing, from the start of placing to the broom.
struct PourDay {
    Date day;
    FinishEstimate finish;
    double people = 0;     ///< that the shop has kept on slabs of this size from placing to the broom, as a mean over the time
    int peopleFrom = 0;    ///< how many own pours that rests on; 0 where the pour's crew is written down
    double hours = 0;
    double low = 0;        ///< low to high: the 80 % range of the broom, with the same people
    double high = 0;
    std::string words;     ///< "from 8:00 am to the broom about 3:40 pm, 2.5 people: 19.25 h (15 to 24.5, four times in five)", and on what it rests
};

/// For a job's next pour, of an area, on its planned day or in a month. The air is the forecast's, else what the shop's own pours of that calendar month had;
/// accelerator and hour of placing are the pour's, else those pours' middle ones. Nothing when fewer than three own pours tell the air or the people.
std::optional<PourDay> pourDayAhead(const Book& book, const Job& job, Date month, double areaSqft);

/// The pour day beside what a quote carries for placing and finishing, for whoever looks at the quote's lines; empty where nothing can be told.
std::string pourDayNote(const Book& book, const Quote& quote, Date today);

/// What can be said of a pour's broom: when it was broomed and whether the pour counts among those estimates rest on; else the estimate, or what is
/// missing for one.
std::string broomNote(const Book& book, const Pour& pour);

/// A working day of the month a job's pour is reckoned in: as planned, else the month its quote names, else the day itself.
Date pourMonthOf(const Book& book, const Job& job, Date day);

}

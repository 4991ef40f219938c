#pragma once

#include "quantity/moment.h"
#include "record/book.h"
#include "visits/gates.h"
#include "visits/setting.h"

#include <array>
#include <optional>
#include <string>

namespace strikeoff {

enum class VisitState { tooLate, late, due, waiting, done, waived };
inline constexpr std::array visitStateChoices{Choice{"too_late", "Too late"}, Choice{"late", "Late"}, Choice{"due", "Due"},
                                              Choice{"waiting", "Not yet"}, Choice{"done", "Done"}, Choice{"waived", "Waived"}};
template <> inline constexpr std::span<const Choice> choicesOf<VisitState> = visitStateChoices;

/// When a visit can be made. Ends that do not apply, or cannot be known yet, are blank; a window with all three blank waits for its pour.
struct VisitWindow {
    std::optional<Moment> notBefore;
    std::optional<Moment> due;      ///< the last moment it is on time
    std::optional<Moment> tooLate;  ///< from here on it is too late
    bool estimated = false;         ///< rests on a pour that is not finished, or on a coat not yet on, or on weather that is not known
    std::string why;                ///< a sentence for the owner
};

/// Windows of a book's visits. What the shop's own pours say and the weather are looked up once, so make one for many visits. Keeps a reference to
/// the book and holds as long as the book is not changed.
class VisitWindows {
public:
    explicit VisitWindows(const Book& book);

    /// Days the owner typed on the visit (not before, due, too late) go over what is reckoned, each for itself: not before from the start of its
    /// day, due to the end of its day, too late from the start of its day.
    VisitWindow windowOf(const Visit& visit) const;
    /// The visit with the ends of its window filled in as days, for whoever reads days: too late is the first day that has no hour left in it.
    Visit inDays(const Visit& visit) const;
    /// The hours of a day the visit can be made in: inside its window and, for sealing, its product's gates. The window's end (too late) does not
    /// shut hours, as a visit past it still has to be decided; what is late is the planner's to weigh.
    DayHours hoursOn(const Visit& visit, Date date) const;
    /// Where a visit stands on a day: done or waived; past its last day; past due or a day it was planned for; in its window or planned for the day;
    /// or not to be done yet.
    VisitState stateOn(const Visit& visit, Date day) const;
    /// The product a sealing visit puts on: its own, else its pour's, else the job type's.
    const FinishingProduct* productOf(const Visit& visit) const;
    /// The pour a visit goes back to: its own, else the job's latest.
    const Pour* pourOf(const Visit& visit) const;

    const Weather& weather() const { return weather_; }
    const FinishEstimator& finishes() const { return finishes_; }

private:
    VisitWindow reckoned(const Visit& visit) const;
    VisitWindow cutWindow(const Pour& pour, const PourFinish& finish) const;
    VisitWindow stripWindow(const Pour& pour, const PourFinish& finish) const;
    VisitWindow sealWindow(const Visit& visit, const PourFinish& finish) const;
    void followCoat(const Visit& visit, const FinishingProduct* product, VisitWindow& window) const;

    const Book& book_;
    Weather weather_;
    FinishEstimator finishes_;
};

/// Where a visit with a window stands on a day.
VisitState stateOn(const Visit& visit, const VisitWindow& window, Date day);

}

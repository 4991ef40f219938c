#pragma once

#include "job/steps.h"

#include <string>
#include <vector>

namespace strikeoff {

/// What the owner says of a visit that was made.
struct VisitDone {
    Date day;
    std::optional<Minutes> minutes;       ///< on site
    std::optional<Minutes> drive;         ///< there and back, as each person is paid for it
    std::vector<Id<CrewMember>> people;   ///< who was there
    std::optional<Quantity> gallons;      ///< that went on, for sealing
    std::string photos;                   ///< file names, parted by commas
    std::string note;
    bool writeMaterial = true;            ///< charge the job with the gallons at the product's price
};

/// What the form begins with: the day, minutes and gallons as planned, the person who makes visits when there is but one. Material is written unless the
/// job has a sealer receipt of its own for the product already.
VisitDone proposedDone(const Book& book, const Visit& visit, Date day);
/// People who can be named on a visit's form: on the crew that day, those who make visits first.
std::vector<const CrewMember*> visitPeople(const Book& book, Date day);

/// The phase hours of a visit belong to: strip and cut, seal; a walk-through and a call count with travel, as no pace of work is learned from them.
Phase phaseOf(VisitKind kind);

/// The visit done, in one edit with what follows from it: a row of hours a person (and one of travel), the material on the job at the product's price per
/// gallon, the feet taken off the blade. Hours a person has already on that job and day in that phase are not written twice; the remarks say so. Times
/// and gallons are optional; what is left blank is "not recorded", and then nothing follows from it.
Step finishVisit(const Book& book, const Visit& visit, const VisitDone& done);

/// Not done today: the visit loses its planned day and its pin, keeps its window, and carries when and why it was put off. With `next` it is planned for
/// that day.
Step putOffVisit(const Book& book, const Visit& visit, const std::string& reason, Date day, std::optional<Date> next = {});
/// Left out for good, and why.
Step waiveVisit(const Book& book, const Visit& visit, const std::string& reason, Date day);
/// A reseal call that found interest: a lead with the old job's customer, area, product and price, to be called again within the week; the call is done.
Step resealLead(const Book& book, const Visit& visit, Date day);

/// Why visits were put off or waived so far, the most frequent first; to choose from instead of typing.
std::vector<std::string> visitReasons(const Book& book);

}

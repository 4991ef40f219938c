#pragma once

#include "record/book.h"

#include <string>
#include <string_view>

namespace strikeoff {

/// What is done on a visit, as a heading begins: "Seal", "Walk through".
std::string_view doing(VisitKind kind);
/// "Alder Court driveway, pour 2"; the job's title alone without a pour.
std::string workPlace(const Book& book, Id<Job> job, const std::optional<Id<Pour>>& pour);
/// "Seal Alder Court driveway, pour 2, coat 2".
std::string visitTitle(const Book& book, const Visit& visit);
/// Where a job is, on one line: the site's address and town, else the customer's; empty when neither has one.
std::string addressOf(const Book& book, Id<Job> job);
/// Whom to reach: "Dana Reyes, 555-0142"; the name alone without a phone.
std::string contactOf(const Book& book, Id<Job> job);
/// What stands on the site's card: gate, dog, hose bib.
std::string siteNotes(const Book& book, Id<Job> job);
/// When a visit may be made, seen from a day: "Not before Wed Nov 25; due Fri Nov 27; too late from Mon Nov 30". Empty without a day.
std::string windowText(const Visit& visit, Date seenFrom);

/// A message for the customer, ready to paste: who comes when, for what, and what to keep clear.
std::string customerReminder(const Book& book, const Visit& visit, Date day, const std::optional<ClockTime>& at);

}

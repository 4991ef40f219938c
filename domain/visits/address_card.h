#pragma once

#include "record/book.h"

#include <span>
#include <string>

namespace strikeoff {

/// Addresses for a phone by RFC 6350 (vCard 4.0), one card after the other, each with an id that stays the same.

/// The customer's name, phone, mail and address.
std::string addressCard(const Customer& customer);
/// The site as a place: name, address, coordinates, its customer's phone, the notes on gate, dog and hose bib.
std::string addressCard(const Book& book, const Site& site);
/// The cards of these jobs' sites, else of their customers, each once, in the order of the jobs.
std::string addressCards(const Book& book, std::span<const Id<Job>> jobs);

}

#pragma once

#include "record/book.h"

#include <span>
#include <string>
#include <vector>

namespace strikeoff {

/// One thing to put on the truck.
struct LoadItem {
    std::string item;                ///< "Slab Guard", "Saw"
    std::optional<Quantity> amount;  ///< nothing where it is not known, or where the thing is simply taken along
    std::string unit;                ///< "gal", "ft"; blank without an amount
    std::string why;                 ///< how the amount came out, or what the thing is for
    std::optional<Id<FinishingProduct>> product;
    std::optional<Quantity> needed;  ///< of a product: gallons with the spare, before whole cans
    std::string text() const;        ///< "10 gal of Slab Guard (two cans of 5 gal)"
};

/// What a run takes along.
struct LoadOut {
    std::vector<LoadItem> items;
    std::vector<std::string> cautions;  ///< a sentence each
    /// The items in one line, without how they came out: "9.8 gal of Slab Guard, sprayer, plastic and cones".
    std::string brief() const;
};

/// Gallons that go on for a visit, without spare: as written on the visit, else area over coverage by the job's finish, one coat a visit. The area is the
/// pour's, else the part of the takeoff that no other pour of the job takes. Nothing when area or coverage is not recorded.
std::optional<Quantity> gallonsOnSlab(const Book& book, const Visit& visit);
/// The product of a visit: its own, else the pour's, else the job type's; nullptr when none is named.
const FinishingProduct* productOf(const Book& book, const Visit& visit);
/// Feet of joint to saw on a pour, none when not recorded.
std::optional<Quantity> jointFeet(const Book& book, const Visit& visit);

/// The load-out of one run over several stops. Of each product what all stops need, with the settings' spare on it, up to the whole cans it comes in (a
/// tenth of a gallon where the can is not recorded). A pour takes along the product that goes on the same day, and the saw for its joints, unless a visit of
/// the same run does that.
LoadOut loadOut(const Book& book, std::span<const Pour* const> pours, std::span<const Visit* const> visits);
LoadOut loadOut(const Book& book, const Visit& visit);
LoadOut loadOut(const Book& book, const Pour& pour);

/// What is in the shop of a product: what was counted, less what visits done after the day of the count put on (as written; as reckoned where
/// nothing was). Without the day of the count nothing is taken off.
struct Stock {
    std::optional<Quantity> counted;
    std::optional<Date> countedOn;
    Quantity used;       ///< since the count, by visits done
    int usedByGuess = 0; ///< visits whose gallons were not written down and could be reckoned
    int usedUnknown = 0; ///< visits whose gallons nobody knows
    /// Never below zero; nothing when nothing was counted.
    std::optional<Quantity> left() const;
};
Stock stockOf(const Book& book, const FinishingProduct& product);

/// A visit and the day it is thought to be made.
struct VisitDay {
    const Visit* visit = nullptr;
    Date day;
};
/// Open sealing visits up to some days ahead: on the day planned, else the day due, what is overdue on the day itself.
std::vector<VisitDay> sealingAhead(const Book& book, Date from, int days);

/// A product that runs out before it is needed.
struct Shortage {
    Id<FinishingProduct> product;
    Date day;           ///< the first day there is too little
    Quantity needed;    ///< by the end of that day, spare included
    Quantity left;      ///< in the shop
    Quantity toBuy;     ///< gallons for all the visits looked at, in whole cans
    std::string text;   ///< "Slab Guard runs short on Thu Dec 3: 9.8 gal needed by then and 7.5 gal in the shop; buy one can of 5 gal by Wed Dec 2"
};
/// The products of the visits given that are counted and will not reach, the first to run out first.
std::vector<Shortage> shortages(const Book& book, std::span<const VisitDay> visits, Date today);

}

#pragma once

#include "paper/paper_document.h"
#include "quantity/words.h"
#include "record/book.h"

#include <algorithm>
#include <cstdlib>

namespace strikeoff {

// What the papers have in common.

/// A blank paper of the outfit's size with its heading; facts and state are put in afterwards. `title` is the word on the paper, `number` what follows it in
/// the footer and in the file's name.
struct PaperStart {
    PaperDocument document;
    PaperHeading heading;
};
PaperStart startPaper(const Settings& settings, const std::string& title, const std::string& number);

std::string outfitName(const Settings& settings);
/// Name and billing address of a customer, with how to reach them.
PaperParty customerParty(std::string label, const Customer& customer);
/// Where the work is; nothing when the job has no site.
std::optional<PaperParty> siteParty(const Book& book, const Job& job);
PaperParty jobParty(const Job& job);

/// "Make checks out to …" by what the settings know of the outfit.
std::string howToPay(const Settings& settings, const std::string& reference);

/// Sales tax by rate, or that the customer is exempt; nothing where there is no tax and none was to be expected.
std::optional<PaperFact> taxFact(const Customer& customer, Rate rate, Money tax);

/// The decimals a figure needs, at least some.
template <class Tag>
int decimalsNeeded(Decimal<Tag> figure, int least)
{
    int decimals = Tag::scale;
    auto units = std::abs(figure.units());
    while (decimals > least && units % 10 == 0) {
        units /= 10;
        --decimals;
    }
    return decimals;
}

/// A line of goods as customers read it.
struct PricedLine {
    std::string description;
    std::string below;
    std::optional<Quantity> quantity;
    std::string unit;
    std::optional<UnitPrice> unitPrice;
    Money amount;
};
/// The table of lines, with quantity, unit and unit price where any line has them; figures of a column have the same decimals.
PaperTable linesTable(const std::vector<PricedLine>& lines, const std::string& amountHeading);

}

#include "labor/rates.h"

#include "quantity/words.h"
#include "ready_mix/expected_charge.h"

namespace strikeoff {

const PayRate* rateInForce(const Book& book, Id<CrewMember> person, Date day)
{
    const PayRate* inForce = nullptr;
    for (const auto* rate : book.referring<&PayRate::person>(person))
        if (!rate->phase && rate->fromDate <= day && (!inForce || rate->fromDate > inForce->fromDate)) inForce = rate;
    return inForce;
}

std::string ratesAnswer(const Book& book, Date day)
{
    int people = 0;
    std::optional<UnitPrice> least, most;
    for (const auto& person : book.all<CrewMember>()) {
        if (person.leftOn && *person.leftOn < day) continue;
        ++people;
        if (const auto* rate = rateInForce(book, person.id, day); rate && !rate->dayRate) {
            if (!least || rate->hourlyRate < *least) least = rate->hourlyRate;
            if (!most || rate->hourlyRate > *most) most = rate->hourlyRate;
        }
    }
    std::string text = people == 0 ? "Nobody on the crew yet" : counted(people, "person", "people") + " on the crew";
    if (least) text += *least == *most ? ", paid $" + least->shown() + " an hour" : ", paid $" + least->shown() + " to $" + most->shown() + " an hour";
    for (const auto& supplier : book.all<Supplier>())
        if (const auto sheet = sheetInForce(book, supplier.id, day)) text += "; " + supplier.name + "\u2019s sheet of " + sheet->effectiveOn.shown() + " is in force";
    return capitalized(text + ".");
}

}

#include "demo/planter.h"

#include "statistics/edit_distance.h"

#include <algorithm>
#include <set>

namespace strikeoff::demo {

namespace {

/// What both numbers read like with a digit missing; blank when nothing.
std::string withoutADigit(const std::string& a, const std::string& b)
{
    for (std::size_t i = 0; i < a.size(); ++i)
        for (std::size_t k = 0; k < b.size(); ++k) {
            auto first = a, second = b;
            first.erase(i, 1);
            second.erase(k, 1);
            if (first == second) return first;
        }
    return {};
}

}

void Planter::repeat(std::size_t statement, std::size_t into, std::size_t at, DraftLoad copy, const std::string& what)
{
    copy.faulty = true;
    const int event = open(statement, copy, what);
    for (auto& line : copy.lines) mark(line, copy, event, "billed_twice", line.amount, line.amount, what);
    auto& loads = drafts_[into].loads;
    loads.insert(loads.begin() + static_cast<std::ptrdiff_t>(at), std::move(copy));
}

bool Planter::twice(std::size_t index, std::size_t place)
{
    const auto copy = drafts_[index].loads[place];
    drafts_[index].loads[place].faulty = true;
    repeat(index, index, drafts_[index].loads.size(), copy,
        opening(copy) + "billed twice on statement " + drafts_[index].number + '.');
    return true;
}

bool Planter::twiceLater(std::size_t index, DraftLoad& load)
{
    for (auto next = index + 1; next < drafts_.size() && next <= index + 3; ++next) {
        if (drafts_[next].supplier != drafts_[index].supplier) continue;
        if (drafts_[next].faults >= 3 || next % 4 == 1) return false;
        load.faulty = true;
        ++drafts_[next].faults;
        repeat(next, next, 0, load,
            opening(load) + "billed on statement " + drafts_[index].number + " and again on " + drafts_[next].number + '.');
        return true;
    }
    return false;
}

bool Planter::leftOut(std::size_t index, std::size_t place)
{
    auto& draft = drafts_[index];
    if (draft.numbersFaulty || draft.loads.size() < 3) return false;
    draft.numbersFaulty = true;
    auto& load = draft.loads[place];
    Money expected;
    for (const auto& line : load.lines) expected += line.amount;
    PlantedFault fault;
    fault.ticketNumber = load.ticket->number;
    fault.finding = "unbilled";
    fault.overSheet = -expected;
    fault.what = opening(load) + shownYards(load.ticket->yards) + " on no statement.";
    draft.whole.push_back(fault);
    draft.loads.erase(draft.loads.begin() + static_cast<std::ptrdiff_t>(place));
    return true;
}

bool Planter::isFarFromOthers(std::size_t supplier, const std::string& number, const Ticket* own) const
{
    for (const auto& ticket : world_.records.all<Ticket>())
        if (&ticket != own && ticket.supplier == world_.suppliers[supplier]
            && editsBetween(comparableNumber(ticket.number), comparableNumber(number)) < 2)
            return false;
    return true;
}

bool Planter::mistype(std::size_t index, DraftLoad& load, bool swap)
{
    auto& draft = drafts_[index];
    if (draft.numbersFaulty) return false;
    for (std::size_t i = load.printedNumber.size() - 1; i >= load.printedNumber.size() - 3; --i) {
        auto number = load.printedNumber;
        if (swap) std::swap(number[i], number[i - 1]);
        else number.erase(i, 1);
        if (number == load.printedNumber || !isFarFromOthers(draft.supplier, number, load.ticket)) continue;
        const auto what = opening(load) + "printed as " + number + '.';
        load.printedNumber = number;
        draft.numbersFaulty = true;
        const int event = open(index, load, what);
        for (auto& line : load.lines) mark(line, load, event, "agrees", {}, {}, what);
        return true;
    }
    return false;
}

void Planter::cutOff()
{
    for (std::size_t index = drafts_.size(); index-- > 0 && drafts_[index].month >= day(2026, 10, 1);) {
        auto& loads = drafts_[index].loads;
        for (std::size_t a = 0; a + 1 < loads.size(); ++a) {
            auto& first = loads[a];
            auto& second = loads[a + 1];
            if (!first.ticket || !second.ticket || first.faulty || second.faulty || first.date != second.date || first.ticket->yards != second.ticket->yards
                || first.ticket->mix != second.ticket->mix)
                continue;
            const auto cut = withoutADigit(first.printedNumber, second.printedNumber);
            if (cut.empty()) continue;
            for (auto* load : {&first, &second}) {
                const auto what = opening(*load) + "printed as " + cut + ", and so is another load of that day.";
                load->printedNumber = cut;
                load->faulty = true;
                const int event = open(index, *load, what);
                for (auto& line : load->lines) mark(line, *load, event, "needs_your_eye", {}, {}, what);
            }
            return;
        }
    }
    throw DomainError{"a demonstration without two equal loads in a day"};
}

bool Planter::noTicket(std::size_t index)
{
    auto& draft = drafts_[index];
    if (draft.numbersFaulty || draft.loads.size() < 2) return false;
    std::set<Date> taken;
    for (const auto& load : draft.loads) taken.insert(load.date);
    for (int tries = 0; tries < 40; ++tries) {
        const auto date = nextWorkday(draft.month + random_.pick(1, 24));
        if (taken.contains(date) || date.month() != draft.month.month()) continue;
        Ticket stranger;
        stranger.supplier = world_.suppliers[draft.supplier];
        const int counted = (draft.supplier == 0 ? 38'000 + (date - firstDay()) * 47 : 104'500 + (date - firstDay()) * 44)
            + random_.pick(3, 40);
        stranger.number = (draft.supplier == 0 ? "" : "T-") + std::to_string(counted);
        if (!isFarFromOthers(draft.supplier, stranger.number, nullptr)) continue;
        stranger.date = date;
        stranger.yards = Yards::ofUnits(random_.pick(26, 39) * 250);
        stranger.mix = mixCode(draft.supplier, 4000);
        PriceSheet sheet{stranger.supplier, {}, sheetOf(world_, draft.supplier, date)};
        sheet.effectiveOn = sheet.charges.front()->effectiveOn;
        const auto expected = expectedCharge(stranger, sheet);
        DraftLoad load;
        load.printedNumber = stranger.number;
        load.date = date;
        load.faulty = true;
        const auto what = date.shown() + ", ticket " + stranger.number
            + ": no such ticket on file, and none of their trucks came that day.";
        for (const auto& line : expected.lines) {
            const auto* charge = onSheet(draft.supplier, date, line.kind, line.code);
            load.lines.push_back(draftLine(line, charge ? charge->meaning : line.description));
        }
        DraftLine tax;
        tax.kind = ChargeKind::tax;
        tax.code = "TAX";
        tax.description = "Sales tax 6.25 %";
        tax.amount = expected.tax;
        load.lines.push_back(tax);
        const int event = open(index, load, what);
        for (auto& line : load.lines) mark(line, load, event, "no_ticket", line.amount, line.amount, what);
        auto place = draft.loads.begin();
        while (place != draft.loads.end() && place->date <= date) ++place;
        draft.loads.insert(place, std::move(load));
        draft.numbersFaulty = true;
        return true;
    }
    return false;
}

}

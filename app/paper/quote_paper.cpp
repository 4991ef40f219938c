#include "paper/paper_parts.h"
#include "paper/papers.h"
#include "paper/takeoff_plan.h"

#include "job/stage.h"

#include <cmath>
#include <map>
#include <set>

namespace strikeoff {

namespace {

std::string stateOf(const Book& book, const Quote& quote)
{
    if (quote.acceptedOn) return "Accepted " + quote.acceptedOn->shown();
    if (quote.declinedOn) return "Declined " + quote.declinedOn->shown();
    std::int32_t newest = quote.issue;
    for (const auto* other : book.referring<&Quote::job>(quote.job))
        if (other->number == quote.number) newest = std::max(newest, other->issue);
    if (newest > quote.issue) return "Replaced by revision " + std::to_string(newest);
    return quote.sentOn ? std::string{} : std::string{"Draft, not sent"};
}

/// The lines as the customer reads them: those with a price of their own as they are, the others as one line a class.
std::vector<PricedLine> customerLines(const Book& book, const Quote& quote)
{
    auto rows = book.referring<&QuoteLine::quote>(quote.id);
    std::stable_sort(rows.begin(), rows.end(), [](const auto* a, const auto* b) { return a->position < b->position; });
    std::vector<PricedLine> lines;
    std::map<CostClass, std::size_t> classes;
    std::set<std::pair<CostClass, std::string>> named;
    for (const auto* row : rows) {
        const auto price = row->price(quote.markup);
        if (row->unitPrice) {
            lines.push_back({row->description, {}, row->quantity, row->unit, row->unitPrice, price});
            continue;
        }
        const auto [place, isNew] = classes.emplace(row->costClass, lines.size());
        if (isNew) lines.push_back({std::string{labelOf(row->costClass)}, {}, {}, {}, {}, {}});
        auto& line = lines[place->second];
        line.amount += price;
        if (named.emplace(row->costClass, row->description).second) line.below += (line.below.empty() ? "" : "; ") + row->description;
    }
    return lines;
}

PaperTable sectionsTable(const std::vector<const TakeoffSection*>& sections)
{
    PaperTable table;
    table.columns = {{"Section", PaperSide::left}, {"Size", PaperSide::left}, {"Thickness", PaperSide::right}, {"Finish", PaperSide::left}, {"Area, sq ft", PaperSide::right}};
    // Runs and piers have no area; neither has a section that lacks a reading.
    std::vector<std::optional<Area>> areas;
    double total = 0;
    for (const auto* section : sections) {
        const auto measured = measure(*section);
        total += measured.areaSqft;
        const bool flat = section->shape < SectionShape::thickenedEdge && measured.fault.empty();
        areas.push_back(flat ? std::optional{Area::ofUnits(std::llround(measured.areaSqft * 100))} : std::nullopt);
    }
    const int decimals = std::any_of(areas.begin(), areas.end(), [](const auto& area) { return area && area->units() % 100 != 0; }) ? 1 : 0;
    for (std::size_t i = 0; i < sections.size(); ++i) {
        const auto& section = *sections[i];
        const auto name = section.deduct ? section.name + " (taken out)" : section.name;
        const bool finished = section.shape < SectionShape::thickenedEdge && !section.deduct;
        table.rows.push_back({{name, sizeText(section), section.thickness ? section.thickness->text() : std::string{"\u2013"},
                               finished ? std::string{labelOf(section.finish)} : std::string{}, areas[i] ? areas[i]->shown(decimals) : std::string{"\u2013"}},
                              {},
                              PaperRowManner::plain});
    }
    table.rows.push_back({{"Area in all", {}, {}, {}, Area::ofUnits(std::llround(total * 100)).shown(decimals)}, {}, PaperRowManner::apart});
    return table;
}

constexpr auto quoteCautions =
    "Fresh concrete is caustic: it burns skin and eyes. Keep children and pets off the work and do not touch it until we say it is ready; rinse splashes off at once with "
    "plenty of water and see a doctor for eyes.\n"
    "Sawing and grinding concrete raises silica dust, which harms the lungs. Stay away and keep windows shut while we cut.\n"
    "Concrete shrinks as it dries. Joints steer where it cracks; they cannot rule a crack out. Follow the sealer's label and ask us before using a de-icer.\n"
    "Tell us of every buried line, pipe and sprinkler you know of. Posts, footings and anything that carries a roof belong to the drawings and a licensed engineer; "
    "the local code and the building department come before this paper.";

}

PaperDocument quotePaper(const Book& book, const Quote& quote)
{
    const auto& settings = book.settings();
    const auto& job = book.get(quote.job);
    const auto& customer = book.get(job.customer);
    const auto totals = totalOf(book, quote);

    const auto named = quote.issue > 1 ? quote.number + ", revision " + std::to_string(quote.issue) : quote.number;
    auto [paper, heading] = startPaper(settings, "Quote", named);
    heading.facts.push_back({"No.", quote.number, true});
    if (quote.issue > 1) heading.facts.push_back({"Revision", std::to_string(quote.issue), false});
    heading.facts.push_back({"Date", (quote.sentOn ? *quote.sentOn : quote.draftedOn).shown(), false});
    if (quote.validUntil) heading.facts.push_back({"Valid until", quote.validUntil->shown(), false});
    heading.state = stateOf(book, quote);
    paper.add(std::move(heading));

    PaperParties parties{{customerParty("Prepared for", customer)}};
    if (auto site = siteParty(book, job)) parties.parties.push_back(std::move(*site));
    parties.parties.push_back(jobParty(job));
    paper.add(std::move(parties));

    paper.addSection("What we will do", quote.scope.empty() ? job.title : quote.scope);

    const auto sections = sectionsOf(book, job.id);
    if (!sections.empty()) {
        paper.add(PaperSection{"What it covers"});
        paper.add(sectionsTable(sections));
        paper.add(planOf(sections));
    }

    const auto lines = customerLines(book, quote);
    paper.add(PaperSection{"Price"});
    if (lines.empty()) {
        paper.add(PaperParagraph{"No price is set yet."});
    } else {
        auto table = linesTable(lines, "Price, $");
        const auto tax = taxFact(customer, quote.taxRate, totals.tax);
        if (tax) {
            table.totals.push_back({"Price before tax", totals.net.shown(), false});
            table.totals.push_back(*tax);
        }
        table.totals.push_back({"Price in all", dollars(totals.total), true});
        paper.add(std::move(table));
        std::string after;
        if (!totals.deposit.isZero())
            after = "Due on acceptance: a deposit of " + dollars(totals.deposit) + " (" + quote.deposit.text() + "%). The other " + dollars(totals.total - totals.deposit)
                + " is due as the terms say.";
        if (quote.pourMonth) after += (after.empty() ? "" : " ") + ("The price is reckoned for a pour in " + shownMonth(*quote.pourMonth) + ".");
        if (quote.validUntil) after += (after.empty() ? "" : " ") + ("It holds until " + quote.validUntil->shown() + ".");
        if (!after.empty()) paper.add(PaperParagraph{after});
    }

    paper.addSection("Not included", quote.exclusions);
    paper.addSection("Terms", quote.terms);

    if (!quote.declinedOn && !lines.empty()) {
        paper.add(PaperSection{"Acceptance"});
        paper.add(PaperSignatures{"I accept quote " + named + " at " + dollars(totals.total) + " and ask " + outfitName(settings) + " to do the work described in it on its terms.",
                                  {"For the customer: " + customer.name, "For " + outfitName(settings)}});
    }
    paper.add(PaperSection{"Please read"});
    paper.add(PaperParagraph{quoteCautions, PaperText::small, false});
    return std::move(paper);
}

PaperDocument changeOrderPaper(const Book& book, const ChangeOrder& change)
{
    const auto& settings = book.settings();
    const auto& job = book.get(change.job);
    const auto& customer = book.get(job.customer);
    const auto number = std::to_string(change.number);

    auto [paper, heading] = startPaper(settings, "Change order", job.number + "-" + number);
    heading.facts.push_back({"Job", job.number, true});
    heading.facts.push_back({"Change no.", number, true});
    heading.facts.push_back({"Asked for", change.askedOn.shown(), false});
    if (change.acceptedOn) heading.state = "Accepted " + change.acceptedOn->shown();
    else if (change.declinedOn) heading.state = "Declined " + change.declinedOn->shown();
    paper.add(std::move(heading));

    PaperParties parties{{customerParty("For", customer)}};
    if (auto site = siteParty(book, job)) parties.parties.push_back(std::move(*site));
    parties.parties.push_back(jobParty(job));
    paper.add(std::move(parties));

    paper.addSection("What changes", change.description);

    paper.add(PaperSection{"Price"});
    PaperTable table;
    table.columns = {{"What", PaperSide::left}, {"Before sales tax, $", PaperSide::right}};
    if (const auto* quote = currentQuote(book, job.id)) {
        auto before = totalOf(book, *quote).net;
        const auto named = quote->issue > 1 ? quote->number + ", revision " + std::to_string(quote->issue) : quote->number;
        table.rows.push_back({{"Quote " + named, before.shown()}, {}, PaperRowManner::plain});
        auto others = book.referring<&ChangeOrder::job>(job.id);
        std::stable_sort(others.begin(), others.end(), [](const auto* a, const auto* b) { return a->number < b->number; });
        for (const auto* other : others) {
            if (other->number >= change.number || !other->acceptedOn) continue;
            before += other->price;
            table.rows.push_back({{"Change order " + std::to_string(other->number) + ", accepted " + other->acceptedOn->shown(), other->price.shown()}, {}, PaperRowManner::plain});
        }
        table.rows.push_back({{"This change order", change.price.shown()}, {}, PaperRowManner::plain});
        table.totals.push_back({"Price of the job with this change", dollars(before + change.price), true});
    } else {
        table.totals.push_back({"Price of this change", dollars(change.price), true});
        table.rows.push_back({{"This change order", change.price.shown()}, {}, PaperRowManner::plain});
    }
    paper.add(std::move(table));
    paper.add(PaperParagraph{"Sales tax is added where it applies. All else stays as it was agreed."});

    if (!change.declinedOn) {
        paper.add(PaperSection{"Acceptance"});
        paper.add(PaperSignatures{"I ask " + outfitName(settings) + " to make this change at " + dollars(change.price) + " before sales tax.",
                                  {"For the customer: " + customer.name, "For " + outfitName(settings)}});
    }
    return std::move(paper);
}

}

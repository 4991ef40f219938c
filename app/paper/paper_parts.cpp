#include "paper/paper_parts.h"

namespace strikeoff {

std::string outfitName(const Settings& settings) { return settings.outfitName.empty() ? std::string{"(outfit's name: see Settings)"} : settings.outfitName; }

PaperStart startPaper(const Settings& settings, const std::string& title, const std::string& number)
{
    PaperStart start;
    start.document.size = settings.paper;
    start.document.title = number.empty() ? title : title + ' ' + number;
    start.document.footer = outfitName(settings) + " \u00b7 " + start.document.title;
    start.heading.outfit = outfitName(settings);
    start.heading.logo = settings.logo;
    std::string address = settings.outfitAddress;
    if (!settings.outfitTown.empty()) address += (address.empty() ? "" : ", ") + settings.outfitTown;
    std::string reach = settings.outfitPhone;
    if (!settings.outfitEmail.empty()) reach += (reach.empty() ? "" : " \u00b7 ") + settings.outfitEmail;
    for (const auto& line : {address, reach})
        if (!line.empty()) start.heading.outfitLines.push_back(line);
    if (!settings.license.empty()) start.heading.outfitLines.push_back("License " + settings.license);
    start.heading.title = title;
    return start;
}

PaperParty customerParty(std::string label, const Customer& customer)
{
    return {std::move(label), {customer.name, customer.address, customer.town, customer.phone, customer.email}};
}

std::optional<PaperParty> siteParty(const Book& book, const Job& job)
{
    const auto* site = book.find(job.site);
    if (!site) return std::nullopt;
    // A site is often named after its street; once is enough.
    const bool named = site->address.empty() || (site->address.find(site->name) == std::string::npos && site->name.find(site->address) == std::string::npos);
    PaperParty party{"Work at", {}};
    if (named) party.lines.push_back(site->name);
    party.lines.push_back(site->address);
    party.lines.push_back(site->town);
    return party;
}

PaperParty jobParty(const Job& job) { return {"Job", {job.title, "No. " + job.number}}; }

std::string howToPay(const Settings& settings, const std::string& reference)
{
    std::string text = "Make checks out to " + outfitName(settings);
    if (!settings.outfitAddress.empty() || !settings.outfitTown.empty()) {
        text += " and mail them to " + settings.outfitAddress;
        if (!settings.outfitTown.empty()) text += (settings.outfitAddress.empty() ? "" : ", ") + settings.outfitTown;
    }
    text += ". Write " + reference + " on the payment, so that it is put down to the right account.";
    if (!settings.outfitPhone.empty()) text += " Questions, or another way to pay: call " + settings.outfitPhone + ".";
    return text;
}

std::optional<PaperFact> taxFact(const Customer& customer, Rate rate, Money tax)
{
    if (tax.isZero() && customer.taxExempt) return PaperFact{"Sales tax: exempt", tax.shown(), false};
    if (tax.isZero() && rate.isZero()) return std::nullopt;
    return PaperFact{"Sales tax, " + rate.text() + "% of taxable lines", tax.shown(), false};
}

PaperTable linesTable(const std::vector<PricedLine>& lines, const std::string& amountHeading)
{
    const bool counted = std::any_of(lines.begin(), lines.end(), [](const PricedLine& line) { return line.quantity.has_value(); });
    int quantityDecimals = 0, priceDecimals = 2;
    for (const auto& line : lines) {
        if (line.quantity) quantityDecimals = std::max(quantityDecimals, decimalsNeeded(*line.quantity, 0));
        if (line.unitPrice) priceDecimals = std::max(priceDecimals, decimalsNeeded(*line.unitPrice, 2));
    }
    PaperTable table;
    table.columns.push_back({"Description", PaperSide::left});
    if (counted) {
        table.columns.push_back({"Quantity", PaperSide::right});
        table.columns.push_back({"Unit", PaperSide::left});
        table.columns.push_back({"Unit price, $", PaperSide::right});
    }
    table.columns.push_back({amountHeading, PaperSide::right});
    for (const auto& line : lines) {
        PaperRow row{{line.description}, line.below, PaperRowManner::plain};
        if (counted) {
            row.cells.push_back(line.quantity ? line.quantity->shown(quantityDecimals) : std::string{});
            row.cells.push_back(line.unit);
            row.cells.push_back(line.unitPrice ? line.unitPrice->shown(priceDecimals) : std::string{});
        }
        row.cells.push_back(line.amount.shown());
        table.rows.push_back(std::move(row));
    }
    return table;
}

}

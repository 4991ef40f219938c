#include "paper/paper_parts.h"
#include "paper/papers.h"

#include "visits/run_sheet.h"

namespace strikeoff {

namespace {

void addLine(std::string& text, const std::string& line)
{
    if (line.empty()) return;
    if (!text.empty()) text += '\n';
    text += line;
}

}

PaperDocument runSheetPaper(const Settings& settings, const RunSheet& sheet)
{
    auto [paper, heading] = startPaper(settings, "Run sheet", sheet.day.text());
    heading.facts.push_back({"Day", sheet.day.shownShort() + ", " + std::to_string(sheet.day.year()), true});
    heading.state = "For the crew";
    heading.outfitLines.clear();
    if (!settings.outfitPhone.empty()) heading.outfitLines.push_back(settings.outfitPhone);
    heading.logo.clear();
    paper.add(std::move(heading));
    paper.add(PaperParagraph{sheet.answer, PaperText::body, true});

    if (!sheet.stops.empty()) {
        PaperTable stops;
        stops.columns = {{"", PaperSide::tick}, {"At", PaperSide::left}, {"What", PaperSide::left}, {"Where and whom to call", PaperSide::left}, {"Drive, min", PaperSide::right}, {"On site, min", PaperSide::right}};
        stops.belowFrom = 2;
        int number = 0;
        for (const auto& stop : sheet.stops) {
            std::string where;
            addLine(where, stop.address.empty() ? "No address is recorded" : stop.address);
            addLine(where, stop.contact);
            std::string below;
            addLine(below, stop.notes);
            addLine(below, stop.why);
            addLine(below, stop.notLater);
            stops.rows.push_back({{{}, stop.at ? stop.at->shown() : std::string{}, std::to_string(++number) + ". " + stop.what, where,
                                   stop.drive ? std::to_string(stop.drive->count()) : std::string{"?"}, stop.minutes ? std::to_string(stop.minutes->count()) : std::string{}}, below, PaperRowManner::plain});
        }
        if (sheet.driveBack) stops.rows.push_back({{{}, {}, "Back at the shop", {}, std::to_string(sheet.driveBack->count()), {}}, {}, PaperRowManner::plain});
        paper.add(PaperSection{"Stops"});
        paper.add(std::move(stops));
        for (const auto& missing : sheet.missingWays) paper.add(PaperParagraph{missing, PaperText::small, false});
    }
    if (!sheet.loadOut.items.empty()) {
        PaperTable load;
        load.columns = {{"", PaperSide::tick}, {"Load", PaperSide::left}, {"Amount", PaperSide::right}, {"Unit", PaperSide::left}, {"Why", PaperSide::left}};
        for (const auto& item : sheet.loadOut.items)
            load.rows.push_back({{{}, item.item, item.amount ? item.amount->shown(item.amount->units() % 1000 == 0 ? 0 : 1) : std::string{}, item.amount ? item.unit : std::string{}, item.why},
                                 {}, PaperRowManner::plain});
        paper.add(PaperSection{"To load the evening before"});
        paper.add(std::move(load));
    }
    bool headed = false;
    for (const auto& stop : sheet.stops) {
        if (stop.reminder.empty()) continue;
        if (!headed) paper.add(PaperSection{"To tell the customers"});
        headed = true;
        paper.add(PaperParagraph{stop.contact.empty() ? stop.reminder : stop.contact + ": " + stop.reminder.substr(0, stop.reminder.rfind('\n')), PaperText::small, false});
    }
    if (!sheet.cautions.empty()) paper.add(PaperSection{"Mind"});
    for (const auto& caution : sheet.cautions) paper.add(PaperParagraph{caution, PaperText::small, false});
    return std::move(paper);
}

}

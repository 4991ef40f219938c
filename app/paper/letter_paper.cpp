#include "paper/paper_parts.h"
#include "paper/papers.h"
#include "ready_mix/claims.h"

namespace strikeoff {

namespace {

std::vector<std::string> linesOf(const std::string& text)
{
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find('\n', at), text.size());
        if (end > at) lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

}

PaperDocument letterPaper(const Settings& settings, const SupplierLetter& letter)
{
    auto [paper, heading] = startPaper(settings, letter.subject, {});
    heading.title = "Letter";
    heading.facts.push_back({"Date", letter.date.shown(), true});
    paper.add(std::move(heading));
    paper.add(PaperParties{{PaperParty{"To", linesOf(letter.to)}}});
    paper.add(PaperParagraph{letter.subject, PaperText::body, true});
    paper.add(PaperParagraph{letter.greeting});
    for (const auto& paragraph : letter.opening) paper.add(PaperParagraph{paragraph});

    PaperTable table;
    table.columns = {{"Ticket", PaperSide::left}, {"Date", PaperSide::left}, {"What and why", PaperSide::left}, {"Billed, $", PaperSide::right},
                     {"Expected, $", PaperSide::right}, {"Difference, $", PaperSide::right}};
    for (const auto& line : letter.lines) {
        const auto what = line.why.empty() ? line.what : line.what + ": " + line.why;
        table.rows.push_back({{line.ticket, line.date ? line.date->shown() : std::string{}, what, line.billed.shown(), line.expected ? line.expected->shown() : std::string{"\u2013"}, line.difference.shown()},
                              {}, PaperRowManner::plain});
    }
    table.totals.push_back({"Please credit", dollars(letter.asked), true});
    table.size = PaperText::small;
    paper.add(std::move(table));
    for (const auto& paragraph : letter.closing) paper.add(PaperParagraph{paragraph});
    paper.add(PaperParagraph{letter.signature});
    return std::move(paper);
}

}

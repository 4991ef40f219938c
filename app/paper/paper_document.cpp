#include "paper/paper_document.h"

namespace strikeoff {

namespace {

class PlainText {
public:
    void operator()(const PaperHeading& heading)
    {
        line(heading.outfit);
        for (const auto& text : heading.outfitLines) line(text);
        line(heading.title);
        facts(heading.facts);
        line(heading.state);
    }
    void operator()(const PaperParties& block)
    {
        for (const auto& party : block.parties) {
            line(party.label);
            for (const auto& text : party.lines) line(text);
        }
    }
    void operator()(const PaperFigures& block) { facts(block.figures); }
    void operator()(const PaperSection& section) { line(section.text); }
    void operator()(const PaperParagraph& paragraph) { line(paragraph.text); }
    void operator()(const PaperTable& table)
    {
        std::vector<std::string> headings;
        for (const auto& column : table.columns) headings.push_back(column.heading);
        cells(headings);
        for (const auto& row : table.rows) {
            cells(row.cells);
            line(row.below);
        }
        facts(table.totals);
    }
    void operator()(const PaperPlan& plan)
    {
        for (const auto& shape : plan.shapes) {
            line(shape.name);
            for (const auto& dimension : shape.dimensions) line(dimension.text);
            for (const auto& caption : shape.captions) line(caption);
        }
    }
    void operator()(const PaperChart& chart) { line(chart.inWords); }
    void operator()(const PaperSignatures& signatures)
    {
        line(signatures.agreement);
        for (const auto& signer : signatures.signers) line(signer);
    }

    std::string all;

private:
    void line(const std::string& words)
    {
        if (!words.empty()) all += words + '\n';
    }
    void facts(const std::vector<PaperFact>& pairs)
    {
        for (const auto& fact : pairs) line(fact.label + "  " + fact.text);
    }
    void cells(const std::vector<std::string>& texts)
    {
        std::string row;
        for (const auto& cell : texts) row += (row.empty() ? "" : "  ") + cell;
        line(row);
    }
};

}

void PaperDocument::addSection(std::string heading, std::string text)
{
    if (text.empty()) return;
    add(PaperSection{std::move(heading)});
    add(PaperParagraph{std::move(text)});
}

std::string plainText(const PaperDocument& document)
{
    PlainText plain;
    for (const auto& block : document.blocks) std::visit(plain, block);
    plain(PaperParagraph{document.footer});
    return std::move(plain.all);
}

}

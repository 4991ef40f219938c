#include "paper/paper_flow.h"

#include <algorithm>

namespace strikeoff {

namespace {

QString joined(const std::vector<std::string>& lines)
{
    QString text;
    for (const auto& line : lines) {
        if (line.empty()) continue;
        if (!text.isEmpty()) text += u'\n';
        text += settable(line);
    }
    return text;
}

void addRule(Chunk& chunk, double left, double right, double y, double thickness) { chunk.items.push_back(PlacedLine{QLineF{left, y, right, y}, thickness, false}); }

}

void Composer::addLine(Chunk& chunk, PaperStyle style, const TextLine& line, double left, double top) const
{
    if (!line.text.isEmpty()) chunk.items.push_back(PlacedText{QPointF{left, top + fonts_.baseline(style)}, line.text, style, line.width, 0});
}

double Composer::setLines(Chunk& chunk, PaperStyle style, const QString& text, double left, double top, double width) const
{
    if (text.isEmpty()) return top;
    for (const auto& line : fonts_.wrap(style, text, width)) {
        addLine(chunk, style, line, left, top);
        top += fonts_.leading(style);
    }
    return top;
}

double Composer::setLinesRight(Chunk& chunk, PaperStyle style, const QString& text, double right, double top, double width) const
{
    if (text.isEmpty()) return top;
    for (const auto& line : fonts_.wrap(style, text, width)) {
        addLine(chunk, style, line, right - line.width, top);
        top += fonts_.leading(style);
    }
    return top;
}

double Composer::setFacts(Chunk& chunk, const std::vector<PaperFact>& facts, double left, double top) const
{
    // Labels end where the texts begin, so that the eye crosses no gap.
    const double room = width_ - left;
    double labels = 0;
    for (const auto& fact : facts) labels = std::max(labels, fonts_.width(PaperStyle::small, settable(fact.label)));
    labels = std::min(labels, room / 2);
    const double texts = room - labels - points(8);
    double widest = 0;
    for (const auto& fact : facts) widest = std::max(widest, fonts_.width(PaperStyle::bodyStrong, settable(fact.text)));
    const double begin = width_ - std::min(widest, texts);
    for (const auto& fact : facts) {
        const auto style = fact.strong ? PaperStyle::bodyStrong : PaperStyle::body;
        const double lower = fonts_.baseline(style) - fonts_.baseline(PaperStyle::small);
        const double first = setLinesRight(chunk, PaperStyle::small, settable(fact.label), begin - points(8), top + lower, labels);
        const double second = setLines(chunk, style, settable(fact.text), begin, top, texts);
        top = std::max(first, second);
    }
    return top;
}

void Composer::operator()(const PaperChart& chart)
{
    Chunk chunk;
    chunk.before = points(6);
    chunk.height = std::min(chart.height(paperChartStyle()) * dotsPerPixel, setting_.chartHeight);
    chunk.items.push_back(PlacedChart{QRectF{0, 0, width_, chunk.height}, std::make_shared<const PaperChart>(chart)});
    chunks_.push_back(std::move(chunk));
}

void Composer::operator()(const PaperHeading& heading)
{
    Chunk chunk;
    const double rightBegin = width_ * 0.56;
    const double leftRoom = rightBegin - points(18);

    double left = 0;
    if (const auto picture = readPicture(heading.logo)) {
        const double scale = std::min(points(160) / picture->size.width(), points(54) / picture->size.height());
        const auto size = picture->size * scale;
        chunk.items.push_back(PlacedPicture{QRectF{QPointF{0, 0}, size}, picture});
        left = size.height() + points(6);
    }
    left = setLines(chunk, PaperStyle::titleStrong, settable(heading.outfit), 0, left, leftRoom);
    if (left > 0 && !heading.outfitLines.empty()) left += points(1);
    left = setLines(chunk, PaperStyle::small, joined(heading.outfitLines), 0, left, leftRoom);

    double right = setLinesRight(chunk, PaperStyle::title, settable(heading.title), width_, 0, width_ - rightBegin);
    right = setFacts(chunk, heading.facts, rightBegin, right + points(3));
    if (!heading.state.empty()) {
        const auto lines = fonts_.wrap(PaperStyle::smallStrong, settable(heading.state), width_ - rightBegin - points(14));
        double widest = 0;
        for (const auto& line : lines) widest = std::max(widest, line.width);
        const double top = right + points(6);
        const double boxLeft = width_ - widest - points(14);
        const double height = fonts_.leading(PaperStyle::smallStrong) * static_cast<double>(lines.size()) + points(6);
        chunk.items.push_back(PlacedShape{QPolygonF{QRectF{boxLeft, top, widest + points(14), height}}, rule, false});
        setLines(chunk, PaperStyle::smallStrong, settable(heading.state), boxLeft + points(7), top + points(3), widest + points(0.5));
        right = top + height;
    }

    const double foot = std::max(left, right) + points(8);
    addRule(chunk, 0, width_, foot, heavyRule);
    chunk.height = foot + heavyRule;
    chunks_.push_back(std::move(chunk));
}

void Composer::operator()(const PaperParties& block)
{
    if (block.parties.empty()) return;
    Chunk chunk;
    chunk.before = points(12);
    const auto count = static_cast<double>(block.parties.size());
    const double each = (width_ - points(18) * (count - 1)) / count;
    double left = 0;
    for (const auto& party : block.parties) {
        double y = setLines(chunk, PaperStyle::smallStrong, settable(party.label), left, 0, each);
        y = setLines(chunk, PaperStyle::body, joined(party.lines), left, y + points(1), each);
        chunk.height = std::max(chunk.height, y);
        left += each + points(18);
    }
    chunks_.push_back(std::move(chunk));
}

void Composer::operator()(const PaperFigures& block)
{
    if (block.figures.empty()) return;
    Chunk chunk;
    chunk.before = points(14);
    const double each = width_ / static_cast<double>(block.figures.size());
    const double inset = points(8);
    double left = 0;
    for (const auto& figure : block.figures) {
        const auto style = figure.strong ? PaperStyle::titleStrong : PaperStyle::title;
        double y = setLines(chunk, PaperStyle::small, settable(figure.label), left + inset, points(5), each - 2 * inset);
        y = setLines(chunk, style, settable(figure.text), left + inset, y, each - 2 * inset);
        chunk.height = std::max(chunk.height, y + points(5));
        left += each;
    }
    chunk.items.push_back(PlacedShape{QPolygonF{QRectF{0, 0, width_, chunk.height}}, rule, false});
    for (std::size_t i = 1; i < block.figures.size(); ++i) {
        const double x = each * static_cast<double>(i);
        chunk.items.push_back(PlacedLine{QLineF{x, 0, x, chunk.height}, hairline, false});
    }
    chunks_.push_back(std::move(chunk));
}

void Composer::addText(PaperStyle style, const QString& text, double before)
{
    if (text.isEmpty()) return;
    const auto lines = fonts_.wrap(style, text, width_);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        Chunk chunk;
        chunk.before = i == 0 ? before : 0;
        chunk.height = fonts_.leading(style);
        // No first or last line of a paragraph alone on a page.
        chunk.keepWithNext = i + 1 < lines.size() && (i == 0 || i + 2 == lines.size());
        addLine(chunk, style, lines[i], 0, 0);
        chunks_.push_back(std::move(chunk));
    }
}

void Composer::operator()(const PaperSection& section)
{
    const auto first = chunks_.size();
    addText(PaperStyle::bodyStrong, settable(section.text), points(14));
    for (auto i = first; i < chunks_.size(); ++i) chunks_[i].keepWithNext = true;
}

void Composer::operator()(const PaperParagraph& paragraph)
{
    const bool small = paragraph.size == PaperText::small;
    const auto style = paragraph.strong ? (small ? PaperStyle::smallStrong : PaperStyle::bodyStrong) : (small ? PaperStyle::small : PaperStyle::body);
    const bool underSection = !chunks_.empty() && chunks_.back().keepWithNext;
    addText(style, settable(paragraph.text), underSection ? points(2) : points(small ? 5 : 6));
}

void Composer::operator()(const PaperSignatures& block)
{
    if (block.signers.empty()) return;
    const auto first = chunks_.size();
    const bool underSection = !chunks_.empty() && chunks_.back().keepWithNext;
    addText(PaperStyle::body, settable(block.agreement), underSection ? points(2) : points(12));
    for (const auto& signer : block.signers) {
        Chunk chunk;
        chunk.before = points(10);
        const double top = setLines(chunk, PaperStyle::smallStrong, settable(signer), 0, 0, width_);
        const double line = top + points(26);
        const double gap = points(14);
        const double widths[] = {width_ * 0.42, width_ * 0.36, width_ * 0.22 - 2 * gap};
        const QString labels[] = {QStringLiteral("Signature"), QStringLiteral("Printed name"), QStringLiteral("Date")};
        double left = 0;
        for (std::size_t i = 0; i < 3; ++i) {
            addRule(chunk, left, left + widths[i], line, hairline);
            setLines(chunk, PaperStyle::small, labels[i], left, line + points(1), widths[i]);
            left += widths[i] + gap;
        }
        chunk.height = line + points(1) + fonts_.leading(PaperStyle::small);
        chunks_.push_back(std::move(chunk));
    }
    // A signature belongs to the words it stands under.
    for (auto i = first; i + 1 < chunks_.size(); ++i) chunks_[i].keepWithNext = true;
}

}

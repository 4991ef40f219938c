#include "facing_papers.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

constexpr double inset = 8;
constexpr double gap = 4;
constexpr double foot = 8;

/// The three lanes of a block.
struct Lanes {
    QRectF left, gutter, right;
};

Lanes lanesOf(const QRectF& area)
{
    const double paper = std::floor(area.width() * 0.31);
    return {QRectF{area.left(), area.top(), paper, area.height()}, QRectF{area.left() + paper, area.top(), area.width() - 2 * paper, area.height()},
            QRectF{area.right() - paper, area.top(), paper, area.height()}};
}

double wrappedHeight(const QFont& font, const QString& text, double width)
{
    if (text.isEmpty()) return 0;
    return QFontMetricsF{font}.boundingRect(QRectF{0, 0, std::max(width, 40.0), 10'000}, Qt::TextWordWrap, text).height();
}

QFont strong(QFont font)
{
    font.setBold(true);
    return font;
}

QColor colorOf(FacingState state, const Palette& palette)
{
    switch (state) {
    case FacingState::open: return palette.attention;
    case FacingState::wrong: return palette.wrong;
    case FacingState::done: return palette.well;
    case FacingState::agrees: break;
    }
    return palette.quiet;
}

void drawFacts(QPainter& painter, const QRectF& lane, const QString& title, const QString& facts, double height, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const auto titleFont = strong(style.body);
    const QFontMetricsF body{titleFont};
    const double width = lane.width() - 2 * inset;
    painter.setFont(titleFont);
    painter.setPen(palette.ink);
    painter.drawText(QRectF{lane.left() + inset, lane.top() + gap, width, body.height()}, Qt::AlignLeft | Qt::AlignTop, body.elidedText(title, Qt::ElideRight, width));
    painter.setFont(style.small);
    painter.setPen(palette.quiet);
    painter.drawText(QRectF{lane.left() + inset, lane.top() + gap + body.height(), width, height - body.height() - gap}, Qt::TextWordWrap | Qt::AlignLeft | Qt::AlignTop, facts);
}

void drawLine(QPainter& painter, const QRectF& row, const QString& words, const QString& detail, const QString& figure, const ChartStyle& style, bool quiet)
{
    const QFontMetricsF body{style.body};
    const double figures = std::max(body.horizontalAdvance(QStringLiteral("12,345.00")), body.horizontalAdvance(figure));
    const double top = row.top() + gap;
    painter.setFont(style.body);
    painter.setPen(quiet ? style.palette->quiet : style.palette->ink);
    const double wordsWidth = row.width() - 3 * inset - figures;
    painter.drawText(QRectF{row.left() + inset, top, wordsWidth, body.height()}, Qt::AlignLeft | Qt::AlignTop, body.elidedText(words, Qt::ElideRight, wordsWidth));
    painter.drawText(QRectF{row.right() - inset - figures, top, figures, body.height()}, Qt::AlignRight | Qt::AlignTop, figure);
    if (detail.isEmpty()) return;
    const QFontMetricsF small{style.small};
    const double used = body.horizontalAdvance(words) + 2 * inset;
    painter.setFont(style.small);
    painter.setPen(style.palette->quiet);
    if (used + small.horizontalAdvance(detail) <= wordsWidth)
        painter.drawText(QRectF{row.left() + inset, top, wordsWidth, body.height()}, Qt::AlignRight | Qt::AlignVCenter, detail);
    else if (row.height() >= body.height() + small.height() + 2 * gap)
        painter.drawText(QRectF{row.left() + inset, top + body.height(), row.width() - 2 * inset, small.height()}, Qt::AlignLeft | Qt::AlignTop, small.elidedText(detail, Qt::ElideRight, row.width() - 2 * inset));
}

}

FacingLayout layOutFacing(const FacingBlock& block, double width, const ChartStyle& style)
{
    const auto lanes = lanesOf({0, 0, width, 0});
    const QFontMetricsF body{style.body};
    const double paper = lanes.left.width() - 2 * inset;
    FacingLayout layout;
    layout.head = gap + QFontMetricsF{strong(style.body)}.height()
                  + std::max(wrappedHeight(style.small, block.leftFacts, paper), wrappedHeight(style.small, block.rightFacts, paper)) + gap;
    double y = layout.head;
    for (const auto& row : block.rows) {
        double height = body.height() + 2 * gap;
        if (!row.why.isEmpty()) height = std::max(height, body.height() + wrappedHeight(style.small, row.why, lanes.gutter.width() - 2 * inset) + 4 * gap);
        layout.rowTops.push_back(y);
        layout.rowHeights.push_back(height);
        y += height;
    }
    layout.height = y + foot;
    return layout;
}

void paintFacing(QPainter& painter, const QRectF& area, const FacingBlock& block, const FacingLayout& layout, double largest, int current, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const auto lanes = lanesOf(area);
    const double paperHeight = layout.height - foot / 2;
    painter.setPen(QPen{palette.line, 1});
    painter.setBrush(palette.sheet);
    for (const auto& lane : {lanes.left, lanes.right})
        painter.drawRect(QRectF{lane.left() + 0.5, lane.top() + 0.5, lane.width() - 1, paperHeight - 1});
    painter.setBrush(Qt::NoBrush);
    drawFacts(painter, lanes.left, block.leftTitle, block.leftFacts, layout.head, style);
    drawFacts(painter, lanes.right, block.rightTitle, block.rightFacts, layout.head, style);

    const QFontMetricsF body{style.body};
    for (std::size_t i = 0; i < block.rows.size(); ++i) {
        const auto& row = block.rows[i];
        const double top = area.top() + layout.rowTops[i];
        const double height = layout.rowHeights[i];
        const QRectF left{lanes.left.left(), top, lanes.left.width(), height};
        const QRectF gutter{lanes.gutter.left(), top, lanes.gutter.width(), height};
        const QRectF right{lanes.right.left(), top, lanes.right.width(), height};
        if (static_cast<int>(i) == current) {
            auto ground = palette.accent;
            ground.setAlphaF(0.14F);
            painter.fillRect(QRectF{left.left() + 1, top, area.width() - 2, height}, ground);
            painter.fillRect(QRectF{left.left() + 1, top, 3, height}, palette.accent);
        }
        painter.setPen(QPen{palette.line, 1});
        painter.drawLine(QPointF{left.left() + 1, top}, QPointF{left.right() - 2, top});
        painter.drawLine(QPointF{right.left() + 1, top}, QPointF{right.right() - 2, top});
        const bool quiet = row.state == FacingState::agrees;
        drawLine(painter, left, row.leftWords, {}, row.leftFigure, style, quiet || row.leftFigure.isEmpty());
        drawLine(painter, right, row.rightWords, row.rightDetail, row.rightFigure, style, quiet);

        const auto color = colorOf(row.state, palette);
        const double width = gutter.width() - 2 * inset;
        QFont word = quiet ? style.small : strong(style.body);
        painter.setFont(word);
        painter.setPen(color);
        const QFontMetricsF metrics{word};
        const double figures = row.figure.isEmpty() ? 0 : metrics.horizontalAdvance(row.figure);
        painter.drawText(QRectF{gutter.left() + inset, top + gap, width - figures - inset, body.height()}, Qt::AlignLeft | Qt::AlignTop,
                         metrics.elidedText(row.finding, Qt::ElideRight, width - figures - inset));
        if (!row.figure.isEmpty()) painter.drawText(QRectF{gutter.right() - inset - figures, top + gap, figures, body.height()}, Qt::AlignRight | Qt::AlignTop, row.figure);
        if (row.difference != 0 && largest > 0 && !quiet) {
            // From the paper that says more towards the other: too much billed comes from the right.
            const double length = std::max(2.0, std::min(1.0, std::abs(row.difference) / largest) * width);
            const double x = row.difference > 0 ? gutter.right() - inset - length : gutter.left() + inset;
            painter.fillRect(QRectF{x, top + gap + body.height() + 1, length, 4}, color);
        }
        if (!row.why.isEmpty()) {
            painter.setFont(style.small);
            painter.setPen(palette.ink);
            painter.drawText(QRectF{gutter.left() + inset, top + 2 * gap + body.height() + 3, width, height - body.height() - 2 * gap}, Qt::TextWordWrap | Qt::AlignLeft | Qt::AlignTop, row.why);
        }
    }
}

}

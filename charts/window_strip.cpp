#include "window_strip.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

QString words(const char* text) { return QCoreApplication::translate("WindowStrip", text); }

struct Frame {
    QRectF area;
    double names = 0;
    double day = 1;
    double head = 0;
    double row = 0;
    double line = 0;

    double x(double days) const { return area.left() + names + day * days; }
    QRectF rowRect(std::size_t index) const { return {area.left(), area.top() + head + row * static_cast<double>(index), area.width(), row}; }
};

Frame frameOf(const QRectF& area, const WindowStrip& strip, const ChartStyle& style)
{
    Frame frame;
    frame.area = area;
    frame.names = std::clamp(area.width() * 0.26, 150.0, 320.0);
    frame.day = (area.width() - frame.names) / static_cast<double>(std::max<std::size_t>(strip.days.size(), 1));
    frame.head = headOfStrip(style);
    frame.row = rowOfStrip(style);
    frame.line = QFontMetricsF{style.small}.height();
    return frame;
}

QColor faint(QColor color, float alpha)
{
    color.setAlphaF(alpha);
    return color;
}

void paintHead(QPainter& painter, const Frame& frame, const WindowStrip& strip, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    painter.setFont(style.small);
    const char* const captions[] = {"", "", "High, \u00b0F", "Low, \u00b0F", "Rain, %", "Sealer can go on", "Crew can be out, h"};
    painter.setPen(palette.quiet);
    for (int line = 2; line < 7; ++line)
        painter.drawText(QRectF{frame.area.left(), frame.area.top() + frame.line * line, frame.names - 8, frame.line}, Qt::AlignLeft | Qt::AlignVCenter, words(captions[line]));
    for (std::size_t index = 0; index < strip.days.size(); ++index) {
        const auto& day = strip.days[index];
        const double left = frame.x(static_cast<double>(index));
        const QRectF column{left, frame.area.top(), frame.day, frame.area.height()};
        if (strip.dropDay == static_cast<int>(index)) painter.fillRect(column, faint(palette.accent, 0.22F));
        else if (strip.chosenDay == static_cast<int>(index)) painter.fillRect(column, faint(palette.accent, 0.10F));
        if (day.air.isEmpty()) painter.fillRect(QRectF{left, frame.area.top() + 2 * frame.line, frame.day, frame.head - 2 * frame.line - 4}, QBrush{palette.line, Qt::BDiagPattern});
        painter.setPen(QPen{palette.line, 1});
        painter.drawLine(QPointF{std::round(left) + 0.5, column.top()}, QPointF{std::round(left) + 0.5, column.bottom()});
        const auto put = [&](int line, const QString& text, const QColor& color) {
            painter.setPen(color);
            painter.drawText(QRectF{left + 1, frame.area.top() + frame.line * line, frame.day - 2, frame.line}, Qt::AlignHCenter | Qt::AlignVCenter,
                             small.elidedText(text, Qt::ElideRight, frame.day - 2));
        };
        const auto weekday = day.name.section(u' ', 0, 0);
        put(0, small.horizontalAdvance(weekday) <= frame.day - 2 ? weekday : weekday.left(2), palette.ink);
        put(1, day.name.section(u' ', 1), palette.ink);
        const auto unknown = small.horizontalAdvance(words("unknown")) <= frame.day - 2 ? words("unknown") : QStringLiteral("?");
        put(2, day.air.isEmpty() ? unknown : day.air.section(u'\u2013', 1), day.isDoubtful ? palette.attention : palette.quiet);
        put(3, day.air.section(u'\u2013', 0, 0), day.isDoubtful ? palette.attention : palette.quiet);
        put(4, day.rain, day.isDoubtful ? palette.attention : palette.quiet);
        const auto band = [&](int line, const std::vector<DayStretch>& stretches, const QColor& color) {
            for (const auto& [from, to] : stretches)
                painter.fillRect(QRectF{frame.x(from), frame.area.top() + frame.line * line + frame.line * 0.3, std::max(2.0, frame.day * (to - from)), frame.line * 0.4}, color);
        };
        band(5, day.gates, palette.well);
        put(6, day.crew, palette.ink);
    }
    painter.setPen(QPen{palette.line, 1});
    const double foot = std::round(frame.area.top() + frame.head - 3) + 0.5;
    painter.drawLine(QPointF{frame.area.left(), foot}, QPointF{frame.area.right(), foot});
}

QPointF middleOf(const Frame& frame, std::size_t row, int day) { return {frame.x(day + 0.5), frame.rowRect(row).center().y()}; }

void paintRow(QPainter& painter, const Frame& frame, std::size_t index, const StripRow& row, bool isChosen, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    const auto rect = frame.rowRect(index);
    const auto tone = row.tone == StripTone::late ? palette.wrong : row.tone == StripTone::pressing ? palette.attention : palette.accent;
    if (isChosen) painter.fillRect(rect, faint(palette.accent, 0.12F));
    painter.setFont(style.small);
    painter.setPen(palette.ink);
    painter.drawText(QRectF{rect.left() + 4, rect.top(), frame.names - 12, rect.height()}, Qt::AlignLeft | Qt::AlignVCenter, small.elidedText(row.name, Qt::ElideRight, frame.names - 12));

    painter.save();
    painter.setClipRect(QRectF{frame.x(0), rect.top(), rect.right() - frame.x(0) + 1, rect.height()});
    const double top = rect.top() + 4, height = rect.height() - 8;
    if (row.window.second > row.window.first) {
        const QRectF bar{frame.x(row.window.first) + 1, top, std::max(3.0, frame.day * (row.window.second - row.window.first) - 2), height};
        painter.setBrush(faint(tone, 0.12F));
        painter.setPen(QPen{tone, 1, row.estimated ? Qt::DashLine : Qt::SolidLine});
        painter.drawRoundedRect(bar, 3, 3);
    }
    const auto stretches = [&](const std::vector<DayStretch>& parts, const QBrush& brush) {
        for (const auto& [from, to] : parts) painter.fillRect(QRectF{frame.x(from), top + 3, std::max(1.5, frame.day * (to - from)), height - 6}, brush);
    };
    stretches(row.open, faint(tone, 0.38F));
    stretches(row.unknown, QBrush{tone, Qt::BDiagPattern});
    if (row.due) {
        painter.setPen(QPen{tone, 2});
        painter.drawLine(QPointF{frame.x(*row.due), top - 2}, QPointF{frame.x(*row.due), top + height + 2});
    }
    painter.restore();

    if (!row.lateWords.isEmpty()) {
        const double width = small.horizontalAdvance(row.lateWords) + 8;
        QRectF words{frame.x(0) + 2, rect.top() + 2, width, rect.height() - 4};
        // Beside the stop where it stands in the way.
        if (const double radius = rect.height() / 2 - 1; row.day && middleOf(frame, index, *row.day).x() - radius < words.right()) words.moveLeft(middleOf(frame, index, *row.day).x() + radius);
        painter.fillRect(words, palette.sheet);
        painter.setPen(palette.wrong);
        painter.drawText(words, Qt::AlignCenter, row.lateWords);
    }
    if (row.day) {
        const auto middle = middleOf(frame, index, *row.day);
        const double radius = rect.height() / 2 - 3;
        painter.setBrush(row.againstHours ? palette.sheet : tone);
        painter.setPen(QPen{row.againstHours ? palette.wrong : tone, row.againstHours ? 2.0 : 1.0});
        if (row.pinned) painter.drawRect(QRectF{middle.x() - radius, middle.y() - radius, 2 * radius, 2 * radius});
        else painter.drawEllipse(middle, radius, radius);
        painter.setPen(row.againstHours ? palette.wrong : palette.sheet);
        painter.drawText(QRectF{middle.x() - radius, middle.y() - radius, 2 * radius, 2 * radius}, Qt::AlignCenter, row.stop);
    }
}

}

double headOfStrip(const ChartStyle& style) { return 7 * QFontMetricsF{style.small}.height() + 8; }
double rowOfStrip(const ChartStyle& style) { return std::max(22.0, QFontMetricsF{style.small}.height() + 8); }

StripPlace stripPlaceAt(const QPointF& point, const QRectF& area, const WindowStrip& strip, const ChartStyle& style)
{
    const auto frame = frameOf(area, strip, style);
    StripPlace place;
    if (!area.contains(point)) return place;
    if (const double days = (point.x() - frame.x(0)) / frame.day; days >= 0 && days < static_cast<double>(strip.days.size())) place.day = static_cast<int>(days);
    if (const double rows = (point.y() - area.top() - frame.head) / frame.row; rows >= 0 && rows < static_cast<double>(strip.rows.size())) place.row = static_cast<std::size_t>(rows);
    return place;
}

QRectF stopOfStrip(std::size_t row, const QRectF& area, const WindowStrip& strip, const ChartStyle& style)
{
    if (row >= strip.rows.size() || !strip.rows[row].day) return {};
    const auto frame = frameOf(area, strip, style);
    const double radius = frame.row / 2 - 3;
    const auto middle = middleOf(frame, row, *strip.rows[row].day);
    return {middle.x() - radius, middle.y() - radius, 2 * radius, 2 * radius};
}

void paintWindowStrip(QPainter& painter, const QRectF& area, const WindowStrip& strip, const ChartStyle& style)
{
    const auto frame = frameOf(area, strip, style);
    paintHead(painter, frame, strip, style);
    for (std::size_t index = 0; index < strip.rows.size(); ++index) paintRow(painter, frame, index, strip.rows[index], strip.chosen == index, style);
    if (strip.rows.empty()) {
        painter.setFont(style.small);
        painter.setPen(style.palette->quiet);
        painter.drawText(QRectF{area.left() + 4, area.top() + frame.head, area.width(), frame.row}, Qt::AlignLeft | Qt::AlignVCenter, words("No visit is open."));
    }
}

}

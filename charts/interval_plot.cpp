#include "interval_plot.h"

#include "marks.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <QTextLayout>

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

constexpr double gap = 12;

QString words(const char* text) { return QCoreApplication::translate("IntervalPlot", text); }

QString countOf(const IntervalPlot& plot, const IntervalRow& row)
{
    return QStringLiteral("%1 %2").arg(tickText(row.count, 1), row.count == 1 ? plot.countedOne : plot.counted);
}

std::vector<KeyEntry> keyOf(const IntervalPlot& plot)
{
    using enum KeyEntry::Look;
    std::vector<KeyEntry> key;
    const auto any = [&](auto member) { return std::ranges::any_of(plot.rows, [&](const auto& row) { return (row.*member).has_value(); }); };
    if (any(&IntervalRow::estimate)) key.push_back({mark, plot.estimated, 1});
    if (any(&IntervalRow::low)) key.push_back({band, plot.interval, 1});
    if (any(&IntervalRow::raw)) key.push_back({hollowMark, plot.raw, 0});
    if (std::ranges::any_of(plot.rows, [](const auto& row) { return row.estimate && row.count < fewRecords; })) key.push_back({hollowMark, words("rests on one or two"), 1});
    return key;
}

/// Lines of a note at a width, two at most; the second is cut where it does not end.
QStringList noteLines(const QString& note, double width, const QFont& font)
{
    QStringList lines;
    const QFontMetricsF metrics{font};
    QTextLayout layout{note, font};
    layout.beginLayout();
    for (auto line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(width);
        if (lines.size() == 1) {
            lines << metrics.elidedText(note.mid(line.textStart()), Qt::ElideRight, width);
            break;
        }
        lines << note.mid(line.textStart(), line.textLength()).trimmed();
    }
    layout.endLayout();
    return lines;
}

/// Where everything stands.
struct Frame {
    double nameWidth = 0, figureWidth = 0, noteWidth = 0;
    bool notesBeside = false;
    double rowHeight = 0;
    double top = 0;     ///< key and names of references above the rows
    QRectF plot;        ///< the rows
    Scale scale;
};

Frame frameOf(const QRectF& area, const IntervalPlot& plot, const ChartStyle& style)
{
    const QFontMetricsF body{style.body}, small{style.small};
    Frame frame;
    bool notes = false;
    for (const auto& row : plot.rows) {
        frame.nameWidth = std::max({frame.nameWidth, body.horizontalAdvance(row.name), small.horizontalAdvance(countOf(plot, row))});
        frame.figureWidth = std::max(frame.figureWidth, body.horizontalAdvance(row.figure));
        notes = notes || !row.note.isEmpty();
    }
    frame.nameWidth = std::min(frame.nameWidth + 2, area.width() * 0.28);
    frame.notesBeside = notes && area.width() > 980;
    frame.noteWidth = frame.notesBeside ? area.width() * 0.34 : 0;
    frame.rowHeight = body.height() + small.height() + 10;
    if (notes && !frame.notesBeside) {
        qsizetype lines = 1;
        for (const auto& row : plot.rows) lines = std::max(lines, noteLines(row.note, area.width(), style.small).size());
        frame.rowHeight += static_cast<double>(lines) * small.height() + 2;
    }
    frame.top = small.height() + 8 + (plot.references.empty() ? 0 : small.height() + 4);
    const double right = (frame.figureWidth > 0 ? frame.figureWidth + gap : 0) + (frame.notesBeside ? frame.noteWidth + gap : 0) + 8;
    frame.plot = {area.left() + frame.nameWidth + gap, area.top() + frame.top, std::max(60.0, area.width() - frame.nameWidth - gap - right),
                  static_cast<double>(plot.rows.size()) * frame.rowHeight};
    const auto [low, high] = rangeOf(plot);
    const double air = (high - low) * 0.03;
    frame.scale = scaleOver(low - (low < 0 ? air : 0), high + (high > 0 ? air : 0), frame.plot.left(), frame.plot.right(), 80);
    return frame;
}

/// The line on which a row's marks stand: the middle of its name and count.
double lineOf(const Frame& frame, std::size_t row, const ChartStyle& style)
{
    const double text = QFontMetricsF{style.body}.height() + QFontMetricsF{style.small}.height() + 10;
    return std::floor(frame.plot.top() + static_cast<double>(row) * frame.rowHeight + text / 2);
}

void paintReferences(QPainter& painter, const QRectF& area, const IntervalPlot& plot, const Frame& frame, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    const double nameTop = frame.plot.top() - small.height() - 4;
    double taken = area.left();
    auto lines = plot.references;
    std::ranges::sort(lines, {}, &ReferenceLine::at);
    for (const auto& line : lines) {
        if (!frame.scale.holds(line.at)) continue;
        const double x = frame.scale.at(line.at);
        painter.setPen(QPen{palette.ink, 1.2, Qt::DashLine});
        painter.drawLine(QPointF{x, frame.plot.top() - 3}, QPointF{x, frame.plot.bottom()});
        const double width = small.horizontalAdvance(line.name);
        const double left = std::max(taken, std::min(x - width / 2, frame.plot.right() + 8 - width));
        if (left + width > area.right()) continue;
        painter.setPen(palette.ink);
        painter.drawText(QRectF{left, nameTop, width + 2, small.height()}, Qt::AlignLeft | Qt::AlignTop, line.name);
        taken = left + width + 12;
    }
}

/// An interval as a bar with ends, arrows where it leaves the axis; dashed where it rests on few.
void paintInterval(QPainter& painter, const IntervalRow& row, double y, const Frame& frame, const QColor& color)
{
    const double from = std::clamp(frame.scale.at(*row.low), frame.plot.left(), frame.plot.right());
    const double to = std::clamp(frame.scale.at(*row.high), frame.plot.left(), frame.plot.right());
    auto shade = color;
    shade.setAlphaF(0.28F);
    const bool few = row.count < fewRecords;
    if (!few) painter.fillRect(QRectF{from, y - 4, to - from, 8}, shade);
    painter.setPen(QPen{color, 2, few ? Qt::DashLine : Qt::SolidLine});
    painter.drawLine(QPointF{from, y}, QPointF{to, y});
    painter.setPen(QPen{color, 1.5});
    const auto end = [&](double x, bool inside, double inward) {
        if (inside) painter.drawLine(QPointF{x, y - 5}, QPointF{x, y + 5});
        else {
            painter.drawLine(QPointF{x, y}, QPointF{x + inward, y - 5});
            painter.drawLine(QPointF{x, y}, QPointF{x + inward, y + 5});
        }
    };
    end(from, frame.scale.holds(*row.low), 6);
    end(to, frame.scale.holds(*row.high), -6);
}

QRectF placeOf(const QRectF& area, const Frame& frame, std::size_t row)
{
    return {area.left(), frame.plot.top() + static_cast<double>(row) * frame.rowHeight, area.width(), frame.rowHeight};
}

QString tipOf(const IntervalPlot& plot, const IntervalRow& row)
{
    QStringList lines{row.name, countOf(plot, row)};
    const double step = plot.decimals == 0 ? 1 : plot.decimals == 1 ? 0.1 : 0.01;
    const auto figure = [&](double value) { return tickText(value, step); };
    if (row.estimate) lines << QStringLiteral("%1: %2").arg(plot.estimated, figure(*row.estimate));
    if (row.low && row.high) lines << words("%1: %2 to %3").arg(plot.interval, figure(*row.low), figure(*row.high));
    if (row.raw) lines << QStringLiteral("%1: %2").arg(plot.raw, figure(*row.raw));
    lines << plot.axis;
    if (!row.note.isEmpty()) lines << row.note;
    return lines.join(u'\n');
}

NumberTable numbersOf(const IntervalPlot& plot)
{
    NumberTable table{{{plot.name, true}, {plot.counted}, {plot.raw}, {plot.estimated}, {words("low")}, {words("high")}}, {}};
    const auto cell = [&](const std::optional<double>& value) { return plainNumber(value, plot.decimals); };
    for (const auto& row : plot.rows) table.rows.push_back({row.name, QString::number(row.count), cell(row.raw), cell(row.estimate), cell(row.low), cell(row.high)});
    for (const auto& line : plot.references) table.rows.push_back({line.name, {}, {}, cell(line.at), {}, {}});
    return table;
}

}

std::pair<double, double> rangeOf(const IntervalPlot& plot)
{
    double low = 0, high = 0;
    const auto take = [&](const std::optional<double>& value) {
        if (!value || !std::isfinite(*value)) return;
        low = std::min(low, *value);
        high = std::max(high, *value);
    };
    for (const auto& row : plot.rows) take(row.estimate);
    for (const auto& line : plot.references) take(line.at);
    if (high - low <= 0)  // nothing but zeros: then what is around them
        for (const auto& row : plot.rows) {
            take(row.low);
            take(row.high);
            take(row.raw);
        }
    if (high - low <= 0) return {-1, 1};
    // One row that knows next to nothing must not press the others into a corner.
    const double span = high - low, least = low - 0.75 * span, most = high + 0.75 * span;
    for (const auto& row : plot.rows)
        for (const auto& value : {row.low, row.high, row.raw})
            if (value) take(std::clamp(*value, least, most));
    return {low, high};
}

double heightOfIntervals(const IntervalPlot& plot, double width, const ChartStyle& style)
{
    const auto frame = frameOf({0, 0, width, 100}, plot, style);
    return frame.top + static_cast<double>(plot.rows.size()) * frame.rowHeight + heightOfAcross(style);
}

void paintIntervals(QPainter& painter, const QRectF& area, const IntervalPlot& plot, const ChartStyle& style)
{
    if (plot.rows.empty()) return;
    const auto& palette = *style.palette;
    const QFontMetricsF body{style.body}, small{style.small};
    const auto frame = frameOf(area, plot, style);
    painter.setRenderHint(QPainter::Antialiasing);
    paintKey(painter, {area.left(), area.top(), area.width(), small.height()}, keyOf(plot), style);
    paintAcross(painter, frame.plot, frame.scale, plot.axis, style);
    painter.setPen(QPen{palette.ink, 1.2});
    painter.drawLine(QPointF{frame.scale.at(0), frame.plot.top()}, QPointF{frame.scale.at(0), frame.plot.bottom()});
    paintReferences(painter, area, plot, frame, style);

    const auto color = seriesColor(palette, 1), ring = seriesColor(palette, 0);
    for (std::size_t i = 0; i < plot.rows.size(); ++i) {
        const auto& row = plot.rows[i];
        const auto place = placeOf(area, frame, i);
        const double y = lineOf(frame, i, style);
        if (i > 0) {
            painter.setPen(QPen{palette.line, 1});
            painter.drawLine(place.topLeft(), place.topRight());
        }
        const double textTop = place.top() + 5;
        painter.setFont(style.body);
        painter.setPen(palette.ink);
        painter.drawText(QRectF{area.left(), textTop, frame.nameWidth, body.height()}, Qt::AlignLeft | Qt::AlignTop, body.elidedText(row.name, Qt::ElideRight, frame.nameWidth));
        if (!row.figure.isEmpty()) painter.drawText(QRectF{frame.plot.right() + gap, y - body.height() / 2, frame.figureWidth + 2, body.height()}, Qt::AlignRight | Qt::AlignVCenter, row.figure);
        painter.setFont(style.small);
        painter.setPen(palette.quiet);
        painter.drawText(QRectF{area.left(), textTop + body.height(), frame.nameWidth, small.height()}, Qt::AlignLeft | Qt::AlignTop, countOf(plot, row));
        if (!row.note.isEmpty()) {
            const double left = frame.notesBeside ? area.right() - frame.noteWidth : area.left();
            const double width = frame.notesBeside ? frame.noteWidth : area.width();
            const auto lines = noteLines(row.note, width, style.small);
            double top = frame.notesBeside ? y - static_cast<double>(lines.size()) * small.height() / 2 : textTop + body.height() + small.height() + 2;
            for (const auto& line : lines) {
                if (!frame.notesBeside) painter.fillRect(QRectF{left, top, small.horizontalAdvance(line) + 4, small.height()}, palette.sheet);  // no axis through the words
                painter.drawText(QRectF{left, top, width, small.height()}, Qt::AlignLeft | Qt::AlignTop, line);
                top += small.height();
            }
        }
        if (row.low && row.high) paintInterval(painter, row, y, frame, color);
        if (row.raw && frame.scale.holds(*row.raw)) paintMark(painter, markOf(0), {frame.scale.at(*row.raw), y}, 4.5, ring, true, style);
        if (row.estimate) paintMark(painter, markOf(1), {frame.scale.at(*row.estimate), y}, 4.5, color, row.count < fewRecords, style);
    }
}

Chart chartOf(IntervalPlot plot)
{
    Chart chart;
    chart.name = plot.name;
    chart.size = {960, 120 + 52.0 * static_cast<double>(plot.rows.size())};
    chart.stopRows.assign(plot.rows.size(), 1);
    const auto shared = std::make_shared<const IntervalPlot>(std::move(plot));
    const auto stopOf = [shared](std::size_t row, const QRectF& area, const ChartStyle& style) {
        const auto& is = shared->rows[row];
        return ChartStop{placeOf(area, frameOf(area, *shared, style), row), tipOf(*shared, is), is.kind, is.id};
    };
    chart.paint = [shared](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintIntervals(painter, area, *shared, style); };
    chart.heightFor = [shared](double width, const ChartStyle& style) { return heightOfIntervals(*shared, width, style); };
    chart.stop = [stopOf](std::size_t row, std::size_t, const QRectF& area, const ChartStyle& style) { return stopOf(row, area, style); };
    chart.stopAt = [shared, stopOf](const QPointF& point, const QRectF& area, const ChartStyle& style) -> std::optional<ChartStop> {
        for (std::size_t i = 0; i < shared->rows.size(); ++i)
            if (auto stop = stopOf(i, area, style); stop.place.contains(point)) return stop;
        return std::nullopt;
    };
    chart.numbers = [shared] { return numbersOf(*shared); };
    return chart;
}

}

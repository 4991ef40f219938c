#include "time_chart.h"

#include "marks.h"
#include "time_frame.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

QString words(const char* text) { return QCoreApplication::translate("TimeChart", text); }

constexpr std::size_t marksSeries = 3;  ///< how marked days look

/// The middle of a single record is that record, which stands there itself.
bool showsMiddle(const TimePanel& panel, const TimeMonth& month) { return month.middle && (month.count != 1 || panel.points.empty()); }

/// Whether the counts of months fit as figures.
bool countsAsFigures(const TimePanel& panel, double monthWidth, const QFontMetricsF& small, int& most)
{
    most = 0;
    for (const auto& month : panel.months) most = std::max(most, month.count);
    return monthWidth > small.horizontalAdvance(QString::number(most)) + 4;
}

QString upTo(int most, const TimePanel& panel) { return words("to %1 %2").arg(tickText(most, 1), panel.counted); }

std::vector<KeyEntry> keyOf(const TimePanel& panel, std::size_t series)
{
    using enum KeyEntry::Look;
    std::vector<KeyEntry> key;
    if (!panel.points.empty()) key.push_back({mark, words("one %1").arg(panel.one), series});
    if (std::ranges::any_of(panel.points, &TimePoint::aside)) key.push_back({hollowMark, words("odd, left out"), series});
    if (!panel.runningLine.empty()) key.push_back({line, panel.running, series});
    else if (!runsOf(panel.months).empty()) key.push_back({line, panel.middle, series});
    else if (std::ranges::any_of(panel.months, [&](const auto& month) { return showsMiddle(panel, month); })) key.push_back({hollowMark, panel.middle, series});
    if (std::ranges::any_of(panel.months, [](const auto& month) { return month.low.has_value(); })) key.push_back({band, panel.spread, series});
    for (std::size_t i = 0; i < panel.lines.size(); ++i) key.push_back({dashes, panel.lines[i].name, series + 1 + i});
    if (!panel.ahead.empty()) key.push_back({band, panel.expected, series + 2});
    if (!panel.marks.empty()) key.push_back({hollowMark, panel.marked, marksSeries});
    return key;
}

void paintBand(QPainter& painter, const TimeFrame& frame, std::size_t panel, const std::vector<TimeMonth>& months, QColor color, double alpha)
{
    QPolygonF band;
    for (const auto& month : months)
        if (month.high) band << frame.atMonth(panel, month.month, *month.high);
    for (auto month = months.rbegin(); month != months.rend(); ++month)
        if (month->low) band << frame.atMonth(panel, month->month, *month->low);
    if (band.size() < 4) return;
    color.setAlphaF(static_cast<float>(alpha));
    painter.setPen(Qt::NoPen);
    painter.setBrush(color);
    painter.drawPolygon(band);
}

/// Months that follow each other and have a spread. A month of a few records has none, and the band does not reach over it.
std::vector<std::vector<TimeMonth>> spreadsOf(const std::vector<TimeMonth>& months)
{
    std::vector<std::vector<TimeMonth>> spreads;
    for (const auto& month : months) {
        if (!month.low || !month.high) continue;
        if (spreads.empty() || monthsOn(spreads.back().back().month, 1) != month.month) spreads.emplace_back();
        spreads.back().push_back(month);
    }
    return spreads;
}

/// A band through the months, and over a month that stands alone a bar as wide as half of it.
void paintSpread(QPainter& painter, const TimeFrame& frame, std::size_t panel, const std::vector<TimeMonth>& months, QColor color)
{
    if (months.size() > 1) return paintBand(painter, frame, panel, months, color, 0.24);
    color.setAlphaF(0.24F);
    const auto top = frame.atMonth(panel, months[0].month, *months[0].high), bottom = frame.atMonth(panel, months[0].month, *months[0].low);
    const double wide = std::max(2.0, frame.axis.monthWidth() / 2);
    painter.fillRect(QRectF{top.x() - wide / 2, top.y(), wide, bottom.y() - top.y()}, color);
}

void paintRun(QPainter& painter, const TimeFrame& frame, std::size_t panel, const std::vector<TimeMonth>& run, const QPen& pen)
{
    QPainterPath path;
    for (std::size_t i = 0; i < run.size(); ++i) {
        const auto at = frame.atMonth(panel, run[i].month, *run[i].middle);
        if (i == 0) path.moveTo(at);
        else path.lineTo(at);
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(pen);
    painter.drawPath(path);
}

/// Points beyond the axis, as small triangles at its edge that point out.
void paintBeyond(QPainter& painter, const QRectF& plot, const std::vector<QPointF>& points, const QColor& color)
{
    painter.setPen(QPen{color, 1});
    painter.setBrush(color);
    std::size_t drawn = 0;
    for (const auto& at : points) {
        if (at.x() < plot.left() || at.x() > plot.right() || (at.y() >= plot.top() && at.y() <= plot.bottom())) continue;
        if (++drawn > 300) return;
        const double edge = at.y() < plot.top() ? plot.top() + 1 : plot.bottom() - 1, inward = at.y() < plot.top() ? 6 : -6;
        painter.drawPolygon(QPolygonF{{{at.x(), edge}, {at.x() - 3, edge + inward}, {at.x() + 3, edge + inward}}});
    }
}

void paintAhead(QPainter& painter, const TimeFrame& frame, std::size_t index, const TimePanel& panel, const ChartStyle& style)
{
    if (panel.ahead.empty()) return;
    const auto color = seriesColor(*style.palette, index + 2);
    // The range grows out of the last month that has a value.
    std::vector<TimeMonth> months;
    for (auto month = panel.months.rbegin(); month != panel.months.rend(); ++month)
        if (month->middle) {
            months.push_back({month->month, month->middle, month->middle, month->middle, month->count});
            break;
        }
    months.insert(months.end(), panel.ahead.begin(), panel.ahead.end());
    paintBand(painter, frame, index, months, color, 0.22);
    std::erase_if(months, [](const auto& month) { return !month.middle; });
    if (months.size() >= 2) paintRun(painter, frame, index, months, {color, 2, Qt::DashLine});
    for (std::size_t i = 1; i < months.size(); ++i)
        if (frame.axis.monthWidth() > 9) paintMark(painter, PointMark::triangle, frame.atMonth(index, months[i].month, *months[i].middle), 3, color, true, style);
}

void paintMarks(QPainter& painter, const TimeFrame& frame, std::size_t index, const TimePanel& panel, const ChartStyle& style)
{
    const auto& plot = frame.panels[index].plot;
    const auto color = seriesColor(*style.palette, marksSeries);
    for (const auto& mark : panel.marks) {
        const double x = std::round(frame.axis.x(mark.day)) + 0.5;
        if (x < plot.left() || x > plot.right()) continue;
        painter.setPen(QPen{color, 1, Qt::DotLine});
        painter.drawLine(QPointF{x, plot.top()}, QPointF{x, plot.bottom()});
        paintMark(painter, markOf(marksSeries), {x, plot.bottom() - 6}, 4, color, true, style);
    }
}

/// How many records each month rests on: figures where they fit, else small bars with the most of them named.
void paintCounts(QPainter& painter, const TimeFrame& frame, std::size_t index, const TimePanel& panel, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    int most = 0;
    const bool figures = countsAsFigures(panel, frame.axis.monthWidth(), small, most);
    if (most == 0) return;
    const auto& place = frame.panels[index];
    const double height = small.height();
    painter.setFont(style.small);
    painter.setPen(palette.quiet);
    const auto name = figures ? panel.counted : upTo(most, panel);
    painter.drawText(QRectF{place.place.left(), place.countTop, place.plot.left() - place.place.left() - 6, height}, Qt::AlignRight | Qt::AlignTop,
                     small.elidedText(name, Qt::ElideRight, place.plot.left() - place.place.left() - 6));
    for (const auto& month : panel.months) {
        if (month.count == 0) continue;
        const double x = frame.axis.middleOf(month.month);
        if (figures) {
            painter.drawText(QRectF{x - 30, place.countTop, 60, height}, Qt::AlignHCenter | Qt::AlignTop, QString::number(month.count));
            continue;
        }
        const double wide = std::max(1.0, frame.axis.monthWidth() * 0.7), high = std::max(1.0, (height - 2) * month.count / most);
        painter.fillRect(QRectF{x - wide / 2, place.countTop + height - high, wide, high}, palette.quiet);
    }
}

void paintRunning(QPainter& painter, const TimeFrame& frame, std::size_t index, const TimePanel& panel, const QColor& color, const ChartStyle& style)
{
    painter.setBrush(Qt::NoBrush);
    for (const auto& stretch : stretchesOf(panel.runningLine)) {
        QPolygonF line;
        for (const auto& point : stretch) line << frame.at(index, point.day, point.value);
        painter.setPen(QPen{style.palette->sheet, 4});
        painter.drawPolyline(line);
        painter.setPen(QPen{color, 2});
        painter.drawPolyline(line);
    }
}

void paintPanel(QPainter& painter, const TimeFrame& frame, std::size_t index, const TimeChart& chart, const ChartStyle& style)
{
    const auto& panel = chart.panels[index];
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    const auto& place = frame.panels[index];
    const auto color = seriesColor(palette, index);

    paintSeasonBands(painter, place.plot, frame.axis, chart.southern, style);
    paintUp(painter, place.plot, place.scale, style);
    painter.setFont(style.small);
    painter.setPen(palette.ink);
    painter.drawText(QRectF{place.place.left(), place.place.top(), place.place.width(), small.height()}, Qt::AlignLeft | Qt::AlignTop, panel.axis);
    const auto key = keyOf(panel, index);
    const double keyWidth = widthOfKey(key, style);
    const double keyLeft = place.keyBeside ? place.place.right() - keyWidth + 10 : place.place.left();
    paintKey(painter, {keyLeft, place.keyTop, place.place.right() - keyLeft + 4, small.height()}, key, style);

    painter.save();
    painter.setClipRect(place.plot.adjusted(-6, 0, 6, 0));
    std::vector<QPointF> points, aside;
    points.reserve(panel.points.size());
    const bool dense = areDense(panel.points.size(), place.plot);
    for (const auto& point : panel.points) (point.aside && !dense ? aside : points).push_back(frame.at(index, point.day, point.value));
    if (dense) {
        auto faint = color;
        faint.setAlphaF(0.6F);
        paintPoints(painter, place.plot, points, markOf(index), faint, style);
    } else paintPoints(painter, place.plot, points, markOf(index), color, style);
    for (const auto& at : aside) paintMark(painter, markOf(index), at, 3, color, true, style);
    paintMarks(painter, frame, index, panel, style);
    auto runs = runsOf(panel.months);
    for (const auto& known : spreadsOf(panel.months)) paintSpread(painter, frame, index, known, color);
    if (!panel.runningLine.empty()) runs.clear();
    paintRunning(painter, frame, index, panel, color, style);
    paintAhead(painter, frame, index, panel, style);
    for (std::size_t i = 0; i < panel.lines.size(); ++i)
        for (const auto& run : runsOf(panel.lines[i].months)) paintRun(painter, frame, index, run, {seriesColor(palette, index + 1 + i), 1.6, Qt::DashLine});
    // A light edge keeps the line apart from the points under it.
    for (const auto& run : runs) paintRun(painter, frame, index, run, {palette.sheet, 4});
    for (const auto& run : runs) paintRun(painter, frame, index, run, {color, 2});
    const bool roomForMarks = frame.axis.monthWidth() > 9;
    for (const auto& month : panel.months) {
        if (!month.middle || !panel.runningLine.empty()) continue;
        const bool joined = std::ranges::any_of(runs, [&](const auto& run) { return run.front().month <= month.month && month.month <= run.back().month; });
        if (joined ? !roomForMarks && month.count >= 3 : !showsMiddle(panel, month)) continue;
        paintMark(painter, markOf(index), frame.atMonth(index, month.month, *month.middle), roomForMarks ? 4 : 2.5, color, month.count < 3, style);
    }
    paintBeyond(painter, place.plot, points, color);
    paintBeyond(painter, place.plot, aside, color);
    painter.restore();
    paintCounts(painter, frame, index, panel, style);
    if (panel.points.empty() && std::ranges::none_of(panel.months, [](const auto& month) { return month.middle.has_value(); })) {
        painter.setPen(palette.quiet);
        painter.drawText(place.plot, Qt::AlignCenter, words("Nothing to draw yet"));
    }
}

}

std::pair<double, double> rangeOf(const TimePanel& panel)
{
    std::vector<double> values;
    const auto take = [&](const std::optional<double>& value) {
        if (value && std::isfinite(*value)) values.push_back(*value);
    };
    for (const auto& month : panel.months) {
        take(month.middle);
        take(month.low);
        take(month.high);
    }
    for (const auto& line : panel.lines)
        for (const auto& month : line.months) take(month.middle);
    for (const auto& month : panel.ahead) {
        take(month.low);
        take(month.middle);
        take(month.high);
    }
    std::vector<double> points;
    points.reserve(panel.points.size());
    for (const auto& point : panel.points)
        if (std::isfinite(point.value)) points.push_back(point.value);
    if (!points.empty()) {
        const auto at = [&](double part) {
            const auto place = points.begin() + static_cast<std::ptrdiff_t>(std::llround(part * static_cast<double>(points.size() - 1)));
            std::nth_element(points.begin(), place, points.end());
            return *place;
        };
        // All of them, unless a few lie far away from nearly all others.
        const double lower = at(0.02), upper = at(0.98), span = std::max(upper - lower, 1e-9);
        const auto [least, most] = std::minmax_element(points.begin(), points.end());
        values.push_back(std::max(*least, lower - span * 0.4));
        values.push_back(std::min(*most, upper + span * 0.4));
    }
    if (values.empty()) return {0, 1};
    const auto [low, high] = std::minmax_element(values.begin(), values.end());
    return {*low, *high};
}

std::vector<std::vector<TimeMonth>> runsOf(const std::vector<TimeMonth>& months)
{
    std::vector<std::vector<TimeMonth>> runs;
    std::vector<TimeMonth> run;
    const auto finish = [&] {
        if (run.size() >= 3) runs.push_back(run);
        run.clear();
    };
    for (const auto& month : months) {
        if (!run.empty() && (!month.middle || monthsOn(run.back().month, 1) != month.month)) finish();
        if (month.middle) run.push_back(month);
    }
    finish();
    return runs;
}

std::vector<std::vector<TimePoint>> stretchesOf(const std::vector<TimePoint>& line)
{
    std::vector<std::vector<TimePoint>> stretches;
    std::vector<TimePoint> stretch;
    const auto finish = [&] {
        if (stretch.size() >= 3) stretches.push_back(stretch);
        stretch.clear();
    };
    for (const auto& point : line) {
        if (!stretch.empty() && point.day - stretch.back().day > 100) finish();
        stretch.push_back(point);
    }
    finish();
    return stretches;
}

TimeFrame frameOf(const QRectF& area, const TimeChart& chart, const ChartStyle& style)
{
    const QFontMetricsF small{style.small};
    TimeFrame frame;
    std::optional<Date> from, to;
    const auto take = [&](Date day) {
        from = from ? std::min(*from, day) : day;
        to = to ? std::max(*to, day) : day;
    };
    for (const auto& panel : chart.panels) {
        if (!panel.points.empty()) {
            take(panel.points.front().day);
            take(panel.points.back().day);
        }
        for (const auto* months : {&panel.months, &panel.ahead})
            if (!months->empty()) {
                take(months->front().month);
                take(lastOfMonth(months->back().month));
            }
    }
    const auto count = static_cast<double>(std::max<std::size_t>(chart.panels.size(), 1));
    const double foot = small.height() + 10, between = 10;
    const double each = std::max(60.0, (area.height() - foot - between * (count - 1)) / count);
    double figures = 0;
    for (std::size_t i = 0; i < chart.panels.size(); ++i) {
        const auto& panel = chart.panels[i];
        TimePanelFrame place;
        place.place = {area.left(), area.top() + static_cast<double>(i) * (each + between), area.width(), each};
        place.keyTop = place.place.top();
        place.keyBeside = small.horizontalAdvance(panel.axis) + 24 + widthOfKey(keyOf(panel, i), style) < area.width();
        if (!place.keyBeside) place.keyTop += small.height() + 2;
        const double top = place.keyTop + small.height() + 6;
        place.countTop = place.place.bottom() - heightOfCounts(style) + 3;
        place.plot = {area.left(), top, area.width(), std::max(24.0, place.place.bottom() - heightOfCounts(style) - top)};
        auto [low, high] = rangeOf(panel);
        const double air = std::max((high - low) * 0.04, std::abs(high) * 0.005);
        place.scale = scaleOver(low >= 0 ? std::max(0.0, low - air) : low - air, high + air, place.plot.bottom(), place.plot.top(), 34);
        int most = 0;
        const bool asFigures = countsAsFigures(panel, timeAxis(from.value_or(Date{}), to.value_or(Date{}), area.left() + 80, area.right()).monthWidth(), small, most);
        figures = std::max({figures, widthOfUp(place.scale, style), small.horizontalAdvance(asFigures ? panel.counted : upTo(most, panel)) + 8});
        frame.panels.push_back(place);
    }
    figures = std::min(figures, area.width() * 0.3);
    for (auto& place : frame.panels) place.plot.setLeft(area.left() + figures);
    frame.axis = timeAxis(from.value_or(Date{}), to.value_or(Date{}), area.left() + figures, area.right() - 4);
    for (auto& place : frame.panels) place.plot.setRight(frame.axis.right);
    return frame;
}

double heightOfCounts(const ChartStyle& style) { return QFontMetricsF{style.small}.height() + 5; }

double heightOfTime(const TimeChart& chart, const ChartStyle& style)
{
    return static_cast<double>(chart.panels.size()) * (QFontMetricsF{style.small}.height() * 3 + 120);
}

void paintTime(QPainter& painter, const QRectF& area, const TimeChart& chart, const ChartStyle& style)
{
    if (chart.panels.empty()) return;
    painter.setRenderHint(QPainter::Antialiasing);
    const auto frame = frameOf(area, chart, style);
    for (std::size_t i = 0; i < chart.panels.size(); ++i) paintPanel(painter, frame, i, chart, style);
    paintMonthLabels(painter, frame.panels.back().countTop + QFontMetricsF{style.small}.height() + 1, frame.axis, style);
}

}

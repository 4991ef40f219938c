#include "time_frame.h"

#include <QCoreApplication>
#include <QFontMetricsF>

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

constexpr double reach = 9;  ///< pixels about a mark that still mean it

QString words(const char* text) { return QCoreApplication::translate("TimeChart", text); }
QString text(const std::string& from) { return QString::fromStdString(from); }

double stepOf(const TimePanel& panel) { return panel.decimals == 0 ? 1 : panel.decimals == 1 ? 0.1 : 0.01; }

/// A row of stops: which panel, and which of its things.
struct Row {
    enum class What { months, ahead, marks, points };
    std::size_t panel = 0;
    What what = What::months;
    std::size_t count = 0;
};

std::vector<Row> rowsOf(const TimeChart& chart)
{
    std::vector<Row> rows;
    for (std::size_t i = 0; i < chart.panels.size(); ++i) {
        const auto& panel = chart.panels[i];
        const std::pair<Row::What, std::size_t> parts[] = {
            {Row::What::months, panel.months.size()}, {Row::What::ahead, panel.ahead.size()}, {Row::What::marks, panel.marks.size()}, {Row::What::points, panel.points.size()}};
        for (const auto& [what, count] : parts)
            if (count > 0) rows.push_back({i, what, count});
    }
    return rows;
}

QRectF about(const QPointF& at) { return {at.x() - reach, at.y() - reach, 2 * reach, 2 * reach}; }

ChartStop monthStop(const TimeFrame& frame, const TimePanel& panel, std::size_t index, const TimeMonth& month, bool ahead)
{
    const auto& plot = frame.panels[index].plot;
    const double x = frame.axis.middleOf(month.month), wide = std::max(4.0, frame.axis.monthWidth());
    const auto figure = [&](double value) { return tickText(value, stepOf(panel)); };
    QStringList lines{text(shownMonth(month.month)), panel.axis};
    if (month.middle) lines << QStringLiteral("%1: %2").arg(ahead ? words("expected") : panel.middle, figure(*month.middle));
    if (month.low && month.high) lines << words("%1: %2 to %3").arg(ahead ? panel.expected : panel.spread, figure(*month.low), figure(*month.high));
    if (!ahead) lines << QStringLiteral("%1 %2").arg(tickText(month.count, 1), month.count == 1 ? panel.one : panel.counted);
    for (const auto& line : panel.lines)
        for (const auto& other : line.months)
            if (!ahead && other.month == month.month && other.middle) lines << QStringLiteral("%1: %2").arg(line.name, figure(*other.middle));
    return {QRectF{x - wide / 2, plot.top(), wide, plot.height()}, lines.join(u'\n')};
}

ChartStop pointStop(const TimeFrame& frame, const TimePanel& panel, std::size_t index, std::size_t place)
{
    const auto& point = panel.points[place];
    const auto& plot = frame.panels[index].plot;
    auto at = frame.at(index, point.day, point.value);
    at.setY(std::clamp(at.y(), plot.top(), plot.bottom()));  // one beyond the axis stands at its edge
    QStringList lines{text(point.day.shown()), QStringLiteral("%1: %2").arg(panel.axis, tickText(point.value, stepOf(panel)))};
    if (panel.tip) lines << panel.tip(place);
    return {about(at), lines.join(u'\n'), panel.kind, point.id};
}

ChartStop markStop(const TimeFrame& frame, std::size_t index, const MarkedDay& mark)
{
    const auto& plot = frame.panels[index].plot;
    return {about({frame.axis.x(mark.day), plot.bottom() - 6}), text(mark.day.shown()) + u'\n' + mark.what, mark.kind, mark.id};
}

ChartStop stopOf(const TimeFrame& frame, const TimeChart& chart, const Row& row, std::size_t place)
{
    const auto& panel = chart.panels[row.panel];
    switch (row.what) {
    case Row::What::months: return monthStop(frame, panel, row.panel, panel.months[place], false);
    case Row::What::ahead: return monthStop(frame, panel, row.panel, panel.ahead[place], true);
    case Row::What::marks: return markStop(frame, row.panel, panel.marks[place]);
    case Row::What::points: break;
    }
    return pointStop(frame, panel, row.panel, place);
}

/// The nearest point within reach; then a marked day; then the month.
std::optional<ChartStop> stopAt(const QPointF& at, const QRectF& area, const TimeChart& chart, const ChartStyle& style)
{
    const auto frame = frameOf(area, chart, style);
    for (std::size_t i = 0; i < chart.panels.size(); ++i) {
        const auto& panel = chart.panels[i];
        const auto& plot = frame.panels[i].plot;
        if (!plot.adjusted(-reach, -reach, reach, reach).contains(at)) continue;
        for (const auto& mark : panel.marks)
            if (auto stop = markStop(frame, i, mark); stop.place.contains(at)) return stop;
        double nearest = reach * reach;
        std::optional<std::size_t> found;
        for (std::size_t p = 0; p < panel.points.size(); ++p) {
            const auto there = frame.at(i, panel.points[p].day, panel.points[p].value);
            const double across = there.x() - at.x(), up = std::clamp(there.y(), plot.top(), plot.bottom()) - at.y();
            if (const double distance = across * across + up * up; distance < nearest) {
                nearest = distance;
                found = p;
            }
        }
        if (found) return pointStop(frame, panel, i, *found);
        for (const auto* months : {&panel.months, &panel.ahead})
            for (const auto& month : *months)
                if (month.middle || month.count > 0)
                    if (auto stop = monthStop(frame, panel, i, month, months == &panel.ahead); stop.place.contains(at)) return stop;
    }
    return std::nullopt;
}

NumberTable numbersOf(const TimeChart& chart)
{
    NumberTable table{{{words("figure"), true}, {words("what"), true}, {words("day")}, {words("value")}, {words("low")}, {words("high")}, {words("count")}, {words("record"), true}}, {}};
    for (const auto& panel : chart.panels) {
        const auto cell = [&](const std::optional<double>& value) { return plainNumber(value, std::max(panel.decimals, 2)); };
        const auto month = [&](const QString& what, const TimeMonth& is, bool counted) {
            table.rows.push_back({panel.axis, what, text(is.month.text()), cell(is.middle), cell(is.low), cell(is.high), counted ? QString::number(is.count) : QString{}, QString{}});
        };
        for (const auto& is : panel.months) month(panel.middle, is, true);
        for (const auto& line : panel.lines)
            for (const auto& is : line.months) month(line.name, is, false);
        for (const auto& is : panel.ahead) month(panel.expected, is, false);
        for (const auto& mark : panel.marks) table.rows.push_back({panel.axis, mark.what, text(mark.day.text()), {}, {}, {}, {}, {}});
        for (const auto& point : panel.runningLine) table.rows.push_back({panel.axis, panel.running, text(point.day.text()), cell(point.value), {}, {}, {}, {}});
        for (std::size_t i = 0; i < panel.points.size(); ++i) {
            const auto& point = panel.points[i];
            const auto record = panel.tip ? panel.tip(i).section(u'\n', 0, 0) : QString{};
            table.rows.push_back({panel.axis, panel.one, text(point.day.text()), cell(point.value), {}, {}, {}, record});
        }
    }
    return table;
}

}

Chart chartOf(TimeChart time)
{
    Chart chart;
    chart.name = time.name;
    chart.size = {1100, 60 + 280.0 * static_cast<double>(time.panels.size())};
    const auto shared = std::make_shared<const TimeChart>(std::move(time));
    const auto rows = rowsOf(*shared);
    for (const auto& row : rows) chart.stopRows.push_back(row.count);
    chart.paint = [shared](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintTime(painter, area, *shared, style); };
    chart.stop = [shared, rows](std::size_t row, std::size_t place, const QRectF& area, const ChartStyle& style) {
        return stopOf(frameOf(area, *shared, style), *shared, rows.at(row), place);
    };
    chart.stopAt = [shared](const QPointF& at, const QRectF& area, const ChartStyle& style) { return stopAt(at, area, *shared, style); };
    chart.numbers = [shared] { return numbersOf(*shared); };
    return chart;
}

}

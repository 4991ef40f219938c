#include "waterfall.h"

#include "marks.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>

namespace strikeoff {

namespace {

double rowHeight(const ChartStyle& style) { return QFontMetricsF{style.body}.height() + 7; }
constexpr double gap = 12;

/// How many rows an area has room for.
std::size_t roomIn(const QRectF& area, const ChartStyle& style)
{
    return static_cast<std::size_t>(std::max(4.0, std::floor((area.height() - heightOfAcross(style)) / rowHeight(style))));
}

double sumOf(const WaterfallGroup& group)
{
    double sum = 0;
    for (const auto& step : group.steps) sum += step.amount;
    return sum;
}

std::size_t rowsOf(const WaterfallGroup& group) { return group.steps.size() == 1 ? 1 : group.steps.size() + 1; }

/// The smallest steps of a group as one, so that `fewer` rows go.
void thin(WaterfallGroup& group, std::size_t fewer)
{
    const auto merged = std::min(fewer + 1, group.steps.size() - 1);
    auto bySize = group.steps;
    std::stable_sort(bySize.begin(), bySize.end(), [](const auto& a, const auto& b) { return std::abs(a.amount) < std::abs(b.amount); });
    const double limit = std::abs(bySize[merged - 1].amount);
    WaterfallStep rest;
    std::size_t taken = 0;
    std::vector<WaterfallStep> kept;
    for (auto& step : group.steps) {
        if (taken < merged && std::abs(step.amount) <= limit) {
            rest.amount += step.amount;
            ++taken;
        } else kept.push_back(std::move(step));
    }
    rest.name = QStringLiteral("%1 smaller ones").arg(taken);
    rest.figure = (rest.amount < 0 ? QStringLiteral("\u2212") : QStringLiteral("+")) + tickText(std::abs(rest.amount), 1);
    kept.push_back(std::move(rest));
    group.steps = std::move(kept);
}

}

std::vector<WaterfallRow> rowsOf(const Waterfall& waterfall, std::size_t most)
{
    auto groups = waterfall.groups;
    std::erase_if(groups, [](const auto& group) { return group.steps.empty(); });
    for (;;) {
        std::size_t count = 2;
        for (const auto& group : groups) count += rowsOf(group);
        if (count <= most || groups.empty()) break;
        auto& largest = *std::max_element(groups.begin(), groups.end(), [](const auto& a, const auto& b) { return a.steps.size() < b.steps.size(); });
        if (largest.steps.size() < 2) break;
        if (largest.steps.size() == 2) largest.steps = {{QString{}, sumOf(largest), largest.figure}};
        else thin(largest, std::min(count - most, largest.steps.size() - 2));
    }
    std::vector<WaterfallRow> rows;
    double at = waterfall.start;
    rows.push_back({WaterfallRow::Part::start, waterfall.from, waterfall.startFigure, at, at});
    for (const auto& group : groups) {
        const bool single = group.steps.size() == 1;
        if (!single) rows.push_back({WaterfallRow::Part::group, group.name, group.figure, at, at + sumOf(group)});
        for (const auto& step : group.steps) {
            rows.push_back({WaterfallRow::Part::step, !single ? step.name : step.name.isEmpty() ? group.name : group.name + QStringLiteral(": ") + step.name, step.figure, at, at + step.amount});
            at += step.amount;
        }
    }
    rows.push_back({WaterfallRow::Part::end, waterfall.to, waterfall.endFigure, at, at});
    return rows;
}

double heightOfWaterfall(const Waterfall& waterfall, const ChartStyle& style)
{
    return static_cast<double>(rowsOf(waterfall, std::size_t(-1)).size()) * rowHeight(style) + heightOfAcross(style);
}

void paintWaterfall(QPainter& painter, const QRectF& area, const Waterfall& waterfall, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF body{style.body};
    auto boldFont = style.body;
    boldFont.setBold(true);
    const QFontMetricsF bold{boldFont};
    const double each = rowHeight(style);
    const auto rows = rowsOf(waterfall, roomIn(area, style));

    double nameWidth = 0, figureWidth = 0, low = waterfall.start, high = waterfall.start;
    const auto isSum = [](const WaterfallRow& row) { return row.part != WaterfallRow::Part::step; };
    const auto isIndented = [](const WaterfallRow& row) { return row.part == WaterfallRow::Part::step; };
    for (const auto& row : rows) {
        nameWidth = std::max(nameWidth, (isSum(row) ? bold : body).horizontalAdvance(row.name) + (isIndented(row) ? gap : 0));
        figureWidth = std::max(figureWidth, bold.horizontalAdvance(row.figure));
        low = std::min({low, row.from, row.to});
        high = std::max({high, row.from, row.to});
    }
    nameWidth = std::min(nameWidth + 2, area.width() * 0.36);
    const double air = std::max((high - low) * 0.05, 5.0);
    const QRectF plot{area.left() + nameWidth + gap, area.top(), std::max(60.0, area.width() - nameWidth - figureWidth - 3 * gap), static_cast<double>(rows.size()) * each};
    const auto scale = scaleOver(low - air, high + air, plot.left(), plot.right(), 90);
    const auto x = [&](double amount) { return scale.at(amount); };
    paintAcross(painter, plot, scale, waterfall.axis, style);
    painter.setPen(QPen{palette.ink, 1, Qt::DashLine});
    painter.drawLine(QPointF{x(waterfall.start), plot.top() + each / 2}, QPointF{x(waterfall.start), plot.bottom()});

    double y = plot.top();
    std::optional<double> before;  // where the last step ended, and how far down
    double beforeY = 0;
    for (const auto& row : rows) {
        painter.setFont(isSum(row) ? boldFont : style.body);
        painter.setPen(palette.ink);
        const double indent = isIndented(row) ? gap : 0;
        const auto& metrics = isSum(row) ? bold : body;
        painter.drawText(QRectF{area.left() + indent, y, nameWidth - indent, each}, Qt::AlignLeft | Qt::AlignVCenter, metrics.elidedText(row.name, Qt::ElideRight, nameWidth - indent));
        painter.drawText(QRectF{plot.right() + gap, y, area.right() - plot.right() - gap, each}, Qt::AlignRight | Qt::AlignVCenter, row.figure);
        const double left = std::min(x(row.from), x(row.to)), wide = std::abs(x(row.to) - x(row.from));
        const double middle = y + each / 2;
        if (row.part == WaterfallRow::Part::start || row.part == WaterfallRow::Part::end) {
            if (before) {
                painter.setPen(QPen{palette.quiet, 1});
                painter.drawLine(QPointF{x(*before), beforeY}, QPointF{x(*before), middle});
            }
            painter.setPen(Qt::NoPen);
            painter.setBrush(palette.ink);
            const double size = 5;
            const QPointF at{x(row.to), middle};
            painter.drawPolygon(QPolygonF{{at + QPointF{0, -size}, at + QPointF{size, 0}, at + QPointF{0, size}, at + QPointF{-size, 0}}});
            before = row.to;
            beforeY = middle;
        } else if (row.part == WaterfallRow::Part::group) {
            // The span of the whole group as a bracket, its steps follow.
            painter.setPen(QPen{palette.quiet, 1.5});
            painter.drawLine(QPointF{left, middle}, QPointF{left + wide, middle});
            painter.drawLine(QPointF{left, middle - 4}, QPointF{left, middle + 4});
            painter.drawLine(QPointF{left + wide, middle - 4}, QPointF{left + wide, middle + 4});
        } else {
            if (before) {
                painter.setPen(QPen{palette.quiet, 1});
                painter.drawLine(QPointF{x(*before), beforeY}, QPointF{x(*before), middle});
            }
            const bool worse = (row.to > row.from) != waterfall.moreIsBetter;
            const auto color = worse ? palette.series[1] : palette.series[0];
            const QRectF box{left, y + 4, std::max(2.0, wide), each - 8};
            if (worse) fillHatched(painter, box, color);
            else painter.fillRect(box, color);
            painter.setBrush(Qt::NoBrush);
            painter.setPen(QPen{color, 1.2});
            painter.drawRect(box);
            before = row.to;
            beforeY = middle;
        }
        y += each;
    }
}

Chart chartOf(Waterfall waterfall)
{
    Chart chart;
    chart.name = waterfall.name;
    const auto shared = std::make_shared<const Waterfall>(std::move(waterfall));
    const auto most = rowsOf(*shared, std::size_t(-1)).size();
    chart.size = {960, 80 + 26.0 * static_cast<double>(most)};
    chart.stopRows.assign(most, 1);
    const auto stopOf = [shared](std::size_t row, const QRectF& area, const ChartStyle& style) {
        const auto rows = rowsOf(*shared, roomIn(area, style));
        const auto& is = rows[std::min(row, rows.size() - 1)];
        const double top = area.top() + static_cast<double>(std::min(row, rows.size() - 1)) * rowHeight(style);
        return ChartStop{{area.left(), top, area.width(), rowHeight(style)}, is.name + u'\n' + is.figure};
    };
    chart.paint = [shared](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintWaterfall(painter, area, *shared, style); };
    chart.heightFor = [shared](double, const ChartStyle& style) { return heightOfWaterfall(*shared, style); };
    chart.stop = [stopOf](std::size_t row, std::size_t, const QRectF& area, const ChartStyle& style) { return stopOf(row, area, style); };
    chart.stopAt = [shared, stopOf](const QPointF& at, const QRectF& area, const ChartStyle& style) -> std::optional<ChartStop> {
        const auto rows = rowsOf(*shared, roomIn(area, style)).size();
        for (std::size_t i = 0; i < rows; ++i)
            if (auto stop = stopOf(i, area, style); stop.place.contains(at)) return stop;
        return std::nullopt;
    };
    chart.numbers = [shared] {
        NumberTable table{{{QStringLiteral("step"), true}, {QStringLiteral("from")}, {QStringLiteral("to")}}, {}};
        for (const auto& row : rowsOf(*shared, std::size_t(-1))) table.rows.push_back({row.name, plainNumber(row.from), plainNumber(row.to)});
        return table;
    };
    return chart;
}

}

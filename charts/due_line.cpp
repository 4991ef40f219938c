#include "due_line.h"

#include "time_axis.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>
#include <map>

namespace strikeoff {

namespace {

constexpr double leastWidth = 9;
constexpr double mostWidth = 26;
constexpr int daysAhead = 35;

QString words(const char* text) { return QCoreApplication::translate("DueLine", text); }

/// The measures everything is drawn by.
struct Frame {
    QRectF plot;
    Date from, to;         ///< first and last day of the axis
    bool older = false;    ///< a place at the left edge for what was due before that
    double olderWidth = 0;
    int daysAStack = 1;
    double width = leastWidth;
    std::vector<double> ticks;

    double dayWidth() const { return (plot.width() - olderWidth) / (to - from + 1); }
    double x(Date day) const { return plot.left() + olderWidth + dayWidth() * (day - from); }
    double y(double amount) const { return plot.bottom() - (amount - ticks.front()) / (ticks.back() - ticks.front()) * plot.height(); }
    /// Bars of one number stand on one another; today begins number 0.
    int stackOf(const DueBar& bar, Date today) const
    {
        if (older && bar.due < from) return -100'000;
        const int days = bar.due - today;
        return days >= 0 ? days / daysAStack : -1 - (-1 - days) / daysAStack;
    }
    double middleOf(int stack, Date today) const
    {
        if (stack == -100'000) return plot.left() + olderWidth / 2;
        return x(today) + dayWidth() * daysAStack * (stack + 0.5);
    }
};

Frame frameOf(const QRectF& area, const DueLine& line, const ChartStyle& style)
{
    const QFontMetricsF small{style.small};
    Frame frame;
    frame.plot = area.adjusted(72, 1.4 * small.height() + small.height(), -8, -(small.height() + 8));
    frame.plot.setHeight(std::max(frame.plot.height(), 20.0));
    const auto earliest = daysOn(line.today, -daysOnDueLine).value_or(line.today);
    frame.from = line.today - 14;
    frame.to = line.today + daysAhead;
    for (const auto& bar : line.bars) {
        if (bar.due < earliest) frame.older = true;
        else frame.from = std::min(frame.from, daysOn(bar.due, -7).value_or(bar.due));
        frame.to = std::clamp(daysOn(bar.due, 7).value_or(bar.due), frame.to, daysOn(line.today, 2 * daysOnDueLine).value_or(frame.to));
    }
    frame.from = std::max(frame.from, earliest);
    if (frame.older) frame.olderWidth = std::max(60.0, small.horizontalAdvance(words("older")) + 24);
    frame.daysAStack = std::max(1, static_cast<int>(std::ceil((leastWidth + 2) / frame.dayWidth())));
    frame.width = std::clamp(frame.dayWidth() * frame.daysAStack - 2, leastWidth, mostWidth);

    std::map<int, std::pair<double, double>> stacks;
    for (const auto& bar : line.bars) {
        auto& [below, above] = stacks[frame.stackOf(bar, line.today)];
        (bar.amount < 0 ? below : above) += bar.amount;
    }
    double low = 0, high = 0;
    for (const auto& [stack, reach] : stacks) {
        low = std::min(low, reach.first);
        high = std::max(high, reach.second);
    }
    frame.ticks = niceTicks(low, high, static_cast<int>(std::clamp(frame.plot.height() / 34, 2.0, 6.0)));
    return frame;
}

std::vector<QRectF> placesIn(const Frame& frame, const DueLine& line)
{
    std::map<int, std::pair<double, double>> reached;
    std::vector<QRectF> places;
    places.reserve(line.bars.size());
    for (const auto& bar : line.bars) {
        const int stack = frame.stackOf(bar, line.today);
        auto& from = bar.amount < 0 ? reached[stack].first : reached[stack].second;
        const double one = frame.y(from), other = frame.y(from + bar.amount);
        const double left = std::min(frame.middleOf(stack, line.today), frame.plot.right() - frame.width / 2) - frame.width / 2;
        places.emplace_back(left, std::min(one, other), frame.width, std::max(2.0, std::abs(one - other)));
        from += bar.amount;
    }
    return places;
}

void paintAxes(QPainter& painter, const Frame& frame, const DueLine& line, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    const auto& plot = frame.plot;
    painter.setFont(style.small);
    for (const auto tick : frame.ticks) {
        painter.setPen(QPen{tick == 0 ? palette.quiet : palette.line, 1});
        painter.drawLine(QPointF{plot.left(), frame.y(tick)}, QPointF{plot.right(), frame.y(tick)});
        painter.setPen(palette.quiet);
        painter.drawText(QRectF{plot.left() - 72, frame.y(tick) - small.height() / 2, 66, small.height()}, Qt::AlignRight | Qt::AlignVCenter,
                         tickText(tick, frame.ticks[1] - frame.ticks[0]));
    }
    painter.setPen(palette.ink);
    painter.drawText(QRectF{plot.left() - 72, plot.top() - 2.4 * small.height(), 200, small.height()}, Qt::AlignLeft | Qt::AlignTop, words("Open by due day, $"));

    std::vector<Date> months;
    for (auto month = firstOfMonth(frame.from); month <= frame.to; month = monthsOn(month, 1)) months.push_back(month);
    const double foot = plot.bottom() + 4;
    for (const auto i : labelledMonths(months, plot.width() - frame.olderWidth, small.horizontalAdvance(QStringLiteral("Jan \u201900")) + 12)) {
        if (months[i] < frame.from) continue;
        const double x = frame.x(months[i]);
        painter.setPen(QPen{palette.line, 1});
        painter.drawLine(QPointF{x, plot.top()}, QPointF{x, plot.bottom() + 4});
        const auto label = monthLabel(months[i]);
        painter.setPen(palette.quiet);
        if (x + small.horizontalAdvance(label) < plot.right() + 8) painter.drawText(QRectF{x + 3, foot, 90, small.height()}, Qt::AlignLeft | Qt::AlignTop, label);
    }
    if (frame.older) {
        painter.setPen(QPen{palette.line, 1, Qt::DashLine});
        painter.drawLine(QPointF{plot.left() + frame.olderWidth, plot.top()}, QPointF{plot.left() + frame.olderWidth, plot.bottom() + 4});
        painter.setPen(palette.quiet);
        painter.drawText(QRectF{plot.left(), foot, frame.olderWidth, small.height()}, Qt::AlignHCenter | Qt::AlignTop, words("older"));
    }
    const double now = frame.x(line.today);
    const double head = plot.top() - 2.4 * small.height();
    painter.setPen(QPen{palette.ink, 1.5});
    painter.drawLine(QPointF{now, head}, QPointF{now, plot.bottom() + 4});
    painter.drawText(QRectF{now + 6, head, 260, small.height()}, Qt::AlignLeft | Qt::AlignTop,
                     words("today, %1").arg(QString::fromStdString(line.today.shownShort().substr(4))));
    const double todayWidth = small.horizontalAdvance(words("today, %1").arg(QStringLiteral("Nov 25")));
    painter.setPen(palette.quiet);
    painter.drawText(QRectF{now + 6 + todayWidth + 16, head, 200, small.height()}, Qt::AlignLeft | Qt::AlignTop, words("not due yet"));
    painter.setPen(palette.wrong);
    painter.drawText(QRectF{now - 206, head, 200, small.height()}, Qt::AlignRight | Qt::AlignTop, words("past due"));
}

void paintNames(QPainter& painter, const Frame& frame, const DueLine& line, const std::vector<QRectF>& places, const ChartStyle& style)
{
    const QFontMetricsF small{style.small};
    struct Top {
        double y = 0;
        int bars = 0;
        QString name;
    };
    std::map<int, Top> tops;
    for (std::size_t i = 0; i < line.bars.size(); ++i) {
        const int stack = frame.stackOf(line.bars[i], line.today);
        auto& top = tops[stack];
        if (top.bars++ == 0) top.y = places[i].top();
        top.y = std::min(top.y, places[i].top());
        top.name = top.bars == 1 ? line.bars[i].name : words("%1 invoices").arg(top.bars);
    }
    // From the right, so that of two that crowd each other the one nearer to today keeps its name.
    std::vector<QRectF> taken;
    painter.setFont(style.small);
    painter.setPen(style.palette->ink);
    for (auto top = tops.rbegin(); top != tops.rend(); ++top) {
        const auto name = small.elidedText(top->second.name, Qt::ElideRight, 120);
        const double width = small.horizontalAdvance(name) + 4;
        const double middle = frame.middleOf(top->first, line.today);
        // Names keep to their side of today.
        const double now = frame.x(line.today);
        const double least = top->first >= 0 ? now + 4 : frame.plot.left();
        const double most = (top->first >= 0 ? frame.plot.right() : now - 4) - width;
        const double left = std::clamp(middle - width / 2, least, std::max(least, most));
        const QRectF room{left, top->second.y - small.height() - 1, width, small.height()};
        const auto crowds = [&](const QRectF& other) { return other.intersects(room.adjusted(-3, 0, 3, 0)); };
        if (std::ranges::any_of(taken, crowds) || std::ranges::any_of(places, crowds)) continue;
        taken.push_back(room);
        painter.drawText(room, Qt::AlignCenter, name);
    }
}

}

std::vector<QRectF> placeDueBars(const QRectF& area, const DueLine& line, const ChartStyle& style) { return placesIn(frameOf(area, line, style), line); }

std::optional<std::size_t> dueBarAt(const QPointF& point, const QRectF& area, const DueLine& line, const ChartStyle& style)
{
    const auto places = placeDueBars(area, line, style);
    for (std::size_t i = places.size(); i-- > 0;)
        if (places[i].adjusted(-2, -2, 2, 2).contains(point)) return i;
    return std::nullopt;
}

void paintDueLine(QPainter& painter, const QRectF& area, const DueLine& line, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const auto frame = frameOf(area, line, style);
    const auto places = placesIn(frame, line);
    paintAxes(painter, frame, line, style);
    for (std::size_t i = 0; i < places.size(); ++i) {
        const auto& bar = line.bars[i];
        const auto color = bar.amount < 0 ? palette.well : bar.late ? palette.wrong : palette.series[0];
        painter.fillRect(places[i], palette.sheet);
        painter.fillRect(places[i], bar.amount < 0 ? QBrush{color, Qt::Dense5Pattern} : bar.late ? QBrush{color, Qt::BDiagPattern} : QBrush{color});
        const bool chosen = line.chosen == i;
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen{color, 1});
        painter.drawRect(places[i].adjusted(0.5, 0.5, -0.5, -0.5));
        if (chosen) {
            painter.setPen(QPen{palette.ink, 1.5});
            painter.drawRect(places[i].adjusted(-2.5, -2.5, 2.5, 2.5));
        }
    }
    paintNames(painter, frame, line, places, style);
}

}

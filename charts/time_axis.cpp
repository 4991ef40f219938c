#include "time_axis.h"

#include "season/season.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>

namespace strikeoff {

std::vector<Date> TimeAxis::months() const
{
    std::vector<Date> months;
    for (auto month = firstOfMonth(from); month <= to; month = monthsOn(month, 1)) months.push_back(month);
    return months;
}

TimeAxis timeAxis(Date from, Date to, double left, double right)
{
    return {firstOfMonth(std::min(from, to)), lastOfMonth(std::max(from, to)), left, std::max(right, left + 10)};
}

std::vector<std::size_t> labelledMonths(const std::vector<Date>& months, double width, double least)
{
    if (months.empty()) return {};
    const double each = width / static_cast<double>(months.size());
    int step = 12;
    for (const int candidate : {1, 2, 3, 6})
        if (each * candidate >= least) {
            step = candidate;
            break;
        }
    // Beyond a label a year, every second, fifth or tenth year keeps its own.
    int years = 1;
    for (const int candidate : {1, 2, 5, 10})
        if (years = candidate; each * 12 * candidate >= least) break;
    std::vector<std::size_t> labelled;
    for (std::size_t i = 0; i < months.size(); ++i)
        if ((months[i].month() - 1) % step == 0 && (step < 12 || months[i].year() % years == 0)) labelled.push_back(i);
    if (labelled.empty()) labelled.push_back(0);
    return labelled;
}

QString monthLabel(Date month)
{
    const auto text = shownMonth(month);
    const auto name = QString::fromStdString(text.substr(0, 3));
    return month.month() == 1 ? name + QStringLiteral(" \u2019%1").arg(month.year() % 100, 2, 10, QLatin1Char{'0'}) : name;
}

void paintSeasonBands(QPainter& painter, const QRectF& plot, const TimeAxis& axis, bool southern, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    auto band = palette.line;
    band.setAlphaF(palette.dark ? 0.45F : 0.32F);
    painter.setFont(style.small);
    const auto months = axis.months();
    const bool named = axis.monthWidth() * 3 > small.horizontalAdvance(QStringLiteral("Summer")) + 6;
    for (std::size_t i = 0; i < months.size();) {
        const auto season = seasonOf(months[i], southern);
        std::size_t end = i;
        while (end < months.size() && seasonOf(months[end], southern) == season) ++end;
        const double left = axis.x(months[i]) - 0.5 * (axis.right - axis.left) / (axis.to - axis.from + 1);
        const double right = end < months.size() ? axis.x(months[end]) - 0.5 * (axis.right - axis.left) / (axis.to - axis.from + 1) : axis.right;
        const QRectF strip{left, plot.top(), right - left, plot.height()};
        if (season == Season::winter || season == Season::summer) painter.fillRect(strip, band);
        const auto label = labelOf(season);
        const auto name = QString::fromUtf8(label.data(), static_cast<qsizetype>(label.size()));
        painter.setPen(palette.quiet);
        if (named && strip.width() > small.horizontalAdvance(name) + 4) painter.drawText(strip.adjusted(0, 2, 0, 0), Qt::AlignHCenter | Qt::AlignTop, name);
        i = end;
    }
}

void paintMonthLabels(QPainter& painter, double top, const TimeAxis& axis, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    const auto months = axis.months();
    painter.setFont(style.small);
    for (const auto i : labelledMonths(months, axis.right - axis.left, small.horizontalAdvance(QStringLiteral("Jan \u201900")) + 10)) {
        const double x = axis.middleOf(months[i]);
        painter.setPen(QPen{palette.quiet, 1});
        painter.drawLine(QPointF{x, top}, QPointF{x, top + 3});
        painter.drawText(QRectF{x - 40, top + 4, 80, small.height()}, Qt::AlignHCenter | Qt::AlignTop, monthLabel(months[i]));
    }
}

}

#include "pages/visits/day_strip.h"

#include "labels.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>

namespace strikeoff {

namespace {

QString words(const char* text) { return QCoreApplication::translate("DayStrip", text); }

double headHeight(const ChartStyle& style) { return 3 * QFontMetricsF{style.small}.height() + 10; }
double rowHeight(const ChartStyle& style) { return QFontMetricsF{style.small}.height() + 6; }

const DayForecast* forecastOf(const Book& book, Date day)
{
    for (const auto& forecast : book.all<DayForecast>())
        if (forecast.date == day) return &forecast;
    return nullptr;
}

}

double heightOfStrip(std::size_t visits, const ChartStyle& style) { return headHeight(style) + rowHeight(style) * static_cast<double>(std::max<std::size_t>(visits, 1)) + 4; }

void paintDayStrip(QPainter& painter, const QRectF& area, const Book& book, const std::vector<VisitRow>& visits, Date today, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    const double nameWidth = std::clamp(area.width() * 0.2, 140.0, 260.0);
    const double dayWidth = (area.width() - nameWidth) / stripDays;
    const auto x = [&](int day) { return area.left() + nameWidth + dayWidth * day; };
    painter.setFont(style.small);
    for (int i = 0; i < stripDays; ++i) {
        const auto day = today + i;
        const QRectF column{x(i), area.top(), dayWidth, area.height()};
        const auto* forecast = forecastOf(book, day);
        if (!forecast) painter.fillRect(column, QBrush{palette.line, Qt::BDiagPattern});
        painter.setPen(QPen{palette.line, 1});
        painter.drawLine(column.topLeft(), column.bottomLeft());
        double y = column.top();
        const auto line = [&](const QString& text, const QColor& color) {
            painter.setPen(color);
            painter.drawText(QRectF{column.left() + 2, y, dayWidth - 4, small.height()}, Qt::AlignHCenter | Qt::AlignTop, small.elidedText(text, Qt::ElideRight, dayWidth - 4));
            y += small.height();
        };
        const auto name = day.shownShort();  // "Wed Nov 25"
        line(dayWidth > small.horizontalAdvance(QStringLiteral("Wed 25")) + 6 ? qs(name.substr(0, 3)) + QStringLiteral(" %1").arg(day.day()) : QString::number(day.day()), palette.ink);
        if (!forecast || !forecast->lowF || !forecast->highF) {
            line(forecast ? QStringLiteral("\u2013") : words("unknown"), palette.quiet);
        } else {
            line(QStringLiteral("%1\u2013%2\u00b0").arg(*forecast->lowF).arg(*forecast->highF), *forecast->highF < 40 ? palette.attention : palette.quiet);
        }
        if (forecast && forecast->rainChance) line(words("rain %1%").arg(*forecast->rainChance), *forecast->rainChance >= 50 ? palette.attention : palette.quiet);
    }
    double y = area.top() + headHeight(style);
    for (const auto& row : visits) {
        if (y + rowHeight(style) > area.bottom() + 1) break;
        const auto& visit = *row.visit;
        const auto tone = row.state == VisitState::tooLate || row.state == VisitState::late ? palette.wrong : row.state == VisitState::due ? palette.attention : palette.accent;
        painter.setPen(palette.ink);
        const auto name = qs(labelOf(visit.kind)) + QStringLiteral(" \u00b7 ") + qs(row.place);
        painter.drawText(QRectF{area.left(), y, nameWidth - 8, rowHeight(style)}, Qt::AlignLeft | Qt::AlignVCenter, small.elidedText(name, Qt::ElideRight, nameWidth - 8));
        // Bars run by the hour; without an end they run off the strip.
        const auto daysFrom = [&](Moment moment) { return std::clamp(static_cast<double>((moment - Moment::startOf(today)).count()) / 1440, 0.0, static_cast<double>(stripDays)); };
        const auto& window = row.window;
        const double from = window.notBefore ? daysFrom(*window.notBefore) : 0;
        const auto last = window.tooLate ? window.tooLate : window.due;
        const double to = last ? daysFrom(*last) : stripDays;
        const bool isLate = row.state == VisitState::tooLate || row.state == VisitState::late;
        if (isLate) {
            painter.setPen(palette.wrong);
            painter.drawText(QRectF{x(0) + 4, y, dayWidth * 4, rowHeight(style)}, Qt::AlignLeft | Qt::AlignVCenter, row.state == VisitState::tooLate ? words("too late") : words("late"));
        } else if (to > from) {
            auto fill = tone;
            fill.setAlphaF(0.25F);
            const QRectF bar{x(0) + dayWidth * from + 1, y + 3, std::max(dayWidth * (to - from) - 2, 3.0), rowHeight(style) - 6};
            painter.setBrush(fill);
            painter.setPen(QPen{tone, 1, window.estimated ? Qt::DashLine : Qt::SolidLine});
            painter.drawRoundedRect(bar, 3, 3);
            if (window.due && window.tooLate)
                if (const double due = daysFrom(*window.due); due > 0 && due < stripDays) painter.drawLine(QPointF{x(0) + dayWidth * due, bar.top()}, QPointF{x(0) + dayWidth * due, bar.bottom()});
        }
        if (visit.plannedOn)
            if (const int planned = *visit.plannedOn - today; planned >= 0 && planned < stripDays) {
                painter.setBrush(tone);
                painter.setPen(QPen{tone, 1});
                painter.drawEllipse(QPointF{x(planned) + dayWidth / 2, y + rowHeight(style) / 2}, 4, 4);
            }
        y += rowHeight(style);
    }
    if (visits.empty()) {
        painter.setPen(palette.quiet);
        painter.drawText(QRectF{area.left(), y, nameWidth - 8, rowHeight(style)}, Qt::AlignLeft | Qt::AlignVCenter, words("no open visit"));
    }
}

}

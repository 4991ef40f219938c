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
        const int from = visit.notBefore ? std::clamp(*visit.notBefore - today, 0, stripDays) : 0;
        const auto last = visit.tooLate ? visit.tooLate : visit.due ? std::optional{*visit.due + 1} : std::nullopt;
        const int to = last ? std::clamp(*last - today, 0, stripDays) : stripDays;
        const bool isLate = row.state == VisitState::tooLate || row.state == VisitState::late;
        if (isLate) {
            painter.setPen(palette.wrong);
            painter.drawText(QRectF{x(0) + 4, y, dayWidth * 4, rowHeight(style)}, Qt::AlignLeft | Qt::AlignVCenter, row.state == VisitState::tooLate ? words("too late") : words("late"));
        } else if (to > from) {
            auto fill = tone;
            fill.setAlphaF(0.25F);
            const QRectF bar{x(from) + 2, y + 3, dayWidth * (to - from) - 4, rowHeight(style) - 6};
            painter.setBrush(fill);
            painter.setPen(QPen{tone, 1});
            painter.drawRoundedRect(bar, 3, 3);
            if (visit.due)
                if (const int due = *visit.due - today; due >= 0 && due < stripDays) painter.drawLine(QPointF{x(due + 1) - 2, bar.top()}, QPointF{x(due + 1) - 2, bar.bottom()});
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

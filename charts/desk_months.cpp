#include "desk_months.h"

#include "time_axis.h"

#include <QCoreApplication>
#include <QPainter>

#include <algorithm>

namespace strikeoff {

namespace {

QString words(const char* text) { return QCoreApplication::translate("DeskMonths", text); }
QString text(const std::string& from) { return QString::fromStdString(from); }

}

void paintDeskMonths(QPainter& painter, const QRectF& area, const std::vector<DeskMonth>& months, const ChartStyle& style)
{
    if (months.empty()) return;
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small}, body{style.body};
    const double width = area.width() / static_cast<double>(months.size());
    double most = 1;
    for (const auto& month : months) most = std::max(most, month.yards.toDouble());
    const double room = std::max(12.0, area.height() - 3 * small.height() - body.height() - 6);
    for (std::size_t i = 0; i < months.size(); ++i) {
        const auto& month = months[i];
        const double left = area.left() + static_cast<double>(i) * width;
        const double height = month.yards.toDouble() / most * room;
        painter.fillRect(QRectF{left + width * 0.2, area.top() + room - height, width * 0.6, height}, palette.series[0]);
        double y = area.top() + room + 2;
        const auto line = [&](const QString& what, const QFont& font, const QColor& color) {
            painter.setFont(font);
            painter.setPen(color);
            const QFontMetricsF metrics{font};
            painter.drawText(QRectF{left, y, width, metrics.height()}, Qt::AlignHCenter | Qt::AlignTop, metrics.elidedText(what, Qt::ElideRight, width - 2));
            y += metrics.height();
        };
        line(monthLabel(month.month), style.body, palette.ink);
        line(month.loads == 0 ? QStringLiteral("\u2013") : words("%1 ld, %2 yd\u00b3").arg(month.loads).arg(text(month.yards.shown(0))), style.small, palette.quiet);
        line(month.loads == 0 ? QString{} : text("$" + (month.billed + month.expected).shown(0)), style.small, palette.quiet);
        if (month.open > 0) line(words("%1 open").arg(month.open), style.small, palette.wrong);
        else if (month.notBilled > 0) line(words("%1 not billed").arg(month.notBilled), style.small, palette.attention);
    }
}

}

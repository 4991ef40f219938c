#include "chart_view.h"

#include "theme.h"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>

namespace strikeoff {

ChartStyle windowChartStyle() { return {&windowPalette(), textFont(TextSize::body), textFont(TextSize::small)}; }

ChartView::ChartView(const QString& name, QWidget* parent) : QWidget{parent}
{
    setObjectName(name);
    setAccessibleName(name);
    setMinimumHeight(grid(40));
}

void ChartView::show(Paint paint, const QString& inWords)
{
    paint_ = std::move(paint);
    setAccessibleDescription(inWords);
    update();
}

void ChartView::setSpots(SpotAt spotAt)
{
    spotAt_ = std::move(spotAt);
    setMouseTracking(true);
}

QRectF ChartView::area() const { return QRectF{rect()}.adjusted(grid(4), grid(3), -grid(4), -grid(3)); }

std::optional<ChartSpot> ChartView::spot(const QPointF& point) const { return spotAt_ ? spotAt_(point, area(), windowChartStyle()) : std::nullopt; }

bool ChartView::event(QEvent* event)
{
    if (event->type() == QEvent::ToolTip && spotAt_) {
        const auto* help = static_cast<QHelpEvent*>(event);
        // Escaped, so that a name that looks like markup stays the text it is.
        if (const auto there = spot(help->pos())) QToolTip::showText(help->globalPos(), QStringLiteral("<p style='white-space:pre'>%1</p>").arg(there->tip.toHtmlEscaped()), this);
        else QToolTip::hideText();
        return true;
    }
    return QWidget::event(event);
}

void ChartView::mouseMoveEvent(QMouseEvent* event)
{
    const auto there = spot(event->position());
    setCursor(there && there->act ? Qt::PointingHandCursor : Qt::ArrowCursor);
    QWidget::mouseMoveEvent(event);
}

void ChartView::mouseReleaseEvent(QMouseEvent* event)
{
    if (event->button() == Qt::LeftButton)
        if (const auto there = spot(event->position()); there && there->act) return there->act();
    QWidget::mouseReleaseEvent(event);
}

void ChartView::paintEvent(QPaintEvent*)
{
    QPainter painter{this};
    const auto& palette = windowPalette();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{palette.line, 1});
    painter.setBrush(palette.sheet);
    painter.drawRoundedRect(QRectF{rect()}.adjusted(0.5, 0.5, -0.5, -0.5), cornerRadius, cornerRadius);
    if (paint_) paint_(painter, area(), windowChartStyle());
}

}

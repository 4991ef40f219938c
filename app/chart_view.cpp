#include "chart_view.h"

#include "theme.h"

#include <QPainter>

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

void ChartView::paintEvent(QPaintEvent*)
{
    QPainter painter{this};
    const auto& palette = windowPalette();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{palette.line, 1});
    painter.setBrush(palette.sheet);
    painter.drawRoundedRect(QRectF{rect()}.adjusted(0.5, 0.5, -0.5, -0.5), cornerRadius, cornerRadius);
    if (paint_) paint_(painter, QRectF{rect()}.adjusted(grid(4), grid(3), -grid(4), -grid(3)), windowChartStyle());
}

}

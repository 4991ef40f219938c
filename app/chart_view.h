#pragma once

#include <QWidget>

#include "axis.h"

#include <functional>
#include <optional>

namespace strikeoff {

/// The style charts are drawn in on the screen now.
ChartStyle windowChartStyle();

/// A place in a picture: what it says when the mouse rests on it, and what a click does.
struct ChartSpot {
    QString tip;
    std::function<void()> act = {};
};

/// A widget that a painter draws into, on the sheet's colour; what it shows is also said in words for a screen reader.
class ChartView : public QWidget {
    Q_OBJECT
public:
    using Paint = std::function<void(QPainter&, const QRectF&, const ChartStyle&)>;
    using SpotAt = std::function<std::optional<ChartSpot>(const QPointF&, const QRectF&, const ChartStyle&)>;
    explicit ChartView(const QString& name, QWidget* parent = nullptr);
    void show(Paint paint, const QString& inWords = {});
    /// What stands at a point of the area painted into; nothing where there is nothing.
    void setSpots(SpotAt spotAt);
    /// The area painted into.
    QRectF area() const;

protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;

private:
    std::optional<ChartSpot> spot(const QPointF& point) const;

    Paint paint_;
    SpotAt spotAt_;
};

}

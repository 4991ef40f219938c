#pragma once

#include <QWidget>

#include "axis.h"

#include <functional>

namespace strikeoff {

/// The style charts are drawn in on the screen now.
ChartStyle windowChartStyle();

/// A widget that a painter draws into, on the sheet's colour; what it shows is also said in words for a screen reader.
class ChartView : public QWidget {
    Q_OBJECT
public:
    using Paint = std::function<void(QPainter&, const QRectF&, const ChartStyle&)>;
    explicit ChartView(const QString& name, QWidget* parent = nullptr);
    void show(Paint paint, const QString& inWords = {});

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Paint paint_;
};

}

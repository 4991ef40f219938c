#pragma once

#include "chart_view.h"
#include "pages/visits/plan_pictures.h"

namespace strikeoff {

/// The plan's days with a row a visit. A click chooses a visit and a day; a stop is dragged to another day, or moved by Shift with the arrow keys.
class StripView : public ChartView {
    Q_OBJECT
public:
    explicit StripView(const QString& name, QWidget* parent = nullptr);
    void setStrip(WindowStrip strip, const QString& inWords);
    const WindowStrip& strip() const { return strip_; }
    void choose(std::optional<std::size_t> row, std::optional<int> day);

signals:
    void rowChosen(std::size_t row);
    void dayChosen(int day);
    void movedTo(std::size_t row, int day);

protected:
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void fitHeight();
    WindowStrip strip_;
    std::optional<std::size_t> pressed_;
    bool dragging_ = false;
    QPointF pressedAt_;
};

}

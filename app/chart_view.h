#pragma once

#include <QPixmap>
#include <QWidget>

#include "chart_file.h"
#include "desk.h"

#include <functional>
#include <optional>

class QMenu;
class QToolButton;

namespace strikeoff {

/// The style charts are drawn in on the screen now.
ChartStyle windowChartStyle();

/// A place in a picture: what it says when the mouse rests on it, and what a click does.
struct ChartSpot {
    QString tip;
    std::function<void()> act = {};
};

/// A widget that shows a chart on the sheet's colour: with its name, a word about what is under the mouse, a click that opens it, the same by arrow keys and
/// Enter, and a way to keep it as a file. It also takes a bare painter, for what has no name and numbers. What it shows is said in words for a screen reader.
class ChartView : public QWidget {
    Q_OBJECT
public:
    using Paint = std::function<void(QPainter&, const QRectF&, const ChartStyle&)>;
    using SpotAt = std::function<std::optional<ChartSpot>(const QPointF&, const QRectF&, const ChartStyle&)>;
    explicit ChartView(const QString& name, QWidget* parent = nullptr);

    /// Shows a chart. With a desk, stops open their records and "Keep picture" asks where to put the file.
    void show(Chart chart, Desk* desk = nullptr);
    /// The chart in view; nullptr while there is none.
    const Chart* chart() const { return chart_ ? &*chart_ : nullptr; }
    /// Height that the chart in view needs at a width; 0 when any will do.
    int heightFor(int width) const;

    void show(Paint paint, const QString& inWords = {});
    /// What stands at a point of the area painted into; nothing where there is nothing.
    void setSpots(SpotAt spotAt);
    /// The area painted into.
    QRectF area() const;

    /// Keeps the chart in view as a file, asking for its name unless one is given. False when it was not written.
    bool keep(ChartFormat format, const QString& path = {});

    /// The stop the arrow keys are at.
    std::optional<ChartStop> currentStop() const;

signals:
    /// Asked to open a record by click or Enter.
    void opened(strikeoff::RecordRef record);

protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;

private:
    std::optional<ChartSpot> spot(const QPointF& point) const;
    void step(int rows, int places);
    void sayStop();
    void open(const ChartStop& stop);
    void fillKeepMenu(QMenu& menu);

    std::optional<Chart> chart_;
    Desk* desk_ = nullptr;
    QToolButton* keep_ = nullptr;
    const Palette* drawnWith_ = nullptr;
    QPixmap drawn_;          ///< the chart as last painted, so that a step or a glance does not paint it anew
    std::size_t row_ = 0, place_ = 0;
    bool stepping_ = false;  ///< the arrow keys were used since the focus came
    Paint paint_;
    SpotAt spotAt_;
};

}

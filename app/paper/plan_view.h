#pragma once

#include <QAbstractScrollArea>

#include "paper/paper_document.h"
#include "paper/paper_layout.h"

namespace strikeoff {

/// A takeoff's plan in the window, laid out as it is on paper: to scale, with dimensions and joints. One shape can stand out, and a click names a shape.
class PlanView : public QAbstractScrollArea {
    Q_OBJECT
public:
    explicit PlanView(QWidget* parent = nullptr);

    /// Shows a plan; `marked` is the place of the shape that stands out, -1 for none.
    void setPlan(PaperPlan plan, int marked);
    /// Words where there is nothing to draw.
    void setEmptyText(const QString& text);

    /// All texts of the drawing in the order they were placed, a line each.
    QString text() const;
    /// Where a shape is drawn, in the viewport; empty for one that is not.
    QRectF placeOf(int shape) const;

signals:
    void shapeClicked(int shape);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;

private:
    void arrange();
    double dotsPerPixel() const;

    PaperPlan plan_;
    int marked_ = -1;
    QString emptyText_;
    PaperFonts fonts_;
    std::vector<Placed> items_;
    std::vector<QRectF> shapes_;  ///< in dots, in the order of the plan
};

}

#include "paper/plan_view.h"

#include "labels.h"
#include "paper/page_drawer.h"
#include "paper/paper_flow.h"

#include <QFontInfo>
#include <QMouseEvent>
#include <QPainter>
#include <QScrollBar>

namespace strikeoff {

namespace {

constexpr double smallPoints = 9;             // what small text has on paper
constexpr double leastHeight = 2.2 * dotsPerInch;  // a plan in less is scrolled, not crushed

}

PlanView::PlanView(QWidget* parent) : QAbstractScrollArea{parent}
{
    setFocusPolicy(Qt::NoFocus);  // what it shows is in the list and the form as well
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setAccessibleName(tr("Takeoff drawn to scale"));
    setMinimumHeight(grid(40));
    viewport()->setAutoFillBackground(false);
}

void PlanView::setPlan(PaperPlan plan, int marked)
{
    plan_ = std::move(plan);
    marked_ = marked;
    arrange();
}

void PlanView::setEmptyText(const QString& text)
{
    emptyText_ = text;
    viewport()->update();
}

/// Small text is as large here as it is in the rest of the window.
double PlanView::dotsPerPixel() const { return points(smallPoints) / QFontInfo{textFont(TextSize::small)}.pixelSize(); }

void PlanView::arrange()
{
    items_.clear();
    shapes_.clear();
    const double scale = dotsPerPixel();
    const double edge = points(4);
    const QSizeF room = QSizeF{viewport()->size()} * scale - QSizeF{2 * edge, 2 * edge};
    Composer composer{fonts_, std::max(room.width(), 2.0 * dotsPerInch)};
    const double bar = points(26);
    composer.addPlan(plan_, std::max(room.height() - bar, leastHeight));
    double y = 0;
    for (auto& chunk : composer.chunks()) {
        if (y > 0) y += chunk.before;
        for (auto& item : chunk.items) {
            std::visit([&](auto& placed) {
                using Kind = std::decay_t<decltype(placed)>;
                const QPointF by{edge, edge + y};
                if constexpr (std::is_same_v<Kind, PlacedText>) placed.at += by;
                else if constexpr (std::is_same_v<Kind, PlacedLine>) placed.line.translate(by);
                else if constexpr (std::is_same_v<Kind, PlacedShape>) placed.outline.translate(by);
                else placed.place.translate(by);
            }, item);
            if (const auto* shape = std::get_if<PlacedShape>(&item)) shapes_.push_back(shape->outline.boundingRect());
            items_.push_back(std::move(item));
        }
        y += chunk.height;
    }
    const int hidden = static_cast<int>((y + 2 * edge) / scale) - viewport()->height();
    verticalScrollBar()->setRange(0, std::max(hidden, 0));
    verticalScrollBar()->setPageStep(viewport()->height());
    verticalScrollBar()->setSingleStep(grid(6));
    viewport()->update();
}

QString PlanView::text() const
{
    PaperPage page;
    page.items = items_;
    return page.text();
}

QRectF PlanView::placeOf(int shape) const
{
    if (shape < 0 || static_cast<std::size_t>(shape) >= shapes_.size()) return {};
    const auto& dots = shapes_[static_cast<std::size_t>(shape)];
    const double scale = dotsPerPixel();
    return QRectF{dots.topLeft() / scale, dots.size() / scale}.translated(0, -verticalScrollBar()->value());
}

void PlanView::paintEvent(QPaintEvent*)
{
    QPainter painter{viewport()};
    if (items_.empty()) {
        painter.setPen(toneColor(Tone::quiet));
        painter.drawText(viewport()->rect().adjusted(grid(4), grid(4), -grid(4), -grid(4)), Qt::AlignCenter | Qt::TextWordWrap, emptyText_);
        return;
    }
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(0, -verticalScrollBar()->value());
    painter.scale(1 / dotsPerPixel(), 1 / dotsPerPixel());
    PageDrawer drawer{painter, fonts_, toneColor(Tone::plain)};
    PageDrawer strong{painter, fonts_, toneColor(Tone::accent)};
    int shape = -1;
    for (const auto& item : items_) {
        const auto* outline = std::get_if<PlacedShape>(&item);
        if (outline && ++shape == marked_) {
            auto ground = toneColor(Tone::accent);
            ground.setAlphaF(0.12F);
            painter.setPen(Qt::NoPen);
            painter.setBrush(ground);
            painter.drawPolygon(outline->outline);
            painter.setBrush(Qt::NoBrush);
            auto marked = *outline;
            marked.thickness *= 1.6;
            strong(marked);
            continue;
        }
        std::visit(drawer, item);
    }
}

void PlanView::resizeEvent(QResizeEvent* event)
{
    QAbstractScrollArea::resizeEvent(event);
    arrange();
}

void PlanView::mouseReleaseEvent(QMouseEvent* event)
{
    for (std::size_t i = 0; i < shapes_.size(); ++i)
        if (placeOf(static_cast<int>(i)).contains(event->position())) return emit shapeClicked(static_cast<int>(i));
    QAbstractScrollArea::mouseReleaseEvent(event);
}

}

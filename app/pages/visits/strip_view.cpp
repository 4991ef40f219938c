#include "pages/visits/strip_view.h"

#include <QApplication>
#include <QKeyEvent>
#include <QMouseEvent>

namespace strikeoff {

StripView::StripView(const QString& name, QWidget* parent) : ChartView{name, parent}
{
    setFocusPolicy(Qt::StrongFocus);
    setSpots([this](const QPointF& point, const QRectF& area, const ChartStyle& style) -> std::optional<ChartSpot> {
        const auto place = stripPlaceAt(point, area, strip_, style);
        if (place.row) return ChartSpot{strip_.rows[*place.row].tip, [] {}};
        if (place.day) return ChartSpot{strip_.days[static_cast<std::size_t>(*place.day)].tip, [] {}};
        return {};
    });
}

void StripView::setStrip(WindowStrip strip, const QString& inWords)
{
    strip_ = std::move(strip);
    pressed_.reset();
    dragging_ = false;
    fitHeight();
    show([this](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintWindowStrip(painter, area, strip_, style); }, inWords);
}

void StripView::fitHeight()
{
    const auto style = windowChartStyle();
    setMinimumHeight(static_cast<int>(headOfStrip(style) + rowOfStrip(style) * static_cast<double>(std::max<std::size_t>(strip_.rows.size(), 1))) + grid(7));
}

void StripView::choose(std::optional<std::size_t> row, std::optional<int> day)
{
    strip_.chosen = row;
    strip_.chosenDay = day;
    update();
}

void StripView::mousePressEvent(QMouseEvent* event)
{
    pressed_.reset();
    dragging_ = false;
    if (event->button() == Qt::LeftButton) {
        const auto place = stripPlaceAt(event->position(), area(), strip_, windowChartStyle());
        pressed_ = place.row;
        pressedAt_ = event->position();
        if (place.row) emit rowChosen(*place.row);
        else if (place.day) emit dayChosen(*place.day);
        setFocus(Qt::MouseFocusReason);
    }
    ChartView::mousePressEvent(event);
}

void StripView::mouseMoveEvent(QMouseEvent* event)
{
    if (pressed_ && event->buttons().testFlag(Qt::LeftButton) && (event->position() - pressedAt_).manhattanLength() >= QApplication::startDragDistance()) dragging_ = true;
    if (dragging_) {
        const auto day = stripPlaceAt({event->position().x(), area().top() + 1}, area(), strip_, windowChartStyle()).day;
        if (day != strip_.dropDay) {
            strip_.dropDay = day;
            update();
        }
        setCursor(Qt::ClosedHandCursor);
        return;
    }
    ChartView::mouseMoveEvent(event);
}

void StripView::mouseReleaseEvent(QMouseEvent* event)
{
    const auto row = pressed_;
    const auto day = strip_.dropDay;
    const bool dropped = dragging_ && row && day;
    pressed_.reset();
    dragging_ = false;
    strip_.dropDay.reset();
    unsetCursor();
    update();
    if (dropped) emit movedTo(*row, *day);
    else ChartView::mouseReleaseEvent(event);
}

void StripView::keyPressEvent(QKeyEvent* event)
{
    const auto rows = strip_.rows.size();
    const int days = static_cast<int>(strip_.days.size());
    const int key = event->key();
    if (rows > 0 && (key == Qt::Key_Up || key == Qt::Key_Down)) {
        const auto now = strip_.chosen.value_or(key == Qt::Key_Down ? rows - 1 : 0);
        emit rowChosen(key == Qt::Key_Down ? (now + 1) % rows : (now + rows - 1) % rows);
        return;
    }
    if (days > 0 && (key == Qt::Key_Left || key == Qt::Key_Right)) {
        const int step = key == Qt::Key_Right ? 1 : -1;
        if (event->modifiers().testFlag(Qt::ShiftModifier) && strip_.chosen) {
            const int to = std::clamp(strip_.rows[*strip_.chosen].day.value_or(step > 0 ? -1 : days) + step, 0, days - 1);
            emit movedTo(*strip_.chosen, to);
        } else {
            emit dayChosen(std::clamp(strip_.chosenDay.value_or(step > 0 ? -1 : days) + step, 0, days - 1));
        }
        return;
    }
    ChartView::keyPressEvent(event);
}

}

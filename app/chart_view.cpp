#include "chart_view.h"

#include "labels.h"
#include "theme.h"

#include <QContextMenuEvent>
#include <QFontMetricsF>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QMenu>
#include <QMouseEvent>
#include <QPainter>
#include <QToolButton>
#include <QToolTip>

#include <algorithm>

namespace strikeoff {

namespace {

constexpr int headHeight = leastTarget + 4;  ///< name and button above a chart

/// Escaped, so that a name that looks like markup stays the text it is.
QString asTip(const QString& text) { return QStringLiteral("<p style='white-space:pre'>%1</p>").arg(text.toHtmlEscaped()); }

}

ChartStyle windowChartStyle() { return {&windowPalette(), textFont(TextSize::body), textFont(TextSize::small)}; }

ChartView::ChartView(const QString& name, QWidget* parent) : QWidget{parent}
{
    setObjectName(name);
    setAccessibleName(name);
    setMinimumHeight(grid(40));
}

void ChartView::show(Chart chart, Desk* desk)
{
    desk_ = desk;
    setAccessibleDescription(chart.inWords);
    chart_ = std::move(chart);
    row_ = place_ = 0;
    drawn_ = {};
    setMouseTracking(true);
    setFocusPolicy(chart_->stopRows.empty() ? Qt::NoFocus : Qt::StrongFocus);
    if (desk_ && !keep_) {
        keep_ = new QToolButton{this};
        keep_->setObjectName(QStringLiteral("keepPicture"));
        keep_->setText(tr("Keep picture\u2026"));
        keep_->setPopupMode(QToolButton::InstantPopup);
        auto* menu = new QMenu{keep_};
        fillKeepMenu(*menu);
        keep_->setMenu(menu);
        keep_->setFixedHeight(leastTarget);
    }
    if (keep_) {
        keep_->setAccessibleName(tr("Keep picture of %1").arg(chart_->name));
        keep_->adjustSize();
        keep_->move(width() - keep_->width() - grid(2), grid(1));
        keep_->QWidget::show();
    }
    update();
}

int ChartView::heightFor(int width) const
{
    if (!chart_ || !chart_->heightFor) return 0;
    return static_cast<int>(chart_->heightFor(width - 2 * grid(4), windowChartStyle())) + headHeight + 2 * grid(3) + grid(1);
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

QRectF ChartView::area() const { return QRectF{rect()}.adjusted(grid(4), grid(3) + (chart_ ? headHeight : 0), -grid(4), -grid(3)); }

std::optional<ChartStop> ChartView::currentStop() const
{
    if (!chart_ || row_ >= chart_->stopRows.size() || place_ >= chart_->stopRows[row_]) return std::nullopt;
    return chart_->stop(row_, place_, area(), windowChartStyle());
}

std::optional<ChartSpot> ChartView::spot(const QPointF& point) const
{
    if (!chart_) return spotAt_ ? spotAt_(point, area(), windowChartStyle()) : std::nullopt;
    auto stop = chart_->stopAt ? chart_->stopAt(point, area(), windowChartStyle()) : std::nullopt;
    if (!stop) return std::nullopt;
    ChartSpot spot{stop->tip};
    if (stop->id != 0 && stop->kind != noKind) spot.act = [this, stop = *stop] { const_cast<ChartView*>(this)->open(stop); };
    return spot;
}

void ChartView::open(const ChartStop& stop)
{
    if (stop.id == 0 || stop.kind == noKind) return;
    QToolTip::hideText();
    const RecordRef record{stop.kind, stop.id};
    emit opened(record);
    if (desk_) desk_->open(record);
}

void ChartView::fillKeepMenu(QMenu& menu)
{
    for (const auto& spec : chartFormats) {
        auto* action = menu.addAction(tr(spec.words));
        action->setObjectName(QLatin1String{spec.ending});
        connect(action, &QAction::triggered, this, [this, format = spec.format] { keep(format); });
    }
}

bool ChartView::keep(ChartFormat format, const QString& path)
{
    if (!chart_ || !desk_) return false;
    const auto& spec = *std::ranges::find(chartFormats, format, &ChartFormatSpec::format);
    const auto ending = QLatin1String{spec.ending};
    return desk_->saveFile(tr("Keep %1").arg(chart_->name), fileNameOf(chart_->name) + u'.' + ending, QStringLiteral("%1 (*.%2)").arg(tr(spec.words), ending), bytesOf(*chart_, format), path);
}

void ChartView::contextMenuEvent(QContextMenuEvent* event)
{
    if (!chart_ || !desk_) return QWidget::contextMenuEvent(event);
    QMenu menu{this};
    const auto stop = event->reason() == QContextMenuEvent::Mouse ? chart_->stopAt ? chart_->stopAt(event->pos(), area(), windowChartStyle()) : std::nullopt : currentStop();
    if (stop && stop->id != 0 && stop->kind != noKind) {
        connect(menu.addAction(tr("Open")), &QAction::triggered, this, [this, stop = *stop] { open(stop); });
        menu.addSeparator();
    }
    fillKeepMenu(menu);
    menu.exec(event->globalPos());
}

bool ChartView::event(QEvent* event)
{
    if (event->type() == QEvent::ToolTip && (spotAt_ || chart_)) {
        const auto* help = static_cast<QHelpEvent*>(event);
        if (const auto there = spot(help->pos())) QToolTip::showText(help->globalPos(), asTip(there->tip), this);
        else QToolTip::hideText();
        return true;
    }
    return QWidget::event(event);
}

void ChartView::mouseMoveEvent(QMouseEvent* event)
{
    const auto there = spot(event->position());
    setCursor(there && there->act ? Qt::PointingHandCursor : Qt::ArrowCursor);
    if (chart_) {
        if (there) QToolTip::showText(event->globalPosition().toPoint(), asTip(there->tip), this);
        else QToolTip::hideText();
    }
    QWidget::mouseMoveEvent(event);
}

void ChartView::mouseReleaseEvent(QMouseEvent* event)
{
    if (event->button() == Qt::LeftButton)
        if (const auto there = spot(event->position()); there && there->act) return there->act();
    QWidget::mouseReleaseEvent(event);
}

void ChartView::step(int rows, int places)
{
    const auto& all = chart_->stopRows;
    const auto last = all.size() - 1;
    if (rows != 0) {
        // To the stop of the other row that stands nearest, so that up and down stay at the same month.
        const auto from = currentStop();
        const auto row = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(row_) + rows, 0, static_cast<std::ptrdiff_t>(last)));
        if (row == row_) return;
        row_ = row;
        place_ = 0;
        if (from && all[row_] > 1) {
            double nearest = 1e12;
            for (std::size_t i = 0; i < std::min<std::size_t>(all[row_], 5000); ++i) {
                const double away = std::abs(chart_->stop(row_, i, area(), windowChartStyle()).place.center().x() - from->place.center().x());
                if (away < nearest) {
                    nearest = away;
                    place_ = i;
                }
            }
        }
    } else if (all.size() > 1 && std::ranges::all_of(all, [](std::size_t count) { return count == 1; })) return step(places, 0);  // a list has no left and right
    else place_ = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(place_) + places, 0, static_cast<std::ptrdiff_t>(all[row_]) - 1));
    sayStop();
}

void ChartView::sayStop()
{
    stepping_ = true;
    update();
    const auto stop = currentStop();
    if (!stop) return;
    setAccessibleDescription(stop->tip);
    QToolTip::showText(mapToGlobal(QPoint{static_cast<int>(stop->place.right()) + 8, static_cast<int>(stop->place.center().y())}), asTip(stop->tip), this);
}

void ChartView::keyPressEvent(QKeyEvent* event)
{
    if (!chart_ || chart_->stopRows.empty()) return QWidget::keyPressEvent(event);
    switch (event->key()) {
    case Qt::Key_Left: return step(0, -1);
    case Qt::Key_Right: return step(0, 1);
    case Qt::Key_Up: return step(-1, 0);
    case Qt::Key_Down: return step(1, 0);
    case Qt::Key_Home: return step(0, -1'000'000'000);
    case Qt::Key_End: return step(0, 1'000'000'000);
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (const auto stop = currentStop()) open(*stop);
        return;
    default: QWidget::keyPressEvent(event);
    }
}

void ChartView::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    update();
}

void ChartView::focusOutEvent(QFocusEvent* event)
{
    QToolTip::hideText();
    stepping_ = false;
    if (chart_) setAccessibleDescription(chart_->inWords);
    QWidget::focusOutEvent(event);
    update();
}

void ChartView::resizeEvent(QResizeEvent* event)
{
    drawn_ = {};
    if (keep_) keep_->move(width() - keep_->width() - grid(2), grid(1));
    QWidget::resizeEvent(event);
}

void ChartView::paintEvent(QPaintEvent*)
{
    QPainter painter{this};
    const auto& palette = windowPalette();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{hasFocus() ? palette.accent : palette.line, 1});
    painter.setBrush(palette.sheet);
    painter.drawRoundedRect(QRectF{rect()}.adjusted(0.5, 0.5, -0.5, -0.5), cornerRadius, cornerRadius);
    if (!chart_) {
        if (paint_) paint_(painter, area(), windowChartStyle());
        return;
    }
    const auto style = windowChartStyle();
    auto strong = style.body;
    strong.setBold(true);
    painter.setFont(strong);
    painter.setPen(palette.ink);
    const double room = width() - 2 * grid(4) - (keep_ ? keep_->width() : 0);
    painter.drawText(QRectF{double{grid(4)}, double{grid(2)}, room, double{leastTarget} - grid(1)}, Qt::AlignLeft | Qt::AlignVCenter,
                     QFontMetricsF{strong}.elidedText(chart_->name, Qt::ElideRight, room));
    if (drawn_.isNull() || drawnWith_ != &palette) {
        const double ratio = devicePixelRatioF();
        drawn_ = QPixmap{(QSizeF{size()} * ratio).toSize()};
        drawn_.setDevicePixelRatio(ratio);
        drawn_.fill(Qt::transparent);
        drawnWith_ = &palette;
        QPainter into{&drawn_};
        chart_->paint(into, area(), style);
    }
    painter.drawPixmap(0, 0, drawn_);
    if (const auto stop = currentStop(); stop && stepping_ && hasFocus()) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen{palette.accent, 2});
        painter.drawRoundedRect(stop->place.intersected(QRectF{rect()}.adjusted(2, 2, -2, -2)), cornerRadius, cornerRadius);
    }
}

}

#include "pages/ticket_desk/check_sheet.h"

#include "chart_view.h"
#include "labels.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QScrollBar>

#include <algorithm>

namespace strikeoff {

namespace {

constexpr double between = 8;

}

CheckSheet::CheckSheet(QWidget* parent) : QAbstractScrollArea{parent}
{
    setObjectName(QStringLiteral("checkSheet"));
    setAccessibleName(tr("Tickets and statement lines facing each other"));
    setFocusPolicy(Qt::StrongFocus);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    verticalScrollBar()->setSingleStep(grid(10));
}

void CheckSheet::show(std::vector<CheckBlock> blocks, double largest)
{
    blocks_ = std::move(blocks);
    largest_ = largest;
    layOut();
}

void CheckSheet::setEmptyText(const QString& text)
{
    emptyText_ = text;
    viewport()->update();
}

void CheckSheet::layOut()
{
    const auto style = windowChartStyle();
    const double width = viewport()->width();
    layouts_.clear();
    tops_.clear();
    double y = 0;
    for (const auto& block : blocks_) {
        layouts_.push_back(layOutFacing(block.block, width, style));
        tops_.push_back(y);
        y += layouts_.back().height + between;
    }
    verticalScrollBar()->setPageStep(viewport()->height());
    verticalScrollBar()->setRange(0, std::max(0, static_cast<int>(y) - viewport()->height()));
    viewport()->update();
}

std::optional<CheckSheet::Place> CheckSheet::placeOf(std::size_t finding) const
{
    for (std::size_t block = 0; block < blocks_.size(); ++block)
        for (std::size_t row = 0; row < blocks_[block].findings.size(); ++row)
            if (blocks_[block].findings[row] == finding) return Place{block, row};
    return std::nullopt;
}

void CheckSheet::setCurrent(std::optional<std::size_t> finding)
{
    current_ = finding;
    viewport()->update();
    const auto place = finding ? placeOf(*finding) : std::nullopt;
    if (!place) return;
    const auto& row = blocks_[place->block].block.rows[place->row];
    setAccessibleDescription(QStringLiteral("%1, %2, %3. %4").arg(blocks_[place->block].block.leftTitle, row.rightWords, row.finding, row.why));
    const double top = tops_[place->block] + layouts_[place->block].rowTops[place->row];
    const double bottom = top + layouts_[place->block].rowHeights[place->row];
    const double from = place->row == 0 ? tops_[place->block] : top;
    auto* bar = verticalScrollBar();
    if (from < bar->value()) bar->setValue(static_cast<int>(from));
    else if (bottom + between > bar->value() + viewport()->height()) bar->setValue(static_cast<int>(bottom + between) - viewport()->height());
}

void CheckSheet::choose(std::size_t finding)
{
    setCurrent(finding);
    emit chosen(finding);
}

void CheckSheet::step(int rows)
{
    std::vector<std::size_t> order;
    for (const auto& block : blocks_)
        for (const auto& finding : block.findings)
            if (finding) order.push_back(*finding);
    if (order.empty()) return;
    const auto at = current_ ? std::ranges::find(order, *current_) : order.end();
    if (at == order.end()) return choose(rows > 0 ? order.front() : order.back());
    const auto next = (at - order.begin()) + rows;
    if (next >= 0 && next < static_cast<std::ptrdiff_t>(order.size())) choose(order[static_cast<std::size_t>(next)]);
}

void CheckSheet::paintEvent(QPaintEvent*)
{
    QPainter painter{viewport()};
    painter.setRenderHint(QPainter::Antialiasing, false);
    const auto style = windowChartStyle();
    painter.fillRect(viewport()->rect(), style.palette->page);
    if (blocks_.empty()) {
        painter.setPen(style.palette->quiet);
        painter.setFont(style.body);
        painter.drawText(viewport()->rect().adjusted(grid(8), grid(8), -grid(8), -grid(8)), Qt::AlignCenter | Qt::TextWordWrap, emptyText_);
        return;
    }
    const double scroll = verticalScrollBar()->value();
    for (std::size_t i = 0; i < blocks_.size(); ++i) {
        const QRectF area{0, tops_[i] - scroll, static_cast<double>(viewport()->width()), layouts_[i].height};
        if (area.bottom() < 0 || area.top() > viewport()->height()) continue;
        int mark = -1;
        for (std::size_t row = 0; row < blocks_[i].findings.size(); ++row)
            if (current_ && blocks_[i].findings[row] == current_) mark = static_cast<int>(row);
        paintFacing(painter, area, blocks_[i].block, layouts_[i], largest_, mark, style);
    }
}

void CheckSheet::resizeEvent(QResizeEvent* event)
{
    QAbstractScrollArea::resizeEvent(event);
    layOut();
}

void CheckSheet::changeEvent(QEvent* event)
{
    QAbstractScrollArea::changeEvent(event);
    if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) layOut();
}

void CheckSheet::keyPressEvent(QKeyEvent* event)
{
    switch (event->key()) {
    case Qt::Key_Down: return step(1);
    case Qt::Key_Up: return step(-1);
    case Qt::Key_PageDown: return verticalScrollBar()->triggerAction(QAbstractSlider::SliderPageStepAdd);
    case Qt::Key_PageUp: return verticalScrollBar()->triggerAction(QAbstractSlider::SliderPageStepSub);
    default: QAbstractScrollArea::keyPressEvent(event);
    }
}

void CheckSheet::mousePressEvent(QMouseEvent* event)
{
    const double y = event->position().y() + verticalScrollBar()->value();
    for (std::size_t i = 0; i < blocks_.size(); ++i)
        for (std::size_t row = 0; row < blocks_[i].findings.size(); ++row) {
            const double top = tops_[i] + layouts_[i].rowTops[row];
            if (y >= top && y < top + layouts_[i].rowHeights[row] && blocks_[i].findings[row]) return choose(*blocks_[i].findings[row]);
        }
}

void CheckSheet::focusInEvent(QFocusEvent* event)
{
    QAbstractScrollArea::focusInEvent(event);
    if (!current_) step(1);
}

}

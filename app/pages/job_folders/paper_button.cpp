#include "pages/job_folders/paper_button.h"

#include "labels.h"
#include "plain_words.h"

#include <QKeyEvent>
#include <QPainter>
#include <QStyle>
#include <QStyleOptionButton>

namespace strikeoff {

namespace {

Tone toneOf(PaperState state)
{
    switch (state) {
    case PaperState::done: return Tone::well;
    case PaperState::inWork: return Tone::attention;
    case PaperState::blank: break;
    }
    return Tone::quiet;
}

int lineHeight(TextSize size) { return QFontMetrics{textFont(size)}.height(); }

}

PaperButton::PaperButton(const QString& name, QWidget* parent) : QPushButton{withoutMnemonic(name), parent}, name_{name}
{
    setObjectName(QStringLiteral("paper"));
    setAutoDefault(false);
    setCheckable(true);
    setRole(*this, "paper");
}

void PaperButton::setPaper(const FolderPaper& paper)
{
    figure_ = qs(paper.figure);
    state_ = paper.state;
    const auto words = name_ + u'\n' + (figure_.isEmpty() ? QString{} : figure_ + u'\n') + qs(labelOf(state_));
    setText(withoutMnemonic(words));
    setAccessibleName(QString{words}.replace(u'\n', QStringLiteral(", ")));
    setToolTip(asPlainTip(paper.detail.empty() ? figure_ : figure_ + QStringLiteral(", ") + qs(paper.detail)));
    update();
}

QSize PaperButton::minimumSizeHint() const { return {grid(22), 2 * lineHeight(TextSize::small) + lineHeight(TextSize::body) + grid(3)}; }

QSize PaperButton::sizeHint() const { return minimumSizeHint(); }

void PaperButton::paintEvent(QPaintEvent*)
{
    QPainter painter{this};
    QStyleOptionButton option;
    initStyleOption(&option);
    option.text.clear();
    style()->drawControl(QStyle::CE_PushButton, &option, &painter, this);

    const auto inside = rect().adjusted(grid(2), 6, -grid(2), -6);
    int y = inside.top();
    const auto line = [&](const QString& text, TextSize size, Tone tone, bool bold, int left) {
        auto font = textFont(size);
        font.setBold(bold);
        painter.setFont(font);
        painter.setPen(toneColor(tone));
        const QRect place{inside.left() + left, y, inside.width() - left, lineHeight(size)};
        painter.drawText(place, Qt::AlignLeft | Qt::AlignVCenter, QFontMetrics{font}.elidedText(text, Qt::ElideRight, place.width()));
        y += lineHeight(size);
    };
    line(name_, TextSize::small, isChecked() ? Tone::plain : Tone::quiet, isChecked(), 0);
    line(figure_.isEmpty() ? QStringLiteral("\u2013") : figure_, TextSize::body, figure_.isEmpty() ? Tone::quiet : Tone::plain, false, 0);

    // An empty ring, one half full, a full one.
    const auto tone = toneOf(state_);
    const int size = 8;
    const QRectF ring{inside.left() + 0.5, y + (lineHeight(TextSize::small) - size) / 2.0, double{size}, double{size}};
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{toneColor(tone), 1.2});
    painter.setBrush(state_ == PaperState::done ? QBrush{toneColor(tone)} : QBrush{Qt::NoBrush});
    painter.drawEllipse(ring);
    if (state_ == PaperState::inWork) {
        painter.setBrush(toneColor(tone));
        painter.drawPie(ring, 90 * 16, 180 * 16);
    }
    line(qs(labelOf(state_)), TextSize::small, tone, false, size + grid(1));
}

void PaperButton::keyPressEvent(QKeyEvent* event)
{
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && event->modifiers() == Qt::NoModifier && !event->isAutoRepeat()) click();
    else QPushButton::keyPressEvent(event);
}

}

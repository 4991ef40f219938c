#include "window/message_strip.h"

#include "labels.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QTimer>

namespace strikeoff {

MessageStrip::MessageStrip(QWidget* parent) : QFrame{parent}
{
    setRole(*this, "strip");
    word_ = makeLabel({}, TextSize::body, Tone::plain, this);
    word_->setWordWrap(false);
    text_ = makeLabel({}, TextSize::body, Tone::plain, this);
    text_->setObjectName(QStringLiteral("message"));
    text_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    auto* away = makeButton("messageAway", tr("Put away"), "link", this);
    auto* layout = new QHBoxLayout{this};
    layout->setContentsMargins(grid(3), grid(1), grid(2), grid(1));
    layout->setSpacing(grid(2));
    layout->addWidget(word_);
    layout->addWidget(text_, 1);
    layout->addWidget(away);
    timer_ = new QTimer{this};
    timer_->setSingleShot(true);
    connect(timer_, &QTimer::timeout, this, &QWidget::hide);
    connect(away, &QPushButton::clicked, this, &QWidget::hide);
    hide();
}

void MessageStrip::say(const QString& message, Tone tone)
{
    word_->setText(tone == Tone::wrong ? tr("Fault") : tone == Tone::attention ? tr("Look at this") : tone == Tone::well ? tr("Done") : QString{});
    word_->setVisible(!word_->text().isEmpty());
    text_->setText(message);
    setTone(*this, tone);
    setTone(*word_, tone);
    setVisible(!message.isEmpty());
    if (tone == Tone::wrong || tone == Tone::attention) timer_->stop();
    else timer_->start(6000);
}

void MessageStrip::tell(const QString& word, const QString& message)
{
    say(message, Tone::well);
    word_->setText(word);
    timer_->stop();
}

QString MessageStrip::message() const { return text_->text(); }

}

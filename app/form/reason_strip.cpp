#include "form/reason_strip.h"

#include "labels.h"

#include <QApplication>
#include <QCompleter>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPushButton>

namespace strikeoff {

ReasonStrip::ReasonStrip(QWidget* parent) : QFrame{parent}
{
    setRole(*this, "strip");
    setTone(*this, Tone::attention);
    question_ = makeLabel({}, TextSize::body, Tone::plain, this);
    question_->setWordWrap(false);
    reason_ = new QLineEdit{this};
    reason_->setObjectName(QStringLiteral("reason"));
    question_->setBuddy(reason_);
    fault_ = makeLabel({}, TextSize::body, Tone::wrong, this);
    fault_->setObjectName(QStringLiteral("reasonFault"));
    fault_->setWordWrap(false);
    give_ = makeButton("giveReason", {}, "main", this);
    auto* leave = makeButton("leaveReason", tr("Leave it"), nullptr, this);
    auto* line = new QHBoxLayout{this};
    line->setContentsMargins(grid(3), grid(1), grid(2), grid(1));
    line->setSpacing(grid(2));
    line->addWidget(question_);
    line->addWidget(reason_, 1);
    line->addWidget(fault_);
    line->addWidget(give_);
    line->addWidget(leave);
    hide();
    connect(give_, &QPushButton::clicked, this, &ReasonStrip::give);
    connect(leave, &QPushButton::clicked, this, &ReasonStrip::leave);
    connect(reason_, &QLineEdit::textEdited, fault_, &QWidget::hide);
}

void ReasonStrip::ask(const QString& question, const QString& verb, const QStringList& earlier, std::function<void(const QString&)> given)
{
    given_ = std::move(given);
    before_ = QApplication::focusWidget();
    question_->setText(question);
    reason_->setAccessibleName(question);
    give_->setText(verb);
    reason_->clear();
    fault_->hide();
    auto* completer = new QCompleter{earlier, reason_};
    completer->setCaseSensitivity(Qt::CaseInsensitive);
    completer->setFilterMode(Qt::MatchContains);
    delete reason_->completer();
    reason_->setCompleter(completer);
    reason_->setPlaceholderText(earlier.isEmpty() ? tr("price, timing, \u2026") : earlier.mid(0, 3).join(QStringLiteral(", ")) + QStringLiteral(", \u2026"));
    show();
    reason_->setFocus();
}

void ReasonStrip::give()
{
    const auto words = reason_->text().trimmed();
    if (words.isEmpty()) {
        fault_->setText(tr("Say why in a few words; \u201cnot known\u201d will do."));
        fault_->show();
        return reason_->setFocus();
    }
    const auto given = std::move(given_);
    leave();
    if (given) given(words);
}

void ReasonStrip::leave()
{
    given_ = {};
    const bool was = isVisible();
    hide();
    if (was && before_ && before_->isVisible()) before_->setFocus();
    if (was) emit put();
}

void ReasonStrip::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape) leave();
    else if ((event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) && reason_->hasFocus()) give();
    else QFrame::keyPressEvent(event);
}

}

#include "labels.h"

#include <QKeyEvent>
#include <QPushButton>
#include <QStyle>

namespace strikeoff {

QLabel* makeLabel(const QString& text, TextSize size, Tone tone, QWidget* parent)
{
    auto* label = new QLabel{parent};
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setText(text);
    label->setFont(textFont(size));
    setTone(*label, tone);
    return label;
}

void setTone(QWidget& widget, Tone tone)
{
    static constexpr const char* names[] = {"plain", "quiet", "accent", "attention", "wrong", "well"};
    const auto* name = names[static_cast<std::size_t>(tone)];
    if (widget.property("tone").toString() == QLatin1String{name}) return;
    widget.setProperty("tone", QLatin1String{name});
    widget.style()->unpolish(&widget);
    widget.style()->polish(&widget);
}

void setRole(QWidget& widget, const char* role)
{
    widget.setProperty("role", QLatin1String{role});
    widget.style()->unpolish(&widget);
    widget.style()->polish(&widget);
}

namespace {

/// Enter presses it as the space bar does, outside dialogs too.
class WordButton : public QPushButton {
public:
    using QPushButton::QPushButton;

protected:
    void keyPressEvent(QKeyEvent* event) override
    {
        const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
        if (enter && event->modifiers() == Qt::NoModifier && !event->isAutoRepeat()) click();
        else QPushButton::keyPressEvent(event);
    }
};

}

QPushButton* makeButton(const char* name, const QString& words, const char* role, QWidget* parent)
{
    auto* button = new WordButton{words, parent};
    button->setObjectName(QLatin1String{name});
    button->setAutoDefault(false);
    if (role) setRole(*button, role);
    return button;
}

QString withoutMnemonic(QString text) { return text.replace(u'&', QStringLiteral("&&")); }

}

#include "labels.h"

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

QPushButton* makeButton(const char* name, const QString& words, const char* role, QWidget* parent)
{
    auto* button = new QPushButton{words, parent};
    button->setObjectName(QLatin1String{name});
    button->setAutoDefault(false);
    if (role) setRole(*button, role);
    return button;
}

QString withoutMnemonic(QString text) { return text.replace(u'&', QStringLiteral("&&")); }

}

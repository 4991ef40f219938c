#pragma once

#include "theme.h"

#include <QLabel>

#include <string>
#include <string_view>

class QPushButton;

namespace strikeoff {

inline QString qs(std::string_view text) { return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size())); }
inline std::string utf8(const QString& text)
{
    const auto bytes = text.toUtf8();
    return {bytes.constData(), static_cast<std::size_t>(bytes.size())};
}

/// A label that shows its text as the text it is: no markup, no mnemonics. Wraps, and can be copied from.
QLabel* makeLabel(const QString& text, TextSize size = TextSize::body, Tone tone = Tone::plain, QWidget* parent = nullptr);
/// Gives a label (or a framed widget) the colour of a tone.
void setTone(QWidget& widget, Tone tone);
/// Sets one of the style sheet's roles: "main", "link" or "paper" (two lines) of a button, "sheet", "side", "foot", "line", "strip" of a frame.
void setRole(QWidget& widget, const char* role);

/// A button with its object name and words in one line; role as above, or none. An ampersand in the words is the mnemonic.
QPushButton* makeButton(const char* name, const QString& words, const char* role = nullptr, QWidget* parent = nullptr);

/// Text as it is for places that take rich text or mnemonics: "&" doubled.
QString withoutMnemonic(QString text);

}

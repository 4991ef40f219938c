#include "plain_words.h"

#include "labels.h"

#include "quantity/letters.h"

#include <algorithm>

namespace strikeoff {

QString asPlainTip(const QString& text) { return text.isEmpty() ? QString{} : QStringLiteral("<p style='white-space:pre-wrap'>%1</p>").arg(text.toHtmlEscaped()); }

QString inFileName(const QString& text)
{
    constexpr qsizetype most = 60;
    QString name;
    for (const QChar letter : text) {
        if (letter.isLetterOrNumber() || (QStringLiteral("._ ").contains(letter) && !name.isEmpty())) name += letter;
        else if (!name.isEmpty() && !name.endsWith(u'-')) name += u'-';
    }
    name.truncate(most);
    while (name.endsWith(u'-') || name.endsWith(u'.') || name.endsWith(u' ')) name.chop(1);
    return name.isEmpty() ? QStringLiteral("unnamed") : name;
}

std::string inSmallLetters(std::string_view text)
{
    const bool isAscii = std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
    return isAscii ? lowered(text) : utf8(qs(text).toLower());
}

}

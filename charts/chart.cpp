#include "chart.h"

#include <cmath>

namespace strikeoff {

QString plainNumber(std::optional<double> value, int decimals)
{
    if (!value || !std::isfinite(*value)) return {};
    auto text = QString::number(*value, 'f', decimals);
    if (decimals > 0) {
        while (text.endsWith(u'0')) text.chop(1);
        if (text.endsWith(u'.')) text.chop(1);
    }
    return text == QStringLiteral("-0") ? QStringLiteral("0") : text;
}

QString fileNameOf(const QString& chartName)
{
    QString name;
    for (const QChar letter : chartName.toLower()) {
        const bool kept = (letter >= u'a' && letter <= u'z') || (letter >= u'0' && letter <= u'9');
        if (kept) name += letter;
        else if (!name.isEmpty() && !name.endsWith(u'-')) name += u'-';
    }
    while (name.endsWith(u'-')) name.chop(1);
    return name.isEmpty() ? QStringLiteral("chart") : name;
}

}

#include "table/table_source.h"

#include "labels.h"

namespace strikeoff {

void PlainSource::appendWords(std::size_t row, std::string& words) const
{
    for (const auto& cell : rows_[row].cells) {
        const auto low = cell.text.toLower();
        words += utf8(low);
        words += ' ';
        if (low.contains(u',')) words += utf8(QString{low}.remove(u',')) + ' ';  // 1,250 is found by 1250 too
    }
    words += utf8(rows_[row].alsoFoundBy.toLower());
}

Cell textCell(const QString& text, Tone tone)
{
    return {text, text.isEmpty() ? Value{} : Value{utf8(text.toCaseFolded())}, tone, {}};
}

Cell moneyCell(std::optional<Money> money, Tone tone)
{
    if (!money) return {};
    return {qs(money->shown()), Value{money->cents()}, tone, {}};
}

Cell numberCell(std::optional<std::int64_t> number)
{
    if (!number) return {};
    return {qs(shownDecimal(*number, 0, 0)), Value{*number}, Tone::plain, {}};
}

Cell dateCell(std::optional<Date> date, Tone tone)
{
    if (!date) return {};
    return {qs(date->shown()), Value{date->days()}, tone, {}};
}

Cell minutesCell(std::optional<Minutes> minutes)
{
    if (!minutes) return {};
    return {qs(minutes->shown()), Value{minutes->count()}, Tone::plain, {}};
}

}

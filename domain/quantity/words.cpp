#include "quantity/words.h"

#include "quantity/letters.h"

#include <array>
#include <cmath>
#include <cstdlib>

namespace strikeoff {

std::string inWords(std::int64_t count)
{
    constexpr std::array<std::string_view, 13> words{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"};
    if (count >= 0 && count < static_cast<std::int64_t>(words.size())) return std::string{words[static_cast<std::size_t>(count)]};
    return shownDecimal(count, 0, 0);
}

std::string counted(std::int64_t count, std::string_view one, std::string_view many)
{
    return inWords(count) + ' ' + std::string{count == 1 ? one : many};
}

std::string capitalized(std::string text)
{
    if (!text.empty()) text.front() = raised(text.front());
    return text;
}

std::string listed(std::span<const std::string> parts)
{
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) text += i + 1 == parts.size() ? " and " : ", ";
        text += parts[i];
    }
    return text;
}

std::string dollars(Money amount) { return amount < Money{} ? "\u2212$" + (-amount).shown() : "$" + amount.shown(); }

std::string degreesText(double f)
{
    const auto whole = std::lround(f);
    return (whole < 0 ? "\u2212" : "") + std::to_string(std::abs(whole)) + " \u00b0F";
}

std::string dayText(Date day, Date seenFrom)
{
    const int away = day - seenFrom;
    if (away == 0) return "today";
    if (away == 1) return "tomorrow";
    if (away == -1) return "yesterday";
    return away > 90 || away < -90 ? day.shown() : day.shownShort();
}

}

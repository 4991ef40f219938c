#include "quantity/decimal.h"

#include "quantity/letters.h"

#include <algorithm>
#include <cctype>

namespace strikeoff {

namespace {

constexpr int mostDigits = 15;  // keeps every parsed figure far inside 64 bits and exact in a spreadsheet
constexpr std::int64_t mostUnits = 999'999'999'999'999;

std::int64_t powerOfTen(int exponent)
{
    std::int64_t power = 1;
    while (exponent-- > 0) power *= 10;
    return power;
}

std::optional<std::int64_t> wholeNumber(std::string_view text)
{
    if (text.empty() || text.size() > mostDigits || !std::all_of(text.begin(), text.end(), isDigit)) return std::nullopt;
    std::int64_t value = 0;
    for (const char c : text) value = value * 10 + (c - '0');
    return value;
}

/// "1/2" in units of 10^-scale, when that is exact; beside a whole number only less than one.
std::optional<std::int64_t> fraction(std::string_view text, int scale, bool besideWhole)
{
    const auto slash = text.find('/');
    const auto top = wholeNumber(text.substr(0, slash));
    const auto bottom = wholeNumber(text.substr(slash + 1));
    if (!top || !bottom || *bottom == 0 || *bottom > 10'000 || *top > 1'000'000) return std::nullopt;
    if (besideWhole && *top >= *bottom) return std::nullopt;
    const auto scaled = *top * powerOfTen(scale);
    if (scaled % *bottom != 0) return std::nullopt;
    return scaled / *bottom;
}

/// Commas only where thousands marks stand: "1,250", not "12,50".
std::optional<std::string> withoutThousandsMarks(std::string_view text)
{
    std::string plain;
    const auto point = std::min(text.find('.'), text.size());
    const auto whole = text.substr(0, point);
    if (whole.find(',') != std::string_view::npos) {
        std::size_t group = 0;
        bool first = true;
        for (const char c : whole) {
            if (c == ',') {
                if (group == 0 || (!first && group != 3) || (first && group > 3)) return std::nullopt;
                first = false;
                group = 0;
            } else {
                plain += c;
                ++group;
            }
        }
        if (group != 3) return std::nullopt;
    } else {
        plain = whole;
    }
    plain += text.substr(point);
    return plain;
}

}

std::optional<std::int64_t> parseDecimal(std::string_view text, int scale)
{
    const bool negative = !text.empty() && text.front() == '-';
    if (negative) text.remove_prefix(1);
    std::int64_t units = 0;
    int digits = 0;
    int decimals = -1;  // −1 while no point was met
    bool any = false;
    for (const char c : text) {
        if (c == '.') {
            if (decimals >= 0) return std::nullopt;
            decimals = 0;
            continue;
        }
        if (!isDigit(c)) return std::nullopt;
        any = true;
        if (decimals >= scale) {
            if (c != '0') return std::nullopt;
            continue;
        }
        if (decimals >= 0) ++decimals;
        units = units * 10 + (c - '0');
        if (units != 0 && ++digits > mostDigits) return std::nullopt;
    }
    if (!any || text.front() == '.' || text.back() == '.') return std::nullopt;
    for (int i = std::max(decimals, 0); i < scale; ++i) {
        if (units != 0 && ++digits > mostDigits) return std::nullopt;
        units *= 10;
    }
    return negative ? -units : units;
}

std::optional<std::int64_t> readDecimal(std::string_view text, int scale)
{
    text = trimmed(text);
    bool negative = false;
    if (text.size() > 2 && text.front() == '(' && text.back() == ')') {
        negative = true;
        text = trimmed(text.substr(1, text.size() - 2));
    }
    constexpr std::string_view minusSign = "\u2212";
    if (text.starts_with(minusSign) || text.starts_with('-')) {
        if (negative) return std::nullopt;
        negative = true;
        text = trimmed(text.substr(text.front() == '-' ? 1 : minusSign.size()));
    }
    if (text.starts_with('$')) text = trimmed(text.substr(1));

    std::int64_t units = 0;
    if (const auto slash = text.find('/'); slash != std::string_view::npos) {
        // "9 1/2" and "9-1/2"; blanks beside the dash ("9 - 1/2") could as well mean eight and a half.
        const auto gap = text.substr(0, slash).find_last_of(" -");
        const bool besideWhole = gap != std::string_view::npos;
        if (besideWhole) {
            const auto whole = text.substr(0, gap);
            const auto plain = withoutThousandsMarks(text[gap] == ' ' ? trimmed(whole) : whole);
            if (!plain) return std::nullopt;
            const auto read = parseDecimal(*plain, scale);
            if (!read || *read < 0 || *read % powerOfTen(scale) != 0) return std::nullopt;
            units = *read;
            text.remove_prefix(gap + 1);
        }
        const auto part = fraction(text, scale, besideWhole);
        if (!part) return std::nullopt;
        units += *part;
        if (units > mostUnits) return std::nullopt;
    } else {
        auto plain = withoutThousandsMarks(text);
        if (!plain || plain->starts_with('-')) return std::nullopt;
        if (plain->ends_with('.')) plain->pop_back();
        if (plain->starts_with('.')) plain->insert(plain->begin(), '0');
        const auto read = parseDecimal(*plain, scale);
        if (!read) return std::nullopt;
        units = *read;
    }
    return negative ? -units : units;
}

std::string formatDecimal(std::int64_t units, int scale, int minDecimals)
{
    const bool negative = units < 0;
    auto digits = std::to_string(units);
    if (negative) digits.erase(0, 1);
    if (digits.size() <= static_cast<std::size_t>(scale)) digits.insert(0, static_cast<std::size_t>(scale) + 1 - digits.size(), '0');
    auto whole = digits.substr(0, digits.size() - static_cast<std::size_t>(scale));
    auto part = digits.substr(digits.size() - static_cast<std::size_t>(scale));
    const auto least = static_cast<std::size_t>(minDecimals);
    while (part.size() > least && part.back() == '0') part.pop_back();
    if (part.size() < least) part.append(least - part.size(), '0');
    auto text = (negative ? "-" : "") + whole;
    if (!part.empty()) text += '.' + part;
    return text;
}

std::string shownDecimal(std::int64_t units, int scale, int decimals)
{
    if (decimals < scale) {
        units = divideHalfUp(units, powerOfTen(scale - decimals));
        scale = decimals;
    }
    auto text = formatDecimal(units, scale, decimals);
    if (units < 0) text.erase(0, 1);
    const auto point = std::min(text.find('.'), text.size());
    for (auto at = static_cast<std::ptrdiff_t>(point) - 3; at > 0; at -= 3) text.insert(static_cast<std::size_t>(at), 1, ',');
    return units < 0 ? "\u2212" + text : text;
}

std::vector<Money> split(Money total, std::span<const std::int64_t> weights)
{
    std::vector<Money> shares;
    for (const auto cents : splitByWeight(total.cents(), weights)) shares.push_back(Money::ofCents(cents));
    return shares;
}

}

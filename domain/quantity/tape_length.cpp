#include "quantity/tape_length.h"

#include "quantity/decimal.h"
#include "quantity/letters.h"

#include <numeric>

namespace strikeoff {

namespace {

constexpr std::int64_t mostSixteenths = std::int64_t{10} * 5280 * 192;

/// A number as typed ("6", "6.5", "6 1/2", "6-1/2", "1/2") in millionths, so that sixteenths and decimals of a foot come out exactly.
std::optional<std::int64_t> number(std::string_view text)
{
    text = trimmed(text);
    if (text.empty() || (text.front() != '.' && (text.front() < '0' || text.front() > '9'))) return std::nullopt;
    return readDecimal(text, 6);
}

/// Where the dash stands that parts feet from inches, as in "12-6" and "12-6 1/2"; the one in "6-1/2" belongs to the fraction.
std::size_t feetDash(std::string_view text)
{
    const auto dash = text.find('-');
    if (dash == std::string_view::npos || text.substr(0, dash).find_first_of(" /") != std::string_view::npos) return std::string_view::npos;
    const auto slash = text.find('/');
    const bool isOfFraction = slash != std::string_view::npos && text.substr(dash + 1, slash - dash - 1).find_first_of(" -") == std::string_view::npos;
    return isOfFraction ? std::string_view::npos : dash;
}

std::string normalised(std::string_view text)
{
    std::string plain;
    const auto replaceAt = [&](std::size_t at, std::string_view mark) { return text.substr(at, mark.size()) == mark; };
    for (std::size_t i = 0; i < text.size();) {
        if (replaceAt(i, "\u2032") || replaceAt(i, "\u2019")) { plain += '\''; i += 3; }
        else if (replaceAt(i, "\u2033") || replaceAt(i, "\u201d")) { plain += '"'; i += 3; }
        else if (replaceAt(i, "''")) { plain += '"'; i += 2; }
        else if (replaceAt(i, "ft")) { plain += '\''; i += 2; if (i < text.size() && text[i] == '.') ++i; }
        else if (replaceAt(i, "in")) { plain += '"'; i += 2; if (i < text.size() && text[i] == '.') ++i; }
        else plain += text[i++];
    }
    return plain;
}

}

std::optional<TapeLength> TapeLength::parse(std::string_view typed)
{
    if (typed.size() > 60) return std::nullopt;
    const auto plain = normalised(typed);
    auto text = trimmed(plain);
    if (text.empty()) return std::nullopt;

    std::optional<std::int64_t> feet;
    std::optional<std::int64_t> inches;
    if (const auto mark = text.find('\''); mark != std::string_view::npos) {
        feet = number(text.substr(0, mark));
        if (!feet) return std::nullopt;
        auto rest = trimmed(text.substr(mark + 1));
        const bool hasRest = !rest.empty();
        if (rest.starts_with('-')) rest = trimmed(rest.substr(1));
        if (rest.ends_with('"')) rest = trimmed(rest.substr(0, rest.size() - 1));
        if (hasRest && rest.empty()) return std::nullopt;
        inches = rest.empty() ? std::optional<std::int64_t>{0} : number(rest);
        if (!inches || *inches >= 12'000'000) return std::nullopt;
        if (!rest.empty() && *feet % 1'000'000 != 0) return std::nullopt;
    } else {
        const bool inchMark = text.ends_with('"');
        if (inchMark) text = trimmed(text.substr(0, text.size() - 1));
        if (const auto dash = feetDash(text); dash != std::string_view::npos) {
            feet = number(text.substr(0, dash));
            inches = number(text.substr(dash + 1));
            if (!feet || !inches || *feet % 1'000'000 != 0 || *inches >= 12'000'000) return std::nullopt;
        } else {
            feet = inchMark ? 0 : number(text);
            inches = inchMark ? number(text) : 0;
        }
    }
    if (!feet || !inches || *feet > std::int64_t{10} * 5280 * 1'000'000 || *inches > std::int64_t{10} * 63360 * 1'000'000) return std::nullopt;
    const auto sixteenths = divideHalfUp(static_cast<Int128>(*feet) * 192 + static_cast<Int128>(*inches) * 16, 1'000'000);
    if (sixteenths > mostSixteenths) return std::nullopt;
    return TapeLength{sixteenths};
}

std::string TapeLength::text() const
{
    const bool negative = sixteenths_ < 0;
    const auto all = negative ? 0 - static_cast<std::uint64_t>(sixteenths_) : static_cast<std::uint64_t>(sixteenths_);
    const auto feet = all / 192;
    const auto inches = (all % 192) / 16;
    const auto part = all % 16;
    std::string text = negative ? "-" : "";
    if (feet != 0) text += std::to_string(feet) + "'";
    if (inches != 0 || part != 0 || feet == 0) {
        if (feet != 0) text += ' ';
        if (part == 0) text += std::to_string(inches);
        else {
            const auto common = std::gcd(part, std::uint64_t{16});
            if (inches != 0) text += std::to_string(inches) + '-';
            text += std::to_string(part / common) + '/' + std::to_string(16 / common);
        }
        text += '"';
    }
    return text;
}

}

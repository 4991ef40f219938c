#pragma once

#include <algorithm>
#include <string>
#include <string_view>

namespace strikeoff {

/// ASCII letters in one case, anything else as it is: codes, headings and typed words are compared this way, whatever the machine's locale.
constexpr char lowered(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
constexpr char raised(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

constexpr bool isDigit(char c) { return c >= '0' && c <= '9'; }

inline std::string lowered(std::string_view text)
{
    std::string out{text};
    for (auto& c : out) c = lowered(c);
    return out;
}

inline std::string raised(std::string_view text)
{
    std::string out{text};
    for (auto& c : out) c = raised(c);
    return out;
}

/// Without the blanks, tabs and line ends at both ends.
constexpr std::string_view trimmed(std::string_view text)
{
    constexpr std::string_view blanks = " \t\r\n\f\v";
    const auto from = text.find_first_not_of(blanks);
    if (from == std::string_view::npos) return {};
    return text.substr(from, text.find_last_not_of(blanks) - from + 1);
}

/// Equal but for the case of ASCII letters.
inline bool sameLetters(std::string_view a, std::string_view b)
{
    return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), [](char x, char y) { return lowered(x) == lowered(y); });
}

}

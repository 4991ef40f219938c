#pragma once

#include <cstddef>
#include <string_view>

namespace strikeoff {

/// The bytes of the UTF-8 character that a text begins with, or 0 where it begins with none: a stray or missing continuation, an overlong form, half
/// of a surrogate pair, past U+10FFFF (source: RFC 3629, section 4). The text is not empty.
constexpr std::size_t utf8Length(std::string_view text)
{
    const auto byteAt = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const auto first = byteAt(0);
    const auto follows = [&](std::size_t i, unsigned char least = 0x80, unsigned char most = 0xBF) { return i < text.size() && byteAt(i) >= least && byteAt(i) <= most; };
    if (first < 0x80) return 1;
    if (first < 0xC2) return 0;
    if (first < 0xE0) return follows(1) ? 2 : 0;
    if (first < 0xF0) {
        const bool second = first == 0xE0 ? follows(1, 0xA0) : first == 0xED ? follows(1, 0x80, 0x9F) : follows(1);
        return second && follows(2) ? 3 : 0;
    }
    if (first < 0xF5) {
        const bool second = first == 0xF0 ? follows(1, 0x90) : first == 0xF4 ? follows(1, 0x80, 0x8F) : follows(1);
        return second && follows(2) && follows(3) ? 4 : 0;
    }
    return 0;
}

}

#pragma once

#include "quantity/letters.h"

#include <string>
#include <string_view>

namespace strikeoff {

/// Codes of sheets, tickets and statements are compared without regard to capitals.
inline bool sameCode(std::string_view a, std::string_view b) { return sameLetters(a, b); }

/// Whether a word stands in a text by itself, without regard to capitals; the word is in small letters.
inline bool hasWord(std::string_view text, std::string_view word)
{
    const auto plain = lowered(text);
    const auto isLetter = [&](std::size_t at) { return at < plain.size() && plain[at] >= 'a' && plain[at] <= 'z'; };
    for (auto at = plain.find(word); at != std::string::npos; at = plain.find(word, at + 1))
        if ((at == 0 || !isLetter(at - 1)) && !isLetter(at + word.size())) return true;
    return false;
}

}

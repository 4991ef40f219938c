#include "ready_mix/expected_charge.h"

#include "quantity/letters.h"

#include <algorithm>

namespace strikeoff {

std::string comparableNumber(std::string_view number)
{
    // Most numbers are plain ones.
    if (!number.empty() && number.front() != '0' && std::all_of(number.begin(), number.end(), isDigit)) return std::string{number};
    std::string plain;
    for (const char c : number) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        if (letter || isDigit(c)) plain += raised(c);
    }
    const auto first = plain.find_first_of("123456789");
    if (first != std::string::npos) plain.erase(0, first);
    return plain.empty() ? std::string{number} : plain;
}

}

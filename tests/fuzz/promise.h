#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace strikeoff::fuzz {

/// Throws when a promise of a reader does not hold, which both a fuzz program and a test take for a failure.
inline void require(bool holds, const char* promise)
{
    if (!holds) throw std::logic_error{promise};
}
inline void require(bool holds, const std::string& promise)
{
    if (!holds) throw std::logic_error{promise};
}

/// The lines of an input, without their ends, the first `most` of them; there is always one.
inline std::vector<std::string_view> linesOf(std::string_view bytes, std::size_t most)
{
    std::vector<std::string_view> lines;
    while (lines.size() < most) {
        const auto end = bytes.find('\n');
        lines.push_back(bytes.substr(0, end));
        if (end == std::string_view::npos) break;
        bytes.remove_prefix(end + 1);
    }
    return lines;
}

/// The first byte of an input, which chooses what is done with the rest of it.
inline std::size_t choiceIn(std::string_view& bytes)
{
    if (bytes.empty()) return 0;
    const auto choice = static_cast<unsigned char>(bytes.front());
    bytes.remove_prefix(1);
    return choice;
}

}

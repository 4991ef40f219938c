#include "statistics/edit_distance.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>
#include <vector>

namespace strikeoff {

namespace {

std::u32string charactersOf(std::string_view text)
{
    std::u32string characters;
    characters.reserve(text.size());
    for (std::size_t i = 0; i < text.size();) {
        const auto lead = static_cast<unsigned char>(text[i]);
        const std::size_t more = lead >= 0xf0 && lead < 0xf8 ? 3 : lead >= 0xe0 ? 2 : lead >= 0xc0 ? 1 : 0;
        bool whole = lead < 0x80 || (more > 0 && lead < 0xf8 && i + more < text.size());
        char32_t character = more == 0 ? lead : lead & (0x3fU >> more);
        for (std::size_t k = 1; whole && k <= more; ++k) {
            const auto next = static_cast<unsigned char>(text[i + k]);
            whole = (next & 0xc0) == 0x80;
            character = (character << 6) | (next & 0x3fU);
        }
        // What is no UTF-8 must not look like a character that is.
        characters.push_back(whole ? character : 0x110000U + lead);
        i += whole ? more + 1 : 1;
    }
    return characters;
}

/// Three rows of the table are all it takes.
template <class Text>
int edits(const Text& a, const Text& b, int most)
{
    const auto width = b.size() + 1;
    std::array<int, 3 * 33> few;
    std::vector<int> many;
    if (3 * width > few.size()) many.resize(3 * width);
    int* before = many.empty() ? few.data() : many.data();
    int* above = before + width;
    int* row = above + width;
    for (std::size_t j = 0; j < width; ++j) above[j] = static_cast<int>(j);
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = static_cast<int>(i);
        int least = row[0];
        for (std::size_t j = 1; j < width; ++j) {
            int cell = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) cell = std::min(cell, before[j - 2] + 1);
            row[j] = cell;
            least = std::min(least, cell);
        }
        // A swap looks back two rows, and its cell costs one more than the one it came from.
        if (least > most + 1) return most + 1;
        auto* oldest = before;
        before = above;
        above = row;
        row = oldest;
    }
    return std::min(above[width - 1], most + 1);
}

bool isPlain(std::string_view text)
{
    return std::none_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) >= 0x80; });
}

}

int editsBetween(std::string_view a, std::string_view b, int most)
{
    if (isPlain(a) && isPlain(b)) {
        const auto apart = a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
        if (apart > static_cast<std::size_t>(most)) return most + 1;
        return edits(a, b, most);
    }
    return edits(charactersOf(a), charactersOf(b), most);
}

}

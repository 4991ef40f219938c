#pragma once

#include "fuzz/promise.h"
#include "sealed_file.h"
#include "store.h"

#include <algorithm>

namespace strikeoff::fuzz {

namespace detail {

inline const std::string sealedPhrase = "four wet slabs cure";

/// What was sealed: three parts, the last of them short.
inline std::string sealedContent()
{
    std::string bytes;
    for (int i = 0; i < 140'000; ++i) bytes += static_cast<char>(i * 7 + i / 251);
    return bytes;
}

/// The head of a sealed file says what its key costs; one that costs seconds would only make this slow.
inline void makeCheap(std::string& file)
{
    constexpr std::size_t passes = 19 + 16, memory = passes + 8;  // behind the mark and the salt
    if (file.size() < memory + 8) return;
    const auto numberAt = [&](std::size_t at) {
        std::uint64_t number = 0;
        for (std::size_t i = 8; i-- > 0;) number = number << 8 | static_cast<unsigned char>(file[at + i]);
        return number;
    };
    if (numberAt(passes) <= 16 && numberAt(passes) > 2) file[passes] = 2;
    if (numberAt(memory) <= (std::uint64_t{1} << 30) && numberAt(memory) > 65'536) std::fill_n(file.begin() + static_cast<std::ptrdiff_t>(memory) + 2, 2, '\0');
}

}

/// Opens any bytes as a sealed copy: as they are when they begin as one, else as steps of four bytes that spoil a good one. What is not exactly what was
/// sealed is refused.
inline void readAnySealedCopy(std::string_view bytes)
{
    static const auto content = detail::sealedContent(), good = sealed(content, detail::sealedPhrase, KeyCost::least());
    auto file = good;
    if (isSealed(bytes)) {
        file = bytes;
    } else {
        constexpr std::size_t part = 65'536 + 17, firstPart = 19 + 16 + 16 + 24;
        for (; bytes.size() >= 4 && !file.empty(); bytes.remove_prefix(4)) {
            const auto byte = [&](std::size_t i) { return static_cast<std::size_t>(static_cast<unsigned char>(bytes[i])); };
            // Half of the places are about the head, where there is most to get wrong.
            const auto place = (byte(1) % 2 == 0 ? byte(2) : byte(1) << 12 | byte(2) << 4) % file.size();
            switch (byte(0) % 6) {
            case 0: file[place] = static_cast<char>(byte(3)); break;
            case 1: file[place] = static_cast<char>(file[place] ^ (1 << (byte(3) % 8))); break;
            case 2: file.resize(place); break;
            case 3: file.append(byte(3), static_cast<char>(byte(2))); break;
            case 4: file.erase(std::min(firstPart + byte(2) % 3 * part, file.size()), part); break;
            case 5:
                if (file.size() > firstPart + part * 2) std::swap_ranges(file.begin() + firstPart, file.begin() + firstPart + part, file.begin() + firstPart + part);
                break;
            }
        }
    }
    detail::makeCheap(file);
    try {
        const auto read = unsealed(file, detail::sealedPhrase, "it");
        require(isSealed(bytes) || (file == good && read == content), "what opens is what was sealed");
    } catch (const StorageError& error) {
        require(file != good, "what was not changed opens");
        require(std::string_view{error.what()}.starts_with("it cannot be opened: "), "a refusal says what and why");
    }
}

}

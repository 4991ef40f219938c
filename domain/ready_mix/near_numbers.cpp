#include "ready_mix/near_numbers.h"

#include "statistics/edit_distance.h"

namespace strikeoff {

namespace {

constexpr int mostEdits = 2;

/// Calls with the hash of the text and of every rest of it without one or two of its characters.
template <class Call>
void forEachRest(std::string_view text, Call call)
{
    const auto hashWithout = [text](std::size_t first, std::size_t second) {
        std::uint64_t hash = 0xcbf29ce484222325ULL;  // FNV-1a
        for (std::size_t i = 0; i < text.size(); ++i) {
            if (i == first || i == second) continue;
            hash = (hash ^ static_cast<unsigned char>(text[i])) * 0x100000001b3ULL;
        }
        return hash;
    };
    const auto none = text.size();
    call(hashWithout(none, none));
    for (std::size_t i = 0; i < text.size(); ++i) {
        call(hashWithout(i, none));
        for (std::size_t j = i + 1; j < text.size(); ++j) call(hashWithout(i, j));
    }
}

}

void NearNumbers::add(std::string_view number, std::size_t which)
{
    if (number.empty() || number.size() > longest) return;
    const auto place = static_cast<std::uint32_t>(entries_.size());
    entries_.push_back({number, which});
    forEachRest(number, [&](std::uint64_t hash) {
        auto& places = rests_[hash];
        if (places.empty() || places.back() != place) places.push_back(place);
    });
}

void NearNumbers::near(std::string_view number, const std::function<void(std::size_t, int)>& found)
{
    if (number.empty() || number.size() > longest) return;
    ++question_;
    forEachRest(number, [&](std::uint64_t hash) {
        const auto places = rests_.find(hash);
        if (places == rests_.end()) return;
        for (const auto place : places->second) {
            auto& entry = entries_[place];
            if (entry.seen == question_) continue;
            entry.seen = question_;
            if (const int edits = editsBetween(number, entry.number, mostEdits); edits <= mostEdits) found(entry.which, edits);
        }
    });
}

}

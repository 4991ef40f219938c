#include "record/shared_text.h"

#include <atomic>
#include <memory>
#include <unordered_set>

namespace strikeoff {

struct SharedText::Kept {
    explicit Kept(std::string_view words) : text{words} {}
    const std::string text;
    mutable std::atomic<long> holders{1};
};

namespace {

struct Hash {
    using is_transparent = void;
    std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
    template <class Kept> std::size_t operator()(const Kept* kept) const { return (*this)(std::string_view{kept->text}); }
};
struct Same {
    using is_transparent = void;
    template <class Kept> bool operator()(const Kept* a, const Kept* b) const { return a == b; }
    template <class Kept> bool operator()(const Kept* kept, std::string_view text) const { return kept->text == text; }
    template <class Kept> bool operator()(std::string_view text, const Kept* kept) const { return kept->text == text; }
};

/// Held for the length of a look-up only, so the few who ever meet here wait in place.
class Hold {
public:
    explicit Hold(std::atomic_flag& flag) : flag_{flag}
    {
        while (flag_.test_and_set(std::memory_order_acquire)) flag_.wait(true, std::memory_order_relaxed);
    }
    ~Hold()
    {
        flag_.clear(std::memory_order_release);
        flag_.notify_one();
    }
    Hold(const Hold&) = delete;
    Hold& operator=(const Hold&) = delete;

private:
    std::atomic_flag& flag_;
};

/// Never taken down: rows in static objects may outlive any other static.
template <class Kept>
struct Pool {
    std::atomic_flag held;
    std::unordered_set<Kept*, Hash, Same> texts;
    static Pool& get()
    {
        static Pool& pool = *new Pool;
        return pool;
    }
};

}

SharedText::Kept* SharedText::keep(std::string_view text)
{
    if (text.empty()) return nullptr;
    auto& pool = Pool<Kept>::get();
    const Hold hold{pool.held};
    if (const auto found = pool.texts.find(text); found != pool.texts.end()) {
        (*found)->holders.fetch_add(1, std::memory_order_relaxed);
        return *found;
    }
    auto fresh = std::make_unique<Kept>(text);
    pool.texts.insert(fresh.get());
    return fresh.release();
}

void SharedText::again(Kept* kept) noexcept
{
    if (kept) kept->holders.fetch_add(1, std::memory_order_relaxed);
}

void SharedText::release(Kept* kept) noexcept
{
    // Only the last holder goes to the pool, and it lets go there: nobody can take hold anew between its count and its going.
    for (auto holders = kept->holders.load(std::memory_order_relaxed); holders > 1;)
        if (kept->holders.compare_exchange_weak(holders, holders - 1, std::memory_order_acq_rel)) return;
    auto& pool = Pool<Kept>::get();
    const Hold hold{pool.held};
    if (kept->holders.fetch_sub(1, std::memory_order_acq_rel) > 1) return;
    pool.texts.erase(kept);
    delete kept;
}

const std::string& SharedText::str() const
{
    static const std::string blank;
    return kept_ ? kept_->text : blank;
}

}

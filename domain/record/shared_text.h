#pragma once

#include <compare>
#include <concepts>
#include <string>
#include <string_view>
#include <utility>

namespace strikeoff {

/// A text of which many rows carry the same or none: the truck, the mix, a note that is mostly blank. Eight bytes a row; each text is kept
/// once for the whole program, from the first row that has it to the last. Reads like a string, never changes; a new one is assigned instead.
/// Rows of several threads may share one.
class SharedText {
public:
    SharedText() noexcept = default;
    SharedText(std::string_view text) : kept_{keep(text)} {}
    SharedText(const std::string& text) : SharedText{std::string_view{text}} {}
    SharedText(const char* text) : SharedText{std::string_view{text}} {}
    SharedText(const SharedText& other) noexcept : kept_{other.kept_} { again(kept_); }
    SharedText(SharedText&& other) noexcept : kept_{std::exchange(other.kept_, nullptr)} {}
    SharedText& operator=(SharedText other) noexcept
    {
        std::swap(kept_, other.kept_);
        return *this;
    }
    ~SharedText()
    {
        if (kept_) release(kept_);
    }

    const std::string& str() const;
    operator const std::string&() const { return str(); }
    operator std::string_view() const { return str(); }
    bool empty() const { return kept_ == nullptr; }
    std::size_t size() const { return str().size(); }
    std::size_t find(std::string_view part) const { return str().find(part); }
    void assign(std::string_view text) { *this = SharedText{text}; }
    void clear() { *this = SharedText{}; }

    friend bool operator==(const SharedText& a, const SharedText& b) { return a.kept_ == b.kept_; }
    friend auto operator<=>(const SharedText& a, const SharedText& b) { return a.str() <=> b.str(); }
    template <std::convertible_to<std::string_view> Text>
        requires(!std::same_as<Text, SharedText>)
    friend bool operator==(const SharedText& a, const Text& b) { return a.str() == std::string_view{b}; }
    template <std::convertible_to<std::string_view> Text>
    friend std::string operator+(const SharedText& a, const Text& b) { return a.str() + std::string{b}; }
    template <class Text>
        requires(std::same_as<Text, std::string> || std::convertible_to<Text, const char*>)
    friend std::string operator+(const Text& a, const SharedText& b) { return a + b.str(); }

private:
    struct Kept;
    static Kept* keep(std::string_view text);
    static void again(Kept* kept) noexcept;
    static void release(Kept* kept) noexcept;

    Kept* kept_ = nullptr;
};

}

#pragma once

#include "quantity/rounding.h"

#include <compare>
#include <optional>
#include <string_view>

namespace strikeoff {

/// A length as a tape reads it: whole sixteenths of an inch.
class TapeLength {
public:
    constexpr TapeLength() = default;
    static constexpr TapeLength ofSixteenths(std::int64_t sixteenths) { return TapeLength{sixteenths}; }
    static constexpr TapeLength ofInches(std::int64_t inches) { return TapeLength{checkedMultiply(inches, 16)}; }
    static constexpr TapeLength ofFeet(std::int64_t feet, std::int64_t inches = 0) { return ofInches(checkedAdd(checkedMultiply(feet, 12), inches)); }

    /// Reads `12' 6-1/2"`, `12-6 1/2` (feet-inches, with or without the mark at the end), `12.5'`, `150.5"`, `6"`, `12'`. A bare number
    /// ("40") is feet, so `6-1/2` is six and a half feet and `6-1/2"` as many inches. A decimal that is no whole sixteenth goes to the
    /// nearest one. Nothing for what is no length, a minus sign, inches of 12 and over after feet, and past 10 miles.
    static std::optional<TapeLength> parse(std::string_view text);

    /// `12' 6-1/2"`, `6"`, `0"`: what parse reads back exactly, unless the length is a difference below zero or past 10 miles.
    std::string text() const;

    constexpr std::int64_t sixteenths() const { return sixteenths_; }
    constexpr double feet() const { return static_cast<double>(sixteenths_) / 192.0; }
    constexpr double inches() const { return static_cast<double>(sixteenths_) / 16.0; }

    friend constexpr auto operator<=>(TapeLength, TapeLength) = default;
    friend constexpr TapeLength operator+(TapeLength a, TapeLength b) { return TapeLength{checkedAdd(a.sixteenths_, b.sixteenths_)}; }
    friend constexpr TapeLength operator-(TapeLength a, TapeLength b) { return TapeLength{checkedSubtract(a.sixteenths_, b.sixteenths_)}; }

private:
    explicit constexpr TapeLength(std::int64_t sixteenths) : sixteenths_{sixteenths} {}
    std::int64_t sixteenths_ = 0;
};

}

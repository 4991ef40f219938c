#pragma once

#include "quantity/rounding.h"

#include <compare>
#include <cstdint>

namespace strikeoff {

/// The key of one row of one kind of record. Never shown to the owner and never used twice. A new row has a negative id of
/// the page's choosing until the book gives it its own. Kept in 32 bits, as a book holds hundreds of thousands of them; DomainError past those.
template <class Record>
class Id {
public:
    constexpr Id() = default;
    explicit constexpr Id(std::int64_t value) : value_{static_cast<std::int32_t>(value)}
    {
        if (value_ != value) throw DomainError{"an id past what a book can hold"};
    }
    constexpr std::int64_t value() const { return value_; }
    friend constexpr auto operator<=>(Id, Id) = default;

private:
    std::int32_t value_ = 0;
};

}

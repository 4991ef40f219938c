#pragma once

#include <map>
#include <string>
#include <string_view>

namespace strikeoff {

/// A record as it is being typed: what stands in each field, by the field's name; a field that is not there is blank.
using TypedRow = std::map<std::string, std::string, std::less<>>;

/// The text of a field, blank when there is none.
std::string_view typedText(const TypedRow& typed, std::string_view field);

/// Why a field cannot be read.
struct TypedFault {
    std::string field;
    std::string message;  ///< a sentence that says what to write
};

}

#pragma once

#include <string>
#include <string_view>

namespace strikeoff {

/// The lines that calendars (RFC 5545) and address cards (RFC 6350) are made of: NAME:value, at most 75 octets a line, ended by CR and LF.
class ContentLines {
public:
    /// A line whose value is already in the form its property has (a date, a number, a duration). A blank value writes nothing.
    ContentLines& raw(std::string_view name, std::string_view value);
    /// A line of free text, escaped. A blank text writes nothing.
    ContentLines& text(std::string_view name, std::string_view value);
    const std::string& written() const { return written_; }

private:
    std::string written_;
};

/// A content line folded after 75 octets: each further line begins with a blank that counts among its own 75; no character in UTF-8 is torn apart
/// (RFC 5545 section 3.1). Ended by CR and LF.
std::string foldedLine(std::string_view line);
/// Free text as a value: backslash, semicolon, comma and line breaks escaped, a colon never (RFC 5545 section 3.3.11). Control characters, which
/// have no place there, are left out.
std::string escapedText(std::string_view text);

}

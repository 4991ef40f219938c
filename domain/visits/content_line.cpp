#include "visits/content_line.h"

namespace strikeoff {

namespace {

constexpr std::size_t mostOctets = 75;

bool continuesCharacter(char octet) { return (static_cast<unsigned char>(octet) & 0xC0U) == 0x80U; }

}

std::string foldedLine(std::string_view line)
{
    std::string folded;
    auto room = mostOctets;
    while (line.size() > room) {
        auto end = room;
        // What is no UTF-8 has no beginning to go back to; it is cut where the line is full.
        while (end > room - 4 && continuesCharacter(line[end])) --end;
        if (continuesCharacter(line[end])) end = room;
        folded += line.substr(0, end);
        folded += "\r\n ";
        line.remove_prefix(end);
        room = mostOctets - 1;
    }
    folded += line;
    return folded += "\r\n";
}

std::string escapedText(std::string_view text)
{
    std::string escaped;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
        if (c == '\n' || c == '\r') escaped += "\\n";
        else if (c == '\\' || c == ';' || c == ',') (escaped += '\\') += c;
        else if (static_cast<unsigned char>(c) >= 0x20 ? c != 0x7F : c == '\t') escaped += c;
    }
    return escaped;
}

ContentLines& ContentLines::raw(std::string_view name, std::string_view value)
{
    if (value.empty()) return *this;
    std::string line{name};
    line += ':';
    written_ += foldedLine(line += value);
    return *this;
}

ContentLines& ContentLines::text(std::string_view name, std::string_view value) { return raw(name, escapedText(value)); }

}

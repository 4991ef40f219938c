#include "ready_mix/printed_figures.h"

#include "quantity/decimal.h"
#include "quantity/letters.h"
#include "ready_mix/codes.h"
#include "ready_mix/statement_reader.h"

#include <array>

namespace strikeoff {

namespace {

constexpr std::string_view hardSpace = "\u00a0", thinSpace = "\u202f", realMinus = "\u2212", narrowSpace = "\u2009";

bool takeFront(std::string_view& text, std::string_view what)
{
    if (!text.starts_with(what)) return false;
    text.remove_prefix(what.size());
    return true;
}

bool takeBack(std::string_view& text, std::string_view what)
{
    if (text.size() < what.size() || !sameCode(text.substr(text.size() - what.size()), what)) return false;
    text.remove_suffix(what.size());
    return true;
}

/// The digits of a figure with its marks, and whether it is negative.
struct Bare {
    std::string_view digits;
    bool negative = false;
};

std::optional<Bare> bareFigure(std::string_view cell)
{
    Bare bare;
    auto text = trimmedCell(cell);
    for (bool again = true; again && !text.empty();) {
        again = false;
        for (const std::string_view sign : {"-", "\u2212"})
            if (takeFront(text, sign) || takeBack(text, sign)) {
                bare.negative = !bare.negative;
                again = true;
            }
        for (const std::string_view mark : {"US$", "USD", "CAD", "$", "\u20ac", "\u00a3", "EUR", "+"})
            if (takeFront(text, mark) || takeBack(text, mark)) again = true;
        if (takeBack(text, "CR")) {
            bare.negative = !bare.negative;
            again = true;
        } else if (takeBack(text, "DR")) again = true;
        if (text.size() >= 2 && text.front() == '(' && text.back() == ')') {
            text = text.substr(1, text.size() - 2);
            bare.negative = !bare.negative;
            again = true;
        }
        text = trimmedCell(text);
    }
    if (text.empty() || (!isDigit(text.front()) && text.front() != '.' && text.front() != ',')) return std::nullopt;
    bare.digits = text;
    return bare;
}

/// Only digits and one decimal mark, thousands marks taken out where they part threes.
std::optional<std::string> plainFigure(std::string_view digits, char decimalMark)
{
    const char thousands = decimalMark == '.' ? ',' : '.';
    std::string plain;
    std::size_t sinceMark = 0;
    bool marked = false, decimals = false;
    while (!digits.empty()) {
        if (isDigit(digits.front())) {
            plain += digits.front();
            ++sinceMark;
            digits.remove_prefix(1);
            continue;
        }
        if (digits.front() == decimalMark) {
            if (decimals || (marked && sinceMark != 3)) return std::nullopt;
            decimals = true;
            plain += '.';
            digits.remove_prefix(1);
            continue;
        }
        const bool mark = takeFront(digits, std::string_view{&thousands, 1}) || takeFront(digits, "'") || takeFront(digits, " ") || takeFront(digits, hardSpace)
                          || takeFront(digits, thinSpace) || takeFront(digits, narrowSpace);
        if (!mark || decimals || sinceMark == 0 || sinceMark > 3 || (marked && sinceMark != 3)) return std::nullopt;
        marked = true;
        sinceMark = 0;
    }
    if (marked && !decimals && sinceMark != 3) return std::nullopt;
    if (plain.empty() || plain == ".") return std::nullopt;
    if (plain.front() == '.') plain.insert(0, 1, '0');
    if (plain.back() == '.') plain.pop_back();
    return plain;
}

constexpr std::array<std::string_view, 12> months{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"};

int monthOf(std::string_view word)
{
    if (word.size() < 3) return 0;
    const auto start = lowered(word.substr(0, 3));
    for (std::size_t i = 0; i < months.size(); ++i)
        if (months[i] == start) return static_cast<int>(i) + 1;
    return 0;
}

int fullYear(int year, std::size_t digits) { return digits <= 2 ? 2000 + year : year; }

struct Token {
    std::string_view text;
    bool digits = false;
    int value = 0;
};

/// The first three parts of a cell that are figures or words, and what parts them; nothing for other characters.
std::optional<std::vector<Token>> dateTokens(std::string_view cell)
{
    std::vector<Token> tokens;
    auto text = trimmedCell(cell);
    while (!text.empty() && tokens.size() < 3) {
        std::size_t size = 0;
        if (isDigit(text.front())) {
            Token token;
            token.digits = true;
            while (size < text.size() && isDigit(text[size])) {
                if (size < 8) token.value = token.value * 10 + (text[size] - '0');
                ++size;
            }
            if (size > 8) return std::nullopt;
            token.text = text.substr(0, size);
            tokens.push_back(token);
        } else if (const char low = lowered(text.front()); low >= 'a' && low <= 'z') {
            while (size < text.size() && lowered(text[size]) >= 'a' && lowered(text[size]) <= 'z') ++size;
            const auto word = lowered(text.substr(0, size));
            // A weekday in front, or st, nd, rd, th behind a day, says nothing new.
            const bool plain = word == "st" || word == "nd" || word == "rd" || word == "th"
                               || (tokens.empty() && (word.starts_with("mon") || word.starts_with("tue") || word.starts_with("wed") || word.starts_with("thu") || word.starts_with("fri")
                                                      || word.starts_with("sat") || word.starts_with("sun")));
            if (!plain) tokens.push_back({text.substr(0, size), false, 0});
        } else if (std::string_view{"/-. ,'"}.find(text.front()) != std::string_view::npos) size = 1;
        else return std::nullopt;
        text.remove_prefix(size);
    }
    // Behind the date only a time may stand.
    text = trimmedCell(text);
    if (!text.empty() && std::string_view{"Tt ,"}.find(text.front()) == std::string_view::npos && !isDigit(text.front())) return std::nullopt;
    if (!text.empty() && text.find(':') == std::string_view::npos) return std::nullopt;
    return tokens;
}

}

std::string_view trimmedCell(std::string_view cell)
{
    for (bool again = true; again;) {
        again = false;
        while (!cell.empty() && (cell.front() == ' ' || (cell.front() >= '\t' && cell.front() <= '\r'))) cell.remove_prefix(1);
        while (!cell.empty() && (cell.back() == ' ' || (cell.back() >= '\t' && cell.back() <= '\r'))) cell.remove_suffix(1);
        for (const auto space : {hardSpace, thinSpace, narrowSpace})
            if (takeFront(cell, space) || takeBack(cell, space)) again = true;
    }
    return cell;
}

std::optional<std::int64_t> readFigure(std::string_view cell, char decimalMark, int scale, bool rounded)
{
    const auto bare = bareFigure(cell);
    if (!bare) return std::nullopt;
    auto plain = plainFigure(bare->digits, decimalMark);
    if (!plain) return std::nullopt;
    bool up = false;
    if (const auto point = plain->find('.'); rounded && point != std::string::npos && plain->size() - point - 1 > static_cast<std::size_t>(scale)) {
        up = (*plain)[point + 1 + static_cast<std::size_t>(scale)] >= '5';
        plain->resize(point + 1 + static_cast<std::size_t>(scale));
        if (plain->back() == '.') plain->pop_back();
    }
    auto units = parseDecimal(*plain, scale);
    if (!units) return std::nullopt;
    if (up) ++*units;
    return bare->negative ? -*units : *units;
}

bool isFigure(std::string_view cell)
{
    const auto bare = bareFigure(cell);
    return bare && (plainFigure(bare->digits, '.') || plainFigure(bare->digits, ','));
}

int votesForComma(std::string_view cell)
{
    const auto bare = bareFigure(cell);
    if (!bare) return 0;
    const bool point = plainFigure(bare->digits, '.').has_value(), comma = plainFigure(bare->digits, ',').has_value();
    if (point != comma) return comma ? 1 : -1;
    return 0;
}

std::optional<DateParts> datePartsOf(std::string_view cell)
{
    const auto tokens = dateTokens(cell);
    if (!tokens || tokens->size() != 3) return std::nullopt;
    for (const auto& token : *tokens)
        if (!token.digits || token.text.size() == 3 || token.text.size() > 4) return std::nullopt;
    DateParts parts{(*tokens)[0].value, (*tokens)[1].value, (*tokens)[2].value, (*tokens)[0].text.size() == 4};
    if ((*tokens)[1].text.size() > 2 || (parts.yearFirst && (*tokens)[2].text.size() > 2)) return std::nullopt;
    return parts;
}

std::optional<Date> readPrintedDate(std::string_view cell, DateOrder order)
{
    const auto tokens = dateTokens(cell);
    if (!tokens) return std::nullopt;
    if (tokens->size() == 1) {
        const auto& only = tokens->front();
        if (!only.digits || only.text.size() != 8) return std::nullopt;
        return Date::of(only.value / 10'000, only.value / 100 % 100, only.value % 100);
    }
    if (tokens->size() != 3) return std::nullopt;
    const auto& [a, b, c] = std::tie((*tokens)[0], (*tokens)[1], (*tokens)[2]);
    if (!a.digits && b.digits && c.digits) return Date::of(fullYear(c.value, c.text.size()), monthOf(a.text), b.value);
    if (a.digits && !b.digits && c.digits)
        return a.text.size() == 4 ? Date::of(a.value, monthOf(b.text), c.value) : Date::of(fullYear(c.value, c.text.size()), monthOf(b.text), a.value);
    const auto parts = datePartsOf(cell);
    if (!parts) return std::nullopt;
    if (parts->yearFirst) return Date::of(parts->first, parts->second, parts->third);
    const auto year = fullYear(parts->third, c.text.size());
    switch (order) {
    case DateOrder::monthDayYear: return Date::of(year, parts->first, parts->second);
    case DateOrder::dayMonthYear: return Date::of(year, parts->second, parts->first);
    case DateOrder::yearMonthDay: return Date::of(fullYear(parts->first, a.text.size()), parts->second, parts->third);
    }
    return std::nullopt;
}

}

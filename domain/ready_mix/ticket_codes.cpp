#include "quantity/letters.h"
#include "quantity/words.h"
#include "ready_mix/expected_charge.h"
#include "ready_mix/ticket_stack.h"

#include <algorithm>

namespace strikeoff {

namespace {

CodeReading readCode(const std::vector<std::string>& codes, std::string_view typed)
{
    const auto wanted = raised(typed);
    std::vector<std::string> fitting;
    for (const auto& code : codes) {
        const auto plain = raised(code);
        if (plain == wanted) return {code, {}};
        if (plain.starts_with(wanted) && std::find(fitting.begin(), fitting.end(), code) == fitting.end()) fitting.push_back(code);
    }
    if (fitting.empty()) return {wanted, {}};
    if (fitting.size() == 1) return {fitting.front(), {}};
    if (fitting.size() > 6) fitting.resize(6);
    return {{}, "\u201c" + std::string{typed} + "\u201d fits " + listed(fitting) + "; type more of it"};
}

/// What a ticket's options can name on a sheet: not the mixes, nor what follows from size, time or the bill as a whole.
bool isNamedByOptions(const SheetCharge& charge)
{
    switch (charge.charge) {
    case ChargeKind::option:
    case ChargeKind::load:
    case ChargeKind::afterHours:
    case ChargeKind::holiday:
    case ChargeKind::winter: return true;
    default: return false;
    }
}

std::string_view withoutBlanks(std::string_view text)
{
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

/// Words, and "=" as a word of its own.
std::vector<std::string> wordsOf(std::string_view text)
{
    std::vector<std::string> words;
    std::string word;
    const auto end = [&] {
        if (!word.empty()) words.push_back(std::move(word));
        word.clear();
    };
    for (const char c : text) {
        if (c == ' ' || c == '\t' || c == ';' || c == ',') end();
        else if (c == '=') {
            end();
            words.emplace_back("=");
        } else word += c;
    }
    end();
    return words;
}

std::optional<std::int64_t> amountOf(std::string_view word)
{
    if (word.ends_with('%')) word.remove_suffix(1);
    if (word.empty() || !(isDigit(word.front()) || word.front() == '.')) return std::nullopt;
    return readDecimal(word, Quantity::scale);
}

}

CodeReading readMix(const PriceSheet* sheet, std::string_view typed)
{
    const auto text = withoutBlanks(typed);
    if (text.empty()) return {};
    std::vector<std::string> codes;
    if (sheet)
        for (const auto* charge : sheet->charges)
            if (charge->charge == ChargeKind::mix) codes.push_back(charge->code);
    return readCode(codes, text);
}

CodeReading readOptions(const PriceSheet* sheet, std::string_view typed)
{
    std::vector<std::string> codes;
    if (sheet)
        for (const auto* charge : sheet->charges)
            if (isNamedByOptions(*charge)) codes.emplace_back(nameOf(*charge));
    const auto isCode = [&](const std::string& word) { return std::any_of(codes.begin(), codes.end(), [&](const auto& code) { return raised(code) == raised(word); }); };
    std::string text;
    bool takesAmount = false;  // an option stands before and has none yet
    const auto words = wordsOf(typed);
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (words[i] == "=") {
            if (!takesAmount || i + 1 == words.size() || !amountOf(words[i + 1])) return {{}, "an option and its amount are written like ACC=2"};
            continue;
        }
        const auto amount = isCode(words[i]) ? std::nullopt : amountOf(words[i]);
        if (!amount) {
            auto read = readCode(codes, words[i]);
            if (!read.fault.empty()) return read;
            if (!text.empty()) text += ';';
            text += read.code;
            takesAmount = true;
            continue;
        }
        if (!takesAmount) return {{}, "\u201c" + words[i] + "\u201d stands without an option before it; write it like ACC=2"};
        auto sum = *amount;
        // "1 1/2" comes in two words.
        if (i + 1 < words.size() && words[i + 1].find('/') != std::string::npos)
            if (const auto whole = readDecimal(words[i] + ' ' + words[i + 1], Quantity::scale)) {
                sum = *whole;
                ++i;
            }
        text += '=' + Quantity::ofUnits(sum).text();
        takesAmount = false;
    }
    return {text, {}};
}

}

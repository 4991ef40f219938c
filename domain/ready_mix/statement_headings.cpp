#include "ready_mix/statement_headings.h"

#include "quantity/letters.h"
#include "ready_mix/codes.h"
#include "ready_mix/printed_figures.h"

#include <algorithm>

namespace strikeoff {

namespace {

using enum StatementColumn;

struct Phrase {
    std::string_view words;
    StatementColumn meaning;
    int score;
};

// What suppliers head their columns with (common practice, no source). A phrase counts only where no longer one holds it.
constexpr Phrase phrases[] = {
    {"ticket", ticket, 100}, {"ticket no", ticket, 105}, {"ticket number", ticket, 105}, {"tkt", ticket, 100}, {"tkt no", ticket, 105}, {"tix", ticket, 90},
    {"delivery no", ticket, 90}, {"delivery number", ticket, 90}, {"delivery note", ticket, 90}, {"delivery ticket", ticket, 105}, {"delivery id", ticket, 80},
    {"docket", ticket, 100}, {"docket no", ticket, 105}, {"load no", ticket, 80}, {"load number", ticket, 80}, {"load id", ticket, 75}, {"load", ticket, 40},
    {"slip", ticket, 80}, {"slip no", ticket, 90}, {"dispatch no", ticket, 70}, {"reference", ticket, 45}, {"ref", ticket, 45}, {"ref no", ticket, 50},
    {"reference no", ticket, 50}, {"document", ticket, 40}, {"doc no", ticket, 45}, {"document no", ticket, 45}, {"invoice no", ticket, 35}, {"invoice", ticket, 30},
    {"number", ticket, 30}, {"no", ticket, 25}, {"bol", ticket, 50}, {"order", ticket, 15}, {"order no", ticket, 20},
    {"date", date, 100}, {"ticket date", date, 110}, {"delivery date", date, 110}, {"ship date", date, 110}, {"shipped", date, 50}, {"invoice date", date, 70},
    {"load date", date, 110}, {"del date", date, 110}, {"day", date, 60}, {"delivered", date, 40}, {"delivered on", date, 90}, {"when", date, 50},
    {"posting date", date, 60}, {"service date", date, 90}, {"pour date", date, 100},
    {"code", code, 90}, {"item code", code, 100}, {"product code", code, 100}, {"item no", code, 80}, {"item number", code, 80}, {"product no", code, 80},
    {"item", code, 55}, {"product", code, 50}, {"mix", code, 90}, {"mix code", code, 100}, {"mix id", code, 95}, {"mix no", code, 95}, {"sku", code, 90},
    {"material", code, 50}, {"material code", code, 95}, {"prod code", code, 95}, {"charge code", code, 95}, {"item id", code, 80},
    {"description", description, 100}, {"desc", description, 100}, {"item description", description, 110}, {"product description", description, 110},
    {"mix description", description, 110}, {"charge description", description, 110}, {"material description", description, 110}, {"details", description, 80},
    {"detail", description, 80}, {"particulars", description, 90}, {"text", description, 60}, {"charge", description, 45}, {"service", description, 60},
    {"item", description, 50}, {"product", description, 50}, {"material", description, 50}, {"what", description, 60}, {"mix", description, 40},
    {"transaction", description, 40}, {"name", description, 40},
    {"quantity", quantity, 100}, {"qty", quantity, 100}, {"quan", quantity, 90}, {"qnty", quantity, 90}, {"yards", quantity, 90}, {"yds", quantity, 90},
    {"yd", quantity, 80}, {"cy", quantity, 90}, {"cubic yards", quantity, 100}, {"volume", quantity, 80}, {"vol", quantity, 70}, {"qty delivered", quantity, 105},
    {"qty shipped", quantity, 105}, {"quantity delivered", quantity, 105}, {"units", quantity, 60}, {"delivered", quantity, 40},
    {"unit", unit, 70}, {"uom", unit, 100}, {"um", unit, 90}, {"u m", unit, 90}, {"unit of measure", unit, 110}, {"measure", unit, 70},
    {"unit price", unitPrice, 110}, {"price", unitPrice, 90}, {"rate", unitPrice, 90}, {"unit cost", unitPrice, 105}, {"each", unitPrice, 80},
    {"per unit", unitPrice, 90}, {"price per", unitPrice, 80}, {"price unit", unitPrice, 100}, {"unit rate", unitPrice, 105}, {"price each", unitPrice, 105},
    {"unit amount", unitPrice, 90}, {"cost", unitPrice, 40}, {"price yd", unitPrice, 100}, {"unit", unitPrice, 30},
    {"amount", amount, 100}, {"amt", amount, 95}, {"total", amount, 85}, {"extended", amount, 100}, {"extension", amount, 100}, {"ext", amount, 95},
    {"ext price", amount, 110}, {"extended price", amount, 110}, {"extended amount", amount, 115}, {"ext amount", amount, 115}, {"line total", amount, 110},
    {"line amount", amount, 110}, {"net", amount, 60}, {"net amount", amount, 105}, {"sum", amount, 70}, {"value", amount, 60}, {"debit", amount, 80},
    {"charges", amount, 60}, {"charge", amount, 50}, {"total price", amount, 105}, {"total amount", amount, 105}, {"billed", amount, 80}, {"cost", amount, 45},
    {"credit", credit, 90}, {"credits", credit, 90}, {"cr", credit, 60}, {"credit amount", credit, 100},
    {"tax", tax, 90}, {"sales tax", tax, 100}, {"tax amount", tax, 105}, {"tax amt", tax, 105},
    {"balance", other, 90}, {"running balance", other, 100}, {"account", other, 80}, {"account no", other, 90}, {"customer", other, 80}, {"customer no", other, 90},
    {"cust", other, 80}, {"cust no", other, 90}, {"po", other, 80}, {"p o", other, 80}, {"po no", other, 90}, {"po number", other, 90}, {"purchase order", other, 90},
    {"job", other, 80}, {"job no", other, 90}, {"job name", other, 90}, {"job number", other, 90}, {"project", other, 80}, {"project no", other, 90}, {"site", other, 70},
    {"plant", other, 80}, {"plant no", other, 90}, {"truck", other, 80}, {"truck no", other, 90}, {"driver", other, 80}, {"terms", other, 80}, {"due date", other, 120},
    {"due", other, 60}, {"page", other, 80}, {"line", other, 60}, {"line no", other, 90}, {"seq", other, 80}, {"tax rate", other, 110}, {"tax code", other, 110},
    {"taxable", other, 90}, {"discount", other, 70}, {"address", other, 80}, {"phone", other, 80}, {"statement", other, 70}, {"statement date", other, 110},
    {"time", other, 70}, {"signed", other, 70}, {"signed by", other, 80},
};

struct Found {
    const Phrase* phrase;
    std::size_t begin, end;
};

}

std::string plainHeading(std::string_view heading)
{
    std::string plain;
    for (const char c : trimmedCell(heading)) {
        const char low = lowered(c);
        const bool keep = (low >= 'a' && low <= 'z') || isDigit(low) || static_cast<unsigned char>(c) >= 0x80;
        if (keep) plain += low;
        else {
            if (!plain.empty() && plain.back() != ' ') plain += ' ';
            if (c == '#') plain += "no ";
        }
    }
    while (!plain.empty() && plain.back() == ' ') plain.pop_back();
    return plain;
}

HeadingScores headingScores(std::string_view heading)
{
    HeadingScores scores{};
    const auto padded = ' ' + plainHeading(heading) + ' ';
    if (padded.size() > 80) return scores;
    std::vector<Found> found;
    for (const auto& phrase : phrases) {
        const auto word = ' ' + std::string{phrase.words} + ' ';
        if (const auto at = padded.find(word); at != std::string::npos) found.push_back({&phrase, at, at + word.size()});
    }
    for (const auto& one : found) {
        const bool held = std::any_of(found.begin(), found.end(), [&](const Found& other) {
            return other.end - other.begin > one.end - one.begin && other.begin <= one.begin && other.end >= one.end;
        });
        if (held) continue;
        auto& score = scores[static_cast<std::size_t>(one.phrase->meaning)];
        score = std::max(score, one.phrase->score);
    }
    return scores;
}

std::optional<std::size_t> headingRowOf(const TextRows& rows)
{
    constexpr std::size_t searched = 60;
    constexpr int plain = 60;
    std::optional<std::size_t> best;
    int bestScore = 0;
    for (std::size_t i = 0; i < std::min(rows.size(), searched); ++i) {
        int score = 0, meanings = 0;
        std::array<bool, statementColumnCount> seen{};
        bool figures = false;
        for (const auto& cell : rows[i]) {
            const auto text = trimmedCell(cell);
            if (text.empty()) continue;
            if (isFigure(text) || datePartsOf(text)) {
                figures = true;
                continue;
            }
            const auto scores = headingScores(text);
            const auto most = std::max_element(scores.begin(), scores.end());
            if (*most < plain) continue;
            score += *most;
            const auto meaning = static_cast<std::size_t>(most - scores.begin());
            if (meaning == 0 || seen[meaning]) continue;
            seen[meaning] = true;
            ++meanings;
        }
        if (meanings < 2 || figures || score <= bestScore) continue;
        best = i;
        bestScore = score;
    }
    return best;
}

}

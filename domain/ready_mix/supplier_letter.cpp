#include "ready_mix/claims.h"

#include "quantity/words.h"
#include "ready_mix/ticket_check.h"

#include <algorithm>

namespace strikeoff {

namespace {

std::size_t widthOf(std::string_view text)
{
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }));
}

std::string padded(const std::string& text, std::size_t width, bool right)
{
    const auto blanks = std::string(width - std::min(width, widthOf(text)), ' ');
    return right ? blanks + text : text + blanks;
}

std::string wrapped(std::string_view text, std::size_t width, std::string_view indent)
{
    std::string out, row{indent};
    bool fresh = true;
    while (!text.empty()) {
        const auto space = text.find(' ');
        const auto word = text.substr(0, space);
        text = space == std::string_view::npos ? std::string_view{} : text.substr(space + 1);
        if (!fresh && widthOf(row) + 1 + widthOf(word) > width) {
            out += row + '\n';
            row = indent;
            fresh = true;
        }
        row += (fresh ? "" : " ") + std::string{word};
        fresh = false;
    }
    return out + row + '\n';
}

}

std::optional<SupplierLetter> letterFor(const Book& book, const StatementCheck& check, Date day)
{
    SupplierLetter letter;
    const auto& statement = *check.statement;
    const auto* supplier = book.find(statement.supplier);
    for (const auto& finding : check.lines) {
        if (finding.disputed.isZero() || finding.state == FindingState::letStand || finding.state == FindingState::credited) continue;
        SupplierLetter::Line line;
        if (finding.line) {
            line.ticket = finding.ticket ? finding.ticket->number : finding.line->ticketNumber;
            line.date = finding.line->date ? finding.line->date : finding.ticket ? std::optional{finding.ticket->date} : std::nullopt;
            line.what = finding.line->description.empty() ? finding.line->code : finding.line->description;
        } else line.what = "Total of the statement";
        line.billed = finding.billed;
        line.expected = finding.expected;
        line.difference = finding.disputed;
        line.why = sentenceWithoutOpening(finding);
        letter.asked += finding.disputed;
        letter.lines.push_back(std::move(line));
    }
    if (letter.lines.empty()) return std::nullopt;
    const auto& settings = book.settings();
    const auto addLine = [](std::string& to, const std::string& text) {
        if (!text.empty()) to += (to.empty() ? "" : "\n") + text;
    };
    for (const auto& text : {settings.outfitName, settings.outfitAddress, settings.outfitTown, settings.outfitPhone, settings.outfitEmail}) addLine(letter.from, text);
    if (supplier) {
        addLine(letter.to, supplier->name);
        addLine(letter.to, supplier->address);
    }
    letter.date = day;
    letter.subject = "Statement " + statement.number + " of " + statement.date.shown() + (supplier && !supplier->accountNumber.empty() ? ", our account " + supplier->accountNumber : "");
    letter.greeting = "Hello,";
    letter.opening.push_back("Thank you for the deliveries. I have gone through this statement with my tickets. Most of it agrees; "
                             + counted(static_cast<std::int64_t>(letter.lines.size()), "line does", "lines do") + " not, and I list " + (letter.lines.size() == 1 ? "it" : "them") + " below.");
    letter.closing.push_back("Together that is " + dollars(letter.asked) + ". Please credit it on the next statement, or tell me where I am wrong; I can send copies of the tickets.");
    letter.closing.push_back("The rest of the statement will be paid as usual.");
    letter.signature = settings.outfitName;
    return letter;
}

std::string SupplierLetter::text() const
{
    constexpr std::size_t width = 78;
    auto out = from + "\n\n" + to + "\n\n" + date.shown() + "\n\n" + subject + "\n\n" + greeting + "\n\n";
    for (const auto& paragraph : opening) out += wrapped(paragraph, width, "") + '\n';
    std::size_t ticketWidth = 8, sumWidth = 12;
    for (const auto& line : lines) ticketWidth = std::max(ticketWidth, widthOf(line.ticket));
    const auto row = [&](const std::string& ticket, const std::string& day, const std::string& billed, const std::string& due, const std::string& off) {
        out += padded(ticket, ticketWidth, false) + "  " + padded(day, 12, false) + padded(billed, sumWidth, true) + padded(due, sumWidth, true) + padded(off, sumWidth, true) + '\n';
    };
    row("Ticket", "Date", "Billed $", "Expected $", "Too much $");
    out += std::string(ticketWidth + 14 + 3 * sumWidth, '-') + '\n';
    for (const auto& line : lines) {
        row(line.ticket.empty() ? "\u2013" : line.ticket, line.date ? line.date->shown() : "\u2013", line.billed.shown(), line.expected ? line.expected->shown() : "\u2013", line.difference.shown());
        out += wrapped((line.what.empty() ? "" : line.what + ": ") + line.why, width, "  ");
    }
    out += std::string(ticketWidth + 14 + 3 * sumWidth, '-') + '\n';
    row("Total", "", "", "", asked.shown());
    out += '\n';
    for (const auto& paragraph : closing) out += wrapped(paragraph, width, "") + '\n';
    return out + "Regards,\n" + signature + '\n';
}

}

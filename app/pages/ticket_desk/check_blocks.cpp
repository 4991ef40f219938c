#include "pages/ticket_desk/check_blocks.h"

#include "labels.h"
#include "quantity/words.h"
#include "ready_mix/expected_charge.h"
#include "record/field_text.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace strikeoff {

namespace {

QString words(const char* text) { return QObject::tr(text); }

/// What the ticket shows that bears on its price, in one or two lines.
QString factsOf(const Book& book, const Ticket& ticket, const StatementCheck& check)
{
    QStringList facts;
    facts << qs(ticket.date.shown()) << qs(ticket.yards.shown(2) + " yd\u00b3");
    if (!ticket.mix.empty()) facts << qs(ticket.mix);
    if (!ticket.options.empty()) facts << qs(ticket.options);
    if (ticket.arrivedAt || ticket.dischargeEndedAt)
        facts << words("on site %1, empty %2").arg(ticket.arrivedAt ? qs(ticket.arrivedAt->shown()) : words("not recorded"), ticket.dischargeEndedAt ? qs(ticket.dischargeEndedAt->shown()) : words("not recorded"));
    if (ticket.concreteTempF) facts << QStringLiteral("%1 \u00b0F").arg(*ticket.concreteTempF);
    if (ticket.job) facts << words("job %1").arg(qs(keyText(book, *ticket.job)));
    auto text = facts.join(QStringLiteral(" \u00b7 "));
    for (const auto& remark : check.remarks)
        if (remark.ticket == &ticket) text += u'\n' + qs(remark.text);
    return text;
}

/// What the sheet calls the charge that a line bills.
QString expectedWords(const ExpectedCharge& charge, const LineFinding& finding)
{
    if (!finding.line) return {};
    const auto same = [](std::string_view a, std::string_view b) {
        return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), [](unsigned char x, unsigned char y) { return std::tolower(x) == std::tolower(y); });
    };
    for (const auto& line : charge.lines)
        if (!finding.line->code.empty() && same(line.code, finding.line->code)) return qs(line.description);
    if (finding.expected && !charge.tax.isZero() && *finding.expected == charge.tax) return words("Sales tax");
    if (finding.expected)
        for (const auto& line : charge.lines)
            if (line.amount == *finding.expected) return qs(line.description);
    return {};
}

FacingRow rowOf(const LineFinding& finding, const std::optional<ExpectedCharge>& charge)
{
    FacingRow row;
    row.leftWords = charge ? expectedWords(*charge, finding) : QString{};
    row.leftFigure = finding.expected ? qs(finding.expected->shown()) : QStringLiteral("\u2013");
    if (row.leftWords.isEmpty() && finding.expected) row.leftWords = finding.expected->isZero() ? words("Nothing due") : words("By sheet and ticket");
    if (finding.line) {
        const auto& line = *finding.line;
        row.rightWords = qs(line.description.empty() ? line.code : line.description);
        if (line.quantity && line.unitPrice) row.rightDetail = QStringLiteral("%1 \u00d7 %2").arg(qs(line.quantity->shown(line.quantity->units() % 1000 == 0 ? 0 : 2)), qs(line.unitPrice->shown()));
    } else {
        row.rightWords = words("Total as printed, less its lines");
    }
    row.rightFigure = qs(finding.billed.shown());
    row.finding = wordsOf(finding);
    row.why = finding.finding == Finding::agrees ? QString{} : qs(finding.why);
    row.difference = finding.difference.toDouble();
    if (!finding.difference.isZero() && finding.finding != Finding::agrees) row.figure = signedDollars(finding.difference);
    switch (finding.state) {
    case FindingState::settled: row.state = FacingState::agrees; break;
    case FindingState::open: row.state = finding.finding == Finding::needsYourEye ? FacingState::open : FacingState::wrong; break;
    case FindingState::claimed: row.state = FacingState::open; break;
    case FindingState::credited:
    case FindingState::letStand: row.state = FacingState::done; break;
    }
    return row;
}

std::string keyOf(const LineFinding& finding)
{
    if (finding.ticket) return "t" + std::to_string(finding.ticket->id.value());
    if (!finding.line) return "whole";
    if (!finding.line->ticketNumber.empty()) return "n" + finding.line->ticketNumber + (finding.line->date ? finding.line->date->text() : std::string{});
    return "none";
}

}

bool FindingFilter::takes(const LineFinding& finding) const
{
    switch (show) {
    case Show::open: return finding.state == FindingState::open;
    case Show::differing: return finding.finding != Finding::agrees;
    case Show::one: return finding.finding == one;
    case Show::everything: break;
    }
    return true;
}

QString signedDollars(Money amount) { return (amount > Money{} ? QStringLiteral("+") : QString{}) + qs(dollars(amount)); }

QString nameOf(const LineFinding& finding)
{
    if (!finding.line) return words("The statement as a whole");
    if (!finding.line->ticketNumber.empty()) return words("Ticket %1").arg(qs(finding.line->ticketNumber));
    return words("Line %1, no ticket").arg(finding.line->line);
}

Tone toneOf(const LineFinding& finding)
{
    switch (finding.state) {
    case FindingState::open: return finding.finding == Finding::needsYourEye ? Tone::attention : Tone::wrong;
    case FindingState::claimed: return Tone::attention;
    case FindingState::credited:
    case FindingState::letStand: return Tone::well;
    case FindingState::settled: break;
    }
    return Tone::plain;
}

QString wordsOf(const LineFinding& finding)
{
    auto text = qs(labelOf(finding.finding));
    switch (finding.state) {
    case FindingState::claimed: return text + (finding.claim ? words(", claim %1").arg(qs(finding.claim->number)) : words(", claimed"));
    case FindingState::credited: return text + words(", credited");
    case FindingState::letStand: return text + words(", let stand");
    default: return text;
    }
}

double largestDifference(const StatementCheck& check)
{
    double most = 0;
    for (const auto& finding : check.lines)
        if (finding.finding != Finding::agrees) most = std::max(most, std::abs(finding.difference.toDouble()));
    return most;
}

std::vector<CheckBlock> checkBlocks(const Book& book, const StatementCheck& check, const FindingFilter& filter)
{
    std::vector<CheckBlock> blocks;
    std::vector<std::optional<ExpectedCharge>> charges;
    std::vector<bool> taken;
    std::map<std::string, std::size_t> places;
    const PriceSheets sheets{book};
    for (std::size_t i = 0; i < check.lines.size(); ++i) {
        const auto& finding = check.lines[i];
        const auto [place, isNew] = places.try_emplace(keyOf(finding), blocks.size());
        if (isNew) {
            CheckBlock made;
            auto& block = made.block;
            if (finding.ticket) {
                block.leftTitle = words("Ticket %1").arg(qs(finding.ticket->number));
                block.leftFacts = factsOf(book, *finding.ticket, check);
            } else if (finding.line) {
                block.leftTitle = finding.line->ticketNumber.empty() ? words("No ticket belongs to it") : words("No ticket on file");
            } else {
                block.leftTitle = words("The lines added up");
            }
            if (!finding.line) block.rightTitle = words("The statement as a whole");
            else block.rightTitle = finding.line->ticketNumber.empty() ? words("Billed without a ticket") : words("Billed as %1").arg(qs(finding.line->ticketNumber));
            if (finding.line && finding.line->date) block.rightFacts = qs(finding.line->date->shown());
            if (finding.ticket && finding.how != PairedHow::number) block.rightFacts += (block.rightFacts.isEmpty() ? QString{} : QStringLiteral(" \u00b7 ")) + words("paired: %1").arg(qs(labelOf(finding.how)));
            blocks.push_back(std::move(made));
            charges.push_back(finding.ticket ? expectedCharge(sheets, *finding.ticket) : std::nullopt);
            taken.push_back(false);
        }
        auto& block = blocks[place->second];
        block.block.rows.push_back(rowOf(finding, charges[place->second]));
        block.findings.emplace_back(i);
        if (filter.takes(finding)) taken[place->second] = true;
    }
    std::vector<CheckBlock> shown;
    for (std::size_t i = 0; i < blocks.size(); ++i)
        if (taken[i]) shown.push_back(std::move(blocks[i]));
    if (filter.show != FindingFilter::Show::everything) return shown;
    for (const auto& unbilled : check.unbilled) {
        CheckBlock made;
        made.block.leftTitle = words("Ticket %1").arg(qs(unbilled.ticket->number));
        made.block.leftFacts = factsOf(book, *unbilled.ticket, check);
        made.block.rightTitle = words("On no statement");
        FacingRow row;
        row.leftWords = words("By sheet and ticket");
        row.leftFigure = unbilled.expected ? qs(unbilled.expected->shown()) : QStringLiteral("\u2013");
        row.rightWords = words("Not billed");
        row.finding = words("Not billed");
        row.state = FacingState::agrees;
        made.block.rows.push_back(std::move(row));
        made.findings.emplace_back(std::nullopt);
        shown.push_back(std::move(made));
    }
    return shown;
}

}

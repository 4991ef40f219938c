#include "pages/ticket_desk/statement_draft.h"

#include "quantity/decimal.h"

#include <algorithm>

namespace strikeoff {

namespace {

template <class Enum>
Enum choiceNamed(std::string_view code, Enum otherwise)
{
    const auto& choices = choicesOf<Enum>;
    const auto found = std::ranges::find(choices, code, &Choice::code);
    return found == choices.end() ? otherwise : static_cast<Enum>(found - choices.begin());
}

DraftRow rowOfCells(const std::vector<std::string>& cells)
{
    DraftRow row;
    for (std::size_t i = 0; i < cells.size(); ++i) row.texts[std::to_string(i)] = cells[i];
    return row;
}

std::vector<std::string> cellsOf(const DraftRow& row)
{
    std::vector<std::string> cells(row.texts.size());
    for (std::size_t i = 0; i < cells.size(); ++i) cells[i] = typedText(row.texts, std::to_string(i));
    return cells;
}

}

std::vector<DraftRow> draftRowsOf(const TextRows& rows, const StatementGuess& guess)
{
    DraftRow layout;
    for (std::size_t i = 0; i < guess.columns.size(); ++i) layout.texts["column " + std::to_string(i)] = codeOf(guess.columns[i]);
    layout.texts["columns"] = std::to_string(guess.columns.size());
    layout.texts["dates"] = codeOf(guess.dateOrder);
    layout.texts["mark"] = guess.decimalMark;
    if (guess.dateOrderSure) layout.texts["dates sure"] = "yes";
    if (guess.ticketCarries) layout.texts["ticket carries"] = "yes";
    if (guess.headingRow) layout.texts["heading row"] = std::to_string(*guess.headingRow);
    std::vector<DraftRow> kept{std::move(layout), rowOfCells(guess.headings)};
    for (const auto& row : rows) kept.push_back(rowOfCells(row));
    return kept;
}

StatementFile statementOfDraft(std::span<const DraftRow> kept)
{
    StatementFile file;
    if (kept.size() < 2) return file;
    const auto& layout = kept[0].texts;
    const auto number = [&](std::string_view name) { return static_cast<std::size_t>(readDecimal(typedText(layout, name), 0).value_or(0)); };
    for (std::size_t i = 0; i < number("columns") && i < layout.size(); ++i)
        file.guess.columns.push_back(choiceNamed(typedText(layout, "column " + std::to_string(i)), StatementColumn::other));
    file.guess.headings = cellsOf(kept[1]);
    file.guess.headings.resize(file.guess.columns.size());
    file.guess.dateOrder = choiceNamed(typedText(layout, "dates"), DateOrder::monthDayYear);
    file.guess.decimalMark = typedText(layout, "mark") == "," ? ',' : '.';
    file.guess.dateOrderSure = layout.contains("dates sure");
    file.guess.ticketCarries = layout.contains("ticket carries");
    for (const auto& row : kept.subspan(2)) file.rows.push_back(cellsOf(row));
    if (layout.contains("heading row") && number("heading row") < file.rows.size()) file.guess.headingRow = number("heading row");
    file.read = readStatement(file.rows, file.guess);
    return file;
}

}

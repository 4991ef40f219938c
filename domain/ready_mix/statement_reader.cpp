#include "ready_mix/statement_reader.h"

#include "quantity/words.h"
#include "ready_mix/codes.h"
#include "ready_mix/printed_figures.h"
#include "ready_mix/statement_headings.h"
#include "record/fields.h"

#include <algorithm>
#include <array>

namespace strikeoff {

namespace {

using enum StatementColumn;

constexpr std::size_t mostText = 400;                     // bytes a field of the book keeps
constexpr std::int64_t mostQuantity = 1'000'000'000;
constexpr std::size_t mostLines = 100'000;
constexpr std::size_t mostProblems = 50;
constexpr int firstYear = 1990, lastYear = 2100;

bool hasAnyWord(std::string_view text, std::span<const std::string_view> words)
{
    return std::any_of(words.begin(), words.end(), [&](auto word) { return hasWord(text, word); });
}

/// Text that a field keeps: on one line, not longer than it may be, cut between characters.
std::string kept(std::string_view cell)
{
    std::string text{cell};
    for (auto& c : text)
        if (static_cast<unsigned char>(c) < 0x20) c = ' ';
    if (text.size() > mostText) {
        auto size = mostText;
        while (size > 0 && (static_cast<unsigned char>(text[size]) & 0xc0) == 0x80) --size;
        text.resize(size);
    }
    return text;
}

class Reader {
public:
    Reader(const TextRows& rows, const StatementGuess& guess, const std::function<bool(int)>& progress) : rows_{rows}, guess_{guess}, progress_{progress} {}

    ReadStatement run()
    {
        read_.rows.resize(rows_.size());
        if (auto obstacle = guess_.obstacle(); !obstacle.empty()) {
            read_.problems.push_back(capitalized(obstacle) + '.');
            return std::move(read_);
        }
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            if (progress_ && i % 1000 == 0 && !progress_(static_cast<int>(100 * i / rows_.size()))) {
                read_.problems.assign(1, "Reading was stopped; nothing was taken in.");
                break;
            }
            row_ = i;
            readRow();
        }
        if (read_.lines.empty() && read_.problems.empty()) read_.problems.push_back("No row could be read as a line of a statement; check which column holds what.");
        if (!read_.problems.empty()) read_.lines.clear();
        return std::move(read_);
    }

private:
    std::string_view cell(StatementColumn meaning) const
    {
        for (std::size_t i = 0; i < std::min(guess_.columns.size(), rows_[row_].size()); ++i)
            if (guess_.columns[i] == meaning) return trimmedCell(rows_[row_][i]);
        return {};
    }

    std::string columnName(StatementColumn meaning) const
    {
        for (std::size_t i = 0; i < guess_.columns.size(); ++i)
            if (guess_.columns[i] == meaning) return i < guess_.headings.size() && !guess_.headings[i].empty() ? "\u201c" + guess_.headings[i] + "\u201d" : "column " + std::to_string(i + 1);
        return std::string{labelOf(meaning)};
    }

    void note(RowRole role) { read_.rows[row_].role = role; }

    void refuse(const std::string& what)
    {
        read_.rows[row_] = {RowRole::refused, what};
        if (read_.problems.size() < mostProblems) read_.problems.push_back("Row " + std::to_string(row_ + 1) + ": " + what);
    }

    void refuseCell(StatementColumn meaning, const char* wanted)
    {
        refuse(columnName(meaning) + " holds \u201c" + kept(cell(meaning)).substr(0, 60) + "\u201d, which is no " + wanted + "; correct the file, or say that the column is something else.");
    }

    bool isBlank() const
    {
        return std::all_of(rows_[row_].begin(), rows_[row_].end(), [](const auto& text) { return trimmedCell(text).empty(); });
    }

    bool repeatsHeading() const
    {
        if (!guess_.headingRow || *guess_.headingRow >= rows_.size()) return false;
        const auto& heading = rows_[*guess_.headingRow];
        const auto& row = rows_[row_];
        std::size_t same = 0, filled = 0;
        for (std::size_t i = 0; i < std::min(row.size(), heading.size()); ++i) {
            const auto text = trimmedCell(row[i]);
            if (text.empty()) continue;
            ++filled;
            same += plainHeading(text) == plainHeading(heading[i]);
        }
        return filled >= 2 && same == filled;
    }

    /// The cells that hold neither a figure nor a date, together.
    std::string wordsOfRow() const
    {
        std::string words;
        for (const auto& text : rows_[row_]) {
            const auto part = trimmedCell(text);
            if (part.empty() || isFigure(part) || datePartsOf(part)) continue;
            if (words.size() < 200) words += (words.empty() ? "" : " ") + std::string{part.substr(0, 100)};
        }
        return words;
    }

    void readRow()
    {
        if (isBlank()) return note(RowRole::blank);
        if (guess_.headingRow && row_ == *guess_.headingRow) return note(RowRole::heading);
        if (guess_.headingRow && row_ < *guess_.headingRow) return note(RowRole::words);
        if (repeatsHeading()) return note(RowRole::heading);
        const auto words = wordsOfRow();
        const auto sum = amountOfRow();
        if (!sum.readable) return isTotalRow(words) || !looksLikeLine() ? note(RowRole::words) : refuseCell(sum.of, "amount");
        if (!sum.amount) return withoutAmount(words);
        if (isTotalRow(words)) return totalRow(*sum.amount, words);
        line(*sum.amount, words);
    }

    struct Sum {
        bool readable = true;
        StatementColumn of = StatementColumn::amount;
        std::optional<Money> amount;
    };

    Sum amountOfRow() const
    {
        Sum sum;
        const auto billed = cell(amount), back = cell(credit);
        if (!back.empty()) {
            const auto units = readFigure(back, guess_.decimalMark, Money::scale, false);
            if (!units) return {isNothing(back) && billed.empty(), credit, std::nullopt};
            if (*units != 0) {
                sum.of = credit;
                sum.amount = Money::ofCents(*units > 0 ? -*units : *units);
                return sum;
            }
        }
        if (!billed.empty()) {
            if (isNothing(billed)) {
                sum.amount = Money{};
                return sum;
            }
            const auto units = readFigure(billed, guess_.decimalMark, Money::scale, false);
            if (!units) sum.readable = false;
            else sum.amount = Money::ofCents(*units);
            return sum;
        }
        const auto many = readFigure(cell(quantity), guess_.decimalMark, Quantity::scale, true);
        const auto price = readFigure(cell(unitPrice), guess_.decimalMark, UnitPrice::scale, true);
        if (many && price && std::abs(*many) <= mostQuantity && std::abs(*price) <= mostPrice) {
            const auto cents = static_cast<Int128>(*many) * *price / 100'000;
            if (cents <= mostMoney && cents >= -mostMoney) sum.amount = lineAmount(UnitPrice::ofUnits(*price), Quantity::ofUnits(*many));
        }
        return sum;
    }

    static bool isNothing(std::string_view text)
    {
        constexpr std::array<std::string_view, 6> nothing{"n/c", "nc", "no charge", "incl", "included", "-"};
        const auto plain = lowered(text);
        return std::find(nothing.begin(), nothing.end(), plain) != nothing.end();
    }

    bool looksLikeLine() const { return !cell(ticket).empty() && (!cell(date).empty() || !cell(quantity).empty() || !cell(code).empty()); }

    bool isTotalRow(std::string_view words) const
    {
        constexpr std::array<std::string_view, 12> labels{"total", "totals", "subtotal", "sub-total", "subtotals", "balance", "amount due", "total due", "sum", "balance forward", "previous balance", "payments received"};
        if (!hasAnyWord(words, labels)) return false;
        // A line may have such a word in it ("Total slump additive"); it has its quantity, price or code then.
        const bool priced = readFigure(cell(unitPrice), guess_.decimalMark, UnitPrice::scale, true).has_value();
        return !priced && (cell(code).empty() || isTotalWord(cell(code)) || cell(quantity).empty());
    }

    static bool isTotalWord(std::string_view text)
    {
        constexpr std::array<std::string_view, 4> labels{"total", "totals", "subtotal", "sub-total"};
        return hasAnyWord(text, labels);
    }

    void withoutAmount(std::string_view words)
    {
        note(RowRole::words);
        if (!isTotalRow(words) && looksLikeLine())
            read_.remarks.push_back("Row " + std::to_string(row_ + 1) + " has no amount and is left out: " + kept(words).substr(0, 80));
    }

    void totalRow(Money sum, std::string_view words)
    {
        constexpr std::array<std::string_view, 6> brought{"balance forward", "previous balance", "balance brought", "payments received", "payment received", "opening balance"};
        if (hasAnyWord(words, brought)) {
            carried_ += sum;
            note(RowRole::words);
            read_.remarks.push_back("Row " + std::to_string(row_ + 1) + " is no line of this statement and is left out: " + kept(words).substr(0, 80));
            return;
        }
        constexpr std::array<std::string_view, 3> parts{"subtotal", "sub-total", "subtotals"};
        const bool ofAll = sum == all_ || sum == all_ + carried_;
        const bool part = hasAnyWord(words, parts) || (!cell(ticket).empty() && !isTotalWord(cell(ticket))) || sum == sinceSubtotal_;
        if (part && !(ofAll && lastRowsAreTotals())) {
            note(RowRole::subtotal);
            if (sum != sinceSubtotal_ && !ofAll) read_.remarks.push_back("Row " + std::to_string(row_ + 1) + " gives " + dollars(sum) + "; the lines above it add up to " + dollars(sinceSubtotal_) + ".");
            sinceSubtotal_ = Money{};
            return;
        }
        note(RowRole::total);
        read_.total = sum - (sum == all_ ? Money{} : carried_);
        sinceSubtotal_ = Money{};
    }

    /// Whether no line follows.
    bool lastRowsAreTotals() const
    {
        for (auto i = row_ + 1; i < rows_.size(); ++i)
            for (std::size_t column = 0; column < std::min(rows_[i].size(), guess_.columns.size()); ++column)
                if (guess_.columns[column] == ticket && !trimmedCell(rows_[i][column]).empty() && !isTotalWord(rows_[i][column])) return false;
        return true;
    }

    void line(Money sum, std::string_view words)
    {
        StatementLine made;
        made.ticketNumber = kept(cell(ticket));
        made.code = kept(cell(code));
        made.description = kept(cell(description));
        made.unit = kept(cell(unit));
        const auto day = cell(date), many = cell(quantity), price = cell(unitPrice);
        const bool named = !made.ticketNumber.empty() || !day.empty() || !made.code.empty() || !made.description.empty() || !many.empty();
        if (!named) {
            // A bare sum below the lines it adds up.
            if (sum == sinceSubtotal_ && !sinceSubtotal_.isZero() && sum != all_) {
                sinceSubtotal_ = Money{};
                return note(RowRole::subtotal);
            }
            if (sum == all_ && !read_.lines.empty()) {
                read_.total = sum;
                sinceSubtotal_ = Money{};
                return note(RowRole::total);
            }
            if (words.empty()) return refuse("an amount of " + dollars(sum) + " without ticket, date or words; say what it is for, or take the row out.");
            made.description = kept(words);
        }
        if (!day.empty()) {
            made.date = readPrintedDate(day, guess_.dateOrder);
            if (!made.date || made.date->year() < firstYear || made.date->year() > lastYear) return refuseCell(date, "date");
        }
        if (!many.empty() && !isNothing(many)) {
            const auto units = readFigure(many, guess_.decimalMark, Quantity::scale, true);
            if (!units || std::abs(*units) > mostQuantity) return refuseCell(quantity, "quantity");
            made.quantity = Quantity::ofUnits(*units);
        }
        if (!price.empty() && !isNothing(price)) {
            const auto units = readFigure(price, guess_.decimalMark, UnitPrice::scale, true);
            if (!units || std::abs(*units) > mostPrice) return refuseCell(unitPrice, "price");
            made.unitPrice = UnitPrice::ofUnits(*units);
        }
        if (sum > Money::ofCents(mostMoney) || sum < Money::ofCents(-mostMoney)) return refuseCell(amount, "amount that a bill can hold");
        if (guess_.ticketCarries && made.ticketNumber.empty() && !made.date && !read_.lines.empty()) {
            made.ticketNumber = read_.lines.back().ticketNumber;
            made.date = read_.lines.back().date;
        }
        made.amount = sum;
        // A date that is printed on the first line of a ticket only is the date of all its lines.
        if (!made.date && !made.ticketNumber.empty() && !read_.lines.empty() && read_.lines.back().ticketNumber == made.ticketNumber) made.date = read_.lines.back().date;
        note(RowRole::line);
        keep(std::move(made));
        addTax();
    }

    void keep(StatementLine made)
    {
        if (read_.lines.size() >= mostLines) return refuse("a statement holds at most 100,000 lines; take it in by parts.");
        all_ += made.amount;
        sinceSubtotal_ += made.amount;
        made.line = static_cast<std::int32_t>(read_.lines.size()) + 1;
        read_.lines.push_back(std::move(made));
    }

    /// A column of sales tax is a line of its own.
    void addTax()
    {
        const auto text = cell(tax);
        if (text.empty() || isNothing(text) || read_.lines.empty()) return;
        const auto units = readFigure(text, guess_.decimalMark, Money::scale, false);
        if (!units || std::abs(*units) > mostMoney) return refuseCell(tax, "amount");
        if (*units == 0) return;
        StatementLine made;
        made.ticketNumber = read_.lines.back().ticketNumber;
        made.date = read_.lines.back().date;
        made.description = "Sales tax";
        made.amount = Money::ofCents(*units);
        keep(std::move(made));
    }

    const TextRows& rows_;
    const StatementGuess& guess_;
    const std::function<bool(int)>& progress_;
    std::size_t row_ = 0;
    Money all_, sinceSubtotal_, carried_;
    ReadStatement read_;
};

}

ReadStatement readStatement(const TextRows& rows, const StatementGuess& guess, const std::function<bool(int percent)>& progress) { return Reader{rows, guess, progress}.run(); }

char guessSeparator(std::string_view text)
{
    constexpr std::array<char, 4> separators{',', ';', '\t', '|'};
    constexpr std::size_t looked = 64 * 1024;
    text = text.substr(0, looked);
    char best = ',';
    double bestScore = 0;
    for (const char separator : separators) {
        // Cells a row; the cell count most rows share wins, more cells before fewer.
        std::vector<std::size_t> counts;
        std::size_t cells = 1, size = 0;
        bool quoted = false;
        const auto endRow = [&] {
            if (size > 0) counts.push_back(cells);
            cells = 1;
            size = 0;
        };
        for (const char c : text) {
            if (c == '"') quoted = !quoted;
            if (!quoted && (c == '\n' || c == '\r')) endRow();
            else {
                ++size;
                if (!quoted && c == separator) ++cells;
            }
        }
        endRow();
        if (counts.empty()) continue;
        std::sort(counts.begin(), counts.end());
        std::size_t most = 0, mostCells = 1;
        for (std::size_t i = 0; i < counts.size();) {
            std::size_t k = i;
            while (k < counts.size() && counts[k] == counts[i]) ++k;
            if (counts[i] > 1 && (k - i) * counts[i] >= most * mostCells) {
                most = k - i;
                mostCells = counts[i];
            }
            i = k;
        }
        const double score = static_cast<double>(most) / static_cast<double>(counts.size()) * (mostCells > 1 ? 1 + 0.1 * static_cast<double>(std::min<std::size_t>(mostCells, 12)) : 0);
        if (score > bestScore) {
            bestScore = score;
            best = separator;
        }
    }
    return best;
}

Statement statementFor(const ReadStatement& read, Id<Supplier> supplier, std::string number, Date day)
{
    Statement statement;
    statement.supplier = supplier;
    statement.number = std::move(number);
    statement.date = day;
    statement.total = read.total;
    for (const auto& line : read.lines) {
        if (!line.date || line.amount < Money{}) continue;
        statement.periodFrom = statement.periodFrom ? std::min(*statement.periodFrom, *line.date) : *line.date;
        statement.periodTo = statement.periodTo ? std::max(*statement.periodTo, *line.date) : *line.date;
    }
    return statement;
}

}

#include "ready_mix/statement_headings.h"

#include "quantity/letters.h"
#include "ready_mix/codes.h"
#include "ready_mix/printed_figures.h"
#include "statistics/assignment.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace strikeoff {

namespace {

using enum StatementColumn;

constexpr std::size_t mostColumns = 60;
constexpr std::size_t sampled = 300;
constexpr int leastScore = 20;
constexpr char placeMark = '\x01';  // before the place of a column that has no heading

std::string_view cellOf(const std::vector<std::string>& row, std::size_t column)
{
    return column < row.size() ? trimmedCell(row[column]) : std::string_view{};
}

/// What the cells of a column look like: shares of its cells that are not blank, in a hundred.
struct Look {
    int filled = 0;   ///< of all rows
    int dates = 0, figures = 0, money = 0, idents = 0, codes = 0, words = 0, units = 0;
    double length = 0;
    bool allTheSame = false;  ///< one value in all rows says nothing about a line
};

bool isUnitWord(std::string_view cell)
{
    constexpr std::array<std::string_view, 24> units{"yd", "yds", "yd3", "cy", "yd\u00b3", "cu yd", "yard", "yards", "ea", "each", "load", "loads", "ld",
                                                     "min", "mins", "hr", "hrs", "hour", "lb", "lbs", "gal", "ls", "lot", "%"};
    const auto plain = lowered(cell.ends_with('.') ? cell.substr(0, cell.size() - 1) : cell);
    return std::find(units.begin(), units.end(), plain) != units.end();
}

bool hasLetters(std::string_view cell)
{
    return std::any_of(cell.begin(), cell.end(), [](char c) { return (lowered(c) >= 'a' && lowered(c) <= 'z') || static_cast<unsigned char>(c) >= 0x80; });
}

class Guesser {
public:
    Guesser(const TextRows& rows, std::string_view remembered) : rows_{rows}, remembered_{remembered} {}

    StatementGuess run()
    {
        for (const auto& row : rows_) width_ = std::max(width_, row.size());
        width_ = std::min(width_, mostColumns);
        guess_.columns.assign(width_, other);
        guess_.headings.assign(width_, {});
        guess_.headingRow = headingRowOf(rows_);
        if (guess_.headingRow)
            for (std::size_t i = 0; i < width_; ++i) guess_.headings[i] = std::string{cellOf(rows_[*guess_.headingRow], i)};
        collect();
        readMarks();
        if (!recall()) weigh();
        readDateOrder();
        readCarrying();
        remark();
        return std::move(guess_);
    }

private:
    /// Rows that look like lines: behind the heading, with a figure in them.
    void collect()
    {
        const auto first = guess_.headingRow ? *guess_.headingRow + 1 : 0;
        for (std::size_t i = first; i < rows_.size(); ++i) {
            std::size_t filled = 0;
            bool figure = false;
            for (std::size_t column = 0; column < std::min(rows_[i].size(), width_); ++column) {
                const auto cell = cellOf(rows_[i], column);
                if (cell.empty()) continue;
                ++filled;
                figure = figure || isFigure(cell);
            }
            if (figure && filled >= 2) lines_.push_back(i);
        }
    }

    void readMarks()
    {
        std::int64_t votes = 0;
        for (const auto i : lines_)
            for (std::size_t column = 0; column < std::min(rows_[i].size(), width_); ++column)
                if (const auto cell = cellOf(rows_[i], column); !cell.empty() && !datePartsOf(cell)) votes += votesForComma(cell);
        guess_.decimalMark = votes > 0 ? ',' : '.';
    }

    Look lookAt(std::size_t column) const
    {
        Look look;
        int count = 0, rows = 0;
        std::set<std::string_view> values;
        for (std::size_t k = 0; k < std::min(lines_.size(), sampled); ++k) {
            ++rows;
            const auto cell = cellOf(rows_[lines_[k]], column);
            if (cell.empty()) continue;
            ++count;
            values.insert(cell);
            const bool figure = readFigure(cell, guess_.decimalMark, 6, true).has_value();
            const bool date = readPrintedDate(cell, DateOrder::monthDayYear) || readPrintedDate(cell, DateOrder::dayMonthYear);
            const bool digits = std::any_of(cell.begin(), cell.end(), isDigit);
            const bool space = cell.find(' ') != std::string_view::npos;
            const auto mark = cell.rfind(guess_.decimalMark);
            look.dates += date;
            look.figures += figure;
            look.money += figure && (cell.find('$') != std::string_view::npos || (mark != std::string_view::npos && cell.size() - mark >= 3));
            look.idents += digits && !date && cell.size() >= 3 && cell.size() <= 24 && cell.find_first_of(".,$") == std::string_view::npos && std::count(cell.begin(), cell.end(), ' ') <= 1;
            look.codes += !date && !space && cell.size() <= 16 && (hasLetters(cell) || (digits && !figure)) && !isUnitWord(cell);
            look.words += hasLetters(cell) && !date && !isUnitWord(cell);
            look.units += isUnitWord(cell);
            look.length += static_cast<double>(cell.size());
        }
        look.filled = rows == 0 ? 0 : 100 * count / rows;
        if (count == 0) return look;
        look.allTheSame = count > 3 && values.size() == 1;
        for (auto* share : {&look.dates, &look.figures, &look.money, &look.idents, &look.codes, &look.words, &look.units}) *share = 100 * *share / count;
        look.length /= count;
        return look;
    }

    /// Columns of which two multiplied are the third in most rows.
    struct Product {
        std::size_t quantity = 0, price = 0, amount = 0;
        int rows = 0;
    };
    std::optional<Product> findProduct(const std::vector<Look>& looks, const std::vector<HeadingScores>& headings) const
    {
        std::vector<std::size_t> figures;
        for (std::size_t i = 0; i < looks.size(); ++i)
            if (looks[i].figures >= 70 && looks[i].filled >= 20 && figures.size() < 12) figures.push_back(i);
        std::vector<std::vector<double>> values;
        for (std::size_t k = 0; k < std::min<std::size_t>(lines_.size(), 60); ++k) {
            std::vector<double> row;
            for (const auto column : figures) {
                const auto units = readFigure(cellOf(rows_[lines_[k]], column), guess_.decimalMark, 4, true);
                row.push_back(units ? static_cast<double>(*units) / 10'000 : std::nan(""));
            }
            values.push_back(std::move(row));
        }
        std::optional<Product> best;
        for (std::size_t a = 0; a < figures.size(); ++a)
            for (std::size_t b = a + 1; b < figures.size(); ++b)
                for (std::size_t c = 0; c < figures.size(); ++c) {
                    if (c == a || c == b) continue;
                    int fits = 0, all = 0;
                    for (const auto& row : values) {
                        if (std::isnan(row[a]) || std::isnan(row[b]) || std::isnan(row[c])) continue;
                        ++all;
                        // One and one make one in any three columns.
                        if (row[a] != 1 && row[b] != 1 && row[c] != 0 && std::abs(row[a] * row[b] - row[c]) <= 0.0051 + 0.0051 * std::abs(row[a])) ++fits;
                    }
                    if (fits < 2 || fits * 3 < all || (best && fits <= best->rows)) continue;
                    best = Product{figures[a], figures[b], figures[c], fits};
                }
        if (!best) return best;
        // Which of the two is the price: the headings, else the one with cents, else the right one.
        const auto priceLike = [&](std::size_t column) {
            return headings[column][static_cast<std::size_t>(unitPrice)] - headings[column][static_cast<std::size_t>(quantity)] + looks[column].money / 4;
        };
        if (priceLike(best->quantity) > priceLike(best->price)) std::swap(best->quantity, best->price);
        return best;
    }

    static int scoreOf(StatementColumn meaning, const Look& look, int heading, int elsewhere)
    {
        const auto share = [](int part, int good, int fair, int bad) { return part >= 80 ? good : part >= 45 ? fair : bad; };
        int score = heading - elsewhere - (look.allTheSame && meaning != unit && meaning != date ? 20 : 0);
        switch (meaning) {
        case ticket: score += share(look.idents, 30, 10, -90) + (look.figures >= 80 && look.money >= 50 ? -60 : 0); break;
        case date: score += share(look.dates, 60, 20, -200); break;
        case code: score += share(look.codes, 22, 5, -40); break;
        case description: score += share(look.words, look.length > 6 ? 25 : 12, 8, -40); break;
        case quantity: score += share(look.figures, 10, 0, -150); break;
        case unit: score += share(look.units, 50, 20, -80); break;
        case unitPrice: score += share(look.figures, 10, 0, -150) + (look.money >= 50 ? 5 : 0); break;
        case amount: score += share(look.figures, 12, 4, -150) + (look.money >= 50 ? 8 : 0); break;
        case credit:
        case tax: score = heading < 60 || (look.figures < 45 && look.filled > 0) ? 0 : score; break;
        case other: break;
        }
        return score;
    }

    void weigh()
    {
        std::vector<Look> looks;
        std::vector<HeadingScores> headings;
        for (std::size_t i = 0; i < width_; ++i) {
            looks.push_back(lookAt(i));
            headings.push_back(headingScores(guess_.headings[i]));
        }
        const auto product = findProduct(looks, headings);
        std::size_t last = width_;
        for (std::size_t i = 0; i < width_; ++i)
            if (looks[i].figures >= 70 && looks[i].filled >= 50 && looks[i].money >= 30 && looks[i].dates < 50 && headings[i][0] == 0) last = i;
        std::vector<PossiblePair> pairs;
        for (std::size_t meaning = 1; meaning < statementColumnCount; ++meaning)
            for (std::size_t i = 0; i < width_; ++i) {
                const auto what = static_cast<StatementColumn>(meaning);
                if (looks[i].filled == 0 && headings[i][meaning] < 80) continue;
                int score = scoreOf(what, looks[i], headings[i][meaning], headings[i][0]);
                if (product && ((what == quantity && i == product->quantity) || (what == unitPrice && i == product->price))) score += 35;
                if (product && what == amount && i == product->amount) score += 45;
                if (what == amount && i == last) score += 10;
                if (what == ticket && looks[i].filled < 30) score -= 20;
                if (score >= leastScore) pairs.push_back({meaning - 1, i, -score});
            }
        const std::vector<std::int64_t> alone(statementColumnCount - 1, 0);
        const auto best = assignOrLeave(alone, width_, pairs, Regret::leftOut);
        for (std::size_t meaning = 1; meaning < statementColumnCount; ++meaning)
            if (const auto column = best.columnOf[meaning - 1]) guess_.columns[*column] = static_cast<StatementColumn>(meaning);
    }

    /// The layout kept for the supplier, when all its headings are here.
    bool recall()
    {
        if (remembered_.empty()) return false;
        const auto kept = StatementGuess::parse(remembered_);
        if (!kept || kept->columns.empty()) return false;
        std::vector<StatementColumn> columns(width_, other);
        for (std::size_t k = 0; k < kept->columns.size(); ++k) {
            std::size_t at = width_;
            const auto& heading = kept->headings[k];
            if (heading.starts_with(placeMark)) {
                std::size_t place = 0;
                for (const char c : heading.substr(1)) place = isDigit(c) && place < 1000 ? place * 10 + static_cast<std::size_t>(c - '0') : 1000;
                if (!guess_.headingRow && place >= 1 && place <= width_) at = place - 1;
            } else {
                for (std::size_t i = 0; i < width_; ++i)
                    if (columns[i] == other && !guess_.headings[i].empty() && plainHeading(guess_.headings[i]) == plainHeading(heading)) {
                        at = i;
                        break;
                    }
            }
            if (at == width_) {
                guess_.remarks.push_back("The layout kept for this supplier does not fit this file; it is guessed anew.");
                return false;
            }
            columns[at] = kept->columns[k];
        }
        guess_.columns = std::move(columns);
        keptOrder_ = kept->dateOrder;
        return true;
    }

    std::optional<std::size_t> columnOf(StatementColumn meaning) const
    {
        for (std::size_t i = 0; i < guess_.columns.size(); ++i)
            if (guess_.columns[i] == meaning) return i;
        return std::nullopt;
    }

    /// From all dates of the column: a day over 12 decides; else the order by which they span less time.
    void readDateOrder()
    {
        const auto column = columnOf(date);
        if (!column) return;
        bool firstIsDay = false, secondIsDay = false, yearFirst = false, any = false;
        for (const auto i : lines_) {
            const auto parts = datePartsOf(cellOf(rows_[i], *column));
            if (!parts) continue;
            any = true;
            if (parts->yearFirst) yearFirst = true;
            else {
                firstIsDay = firstIsDay || (parts->first > 12 && parts->first <= 31);
                secondIsDay = secondIsDay || (parts->second > 12 && parts->second <= 31);
                yearFirst = yearFirst || parts->first > 31;
            }
        }
        if (!any) return;
        if (yearFirst) guess_.dateOrder = DateOrder::yearMonthDay;
        else if (firstIsDay != secondIsDay) guess_.dateOrder = firstIsDay ? DateOrder::dayMonthYear : DateOrder::monthDayYear;
        else if (keptOrder_) guess_.dateOrder = *keptOrder_;
        else if (!firstIsDay) {
            const auto american = spanBy(*column, DateOrder::monthDayYear), european = spanBy(*column, DateOrder::dayMonthYear);
            constexpr std::int64_t aStatement = 62;
            guess_.dateOrderSure = american == 0 ? european == 0 && sameByBoth(*column) : (american <= aStatement) != (european <= aStatement);
            if (european <= aStatement && american > aStatement) guess_.dateOrder = DateOrder::dayMonthYear;
        }
    }

    std::int64_t spanBy(std::size_t column, DateOrder order) const
    {
        std::optional<Date> first, last;
        for (const auto i : lines_)
            if (const auto day = readPrintedDate(cellOf(rows_[i], column), order)) {
                first = first ? std::min(*first, *day) : *day;
                last = last ? std::max(*last, *day) : *day;
            }
        return first ? *last - *first : 0;
    }

    bool sameByBoth(std::size_t column) const
    {
        return std::all_of(lines_.begin(), lines_.end(), [&](std::size_t i) {
            const auto cell = cellOf(rows_[i], column);
            return readPrintedDate(cell, DateOrder::monthDayYear) == readPrintedDate(cell, DateOrder::dayMonthYear);
        });
    }

    /// Whether the ticket is printed on the first of its lines only: then no number ever follows itself.
    void readCarrying()
    {
        const auto column = columnOf(ticket);
        const auto sum = columnOf(amount);
        if (!column || !sum) return;
        const auto day = columnOf(date);
        std::string_view before;
        std::size_t blank = 0, repeated = 0;
        for (const auto i : lines_) {
            const auto number = cellOf(rows_[i], *column);
            if (!readFigure(cellOf(rows_[i], *sum), guess_.decimalMark, 2, true)) continue;
            if (number.empty()) blank += !before.empty() && (!day || cellOf(rows_[i], *day).empty());
            else {
                repeated += number == before;
                before = number;
            }
        }
        guess_.ticketCarries = blank >= 2 && repeated == 0;
    }

    void remark()
    {
        if (!guess_.dateOrderSure) guess_.remarks.push_back("Every date could be read as month/day or day/month; check which it is.");
        if (guess_.ticketCarries) guess_.remarks.push_back("Lines without a ticket number are taken to belong to the ticket above them.");
        if (!columnOf(ticket) && !rows_.empty()) guess_.remarks.push_back("No column looks like the ticket number; say which it is.");
    }

    const TextRows& rows_;
    std::string_view remembered_;
    std::size_t width_ = 0;
    std::vector<std::size_t> lines_;
    std::optional<DateOrder> keptOrder_;
    StatementGuess guess_;
};

/// A heading with the marks of the kept text taken out of it.
std::string escaped(std::string_view text)
{
    constexpr std::string_view digits = "0123456789abcdef";
    std::string out;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == ';' || c == '=' || c == '%' || c == '#' || byte < 0x20) {
            out += '%';
            out += digits[byte >> 4];
            out += digits[byte & 15];
        } else out += c;
    }
    return out;
}

std::string unescaped(std::string_view text)
{
    const auto digit = [](char c) { return isDigit(c) ? c - '0' : c >= 'a' && c <= 'f' ? c - 'a' + 10 : -1; };
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '%' && i + 2 < text.size() && digit(text[i + 1]) >= 0 && digit(text[i + 2]) >= 0) {
            out += static_cast<char>(digit(text[i + 1]) * 16 + digit(text[i + 2]));
            i += 2;
        } else out += text[i];
    }
    return out;
}

template <class Enum>
std::optional<Enum> choiceOf(std::string_view code)
{
    const auto choices = choicesOf<Enum>;
    for (std::size_t i = 0; i < choices.size(); ++i)
        if (choices[i].code == code) return static_cast<Enum>(i);
    return std::nullopt;
}

}

StatementGuess guessStatement(const TextRows& rows, std::string_view remembered) { return Guesser{rows, remembered}.run(); }

std::string StatementGuess::obstacle() const
{
    const auto has = [&](StatementColumn meaning) { return std::find(columns.begin(), columns.end(), meaning) != columns.end(); };
    if (columns.empty()) return "there is nothing to read; choose the supplier's file or paste its rows with their headings";
    if (!has(amount) && !(has(quantity) && has(unitPrice))) return "no column is known to hold the amounts; say which does";
    return {};
}

void StatementGuess::set(StatementColumn meaning, std::size_t column)
{
    if (column >= columns.size()) return;
    if (meaning != other)
        for (auto& one : columns)
            if (one == meaning) one = other;
    columns[column] = meaning;
}

std::string StatementGuess::text() const
{
    auto out = std::string{codeOf(dateOrder)} + ';' + decimalMark;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (columns[i] == other) continue;
        const bool headed = i < headings.size() && !headings[i].empty();
        out += ';' + std::string{codeOf(columns[i])} + '=' + (headed ? escaped(headings[i]) : '#' + std::to_string(i + 1));
    }
    return out;
}

std::optional<StatementGuess> StatementGuess::parse(std::string_view text)
{
    StatementGuess kept;
    std::size_t part = 0;
    while (!text.empty()) {
        const auto end = text.find(';');
        const auto piece = text.substr(0, end);
        text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
        if (part == 0) {
            const auto order = choiceOf<DateOrder>(piece);
            if (!order) return std::nullopt;
            kept.dateOrder = *order;
        } else if (part == 1) {
            if (piece != "." && piece != ",") return std::nullopt;
            kept.decimalMark = piece.front();
        } else {
            const auto equals = piece.find('=');
            const auto meaning = equals == std::string_view::npos ? std::nullopt : choiceOf<StatementColumn>(piece.substr(0, equals));
            if (!meaning || *meaning == other) return std::nullopt;
            kept.columns.push_back(*meaning);
            const auto heading = piece.substr(equals + 1);
            kept.headings.push_back(heading.starts_with('#') ? placeMark + std::string{heading.substr(1)} : unescaped(heading));
        }
        ++part;
    }
    return part < 2 ? std::nullopt : std::optional{kept};
}

}

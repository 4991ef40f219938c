#include "paper/paper_flow.h"

#include <algorithm>
#include <numeric>

namespace strikeoff {

namespace {

constexpr double readableWidth = 2.3 * dotsPerInch;  // past it, a text in a column is better wrapped than given more room

double sum(const std::vector<double>& all) { return std::accumulate(all.begin(), all.end(), 0.0); }

/// The first column that holds words: what stands below a row stands under it.
std::size_t wordColumn(const PaperTable& table)
{
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (table.columns[i].side == PaperSide::left) return i;
    return 0;
}

PaperStyle plainStyle(const PaperTable& table) { return table.size == PaperText::small ? PaperStyle::small : PaperStyle::body; }
PaperStyle boldStyle(const PaperTable& table) { return table.size == PaperText::small ? PaperStyle::smallStrong : PaperStyle::bodyStrong; }

/// A row in lines of one height, so that a long one can go on on the next page.
struct RowLines {
    std::vector<std::vector<Placed>> lines;
    std::vector<Placed>& at(std::size_t line)
    {
        if (lines.size() <= line) lines.resize(line + 1);
        return lines[line];
    }
};

}

ColumnWidths columnWidths(const PaperTable& table, double width, const PaperFonts& fonts)
{
    const auto count = table.columns.size();
    std::vector<double> natural(count), least(count);
    const double room = width - columnGap * static_cast<double>(count > 0 ? count - 1 : 0);
    for (std::size_t i = 0; i < count; ++i) {
        const auto heading = settable(table.columns[i].heading);
        natural[i] = fonts.width(PaperStyle::smallStrong, heading);
        least[i] = fonts.longestWord(PaperStyle::smallStrong, heading);
        if (table.columns[i].side == PaperSide::tick) natural[i] = std::max(natural[i], points(12));
    }
    for (const auto& row : table.rows) {
        if (row.manner == PaperRowManner::group) continue;
        const auto style = row.manner == PaperRowManner::apart ? boldStyle(table) : plainStyle(table);
        for (std::size_t i = 0; i < std::min(count, row.cells.size()); ++i) {
            const auto text = settable(row.cells[i]);
            const double whole = fonts.width(style, text);
            natural[i] = std::max(natural[i], whole);
            // Figures are not broken while there is any other way; words are, between words.
            if (table.columns[i].side == PaperSide::right) least[i] = std::max(least[i], whole);
            else if (whole > least[i]) least[i] = std::max(least[i], fonts.longestWord(style, text));
        }
    }
    for (std::size_t i = 0; i < count; ++i) {
        least[i] = std::min(least[i], room * 0.4);
        natural[i] = std::max(natural[i], least[i]);
    }

    ColumnWidths result;
    result.wanted = width - room;
    for (std::size_t i = 0; i < count; ++i) result.wanted += std::max(least[i], table.columns[i].side == PaperSide::left ? std::min(natural[i], readableWidth) : natural[i]);

    result.widths = natural;
    if (sum(natural) <= room) {
        // What is left goes to the widest column of words.
        std::size_t widest = count;
        for (std::size_t i = 0; i < count; ++i)
            if (table.columns[i].side == PaperSide::left && (widest == count || natural[i] > natural[widest])) widest = i;
        if (widest < count) result.widths[widest] += room - sum(natural);
        else if (count > 0) for (auto& each : result.widths) each += (room - sum(natural)) / static_cast<double>(count);
    } else if (const double smallest = sum(least); smallest >= room) {
        for (std::size_t i = 0; i < count; ++i) result.widths[i] = least[i] * room / smallest;
    } else {
        // The long columns are cut down to one common width until all go in.
        double low = 0, high = room;
        for (int step = 0; step < 60; ++step) {
            const double level = (low + high) / 2;
            double total = 0;
            for (std::size_t i = 0; i < count; ++i) total += std::max(least[i], std::min(natural[i], level));
            (total > room ? high : low) = level;
        }
        for (std::size_t i = 0; i < count; ++i) result.widths[i] = std::max(least[i], std::min(natural[i], low));
    }
    return result;
}

void Composer::addTotals(const PaperTable& table)
{
    const double gap = columnGap;
    double amounts = 0;
    for (const auto& fact : table.totals) amounts = std::max(amounts, fonts_.width(PaperStyle::bodyStrong, settable(fact.text)));
    amounts = std::min(amounts, width_ / 2);
    const double labels = width_ * 0.72 - amounts - gap;
    double widest = 0;
    for (const auto& fact : table.totals) widest = std::max(widest, fonts_.width(PaperStyle::bodyStrong, settable(fact.label)));
    const double left = width_ - amounts - gap - std::min(widest, labels);

    for (std::size_t i = 0; i < table.totals.size(); ++i) {
        const auto& fact = table.totals[i];
        const auto style = fact.strong ? PaperStyle::bodyStrong : PaperStyle::body;
        Chunk chunk;
        chunk.before = i == 0 ? points(5) : 0;
        double top = points(1.5);
        if (fact.strong) {
            chunk.items.push_back(PlacedLine{QLineF{left, points(2), width_, points(2)}, rule, false});
            top = points(5);
        }
        const double first = setLines(chunk, style, settable(fact.label), left, top, std::min(widest, labels) + points(0.5));
        const double second = setLinesRight(chunk, style, settable(fact.text), width_, top, amounts + points(0.5));
        chunk.height = std::max(first, second) + points(1.5);
        chunk.keepWithNext = i + 1 < table.totals.size();
        chunks_.push_back(std::move(chunk));
    }
}

void Composer::operator()(const PaperTable& table)
{
    const auto count = table.columns.size();
    if (count == 0) return;
    const auto widths = columnWidths(table, width_, fonts_).widths;
    std::vector<double> lefts(count);
    for (std::size_t i = 1; i < count; ++i) lefts[i] = lefts[i - 1] + widths[i - 1] + columnGap;
    const bool underSection = !chunks_.empty() && chunks_.back().keepWithNext;

    // The headings stand on their rule.
    auto head = std::make_shared<Chunk>();
    {
        std::vector<std::vector<TextLine>> headings(count);
        std::size_t most = 1;
        for (std::size_t i = 0; i < count; ++i) {
            headings[i] = fonts_.wrap(PaperStyle::smallStrong, settable(table.columns[i].heading), widths[i] + points(0.5));
            most = std::max(most, headings[i].size());
        }
        const double lead = fonts_.leading(PaperStyle::smallStrong);
        for (std::size_t i = 0; i < count; ++i)
            for (std::size_t k = 0; k < headings[i].size(); ++k) {
                const auto& line = headings[i][k];
                const double left = table.columns[i].side == PaperSide::right ? lefts[i] + widths[i] - line.width : lefts[i];
                addLine(*head, PaperStyle::smallStrong, line, left, lead * static_cast<double>(most - headings[i].size() + k));
            }
        head->height = lead * static_cast<double>(most) + points(2.5);
        head->items.push_back(PlacedLine{QLineF{0, head->height, width_, head->height}, rule, false});
        head->height += rule;
    }
    auto first = *head;
    first.before = underSection ? points(3) : points(10);
    first.keepWithNext = true;
    chunks_.push_back(std::move(first));

    const double lead = fonts_.leading(boldStyle(table));
    const auto words = wordColumn(table);
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
        const auto& row = table.rows[r];
        const bool plain = row.manner == PaperRowManner::plain;
        const auto style = plain ? plainStyle(table) : boldStyle(table);
        RowLines set;
        set.at(0);
        const auto put = [&](PaperStyle lineStyle, const std::vector<TextLine>& lines, std::size_t column, std::size_t from) {
            for (std::size_t k = 0; k < lines.size(); ++k) {
                if (lines[k].text.isEmpty()) continue;
                const double left = table.columns[column].side == PaperSide::right ? lefts[column] + widths[column] - lines[k].width : lefts[column];
                const double baseline = (lead - fonts_.ascent(style) - fonts_.descent(style)) / 2 + fonts_.ascent(style);
                set.at(from + k).push_back(PlacedText{QPointF{left, baseline}, lines[k].text, lineStyle, lines[k].width, 0});
            }
            return from + lines.size();
        };
        if (row.manner == PaperRowManner::group) {
            if (!row.cells.empty()) put(style, fonts_.wrap(style, settable(row.cells.front()), width_), 0, 0);
        } else {
            std::size_t end = 1, lowest = 1;
            for (std::size_t i = 0; i < std::min(count, row.cells.size()); ++i) {
                if (table.columns[i].side == PaperSide::tick) {
                    const double side = points(8.5);
                    set.at(0).push_back(PlacedShape{QPolygonF{QRectF{lefts[i], (lead - side) / 2, side, side}}, rule, false});
                    continue;
                }
                const auto after = put(style, fonts_.wrap(style, settable(row.cells[i]), widths[i] + points(0.5)), i, 0);
                if (i == words) end = after;
                lowest = std::max(lowest, after);
            }
            if (!row.below.empty() && table.belowFrom && *table.belowFrom < count)
                put(PaperStyle::small, fonts_.wrap(PaperStyle::small, settable(row.below), width_ - lefts[*table.belowFrom]), *table.belowFrom, lowest);
            else if (!row.below.empty()) put(PaperStyle::small, fonts_.wrap(PaperStyle::small, settable(row.below), widths[words]), words, end);
        }

        const double above = row.manner == PaperRowManner::group && r > 0 ? points(6) : points(2.5);
        const double below = points(2.5);
        const bool last = r + 1 == table.rows.size();
        const bool split = static_cast<double>(set.lines.size()) * lead > points(260);
        Chunk chunk;
        for (std::size_t k = 0; k < set.lines.size(); ++k) {
            if (k == 0) {
                chunk.repeat = head;
                chunk.height = above;
                if (row.manner == PaperRowManner::apart) chunk.items.push_back(PlacedLine{QLineF{0, 0, width_, 0}, rule, false});
            }
            for (auto& item : set.lines[k]) {
                if (auto* text = std::get_if<PlacedText>(&item)) text->at.ry() += chunk.height;
                else if (auto* shape = std::get_if<PlacedShape>(&item)) shape->outline.translate(0, chunk.height);
                chunk.items.push_back(std::move(item));
            }
            chunk.height += lead;
            const bool end = k + 1 == set.lines.size();
            if (end) {
                chunk.height += below;
                const bool ruled = row.manner != PaperRowManner::group && (last || table.rows[r + 1].manner == PaperRowManner::plain);
                if (ruled) chunk.items.push_back(PlacedLine{QLineF{0, chunk.height, width_, chunk.height}, hairline, false});
                chunk.keepWithNext = row.manner == PaperRowManner::group || (last && !table.totals.empty())
                    || (!last && table.rows[r + 1].manner == PaperRowManner::apart);
            }
            if (end || split) {
                if (!end) chunk.keepWithNext = k == 0 || k + 2 == set.lines.size();
                chunks_.push_back(std::move(chunk));
                chunk = Chunk{};
                chunk.repeat = head;
            }
        }
    }
    addTotals(table);
}

}

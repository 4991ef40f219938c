#pragma once

#include "paper/paper_layout.h"

namespace strikeoff {

/// A piece of a paper that stays whole when pages are broken, its items in dots from its own top left corner.
struct Chunk {
    double height = 0;
    double before = 0;          ///< room above it, but at the top of a page
    bool keepWithNext = false;
    std::vector<Placed> items;
    std::shared_ptr<const Chunk> repeat;  ///< stands above it again when it begins a page
};

inline constexpr double hairline = points(0.4);
inline constexpr double rule = points(1);
inline constexpr double heavyRule = points(1.75);

/// How closely a paper is set: what is left of the room between its pieces, and how high a plan may be.
struct Setting {
    double gaps = 1;
    double planHeight = 3.3 * dotsPerInch;
    double chartHeight = 1.7 * dotsPerInch;
};

/// Turns blocks into chunks for a text width.
class Composer {
public:
    Composer(const PaperFonts& fonts, double width, Setting setting = {}) : fonts_{fonts}, width_{width}, setting_{setting} {}

    void operator()(const PaperHeading& heading);
    void operator()(const PaperParties& block);
    void operator()(const PaperFigures& block);
    void operator()(const PaperSection& section);
    void operator()(const PaperParagraph& paragraph);
    void operator()(const PaperTable& table);
    void operator()(const PaperPlan& plan);
    void operator()(const PaperChart& chart);
    void operator()(const PaperSignatures& block);

    /// The shapes of a plan at the largest usual scale at which they go into the width and, if they can, a height, with the bar that shows the scale.
    /// Nothing for a plan without a shape that can be drawn.
    void addPlan(const PaperPlan& plan, double height);

    std::vector<Chunk>& chunks() { return chunks_; }

private:
    /// Sets wrapped lines one under the other from a top and returns where they end.
    double setLines(Chunk& chunk, PaperStyle style, const QString& text, double left, double top, double width) const;
    double setLinesRight(Chunk& chunk, PaperStyle style, const QString& text, double right, double top, double width) const;
    void addLine(Chunk& chunk, PaperStyle style, const TextLine& line, double left, double top) const;
    double setFacts(Chunk& chunk, const std::vector<PaperFact>& facts, double left, double top) const;
    void addTotals(const PaperTable& table);
    void addText(PaperStyle style, const QString& text, double before);

    const PaperFonts& fonts_;
    double width_;
    Setting setting_;
    std::vector<Chunk> chunks_;
};

/// Widths of a table's columns, gaps left out, and what they would be with all the room they want.
struct ColumnWidths {
    std::vector<double> widths;
    double wanted = 0;  ///< with texts up to a readable width each
};
inline constexpr double columnGap = points(10);
ColumnWidths columnWidths(const PaperTable& table, double width, const PaperFonts& fonts);

}

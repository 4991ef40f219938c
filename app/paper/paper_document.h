#pragma once

#include "axis.h"
#include "record/choices.h"
#include "takeoff/takeoff.h"

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace strikeoff {

/// A label and what stands beside it: "Due" and "Aug 12, 2026", "Total" and "4,512.50".
struct PaperFact {
    std::string label;
    std::string text;
    bool strong = false;
};

/// The top of a paper: the outfit with its logo at the left, what paper it is with its facts at the right.
struct PaperHeading {
    std::string outfit;
    std::vector<std::string> outfitLines;
    std::string logo;   ///< path of a PNG, JPEG or SVG picture; one that is missing or broken leaves the name alone
    std::string title;
    std::vector<PaperFact> facts;
    std::string state;  ///< boxed: "Draft, not sent"; empty for a paper that counts
};

/// Who it is between: names and addresses side by side.
struct PaperParty {
    std::string label;
    std::vector<std::string> lines;
};
struct PaperParties {
    std::vector<PaperParty> parties;
};

/// The two or three figures that are the answer, in a box.
struct PaperFigures {
    std::vector<PaperFact> figures;
};

/// A heading within the paper; it never stands alone at the foot of a page.
struct PaperSection {
    std::string text;
};

enum class PaperText { body, small };

/// Text of any length; line ends are kept.
struct PaperParagraph {
    std::string text;
    PaperText size = PaperText::body;
    bool strong = false;
};

/// Where a column's cells stand: words at the left, figures at the right, a box to tick by hand.
enum class PaperSide { left, right, tick };

struct PaperColumn {
    std::string heading;
    PaperSide side = PaperSide::left;
};

enum class PaperRowManner {
    plain,
    apart,  ///< bold under a rule: a sum
    group,  ///< its first cell runs over all columns, bold, and stays with the next row
};

struct PaperRow {
    std::vector<std::string> cells;
    std::string below;  ///< in small under the first column of words
    PaperRowManner manner = PaperRowManner::plain;
};

/// A table in the one style of ours. Its headings are repeated on every page it reaches; the totals stay together, set apart under its last column.
struct PaperTable {
    std::vector<PaperColumn> columns;
    std::vector<PaperRow> rows;
    std::vector<PaperFact> totals;
    PaperText size = PaperText::body;
    std::optional<std::size_t> belowFrom = {};  ///< the column from which what stands below a row runs on to the right edge; else it keeps to its column
};

/// A measured length of a drawn shape, in feet. Its words stand to the right of the way from one end to the other, which is outside of an outline that
/// runs anticlockwise; a ruled one has a dimension line there, off the shape.
struct PlanDimension {
    Point from;
    Point to;
    std::string text;
    bool ruled = true;
};

/// One piece of a takeoff as it is drawn: outline, dimensions and joints in feet, y upwards.
struct PlanShape {
    std::string name;
    std::vector<std::string> captions;
    std::vector<Point> outline;
    std::vector<PlanDimension> dimensions;
    std::vector<std::pair<Point, Point>> joints;
    bool deduct = false;  ///< hatched: taken out
};

/// The pieces of a takeoff at one scale, with a bar that shows it.
struct PaperPlan {
    std::vector<PlanShape> shapes;
};

/// A chart across the paper, drawn in pixels of 96 to the inch; it stays whole.
struct PaperChart {
    std::function<void(QPainter&, const QRectF&, const ChartStyle&)> paint;
    std::function<double(const ChartStyle&)> height;  ///< pixels it needs
    std::string inWords;
};

/// Lines to sign on, one row for each signer: signature, printed name, date.
struct PaperSignatures {
    std::string agreement;
    std::vector<std::string> signers;
};

using PaperBlock = std::variant<PaperHeading, PaperParties, PaperFigures, PaperSection, PaperParagraph, PaperTable, PaperPlan, PaperChart, PaperSignatures>;

enum class PaperTurn {
    upright,
    sideways,
    asNeeded,  ///< sideways when a table is too wide to be read upright
};

/// A paper before it is laid out: what stands on it, in order. All text is text: nothing in it is taken for markup.
struct PaperDocument {
    PaperSize size = PaperSize::letter;
    PaperTurn turn = PaperTurn::upright;
    std::string title;   ///< names the file to its reader: "Quote Q1012"
    std::string footer;  ///< at the foot of each page, before "Page 1 of 2"
    std::vector<PaperBlock> blocks;

    void add(PaperBlock block) { blocks.push_back(std::move(block)); }
    /// A heading with a paragraph; nothing when there is no text.
    void addSection(std::string heading, std::string text);
};

/// Everything that stands on the paper as plain text, a line a row, cells apart by two blanks.
std::string plainText(const PaperDocument& document);

}

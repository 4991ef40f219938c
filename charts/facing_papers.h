#pragma once

#include "axis.h"

#include <vector>

namespace strikeoff {

/// How a row of two papers stands: nothing to do, waits for the owner, wrong, or done with.
enum class FacingState { agrees, open, wrong, done };

/// One line on two papers that face each other: what the left one says, what the right one says, and between them the difference with its reason.
struct FacingRow {
    QString leftWords;
    QString leftFigure;
    QString rightWords;
    QString rightDetail;  ///< quantity and price; beside the words or under them, where there is room
    QString rightFigure;
    QString finding;      ///< "Not earned"
    QString figure;       ///< of the difference, "+$22.00"; blank for none
    QString why;          ///< in a sentence; wrapped
    double difference = 0;  ///< right less left, for the bar
    FacingState state = FacingState::agrees;
};

/// What two papers say about one thing (a ticket), a line each way.
struct FacingBlock {
    QString leftTitle;
    QString leftFacts;
    QString rightTitle;
    QString rightFacts;
    std::vector<FacingRow> rows;
};

/// Where the rows of a block stand under its top, in pixels, for a width.
struct FacingLayout {
    double head = 0;             ///< height of titles and facts
    std::vector<double> rowTops;
    std::vector<double> rowHeights;
    double height = 0;           ///< of the whole block
};
FacingLayout layOutFacing(const FacingBlock& block, double width, const ChartStyle& style);

/// Draws a block: two papers with a gutter between, in the gutter a bar as long as the difference is against the largest of all, its figure and its reason. The
/// current row is marked on both papers.
void paintFacing(QPainter& painter, const QRectF& area, const FacingBlock& block, const FacingLayout& layout, double largest, int current, const ChartStyle& style);

}

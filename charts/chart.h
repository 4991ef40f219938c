#pragma once

#include "axis.h"

#include "record/kind.h"

#include <QRectF>
#include <QStringList>

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>

namespace strikeoff {

/// Something in a chart that can be pointed at and stepped to: where it stands, what it says, and the record it opens, if any.
struct ChartStop {
    QRectF place;
    QString tip;
    RecordKind kind = noKind;
    std::int64_t id = 0;
};

/// A column of the numbers behind a chart; words may be anything that someone typed, the rest are plain figures and dates.
struct NumberColumn {
    QString heading;
    bool words = false;
};

/// The numbers behind a chart, as many cells in a row as there are columns. An empty cell is not recorded.
struct NumberTable {
    std::vector<NumberColumn> columns;
    std::vector<QStringList> rows;
};

/// A figure for a table of numbers: "-12.5", so many decimals at most, no thousands marks. Empty for none, and for what is no number.
QString plainNumber(std::optional<double> value, int decimals = 2);

/// Any chart, ready to be shown, kept as a file or drawn beside others: one painter for screen, picture and paper.
struct Chart {
    QString name;              ///< what it shows; its file is called after it
    QString inWords;           ///< the same for who cannot see it
    QSizeF size{960, 480};     ///< in pixels at 96 dpi, where nothing else says how large
    std::function<void(QPainter&, const QRectF&, const ChartStyle&)> paint;
    std::function<double(double width, const ChartStyle&)> heightFor;  ///< what it needs at a width; empty when any height will do
    /// How many stops each row of them has; left and right go along a row, up and down to the next one.
    std::vector<std::size_t> stopRows;
    std::function<ChartStop(std::size_t row, std::size_t place, const QRectF&, const ChartStyle&)> stop;
    std::function<std::optional<ChartStop>(const QPointF&, const QRectF&, const ChartStyle&)> stopAt;
    std::function<NumberTable()> numbers;
};

/// A name of a file after a chart's: lower case letters and digits with hyphens between.
QString fileNameOf(const QString& chartName);

}

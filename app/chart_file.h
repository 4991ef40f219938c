#pragma once

#include "chart.h"

#include <QByteArray>

#include <span>
#include <string>
#include <vector>

namespace strikeoff {

/// What a chart can be kept as: a picture of pixels, two of lines that stay sharp at any size, and the numbers behind it.
enum class ChartFormat { png, svg, pdf, csv };

/// One format with what a file of it is called.
struct ChartFormatSpec {
    ChartFormat format;
    const char* ending;  ///< "png"
    const char* words;   ///< "Picture (PNG)"
};
inline constexpr std::array chartFormats{
    ChartFormatSpec{ChartFormat::png, "png", "Picture for a message (PNG)"}, ChartFormatSpec{ChartFormat::svg, "svg", "Drawing that stays sharp (SVG)"},
    ChartFormatSpec{ChartFormat::pdf, "pdf", "Page to print (PDF)"}, ChartFormatSpec{ChartFormat::csv, "csv", "Numbers behind it (CSV)"}};

/// A chart as a file: its name as heading, what it says in words, and the chart in light colors; or its numbers. Needs a QGuiApplication.
QByteArray bytesOf(const Chart& chart, ChartFormat format);

/// Writes every chart as PNG, SVG and CSV into a folder, which is made when it is not there; files that only their owner may read, each whole or not at all.
/// Returns the files written. StorageError names the path and the reason.
std::vector<std::string> writeCharts(const std::string& folder, std::span<const Chart> charts);

}

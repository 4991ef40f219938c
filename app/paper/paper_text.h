#pragma once

#include <QFont>
#include <QFontMetricsF>
#include <QString>

#include "axis.h"

#include <array>
#include <string_view>
#include <vector>

namespace strikeoff {

/// Paper is laid out in dots of 1/1200 inch, fine enough that letters stand where they were measured on any printer.
inline constexpr double dotsPerInch = 1200;
inline constexpr double dotsPerPoint = dotsPerInch / 72;
constexpr double points(double count) { return count * dotsPerPoint; }
inline constexpr double dotsPerPixel = dotsPerInch / 96;  ///< charts are drawn in pixels

/// The three sizes of text on paper (1.5, 1 and 0.9 times the body), two of them also bold.
enum class PaperStyle { title, titleStrong, body, bodyStrong, small, smallStrong };

/// A line of wrapped text and its width in dots.
struct TextLine {
    QString text;
    double width = 0;
};

/// The fonts of a paper and what is measured with them. Needs a QGuiApplication.
class PaperFonts {
public:
    PaperFonts();

    const QFont& font(PaperStyle style) const { return fonts_[static_cast<std::size_t>(style)]; }
    double ascent(PaperStyle style) const { return metrics_[static_cast<std::size_t>(style)].ascent(); }
    double descent(PaperStyle style) const { return metrics_[static_cast<std::size_t>(style)].descent(); }
    /// From one baseline to the next.
    double leading(PaperStyle style) const;
    /// From the top of a line to its baseline.
    double baseline(PaperStyle style) const;
    double width(PaperStyle style, const QString& text) const { return metrics_[static_cast<std::size_t>(style)].horizontalAdvance(text); }
    /// Width of the longest piece of a text that a line does not break in.
    double longestWord(PaperStyle style, const QString& text) const;
    /// Text in lines of at most a width. Line ends are kept; a word longer than a line is broken, so that nothing is lost.
    std::vector<TextLine> wrap(PaperStyle style, const QString& text, double width) const;

private:
    std::array<QFont, 6> fonts_;
    std::vector<QFontMetricsF> metrics_;
};

/// Charts on paper are set in its fonts, in pixels.
ChartStyle paperChartStyle();

/// Text as it can be set: line ends as one sign, tabs as blanks, other control characters left out.
QString settable(std::string_view text);

}

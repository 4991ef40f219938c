#include "paper/paper_text.h"

#include <QFontDatabase>
#include <QTextLayout>

#include <algorithm>

namespace strikeoff {

namespace {

constexpr double bodyPoints = 10;

/// Whether all ten digits are as wide as one another, so that columns of figures stand in line.
bool hasTabularDigits(const QFont& font)
{
    const QFontMetricsF metrics{font};
    const double zero = metrics.horizontalAdvance(QLatin1Char{'0'});
    for (char digit = '1'; digit <= '9'; ++digit)
        if (std::abs(metrics.horizontalAdvance(QLatin1Char{digit}) - zero) > zero / 100) return false;
    return true;
}

QFont fontOf(const QStringList& families, double size, QFont::Weight weight)
{
    QFont font;
    font.setFamilies(families);
    font.setPixelSize(static_cast<int>(points(size)));
    font.setWeight(weight);
    font.setHintingPreference(QFont::PreferNoHinting);
    // A spacing too small to be seen keeps "fi" two letters, so that a paper can be searched and copied from.
    font.setLetterSpacing(QFont::AbsoluteSpacing, 0.05);
    font.setStyleStrategy(static_cast<QFont::StyleStrategy>(QFont::PreferOutline | QFont::PreferQuality));
    return font;
}

/// Plain faces made for print first, the one that every desktop has last; a face whose digits differ in width is passed over.
QStringList paperFamilies()
{
    const auto installed = QFontDatabase::families();
    const auto isInstalled = [&](const QString& name) {
        // A face that several foundries made is listed with theirs behind its name.
        return std::any_of(installed.begin(), installed.end(), [&](const QString& each) { return each == name || each.startsWith(name + QStringLiteral(" [")); });
    };
    for (const auto& name : {QStringLiteral("Liberation Sans"), QStringLiteral("Nimbus Sans"), QStringLiteral("Noto Sans")})
        if (isInstalled(name) && hasTabularDigits(fontOf({name}, bodyPoints, QFont::Normal))) return {name, QStringLiteral("DejaVu Sans")};
    return {QStringLiteral("DejaVu Sans"), QStringLiteral("Sans Serif")};
}

}

PaperFonts::PaperFonts()
{
    static const auto families = paperFamilies();
    fonts_ = {fontOf(families, 1.5 * bodyPoints, QFont::Normal), fontOf(families, 1.5 * bodyPoints, QFont::Bold), fontOf(families, bodyPoints, QFont::Normal),
              fontOf(families, bodyPoints, QFont::Bold),         fontOf(families, 0.9 * bodyPoints, QFont::Normal), fontOf(families, 0.9 * bodyPoints, QFont::Bold)};
    for (const auto& font : fonts_) metrics_.emplace_back(font);
}

ChartStyle paperChartStyle()
{
    const auto inPixels = [](double size) {
        auto font = fontOf(paperFamilies(), size, QFont::Normal);
        font.setPixelSize(static_cast<int>(size * 96 / 72 + 0.5));
        font.setLetterSpacing(QFont::PercentageSpacing, 100);  // at this size what keeps letters apart on paper would be seen
        return font;
    };
    return {&paperPalette(), inPixels(0.9 * bodyPoints), inPixels(0.8 * bodyPoints)};
}

double PaperFonts::leading(PaperStyle style) const
{
    const auto nominal = [style] {
        switch (style) {
        case PaperStyle::title:
        case PaperStyle::titleStrong: return points(19);
        case PaperStyle::body:
        case PaperStyle::bodyStrong: return points(13.5);
        case PaperStyle::small:
        case PaperStyle::smallStrong: break;
        }
        return points(12);
    }();
    return std::max(nominal, ascent(style) + descent(style));
}

double PaperFonts::baseline(PaperStyle style) const { return (leading(style) - ascent(style) - descent(style)) / 2 + ascent(style); }

double PaperFonts::longestWord(PaperStyle style, const QString& text) const
{
    double longest = 0;
    for (const auto& word : QStringView{text}.split(u' ')) longest = std::max(longest, width(style, word.toString()));
    return longest;
}

std::vector<TextLine> PaperFonts::wrap(PaperStyle style, const QString& text, double room) const
{
    std::vector<TextLine> lines;
    for (const auto& piece : text.split(u'\n')) {
        if (const double whole = width(style, piece); whole <= room || piece.isEmpty()) {
            lines.push_back({piece, whole});
            continue;
        }
        QTextOption option;
        option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
        option.setUseDesignMetrics(true);
        QTextLayout layout{piece, font(style)};
        layout.setTextOption(option);
        layout.beginLayout();
        for (auto line = layout.createLine(); line.isValid(); line = layout.createLine()) {
            line.setLineWidth(room);
            auto words = piece.mid(line.textStart(), line.textLength());
            while (words.endsWith(u' ')) words.chop(1);
            lines.push_back({words, width(style, words)});
        }
        layout.endLayout();
    }
    return lines;
}

QString settable(std::string_view text)
{
    auto set = QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
    set.replace(QStringLiteral("\r\n"), QStringLiteral("\n"));
    set.replace(u'\r', u'\n');
    set.replace(u'\t', QStringLiteral("    "));
    set.removeIf([](QChar c) { return c.category() == QChar::Other_Control && c != u'\n'; });
    while (set.endsWith(u'\n')) set.chop(1);
    return set;
}

}

#pragma once

#include <QColor>

#include <array>

namespace strikeoff {

/// The colours of paper, ink and state, for screen and charts alike. Text colours keep at least 5.5 : 1 on page and sheet.
struct Palette {
    QColor page, sheet, line, ink, quiet, accent, attention, wrong, well;
    /// Series colours for colour-blind readers (Okabe and Ito 2008; Wong, Nature Methods 8, 441, 2011).
    std::array<QColor, 4> series;
    bool dark = false;
};

const Palette& lightPalette();
const Palette& darkPalette();
/// Black on white, for paper.
const Palette& paperPalette();

/// Contrast ratio of two opaque colours by WCAG 2.1, 1 to 21.
double contrastRatio(const QColor& a, const QColor& b);

}

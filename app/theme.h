#pragma once

#include "palette.h"

#include <QFont>
#include <QString>

namespace strikeoff {

/// Which of the two palettes the window wears; `system` takes after the desktop's own.
enum class Look { system, light, dark };

/// What a text or mark says beyond its words. A tone is never shown by colour alone: a word or a mark stands with it.
enum class Tone { plain, quiet, accent, attention, wrong, well };

/// The three sizes of text there are.
enum class TextSize { question, body, small };

/// Puts fonts, palette and style sheet on the application. Needs a QApplication; may be called again at any time.
void applyLook(Look look);
/// The palette the window wears now.
const Palette& windowPalette();

QFont textFont(TextSize size);
/// Body text whose digits all have one width, for columns of figures.
QFont figureFont();
QColor toneColor(Tone tone);

/// So many steps of the 4-pixel grid.
constexpr int grid(int steps) { return 4 * steps; }
/// The least height of what is clicked.
inline constexpr int leastTarget = 28;
/// The one corner radius.
inline constexpr int cornerRadius = 4;

/// The style sheet for a palette; the whole look of the frame stands in it.
QString styleSheetFor(const Palette& palette);

}

#pragma once

#include <QString>

namespace strikeoff {

/// Text as it is for tool tips and for questions of ready-made dialogs, which read markup wherever text looks like some. Long text wraps.
QString asPlainTip(const QString& text);
/// Text of the owner's as part of a file's name: without what leads out of a folder, hides a file or is refused somewhere, and not too long.
QString inFileName(const QString& text);

}

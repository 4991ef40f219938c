#pragma once

#include <QString>

#include <string>
#include <string_view>

namespace strikeoff {

/// Text as it is for tool tips and for questions of ready-made dialogs, which read markup wherever text looks like some. Long text wraps.
QString asPlainTip(const QString& text);
/// Text of the owner's as part of a file's name: without what leads out of a folder, hides a file or is refused somewhere, and not too long.
QString inFileName(const QString& text);
/// Text as it is compared when something is sought or sorted: in small letters, of any alphabet.
std::string inSmallLetters(std::string_view text);

}

#pragma once

#include <QString>

#include <optional>
#include <string>

class QWidget;

namespace strikeoff {

/// Asks for a new pass phrase, twice; nothing when the owner would rather not.
std::optional<std::string> askNewPassPhrase(QWidget* parent);
/// Asks for the pass phrase of a sealed copy.
std::optional<std::string> askPassPhrase(QWidget* parent, const QString& copy);

}

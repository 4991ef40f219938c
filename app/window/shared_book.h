#pragma once

#include <QString>

#include <optional>
#include <string>

class QWidget;

namespace strikeoff {

/// Asks where a shared book lies: server, user, database and, where it holds several, which book. An address pasted into the first field fills the others.
std::optional<QString> askSharedBook(QWidget* parent, const QString& lately);
/// Asks for the password of a book on a server; it is kept nowhere.
std::optional<std::string> askServerPassword(QWidget* parent, const QString& book, bool again);

}

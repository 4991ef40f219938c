#pragma once

#include <QString>

namespace strikeoff {

/// Whether a book lies on a server, for several desks.
bool isShared(const QString& path);
/// What a book is called: its file's name without the ending, or the name it has on its server.
QString bookName(const QString& path);
/// Where it lies: its folder, or the server.
QString bookPlace(const QString& path);

}

#include "window/book_place.h"

#include "labels.h"
#include "server_address.h"
#include "store.h"

#include <QFileInfo>

namespace strikeoff {

namespace {

std::optional<ServerAddress> addressIn(const QString& path)
{
    try {
        return readServerAddress(path.toStdString());
    } catch (const StorageError&) {
        return std::nullopt;  // what is wrong with it is said when it is opened
    }
}

}

bool isShared(const QString& path) { return isServerAddress(path.toStdString()); }

QString bookName(const QString& path)
{
    if (!isShared(path)) return QFileInfo{path}.completeBaseName();
    const auto address = addressIn(path);
    if (!address) return QObject::tr("shared book");
    return qs(address->schema == ServerAddress{}.schema ? address->database : address->schema);
}

QString bookPlace(const QString& path)
{
    if (!isShared(path)) return QFileInfo{path}.absolutePath();
    const auto address = addressIn(path);
    if (!address || address->host.empty()) return QObject::tr("this machine\u2019s server");
    return qs(address->host);
}

}

#include "copies.h"

#include "schema.h"
#include "server_address.h"
#include "whole_copy.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QRegularExpression>
#include <QStandardPaths>

namespace strikeoff {

namespace {

constexpr int copiesKept = 14;

QStringList copyNames(const QDir& folder)
{
    static const QRegularExpression name{QStringLiteral("^\\d{4}-\\d{2}-\\d{2}\\.strikeoff$")};
    return folder.entryList(QDir::Files, QDir::Name).filter(name);
}

void makePrivate(const QString& file) { QFile::setPermissions(file, QFileDevice::ReadOwner | QFileDevice::WriteOwner); }

}

void copyInto(Database& database, const std::string& file)
{
    if (database.isOnServer()) {
        copyWhole(database, file);
        return;
    }
    const auto name = QString::fromStdString(file);
    if (QFileInfo::exists(name)) throw StorageError{file + " is there already; choose another name, nothing was overwritten"};
    const auto part = name + QStringLiteral(".part");
    QFile::remove(part);
    {
        // Made by ourselves first, so that the copy is private from its first byte on; VACUUM INTO takes an empty file.
        QFile made{part};
        if (!made.open(QIODevice::WriteOnly | QIODevice::NewOnly)) throw StorageError{"cannot write the copy " + file + ": " + made.errorString().toStdString()};
        makePrivate(part);
    }
    try {
        FastStatement vacuum{database, "VACUUM INTO ?"};
        vacuum.bind(1, std::string_view{part.toStdString()});
        vacuum.run();
        Database copy{part.toStdString(), Database::Mode::readOnly};
        if (copy.text("PRAGMA quick_check(1)") != "ok" || copy.number("PRAGMA application_id") != applicationId)
            throw StorageError{"the copy " + file + " does not read back as it was written; check the disk"};
    } catch (...) {
        QFile::remove(part);
        throw;
    }
    if (!QFile::rename(part, name)) {
        QFile::remove(part);
        throw StorageError{"cannot put the copy " + file + " in its place; check the folder"};
    }
}

std::string copiesFolder(const std::string& book)
{
    if (isServerAddress(book)) {
        const auto address = readServerAddress(book);
        auto name = QString::fromStdString(address.host + (address.port.empty() ? "" : "-" + address.port) + '-' + address.database + '-' + address.schema);
        // A host may be an address in brackets or the folder of a socket.
        name.replace(QRegularExpression{QStringLiteral("[^A-Za-z0-9._-]")}, QStringLiteral("_"));
        return (QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation) + QStringLiteral("/strikeoff/") + name + QStringLiteral(".copies")).toStdString();
    }
    const QFileInfo info{QString::fromStdString(book)};
    return (info.absolutePath() + u'/' + info.completeBaseName() + QStringLiteral(".copies")).toStdString();
}

void keepDailyCopy(Database& database, const std::string& today)
{
    QDir folder{QString::fromStdString(copiesFolder(database.path()))};
    const auto name = QString::fromStdString(today) + QStringLiteral(".strikeoff");
    if (folder.exists(name)) return;
    if (!folder.exists()) {
        if (!folder.mkpath(QStringLiteral("."))) throw StorageError{"cannot make the folder for daily copies, " + folder.path().toStdString()};
        QFile::setPermissions(folder.path(), QFileDevice::ReadOwner | QFileDevice::WriteOwner | QFileDevice::ExeOwner);
    }
    copyInto(database, folder.filePath(name).toStdString());
    auto names = copyNames(folder);
    while (names.size() > copiesKept) folder.remove(names.takeFirst());
}

std::string newestCopy(const std::string& book)
{
    const auto names = copyNames(QDir{QString::fromStdString(copiesFolder(book))});
    return names.isEmpty() ? std::string{} : names.last().left(10).toStdString();
}

}

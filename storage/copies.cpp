#include "copies.h"

#include "interruption.h"
#include "schema.h"
#include "server_address.h"
#include "whole_copy.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QRegularExpression>
#include <QStandardPaths>
#include <QSysInfo>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <unistd.h>

namespace strikeoff {

namespace {

constexpr int copiesKept = 14;

QStringList copyNames(const QDir& folder)
{
    static const QRegularExpression name{QStringLiteral("^\\d{4}-\\d{2}-\\d{2}\\.strikeoff$")};
    return folder.entryList(QDir::Files, QDir::Name).filter(name);
}

QString machineMark()
{
    auto host = QSysInfo::machineHostName();
    return host.remove(QRegularExpression{QStringLiteral("[^A-Za-z0-9_-]")});
}

/// What marks the unfinished files of this program: the machine, the process, and a count.
QString ownMark()
{
    static std::atomic<int> count{0};
    return QStringLiteral("%1.%2.%3").arg(machineMark()).arg(::getpid()).arg(++count);
}

/// Removes what programs that were killed left unfinished: those of this machine that run no more, and whatever is older than a day.
void clearAway(const QDir& folder)
{
    static const QRegularExpression unfinished{QStringLiteral("^\\d{4}-\\d{2}-\\d{2}\\.strikeoff\\.(.*)\\.(\\d+)\\.\\d+(\\.part.*)?$")};
    for (const auto& file : folder.entryInfoList(QDir::Files)) {
        const auto match = unfinished.match(file.fileName());
        if (!match.hasMatch()) continue;
        const bool isOurs = match.captured(1) == machineMark();
        const bool isGone = isOurs && ::kill(match.captured(2).toInt(), 0) != 0 && errno == ESRCH;
        if (isGone || file.lastModified().daysTo(QDateTime::currentDateTime()) > 1) QFile::remove(file.filePath());
    }
}

/// Whether all of a file is on the disk itself, so that no name is given to what a power cut could still take.
bool isOnDisk(const QString& file)
{
    const int descriptor = ::open(QFile::encodeName(file).constData(), O_RDONLY | O_CLOEXEC);
    if (descriptor < 0) return false;
    const bool isDone = ::fsync(descriptor) == 0;
    ::close(descriptor);
    return isDone;
}

void makePrivate(const QString& file) { QFile::setPermissions(file, QFileDevice::ReadOwner | QFileDevice::WriteOwner); }

}

bool copyInto(Database& database, const std::string& file, const std::function<bool(int)>& progress)
{
    if (database.isOnServer()) return copyWhole(database, file, {}, progress);
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
        {
            const auto whole = std::max<std::int64_t>(database.number("PRAGMA page_count") * database.number("PRAGMA page_size"), 1);
            Interruption interruption{database, [&] { return !progress || progress(static_cast<int>(std::min<std::int64_t>(QFileInfo{part}.size() * 80 / whole, 80))); }};
            FastStatement vacuum{database, "VACUUM INTO ?"};
            vacuum.bind(1, std::string_view{part.toStdString()});
            if (!interruption.ran([&] { vacuum.run(); })) {
                QFile::remove(part);
                return false;
            }
        }
        Database copy{part.toStdString(), Database::Mode::readOnly};
        Interruption interruption{copy, [&] { return !progress || progress(90); }};
        bool isSound = false;
        if (!interruption.ran([&] { isSound = copy.text("PRAGMA quick_check(1)") == "ok" && copy.number("PRAGMA application_id") == applicationId; })) {
            QFile::remove(part);
            return false;
        }
        if (!isSound) throw StorageError{"the copy " + file + " does not read back as it was written; check the disk"};
    } catch (...) {
        QFile::remove(part);
        throw;
    }
    if (!isOnDisk(part) || !QFile::rename(part, name)) {
        QFile::remove(part);
        throw StorageError{"cannot put the copy " + file + " in its place; check the folder"};
    }
    return true;
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

void makeCopiesFolder(const std::string& book)
{
    const QDir folder{QString::fromStdString(copiesFolder(book))};
    if (folder.exists()) return;
    if (!folder.mkpath(QStringLiteral("."))) throw StorageError{"cannot make the folder for daily copies and others, " + folder.path().toStdString()};
    QFile::setPermissions(folder.path(), QFileDevice::ReadOwner | QFileDevice::WriteOwner | QFileDevice::ExeOwner);
}

bool keepDailyCopy(Database& database, const std::string& today, const std::function<bool(int)>& progress)
{
    QDir folder{QString::fromStdString(copiesFolder(database.path()))};
    const auto name = QString::fromStdString(today) + QStringLiteral(".strikeoff");
    if (folder.exists(name)) return true;
    makeCopiesFolder(database.path());
    clearAway(folder);
    // Under a name of this program's own, so that two that open the book at once do not write into one file; the first to be ready gives the day's copy its name.
    const auto unfinished = name + u'.' + ownMark();
    if (!copyInto(database, folder.filePath(unfinished).toStdString(), progress)) return false;
    if (!folder.rename(unfinished, name)) {
        folder.remove(unfinished);
        if (!folder.exists(name)) throw StorageError{"cannot put today's copy in its place, " + folder.filePath(name).toStdString() + "; check the folder"};
    }
    auto names = copyNames(folder);
    while (names.size() > copiesKept) folder.remove(names.takeFirst());
    return true;
}

std::string newestCopy(const std::string& book)
{
    const auto names = copyNames(QDir{QString::fromStdString(copiesFolder(book))});
    return names.isEmpty() ? std::string{} : names.last().left(10).toStdString();
}

}

#include "copy_list.h"

#include "copies.h"
#include "file.h"
#include "schema.h"
#include "sealed_file.h"
#include "server_address.h"
#include "store_state.h"
#include "trail.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QRegularExpression>
#include <QTemporaryDir>

#include <algorithm>

namespace strikeoff {

namespace {

QString qText(const std::string& text) { return QString::fromStdString(text); }

BookCopy describeCopy(const QFileInfo& file, CopyOrigin origin)
{
    const auto time = file.lastModified();
    BookCopy copy{file.absoluteFilePath().toStdString(), origin, time.date().toString(Qt::ISODate).toStdString(), time.toString(QStringLiteral("yyyy-MM-ddTHH:mm:ss")).toStdString(), file.size(),
                  isSealedFile(file.filePath().toStdString())};
    if (origin == CopyOrigin::daily) copy.day = file.completeBaseName().toStdString();
    return copy;
}

}

std::vector<BookCopy> copiesOf(const std::string& book, const std::vector<std::string>& own)
{
    static const QRegularExpression daily{QStringLiteral("^\\d{4}-\\d{2}-\\d{2}\\.strikeoff$")}, keptOfShared{QStringLiteral("^\\d{4}-\\d{2}-\\d{2}-before-restore(-\\d+)?\\.strikeoff$")},
        kept{QStringLiteral("^\\.(before-version-\\d+|before-restore)(-\\d+)?$")};
    std::vector<BookCopy> copies;
    const QDir folder{qText(copiesFolder(book))};
    for (const auto& file : folder.entryInfoList(QDir::Files))
        if (daily.match(file.fileName()).hasMatch()) copies.push_back(describeCopy(file, CopyOrigin::daily));
        else if (keptOfShared.match(file.fileName()).hasMatch()) copies.push_back(describeCopy(file, CopyOrigin::beforeRestore));
    if (!isServerAddress(book)) {
        const QFileInfo self{qText(book)};
        for (const auto& file : self.absoluteDir().entryInfoList(QDir::Files)) {
            if (!file.fileName().startsWith(self.fileName())) continue;
            const auto ending = file.fileName().mid(self.fileName().size());
            if (!kept.match(ending).hasMatch()) continue;
            copies.push_back(describeCopy(file, ending.startsWith(QStringLiteral(".before-restore")) ? CopyOrigin::beforeRestore : CopyOrigin::beforeNewVersion));
        }
    }
    for (const auto& path : own) {
        const QFileInfo file{qText(path)};
        if (file == QFileInfo{qText(book)}) continue;  // looking at its first bytes would take the locks of the open book away
        const auto known = std::any_of(copies.begin(), copies.end(), [&](const BookCopy& copy) { return copy.file == file.absoluteFilePath().toStdString(); });
        if (file.isFile() && !known) copies.push_back(describeCopy(file, CopyOrigin::own));
    }
    std::stable_sort(copies.begin(), copies.end(), [](const BookCopy& a, const BookCopy& b) { return a.day != b.day ? a.day > b.day : a.at > b.at; });
    return copies;
}

OpenedCopy openCopy(const std::string& copy, const std::string& besides, const AskPassPhrase& askPhrase)
{
    OpenOptions options;
    options.readOnly = true;
    OpenedCopy opened;
    const bool sealedCopy = isSealedFile(copy);
    if (!sealedCopy) {
        try {
            opened.store = Store::open(copy, options);
            return opened;
        } catch (const OlderVersion&) {
            // Is worth another try, on a copy of it.
        }
    }
    const auto near = isServerAddress(besides) ? QDir::tempPath() : QFileInfo{qText(besides)}.absolutePath();
    const auto folder = std::make_shared<QTemporaryDir>(near + QStringLiteral("/.strikeoff-XXXXXX"));
    if (!folder->isValid()) throw StorageError{"cannot write beside " + besides + ": " + folder->errorString().toStdString() + "; check that the folder may be written"};
    const auto made = folder->filePath(QFileInfo{qText(copy)}.completeBaseName() + QStringLiteral(".strikeoff")).toStdString();
    if (sealedCopy) {
        const auto phrase = askPhrase ? askPhrase() : std::nullopt;
        if (!phrase) throw StorageError{copy + " is sealed with a pass phrase; give it to look into the copy"};
        std::string fault;
        const auto bytes = readWholeFile(copy, fault);
        if (!bytes || !writePrivateFile(made, unsealed(*bytes, *phrase, copy), fault, IfThere::refuse)) throw StorageError{fault};
    } else {
        Database old{copy, Database::Mode::readOnly};
        copyInto(old, made);
    }
    Store::open(made);  // brings it forward
    opened.made = folder;
    opened.store = Store::open(made, options);
    return opened;
}

bool mayBeCopyOf(const std::string& copy, const Store& store)
{
    if (isSealedFile(copy)) return true;
    try {
        Database file{copy, Database::Mode::readOnly};
        return file.number("PRAGMA application_id") == applicationId && beginningOf(file) == beginningOf(store);
    } catch (const StorageError&) {
        return false;
    }
}

std::vector<std::string> removeCopies(const std::vector<std::string>& files)
{
    std::vector<std::string> left;
    for (const auto& file : files) {
        // The copy first: as long as it is there, what lies beside it belongs to it.
        if (QFileInfo::exists(qText(file)) && !QFile::remove(qText(file))) {
            left.push_back(file);
            continue;
        }
        for (const auto* beside : {"-wal", "-shm"}) QFile::remove(qText(file + beside));
    }
    return left;
}

}

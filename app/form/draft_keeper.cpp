#include "form/draft_keeper.h"

#include "labels.h"
#include "records/record_words.h"
#include "server_address.h"

#include <QCryptographicHash>
#include <QDir>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QStandardPaths>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace strikeoff {

namespace {

constexpr off_t mostBytes = 1 << 20;

}

DraftKeeper& DraftKeeper::of(Desk& desk)
{
    if (auto* keeper = desk.findChild<DraftKeeper*>()) return *keeper;
    return *new DraftKeeper{desk};
}

QString DraftKeeper::fileFor(const QString& book)
{
    if (!isServerAddress(book.toStdString())) return book + QStringLiteral(".typed");
    const auto folder = QStandardPaths::writableLocation(QStandardPaths::AppDataLocation);
    const auto name = QString::fromLatin1(QCryptographicHash::hash(book.toUtf8(), QCryptographicHash::Sha256).toHex().left(32));
    return folder + u'/' + name + QStringLiteral(".typed");
}

DraftKeeper::DraftKeeper(Desk& desk) : QObject{&desk}, desk_{desk}, path_{fileFor(qs(desk.store().path()))}
{
    if (desk.store().isReadOnly()) return;
    if (isServerAddress(desk.store().path())) {
        const auto folder = path_.section(u'/', 0, -2);
        QDir{}.mkpath(folder);
        QFile::setPermissions(folder, QFileDevice::ReadOwner | QFileDevice::WriteOwner | QFileDevice::ExeOwner);
    }
    // Whoever ends in order takes the file away.
    const bool wasLeft = QFile::exists(path_);
    file_ = ::open(QFile::encodeName(path_).constData(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
    if (file_ < 0) return;
    // A second program with the same book leaves the first one's file alone.
    if (::flock(file_, LOCK_EX | LOCK_NB) != 0) {
        ::close(file_);
        file_ = -1;
        return;
    }
    brokeOff_ = wasLeft;
    ::fchmod(file_, 0600);
    read();
    drafts_ = left_;  // kept until they are saved or put away
}

DraftKeeper::~DraftKeeper()
{
    if (file_ < 0) return;
    ::unlink(QFile::encodeName(path_).constData());
    ::close(file_);
}

std::string DraftKeeper::nameForm(RecordKind kind) { return std::string{describe(kind).name} + '#' + std::to_string(++named_[kind]); }

void DraftKeeper::keep(const std::string& form, Draft draft)
{
    const Key key{draft.id, draft.owner};
    auto& kept = drafts_[form][key];
    if (kept.texts == draft.texts && kept.revision == draft.revision) return;
    kept = std::move(draft);
    write();
}

void DraftKeeper::drop(const std::string& form, std::int64_t id, std::int64_t owner)
{
    const auto found = drafts_.find(form);
    if (found == drafts_.end() || found->second.erase({id, owner}) == 0) return;
    if (found->second.empty()) drafts_.erase(found);
    write();
}

std::vector<DraftKeeper::Draft> DraftKeeper::leftIn(const std::string& form) const
{
    std::vector<Draft> drafts;
    if (const auto found = left_.find(form); found != left_.end())
        for (const auto& [key, draft] : found->second) drafts.push_back(draft);
    return drafts;
}

QString DraftKeeper::leftWords() const
{
    QStringList words;
    for (const auto& [form, drafts] : left_) {
        const auto* kind = findKind(form.substr(0, form.find('#')));
        if (!kind) continue;
        for (const auto& [key, draft] : drafts) words << (draft.id == 0 ? tr("a new %1").arg(qs(kind->label)) : recordName(desk_.book(), {kind->kind, draft.id}));
    }
    return words.join(QStringLiteral(", "));
}

/// The file holds a line each time something was typed, the last whole one counts: one that was cut off half way does no harm.
void DraftKeeper::read()
{
    const auto size = ::lseek(file_, 0, SEEK_END);
    if (size <= 0 || size > 4 * mostBytes) return;
    QByteArray bytes{static_cast<qsizetype>(size), '\0'};
    if (::pread(file_, bytes.data(), static_cast<std::size_t>(size), 0) != size) return;
    for (const auto& line : bytes.split('\n')) {
        const auto document = QJsonDocument::fromJson(line);
        if (!document.isArray()) continue;
        left_.clear();
        for (const auto& entry : document.array()) {
            const auto object = entry.toObject();
            Draft draft{object[QStringLiteral("id")].toInteger(), object[QStringLiteral("owner")].toInteger(), object[QStringLiteral("revision")].toInteger(), {}};
            const auto texts = object[QStringLiteral("texts")].toObject();
            for (auto at = texts.begin(); at != texts.end(); ++at) draft.texts[utf8(at.key())] = at.value().toString();
            left_[utf8(object[QStringLiteral("form")].toString())][{draft.id, draft.owner}] = std::move(draft);
        }
    }
}

void DraftKeeper::write()
{
    if (file_ < 0) return;
    QJsonArray entries;
    for (const auto& [form, drafts] : drafts_)
        for (const auto& [key, draft] : drafts) {
            QJsonObject texts;
            for (const auto& [field, text] : draft.texts) texts[qs(field)] = text;
            entries << QJsonObject{{QStringLiteral("form"), qs(form)}, {QStringLiteral("id"), static_cast<qint64>(draft.id)}, {QStringLiteral("owner"), static_cast<qint64>(draft.owner)},
                                   {QStringLiteral("revision"), static_cast<qint64>(draft.revision)}, {QStringLiteral("texts"), texts}};
        }
    auto at = ::lseek(file_, 0, SEEK_END);
    if (entries.isEmpty() || at > mostBytes) {
        if (::ftruncate(file_, 0) != 0) return;
        at = 0;
    }
    if (!entries.isEmpty()) {
        const auto line = QJsonDocument{entries}.toJson(QJsonDocument::Compact) + '\n';
        // A disk that takes no more keeps what it has; the form in view still holds everything.
        if (::pwrite(file_, line.constData(), static_cast<std::size_t>(line.size()), at) != line.size() && ::ftruncate(file_, at) != 0) return;
    }
    ::fdatasync(file_);
}

}

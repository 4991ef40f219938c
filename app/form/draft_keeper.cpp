#include "form/draft_keeper.h"

#include "labels.h"
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

/// From this size on the file is begun anew with what counts of it.
constexpr off_t mostBytes = 1 << 20;
/// No file of ours is that large.
constexpr off_t tooManyBytes = 64 * mostBytes;
/// As long as what was typed may be in memory alone.
constexpr int moment = 700;

/// Where the file is begun anew before it is put in its place.
QByteArray besideOf(const QString& path) { return QFile::encodeName(path + QStringLiteral(".new")); }

/// Opens and locks a file that only its owner may read; −1 where that cannot be, or another program has the lock.
int openOwn(const QByteArray& path, int more)
{
    const int file = ::open(path.constData(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW | more, 0600);
    if (file < 0) return file;
    if (::flock(file, LOCK_EX | LOCK_NB) == 0 && ::fchmod(file, 0600) == 0) return file;
    ::close(file);
    return -1;
}

/// A disk that takes no more keeps what it has; what is in view still holds everything.
bool append(int file, const QByteArray& line)
{
    const auto at = ::lseek(file, 0, SEEK_END);
    if (::pwrite(file, line.constData(), static_cast<std::size_t>(line.size()), at) == line.size()) return ::fdatasync(file) == 0;
    [[maybe_unused]] const int cut = ::ftruncate(file, at);
    return false;
}

QJsonObject objectOf(const DraftRow& row)
{
    QJsonObject texts;
    for (const auto& [field, text] : row.texts) texts[qs(field)] = qs(text);
    return {{QStringLiteral("id"), static_cast<qint64>(row.id)}, {QStringLiteral("revision"), static_cast<qint64>(row.revision)}, {QStringLiteral("texts"), texts}};
}

DraftRow rowOf(const QJsonObject& object)
{
    DraftRow row{object[QStringLiteral("id")].toInteger(), object[QStringLiteral("revision")].toInteger()};
    const auto texts = object[QStringLiteral("texts")].toObject();
    for (auto at = texts.begin(); at != texts.end(); ++at) row.texts[utf8(at.key())] = utf8(at.value().toString());
    return row;
}

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

DraftKeeper::DraftKeeper(Desk& desk) : QObject{&desk}, path_{fileFor(qs(desk.store().path()))}
{
    if (desk.store().isReadOnly()) return;
    if (isServerAddress(desk.store().path())) {
        const auto folder = path_.section(u'/', 0, -2);
        QDir{}.mkpath(folder);
        QFile::setPermissions(folder, QFileDevice::ReadOwner | QFileDevice::WriteOwner | QFileDevice::ExeOwner);
    }
    // Whoever ends in order takes the file away. A second program with the same book leaves the first one's alone.
    const bool wasLeft = QFile::exists(path_);
    file_ = openOwn(QFile::encodeName(path_), 0);
    if (file_ < 0) return;
    brokeOff_ = wasLeft;
    ::unlink(besideOf(path_).constData());
    read();
}

DraftKeeper::~DraftKeeper()
{
    if (file_ < 0) return;
    ::unlink(QFile::encodeName(path_).constData());
    ::close(file_);
}

std::string DraftKeeper::numbered(std::string_view place)
{
    std::string name{place};
    const int number = ++numbers_[name];
    return name + '#' + std::to_string(number);
}

void DraftKeeper::keep(const std::string& place, Draft draft)
{
    const Key key{draft.id, draft.owner};
    if (draft.rows.empty()) return drop(place, key);
    auto& kept = drafts_[place][key];
    if (kept == draft) return;
    kept = std::move(draft);
    write();
}

void DraftKeeper::drop(const std::string& place, const Key& key)
{
    const auto found = drafts_.find(place);
    if (found == drafts_.end() || found->second.erase(key) == 0) return;
    if (found->second.empty()) drafts_.erase(found);
    write();
}

std::optional<Draft> DraftKeeper::kept(const std::string& place, const Key& key) const
{
    const auto found = drafts_.find(place);
    if (found == drafts_.end()) return std::nullopt;
    const auto draft = found->second.find(key);
    return draft == found->second.end() ? std::nullopt : std::optional{draft->second};
}

std::vector<Draft> DraftKeeper::keptOf(const std::string& place) const
{
    std::vector<Draft> drafts;
    if (const auto found = drafts_.find(place); found != drafts_.end())
        for (const auto& [key, draft] : found->second) drafts.push_back(draft);
    return drafts;
}

QString DraftKeeper::words()
{
    emit wanted();
    QStringList words;
    for (const auto& [place, drafts] : drafts_)
        for (const auto& [key, draft] : drafts) words << draft.words;
    return words.join(QStringLiteral("; "));  // names may hold a comma
}

/// The file holds a line each time something was typed, the last whole one counts: one that was cut off half way does no harm, as each begins a line of its own.
void DraftKeeper::read()
{
    const auto size = ::lseek(file_, 0, SEEK_END);
    if (size <= 0 || size > tooManyBytes) return;
    QByteArray bytes{static_cast<qsizetype>(size), '\0'};
    if (::pread(file_, bytes.data(), static_cast<std::size_t>(size), 0) != size) return;
    const auto lines = bytes.split('\n');
    for (auto line = lines.rbegin(); line != lines.rend(); ++line) {
        const auto document = QJsonDocument::fromJson(*line);
        if (!document.isArray()) continue;
        for (const auto& entry : document.array()) {
            const auto object = entry.toObject();
            Draft draft{object[QStringLiteral("id")].toInteger(), object[QStringLiteral("owner")].toInteger(), object[QStringLiteral("words")].toString()};
            for (const auto& row : object[QStringLiteral("rows")].toArray()) draft.rows.push_back(rowOf(row.toObject()));
            if (!draft.rows.empty()) drafts_[utf8(object[QStringLiteral("place")].toString())][{draft.id, draft.owner}] = std::move(draft);
        }
        return;
    }
}

void DraftKeeper::write()
{
    if (file_ < 0) return;
    if (drafts_.empty()) {
        if (::ftruncate(file_, 0) == 0) ::fdatasync(file_);
        return;
    }
    QJsonArray entries;
    for (const auto& [place, drafts] : drafts_)
        for (const auto& [key, draft] : drafts) {
            QJsonArray rows;
            for (const auto& row : draft.rows) rows << objectOf(row);
            entries << QJsonObject{{QStringLiteral("place"), qs(place)}, {QStringLiteral("id"), static_cast<qint64>(draft.id)}, {QStringLiteral("owner"), static_cast<qint64>(draft.owner)},
                                   {QStringLiteral("words"), draft.words}, {QStringLiteral("rows"), rows}};
        }
    const auto line = '\n' + QJsonDocument{entries}.toJson(QJsonDocument::Compact) + '\n';
    if (::lseek(file_, 0, SEEK_END) < mostBytes) {
        append(file_, line);
        return;
    }
    // Begun anew beside it and then put in its place, so that there is a whole one at every moment.
    const auto beside = besideOf(path_);
    const int fresh = openOwn(beside, O_TRUNC);
    if (fresh < 0) return;
    if (append(fresh, line) && ::rename(beside.constData(), QFile::encodeName(path_).constData()) == 0) {
        ::close(file_);
        file_ = fresh;
    } else {
        ::unlink(beside.constData());
        ::close(fresh);
    }
}

DraftPlace::DraftPlace(Desk& desk, std::string name, std::function<Draft()> typed) : desk_{desk}, keeper_{&DraftKeeper::of(desk)}, name_{std::move(name)}, typed_{std::move(typed)}
{
    timer_.setSingleShot(true);
    timer_.setInterval(moment);
    QObject::connect(&timer_, &QTimer::timeout, &timer_, [this] { keepNow(); });
    QObject::connect(keeper_, &DraftKeeper::wanted, &timer_, [this] {
        if (timer_.isActive()) keepNow();
    });
}

void DraftPlace::wasTyped()
{
    if (!timer_.isActive()) timer_.start();  // and not put off by more typing
}

void DraftPlace::keepNow()
{
    timer_.stop();
    if (keeper_) keeper_->keep(name_, typed_());
}

void DraftPlace::drop(const DraftKeeper::Key& key)
{
    if (keeper_) keeper_->drop(name_, key);
}

void DraftPlace::dropAll()
{
    for (const auto& draft : all()) drop({draft.id, draft.owner});
}

void DraftPlace::dropLost(RecordKind kind)
{
    for (const auto& draft : all())
        if (draft.id != 0 && !desk_.book().find(kind, draft.id)) drop({draft.id, draft.owner});
}

std::optional<Draft> DraftPlace::kept(const DraftKeeper::Key& key) const { return keeper_ ? keeper_->kept(name_, key) : std::nullopt; }
std::vector<Draft> DraftPlace::all() const { return keeper_ ? keeper_->keptOf(name_) : std::vector<Draft>{}; }

}

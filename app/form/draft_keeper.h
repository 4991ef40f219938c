#pragma once

#include <QObject>
#include <QPointer>
#include <QString>
#include <QTimer>

#include "desk.h"
#include "ready_mix/typed_row.h"

#include <functional>
#include <map>

namespace strikeoff {

/// A row as the book had it when typing began (id 0: it is new), and what was typed for it, by field. Of one without texts it is known only that it was there.
struct DraftRow {
    std::int64_t id = 0;
    std::int64_t revision = 0;
    TypedRow texts = {};
    friend bool operator==(const DraftRow&, const DraftRow&) = default;
};

/// What is typed in a place of entry and not saved: one row in a form, many where lines are typed. Without rows there is nothing.
struct Draft {
    std::int64_t id = 0;     ///< of the record it is about; 0 for a new one, and where a place has one draft at most
    std::int64_t owner = 0;  ///< whose a new one would be
    QString words = {};      ///< what it is, as the owner knows it: "Customer Nora Bell"
    std::vector<DraftRow> rows = {};
    friend bool operator==(const Draft&, const Draft&) = default;
};

/// Keeps what is half typed while something else is looked at, and on disk, so that it outlives a crash of the program: beside the book, in a file that only
/// its owner may read. It is gone when the program ends in order, as leaving was asked about then. For a shared book it lies in the user's own data folder.
class DraftKeeper : public QObject {
    Q_OBJECT
public:
    /// Of which record; of a new one (0), whose it would be.
    using Key = std::pair<std::int64_t, std::int64_t>;

    /// The keeper of a desk, made when first asked for.
    static DraftKeeper& of(Desk& desk);
    ~DraftKeeper() override;

    /// A name for one of several like places that is the same in the next run, as they are always made in one order.
    std::string numbered(std::string_view place);
    /// Keeps a draft in the stead of the one for the same record; one without rows drops that.
    void keep(const std::string& place, Draft draft);
    void drop(const std::string& place, const Key& key);
    std::optional<Draft> kept(const std::string& place, const Key& key) const;
    std::vector<Draft> keptOf(const std::string& place) const;
    /// All that is typed and not saved, in words: "Customer Nora Bell; a new Lead".
    QString words();
    /// Whether the program broke off when it last had the book open here, as it does when it is killed or the power goes.
    bool brokeOff() const { return brokeOff_; }
    static QString fileFor(const QString& book);

signals:
    /// What was typed a moment ago is to be kept now.
    void wanted();

private:
    explicit DraftKeeper(Desk& desk);
    void read();
    void write();

    QString path_;
    int file_ = -1;  ///< held and locked while the book is open; −1 where another program holds it or nothing can be written
    bool brokeOff_ = false;
    std::map<std::string, int, std::less<>> numbers_;
    std::map<std::string, std::map<Key, Draft>> drafts_;
};

/// A place of entry, as the keeper deals with it: a form, the lines of a paper, a stack of tickets.
class DraftPlace {
public:
    /// `typed` tells what stands there now and is not saved.
    DraftPlace(Desk& desk, std::string name, std::function<Draft()> typed);

    /// Something was typed: it is kept in a moment.
    void wasTyped();
    void keepNow();
    void drop(const DraftKeeper::Key& key = {});
    void dropAll();
    /// Drops what was typed for records that are gone, as nothing can be shown of them.
    void dropLost(RecordKind kind);
    /// What was typed here before, in this run of the program or in one that broke off.
    std::optional<Draft> kept(const DraftKeeper::Key& key = {}) const;
    std::vector<Draft> all() const;
    bool any() const { return !all().empty(); }

private:
    const Desk& desk_;
    QPointer<DraftKeeper> keeper_;
    std::string name_;
    std::function<Draft()> typed_;
    QTimer timer_;
};

}

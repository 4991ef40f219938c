#pragma once

#include <QObject>
#include <QString>

#include "cost/job_cost.h"
#include "preferences.h"
#include "store.h"
#include "theme.h"

#include <functional>

namespace strikeoff {

struct Step;

/// Names one record.
struct RecordRef {
    RecordKind kind = noKind;
    std::int64_t id = 0;
    friend auto operator<=>(const RecordRef&, const RecordRef&) = default;
    explicit operator bool() const { return kind != noKind && id != 0; }
};

/// What every page works at: the open book, today, the one road for edits with its errors caught, undo and redo, and the way to other pages.
class Desk : public QObject {
    Q_OBJECT
public:
    Desk(Store& store, Preferences& preferences, QObject* parent = nullptr);
    ~Desk() override;

    const Book& book() const { return store_.book(); }
    Store& store() { return store_; }
    const Store& store() const { return store_; }
    Preferences& preferences() { return preferences_; }

    /// What job cost is reckoned with, made once for a state of the book and shared by all pages; after an edit of hours alone only what it touches is
    /// reckoned anew. Good until the book changes.
    CostReckoner& costs();

    /// The day it is, by the machine's clock unless one was set.
    Date today() const;
    void setToday(Date today);

    /// Commits an edit. Problems and conflicts come back for the caller to show where they belong. When disk or database would not do it, that is said
    /// in the message strip and comes back as a problem of the whole edit; nothing that was typed is lost.
    CommitResult commit(const Edit& edit);
    /// The same for an edit without a form of its own: whatever stands in the way is said in the message strip. True when done.
    bool commitOrSay(const Edit& edit);
    /// Does a step: its obstacle is said instead, its remarks afterwards. True when done.
    bool perform(const Step& step);
    void undo();
    void redo();
    /// Takes in what other programs wrote.
    void lookForNews();
    /// Asks that nothing but the store holds the book: what is done for it beside the work is stopped.
    void beAlone() { emit aloneWanted(); }

    /// Shows a message in the strip of the window; it stays until the next one or until it is put away.
    void say(const QString& message, Tone tone = Tone::plain);
    /// Runs something that may throw StorageError or DomainError and says so in the strip. True when it came through.
    bool guarded(const QString& task, const std::function<void()>& work);

    /// Asks the window to open a record on the page that keeps its kind.
    void open(RecordKind kind, std::int64_t id);
    void open(RecordRef record) { open(record.kind, record.id); }
    template <class Record>
    void open(Id<Record> id) { open(kindOf<Record>, id.value()); }

    /// Asks the window for the sheet of a day's hours.
    void enterHours(Date day) { emit hoursWanted(day); }

    void copyText(const QString& text);
    /// Writes a file that only its owner may read, whole or not at all, and says where it is. Asks for its name unless one is given. False when it was not written.
    bool saveFile(const QString& title, const QString& proposedName, const QString& nameFilter, const QByteArray& bytes, QString path = {});

signals:
    /// After any change of the book, whoever made it.
    void changed();
    void said(const QString& message, strikeoff::Tone tone);
    void hoursWanted(strikeoff::Date day);
    void aloneWanted();
    void openRequested(strikeoff::RecordKind kind, std::int64_t id);

private:
    void reportOutcome(const CommitResult& result, const QString& task);

    void followHours(const Edit& edit);

    Store& store_;
    Preferences& preferences_;
    std::optional<CostReckoner> costs_;
    std::uint64_t costsOf_ = 0;      ///< the version of the book they are made of
    const Edit* saving_ = nullptr;   ///< while it is committed
    std::int64_t lastHours_ = 0;     ///< the last id of hours before it
    std::optional<Date> fixedToday_;
    Store::Watch watch_;
    bool newsFailed_ = false;
};

/// The problems and conflicts of a refused edit as sentences, one a line.
QString sentencesOf(const CommitResult& result);

}

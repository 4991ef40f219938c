#pragma once

#include <QObject>
#include <QString>

#include "desk.h"

#include <map>

namespace strikeoff {

/// Keeps what is half typed in forms on disk, so that it outlives a crash of the program: beside the book, in a file that only its owner may read. It is
/// gone when the program ends in order, as leaving was asked about then. For a shared book it lies in the user's own data folder.
class DraftKeeper : public QObject {
    Q_OBJECT
public:
    /// What was typed into one form for one record.
    struct Draft {
        std::int64_t id = 0;     ///< of the record; 0 for a new one
        std::int64_t owner = 0;  ///< whose a new one would be
        std::int64_t revision = 0;
        std::map<std::string, QString> texts;
    };

    /// The keeper of a desk, made when first asked for.
    static DraftKeeper& of(Desk& desk);
    ~DraftKeeper() override;

    /// A name for a form that is the same in the next run, as forms are always made in one order.
    std::string nameForm(RecordKind kind);
    void keep(const std::string& form, Draft draft);
    void drop(const std::string& form, std::int64_t id, std::int64_t owner);
    /// What a form of that name was left with when the program last broke off.
    std::vector<Draft> leftIn(const std::string& form) const;
    /// The records that were being typed then, in words: "Customer Nora Bell, a new Lead".
    QString leftWords() const;
    /// Whether the program broke off when it last had the book open here, as it does when it is killed or the power goes.
    bool brokeOff() const { return brokeOff_; }
    static QString fileFor(const QString& book);

private:
    explicit DraftKeeper(Desk& desk);
    void read();
    void write();

    using Key = std::pair<std::int64_t, std::int64_t>;
    using Drafts = std::map<std::string, std::map<Key, Draft>>;
    Desk& desk_;
    QString path_;
    int file_ = -1;  ///< held and locked while the book is open; −1 where another program holds it or nothing can be written
    bool brokeOff_ = false;
    std::map<RecordKind, int> named_;
    Drafts drafts_;
    Drafts left_;
};

}

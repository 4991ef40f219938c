#pragma once

#include <QWidget>

#include "desk.h"
#include "paper/paper_document.h"

#include <vector>

class QHBoxLayout;
class QLabel;
class QPushButton;
class QStackedWidget;

namespace strikeoff {

class RecordTable;
class RecordsPanel;
struct Step;

/// One job's folder: its papers from left to right, each with its figure, and the chosen paper's records below.
class JobFolderView : public QWidget {
    Q_OBJECT
public:
    explicit JobFolderView(Desk& desk, QWidget* parent = nullptr);

    void setJob(Id<Job> job);
    Id<Job> job() const { return job_; }
    void refresh();
    /// Shows a record of the job on its paper; false when no paper keeps its kind.
    bool openRecord(RecordKind kind, std::int64_t id);
    /// The job a record belongs to, or nothing.
    static std::optional<Id<Job>> jobOf(const Book& book, RecordKind kind, std::int64_t id);
    std::optional<PaperDocument> paper() const;
    RecordTable* table() const;
    bool hasUnsaved() const;
    void newRecord();

signals:
    void backWanted();

private:
    struct Paper {
        QString name;
        std::vector<RecordKind> kinds;
        QPushButton* button = nullptr;
        int place = 0;
    };
    void addPaper(const QString& name, std::vector<RecordKind> kinds);
    void choose(std::size_t paper);
    void showFigures();
    void showResult();
    void showVerbs();
    void addVerb(const char* name, const QString& words, RecordKind on, std::function<void()> act, std::function<bool(const Book&, const Row&)> when = {});
    /// Commits a step, or says what stands in its way; then what to look at.
    void perform(const Step& step);
    RecordsPanel* panel(RecordKind kind) const;

    /// The record chosen on the paper of its kind, or nullptr.
    template <class Record>
    const Record* chosen() const { return desk_.book().find(Id<Record>{chosenId(kindOf<Record>)}); }
    std::int64_t chosenId(RecordKind kind) const;
    void receivePayment();

    Desk& desk_;
    Id<Job> job_;
    QLabel* title_;
    QLabel* state_;
    QHBoxLayout* run_;
    QHBoxLayout* verbs_;
    QStackedWidget* stack_;
    std::vector<Paper> papers_;
    std::vector<std::pair<RecordKind, RecordsPanel*>> panels_;
    struct Verb {
        QPushButton* button;
        RecordKind on;
        std::function<bool(const Book&, const Row&)> when;  ///< whether it can be done on the chosen record; always when empty
    };
    std::vector<Verb> verbList_;
    RecordTable* result_ = nullptr;
    QLabel* resultWords_ = nullptr;
    std::size_t chosen_ = 0;  ///< place of the paper in view
};

}

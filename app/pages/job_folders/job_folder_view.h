#pragma once

#include <QWidget>

#include "desk.h"
#include "job/papers.h"
#include "paper/paper_document.h"

#include <vector>

class QComboBox;
class QHBoxLayout;
class QLabel;
class QPushButton;
class QStackedWidget;
class QTabWidget;

namespace strikeoff {

class LeadView;
class LinesEditor;
class PaperButton;
class ReasonStrip;
class VisitStrip;
class RecordTable;
class RecordsPanel;
class ResultView;
class TakeoffView;
struct Step;

/// One job's folder: its papers from left to right, each with its figure, and the chosen paper's records below.
class JobFolderView : public QWidget {
    Q_OBJECT
public:
    explicit JobFolderView(Desk& desk, QWidget* parent = nullptr);

    void setJob(Id<Job> job);
    Id<Job> job() const { return job_; }
    void refresh();
    /// "Where does this job stand?" in one sentence.
    QString answer() const;
    /// Shows a record of the job on its paper (the job itself on the paper where its next thing is done); false when no paper keeps its kind.
    bool openRecord(RecordKind kind, std::int64_t id);
    /// The job a record belongs to, or nothing.
    static std::optional<Id<Job>> jobOf(const Book& book, RecordKind kind, std::int64_t id);
    std::optional<PaperDocument> paper() const;
    RecordTable* table() const;
    bool hasUnsaved() const;
    void newRecord();
    void takeFocus();

signals:
    void backWanted();

private:
    /// What stands on one tab of a paper: its records (the first kind is the one opened here; verbs of all of them are offered) and their widget.
    struct Sheet {
        std::vector<RecordKind> kinds;
        LinesEditor* lines = nullptr;
    };
    struct Paper {
        PaperButton* button = nullptr;
        QTabWidget* tabs = nullptr;  ///< none where a paper is of one sheet
        std::vector<Sheet> sheets;
    };
    struct Verb {
        QPushButton* button;
        RecordKind on;
        std::function<bool(const Book&, const Row&)> when;  ///< whether it can be done on the chosen record; always when empty
    };

    void addPaper(PaperKind kind, std::vector<std::pair<QString, QWidget*>> widgets, std::vector<Sheet> sheets);
    QWidget* addLinesSheet(LinesEditor*& lines, QComboBox*& choice, RecordKind owner);
    RecordsPanel* addPanel(RecordKind kind, const QString& emptyText = {});
    void keep(RecordKind kind, RecordsPanel* panel);
    void addVerbs();
    void addVerb(const char* name, const QString& words, RecordKind on, std::function<void()> act, std::function<bool(const Book&, const Row&)> when = {});
    void askReason(const QString& question, const QString& verb, std::function<Step(const std::string& reason)> step);

    void choose(PaperKind paper);
    const Sheet& sheet() const;
    void showFigures();
    void showLines();
    void showVerbs();
    /// What the program knows of the record in view that no field holds: when a pour will be broomed, what a quote's pour day takes.
    void showNote();
    /// Saves what is typed on the sheet in view, so that a step is taken on it; false when it cannot be saved.
    bool saveTyped();
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
    QLabel* whose_;
    QHBoxLayout* run_;
    QHBoxLayout* verbs_;
    QWidget* verbLine_;
    QLabel* note_;
    ReasonStrip* reason_;
    VisitStrip* visit_;
    QStackedWidget* stack_;
    std::vector<Paper> papers_;  ///< by PaperKind
    std::vector<std::pair<RecordKind, RecordsPanel*>> panels_;
    std::vector<Verb> verbList_;
    LeadView* lead_;
    TakeoffView* takeoff_;
    ResultView* result_;
    LinesEditor* quoteLines_ = nullptr;
    LinesEditor* invoiceLines_ = nullptr;
    QComboBox* quoteChoice_ = nullptr;
    QComboBox* invoiceChoice_ = nullptr;
    PaperKind chosen_ = PaperKind::lead;  ///< the paper in view
};

}

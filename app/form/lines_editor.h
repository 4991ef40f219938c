#pragma once

#include <QWidget>

#include "form/lines_model.h"

class QLabel;
class QPushButton;
class QTableView;

namespace strikeoff {

/// How lines of a paper are edited: which kind, whose they are, what is shown of them and what they come to.
struct LinesSetup {
    RecordKind kind{};
    std::string owner = {};  ///< the reference to the paper they stand on
    std::vector<LineColumn> columns = {};
    std::vector<std::string> carried = {};  ///< fields a new line takes from the one before it
    QString amountHeading = {};
    std::function<Money(const Row& line)> amount = {};
    std::function<QString(const std::vector<Row>& lines)> answer = {};  ///< what they come to, in a sentence
    std::function<std::string()> title = {};                            ///< of the edit that saves them
    QString emptyText = {};
};

/// The lines of a quote or an invoice, edited in place as in a ledger. Typing or Enter begins a cell, Enter goes on to the next one and, behind the last,
/// to a new line; Delete removes a line. All of it is saved together (Ctrl+S, Ctrl+Enter) as one edit and undone as one.
class LinesEditor : public QWidget {
    Q_OBJECT
public:
    LinesEditor(Desk& desk, LinesSetup setup, QWidget* parent = nullptr);

    /// Shows a paper's lines; what is typed for another one is kept for it. Words why they stay as they are, if they do. 0 shows none.
    void show(std::int64_t owner, const QString& lockedWhy);
    /// Takes in what the book says now, unless something typed is not saved.
    void refresh();
    bool isDirty() const { return model_->isDirty(); }
    /// The same, counting what is put aside for other papers.
    bool hasDrafts() const { return isDirty() || drafts_.any(); }
    /// Saves as one edit; false when something stands in the way, which is said under the table.
    bool save();
    void putBack();
    void addLine();
    void removeLine();
    bool select(std::int64_t id);
    void takeFocus();

    QTableView& view() { return *view_; }
    LinesModel& model() { return *model_; }

signals:
    void dirtyChanged();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    LinesModel::State stateOf(std::int64_t owner) const;
    RecordKind ownerKind() const;
    Draft typedDraft() const;
    Row newLine() const;
    void goOn(const QModelIndex& from, int step);
    void begin(const QModelIndex& index);
    void showState();
    bool check();
    bool commit();

    Desk& desk_;
    LinesSetup setup_;
    std::int64_t owner_ = 0;
    QString lockedWhy_;
    DraftPlace drafts_;
    LinesModel* model_;
    QTableView* view_;
    QLabel* empty_;
    QLabel* answer_;
    QLabel* locked_;
    QLabel* problem_;
    QPushButton* add_;
    QPushButton* remove_;
    QPushButton* putBack_;
    QPushButton* save_;
};

}

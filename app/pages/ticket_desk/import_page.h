#pragma once

#include "page.h"

#include "form/draft_keeper.h"
#include "pages/ticket_desk/statement_file.h"

#include <atomic>
#include <memory>

class QComboBox;
class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;
class QTableView;
class QThread;
class QTimer;

namespace strikeoff {

class ColumnChoosers;
class StatementRows;
class SupplierBox;

/// A supplier's statement on its way into the book: from a file, from the clipboard, or typed. The guess at its layout stands over the rows and is corrected in
/// place; nothing is written until it is taken in, as one edit.
class ImportPage : public Page {
    Q_OBJECT
public:
    explicit ImportPage(Desk& desk, QWidget* parent = nullptr);
    ~ImportPage() override;

    QString question() const override { return tr("What does the supplier bill?"); }
    void refresh() override;
    void takeFocus() override;
    bool hasUnsaved() const override;
    bool canPrint() const override { return false; }

    /// Reads text as the lines of a statement; long ones on a thread of their own, with progress.
    void takeText(const QByteArray& bytes, const QString& from);
    bool readFile(const QString& path);
    void paste();
    void typeLines();
    /// Whether a long file is still being read.
    bool isReading() const { return work_ != nullptr; }
    void stopReading();
    /// Writes statement and lines as one edit and remembers the layout for the supplier; false when something stands in the way, which then is said.
    bool takeIn();

    StatementRows& rows() { return *rows_; }

signals:
    void takenIn(strikeoff::Id<strikeoff::Statement> statement);

private:
    struct Work {
        std::atomic<int> percent{0};
        std::atomic<bool> stop{false};
        StatementFile result;
    };
    std::optional<Id<Supplier>> supplier() const;
    void showFile(StatementFile file);
    void finishReading();
    void showState();
    void showProblems();
    Draft typedDraft() const;
    /// Goes on with the statement that was on its way in when the program broke off.
    void takeUp(const Draft& draft);
    void putAway();

    DraftPlace drafts_;
    StatementRows* rows_;
    SupplierBox* suppliers_;
    QLineEdit* number_;
    QLineEdit* date_;
    QPushButton* choose_;
    QPushButton* paste_;
    QPushButton* typing_;
    QPushButton* put_;
    QPushButton* takeIn_;
    QWidget* reading_;
    QProgressBar* bar_;
    QPushButton* stop_;
    QComboBox* dates_;
    QComboBox* decimals_;
    QLabel* from_;
    QLabel* state_;
    QLabel* problems_;
    QPushButton* nextProblem_;
    ColumnChoosers* choosers_;
    QTableView* view_;
    QLabel* empty_;
    QString source_;
    bool isTyped_ = false;  ///< the lines are typed from the paper, not taken from a file
    std::shared_ptr<Work> work_;
    QThread* thread_ = nullptr;
    QTimer* poll_;
};

}

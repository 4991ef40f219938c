#pragma once

#include "page.h"

#include "pages/ticket_desk/check_blocks.h"
#include "pages/ticket_desk/desk_checks.h"

class QComboBox;
class QLabel;
class QPushButton;

namespace strikeoff {

class CheckSheet;
class FindingPanel;
struct Step;
struct SupplierLetter;

/// The check of a statement: its figures, the two papers facing each other, the findings to step through, and what is done about them.
class CheckPage : public Page {
    Q_OBJECT
public:
    CheckPage(Desk& desk, DeskChecks& checks, QWidget* parent = nullptr);

    QString question() const override { return tr("Does this statement agree with my tickets?"); }
    QString answer() const override;
    void refresh() override;
    void takeFocus() override;
    RecordTable* table() const override { return findings_; }
    std::optional<PaperDocument> paper() const override;
    bool stepOpen(int direction) override;

    /// Shows a statement.
    void showStatement(Id<Statement> statement);
    Id<Statement> statement() const { return statement_; }
    const StatementCheck* check() const { return check_; }
    /// Chooses a finding by its place in the check.
    void choose(std::size_t finding);
    std::optional<std::size_t> current() const;
    /// The letter about what is disputed; nothing when nothing is.
    std::optional<SupplierLetter> letter() const;
    /// Writes the letter as PDF; false, having said why, when it was not written.
    bool writeLetter(const QString& path);
    void setFilter(FindingFilter filter);
    const FindingFilter& filter() const { return filter_; }

signals:
    /// Another statement is to be taken in.
    void importWanted();

private:
    void fillStatements();
    void showCheck();
    void showFindings();
    void perform(const Step& step);
    void askForLetter();

    DeskChecks& checks_;
    Id<Statement> statement_;
    const StatementCheck* check_ = nullptr;
    FindingFilter filter_;
    std::optional<std::size_t> current_;
    QComboBox* statements_;
    QPushButton* import_;
    QPushButton* approve_;
    QPushButton* reopen_;
    QPushButton* pay_;
    QPushButton* letter_;
    QPushButton* copyLetter_;
    QLabel* answer_;
    std::vector<QLabel*> figures_;
    QLabel* payWords_;
    QComboBox* filterBox_;
    CheckSheet* sheet_;
    RecordTable* findings_;
    FindingPanel* panel_;
    bool showing_ = false;
};

}

#pragma once

#include <QFrame>

#include "desk.h"

#include "ready_mix/statement_findings.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace strikeoff {

class ReferenceEdit;
struct Step;

/// What can be done about one finding: choose between tickets, pair and part by hand, let it stand with a reason, take a credit for a claim.
class FindingPanel : public QFrame {
    Q_OBJECT
public:
    explicit FindingPanel(Desk& desk, QWidget* parent = nullptr);

    /// Shows a finding of a check; nullptr shows that there is none. Both must live until the next call.
    void show(const StatementCheck* check, const LineFinding* finding);

signals:
    /// Something was done, and the next finding may be looked at.
    void done();

private:
    void perform(const Step& step);
    void pair(const Ticket& ticket);
    void showCandidates();

    Desk& desk_;
    const StatementCheck* check_ = nullptr;
    const LineFinding* finding_ = nullptr;
    Id<StatementLine> shown_;  ///< what the texts were typed for
    QLabel* head_;
    QLabel* why_;
    QWidget* candidates_;
    QVBoxLayout* candidateRows_;
    QWidget* pairing_;
    ReferenceEdit* ticket_;
    QPushButton* pair_;
    QPushButton* part_;
    QPushButton* forget_;
    QWidget* standing_;
    QLineEdit* reason_;
    QPushButton* letStand_;
    QPushButton* takeBack_;
    QWidget* crediting_;
    QComboBox* claims_;
    QPushButton* credit_;
};

}

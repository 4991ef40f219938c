#pragma once

#include "page.h"

#include "ready_mix/ticket_desk.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace strikeoff {

/// Loads that no statement bills.
class UnbilledPage : public Page {
    Q_OBJECT
public:
    explicit UnbilledPage(Desk& desk, QWidget* parent = nullptr);
    QString question() const override { return tr("Which loads are not billed yet?"); }
    void show(const std::vector<UnbilledTicket>& tickets);
    RecordTable* table() const override { return table_; }
    void takeFocus() override;

private:
    RecordTable* table_;
};

/// What each pour took over its measure, and the running over-order by job type.
class YieldPage : public Page {
    Q_OBJECT
public:
    explicit YieldPage(Desk& desk, QWidget* parent = nullptr);
    QString question() const override { return tr("How much more concrete went in than was measured?"); }
    void refresh() override;
    RecordTable* table() const override { return pours_; }
    void takeFocus() override;

private:
    std::vector<std::pair<std::int64_t, QString>> answers_;  ///< by job type
    RecordTable* pours_;
    RecordTable* types_;
    QLabel* chosen_;
};

/// What is done about a claim: let go with a reason. It stands under the list of claims.
class ClaimBar : public QWidget {
    Q_OBJECT
public:
    explicit ClaimBar(Desk& desk, QWidget* parent = nullptr);
    /// The claim in view; 0 for none.
    void show(Id<Claim> claim);

private:
    void letGo();

    Desk& desk_;
    Id<Claim> claim_;
    QLabel* words_;
    QLineEdit* reason_;
    QPushButton* letGo_;
};

}

#pragma once

#include <QWidget>

#include "billing/billing.h"
#include "desk.h"
#include "due_line.h"
#include "paper/paper_document.h"

#include <map>

class QComboBox;
class QPushButton;

namespace strikeoff {

class ChartView;
class RecordsPanel;
class RecordTable;

/// What is owed by age, the open invoices on a time line, and the list of invoices with what can be done with the chosen one.
class InvoiceList : public QWidget {
    Q_OBJECT
public:
    explicit InvoiceList(Desk& desk, QWidget* parent = nullptr);

    void refresh();
    bool open(std::int64_t invoice);
    RecordsPanel& panel() { return *panel_; }
    RecordTable* table() const;
    const Invoice* chosen() const;
    std::optional<PaperDocument> paper() const;

signals:
    void paymentWanted(const strikeoff::Invoice& invoice);
    void creditWanted(const strikeoff::Invoice& invoice);
    void accountWanted(const strikeoff::Invoice& invoice);
    void linesWanted(const strikeoff::Invoice& invoice);

private:
    enum Which { openOnes, drafts, everyOne };
    const InvoiceStanding& standing(const Invoice& invoice) const;
    bool isShown(const Invoice& invoice) const;
    void buildPanel();
    void buildVerbs();
    void showAges(const Owed& owed);
    void showLine(const Owed& owed);
    void showVerbs();
    void issue();

    Desk& desk_;
    std::vector<QPushButton*> ages_;
    QPushButton* held_;
    ChartView* line_;
    QComboBox* which_;
    RecordsPanel* panel_;
    QPushButton* issue_;
    QPushButton* pay_;
    QPushButton* credit_;
    QPushButton* account_;
    QPushButton* lines_;
    QPushButton* folder_;
    std::optional<AgingBucket> bucket_;  ///< shown only
    bool heldOnly_ = false;              ///< only those that hold retainage back
    DueLine due_;
    std::vector<std::int64_t> dueIds_;   ///< the invoice of each bar
    std::vector<QString> dueTips_;
    mutable std::map<std::int64_t, InvoiceStanding> standings_;
    mutable std::pair<std::uint64_t, Date> standingsOf_{};
};

}

#pragma once

#include "page.h"

#include "labor/hour_ladder.h"

class QLabel;
class QPushButton;

namespace strikeoff {

class ChartView;
class RecordTable;

/// What an hour truly costs: the crew's and each person's, step by step, and what must be charged to break even.
class HourCostPage : public Page {
    Q_OBJECT
public:
    explicit HourCostPage(Desk& desk, QWidget* parent = nullptr);

    QString question() const override { return tr("What does an hour cost?"); }
    QString answer() const override { return answer_; }
    void refresh() override;
    void takeFocus() override;
    RecordTable* table() const override { return table_; }

private:
    void showLadder();
    void fillTables();

    CrewRates rates_;
    QString answer_;
    RecordTable* table_;
    ChartView* chart_;
    QLabel* whose_;
    QLabel* overhead_;
    QLabel* missing_;
    QPushButton* fill_;
};

}

#pragma once

#include "page.h"
#include "review/what_pays.h"

class QComboBox;
class QLabel;
class QTabWidget;

namespace strikeoff {

class ChargeForm;
class ChartView;

/// "Which work makes money?": finished jobs by type (or source, size, season …) as an interval plot and a table, what to charge, what moved the year's profit, and
/// the jobs left out. The jobs are gathered once; another grouping or filter only counts them anew.
class WhatPaysPage : public Page {
    Q_OBJECT
public:
    explicit WhatPaysPage(Desk& desk, QWidget* parent = nullptr);
    ~WhatPaysPage() override;
    QString question() const override;
    QString answer() const override { return answer_; }
    void refresh() override;
    void takeFocus() override;
    RecordTable* table() const override;

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    QWidget* makeGroupsTab();
    QWidget* makeYearTab();
    void fillChoices();
    ReviewFilter filter() const;
    void showGroups();
    void showYear();
    void showSentence();
    void setHeights();

    QString answer_;
    FinishedJobs jobs_;
    QTabWidget* tabs_;
    QComboBox* by_;
    QComboBox* years_;
    QComboBox* types_;
    QComboBox* bridgeYears_;
    ChartView* chart_;
    QLabel* sentence_;
    QLabel* undecided_;
    RecordTable* groups_;
    ChargeForm* charge_;
    ChartView* bridge_;
    ChartView* bids_;
    ChartView* leads_;
    QLabel* bridgeAnswer_;
    RecordTable* steps_;
    RecordTable* leftOut_;
};

}

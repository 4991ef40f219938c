#pragma once

#include <QWidget>

#include "desk.h"

class QLabel;

namespace strikeoff {

class ChartView;
class RecordTable;
struct JobExplanation;

/// The last paper of a folder: bid, result and the bridge between them as a waterfall by cause, with its parts in a table; what the job left before and
/// after overhead; of an open job what it is expected to cost.
class ResultView : public QWidget {
    Q_OBJECT
public:
    explicit ResultView(Desk& desk, QWidget* parent = nullptr);

    void show(Id<Job> job);
    RecordTable* table() const { return table_; }

private:
    void showFigures(const std::vector<std::pair<QString, QString>>& figures);
    void showBridge(const JobExplanation& explained);

    Desk& desk_;
    QLabel* words_;
    QLabel* figures_;
    QLabel* pace_;
    QLabel* causes_;
    ChartView* chart_;
    RecordTable* table_;
};

}

#pragma once

#include <QWidget>

#include "desk.h"

class QLabel;

namespace strikeoff {

class RecordTable;

/// The last paper of a folder: what the job was bid, what it cost, and the difference by class.
class ResultView : public QWidget {
    Q_OBJECT
public:
    explicit ResultView(Desk& desk, QWidget* parent = nullptr);

    void show(Id<Job> job);
    RecordTable* table() const { return table_; }

private:
    Desk& desk_;
    QLabel* words_;
    RecordTable* table_;
};

}

#pragma once

#include <QWidget>

#include "desk.h"

class QLabel;

namespace strikeoff {

class RecordTable;

/// What became of one record: every edit that touched it, field by field, newest first.
class HistoryView : public QWidget {
    Q_OBJECT
public:
    explicit HistoryView(Desk& desk, QWidget* parent = nullptr);
    void show(RecordRef record);
    RecordTable& table() { return *table_; }

signals:
    void left();

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    Desk& desk_;
    RecordTable* table_;
    QLabel* title_;
};

}

#pragma once

#include <QWidget>

#include "desk.h"

class QLabel;

namespace strikeoff {

class RecordTable;

/// What a ticket should cost by the sheet in force on its day, line by line, each with the rule that made it.
class ExpectedView : public QWidget {
    Q_OBJECT
public:
    explicit ExpectedView(Desk& desk, QWidget* parent = nullptr);
    /// nullptr shows nothing.
    void show(const Ticket* ticket);
    RecordTable& table() { return *table_; }

private:
    Desk& desk_;
    QLabel* head_;
    RecordTable* table_;
};

}

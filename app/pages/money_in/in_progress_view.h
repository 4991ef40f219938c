#pragma once

#include <QWidget>

#include "desk.h"
#include "paper/paper_document.h"

class QLabel;
class QLineEdit;

namespace strikeoff {

class RecordTable;

/// The jobs in work at the end of a day by cost-to-cost: what is earned, what is billed, and which of the two is ahead.
class InProgressView : public QWidget {
    Q_OBJECT
public:
    explicit InProgressView(Desk& desk, QWidget* parent = nullptr);

    void refresh();
    RecordTable* table() const { return table_; }
    PaperDocument paper() const;
    void takeFocus();

private:
    void turnTo(Date day);

    Desk& desk_;
    std::optional<Date> day_;  ///< blank: today
    QLineEdit* field_;
    QLabel* answer_;
    RecordTable* table_;
};

}

#pragma once

#include <QWidget>

#include "desk.h"
#include "review/charge.h"

class QComboBox;
class QHBoxLayout;
class QLabel;
class QLineEdit;

namespace strikeoff {

class RecordTable;

/// "What should I charge?": type, area, thickness and month asked for, cost and chances answered from the shop's own history.
class ChargeForm : public QWidget {
    Q_OBJECT
public:
    explicit ChargeForm(Desk& desk, QWidget* parent = nullptr);
    /// Takes in what the finished jobs say now. They must outlive the form's use of them.
    void setJobs(const FinishedJobs& jobs, CostReckoner& reckoner);
    RecordTable* table() const { return parts_; }

private:
    void reckon();
    QLineEdit* field(const char* name, const QString& label, const QString& hint, class QHBoxLayout& row);

    Desk& desk_;
    const FinishedJobs* jobs_ = nullptr;
    ChargePrices prices_;
    QComboBox* type_;
    QComboBox* month_;
    QLineEdit* area_;
    QLineEdit* thickness_;
    QLineEdit* perHour_;
    QLineEdit* price_;
    QLabel* answer_;
    QLabel* winning_;
    RecordTable* parts_;
};

}

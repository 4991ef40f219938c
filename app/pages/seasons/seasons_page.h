#pragma once

#include "page.h"

namespace strikeoff {

class ChartView;

/// "How do the seasons move price and pace?": the price of a delivered yard above, the crew's pace below, on the same months, and the months as a table.
class SeasonsPage : public Page {
    Q_OBJECT
public:
    explicit SeasonsPage(Desk& desk, QWidget* parent = nullptr);
    QString question() const override;
    QString answer() const override { return answer_; }
    void refresh() override;
    void takeFocus() override;
    RecordTable* table() const override { return months_; }

private:
    QString answer_;
    ChartView* chart_;
    RecordTable* months_;
};

}

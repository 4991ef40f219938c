#pragma once

#include "page.h"

namespace strikeoff {

class ChartView;

/// "Which work makes money?": what the finished jobs of each type brought in, drawn per crew-hour and as a table, and the jobs left out.
class WhatPaysPage : public Page {
    Q_OBJECT
public:
    explicit WhatPaysPage(Desk& desk, QWidget* parent = nullptr);
    QString question() const override;
    QString answer() const override { return answer_; }
    void refresh() override;
    void takeFocus() override;
    RecordTable* table() const override { return types_; }

private:
    QString answer_;
    ChartView* chart_;
    RecordTable* types_;
    RecordTable* leftOut_;
};

}

#pragma once

#include "records/records_page.h"

class QLabel;

namespace strikeoff {

class ChartView;
class ExpectedView;
class TicketStackPage;

/// "Does the supplier's bill agree with my tickets?": twelve months on top; tickets with their entry form and what the sheet says each should cost;
/// statements, their lines, and claims.
class TicketDeskPage : public RecordsPage {
    Q_OBJECT
public:
    explicit TicketDeskPage(Desk& desk, QWidget* parent = nullptr);
    QString answer() const override { return answer_; }
    void refresh() override;
    int waiting() const override;

private:
    void showMonths();
    void showExpected();
    void showWarnings();

    QString answer_;
    ChartView* months_ = nullptr;
    QWidget* aside_ = nullptr;
    QLabel* warnings_ = nullptr;
    ExpectedView* expected_ = nullptr;
    TicketStackPage* stack_ = nullptr;
};

}

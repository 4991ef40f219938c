#pragma once

#include "records/records_page.h"

#include "pages/ticket_desk/desk_checks.h"

class QLabel;

namespace strikeoff {

class ChartView;
class CheckPage;
class ClaimBar;
class ExpectedView;
class ImportPage;
class TicketStackPage;
class UnbilledPage;
class YieldPage;

/// "Does the supplier's bill agree with my tickets?": twelve months on top; the check of a statement, taking one in, a stack of tickets, the records themselves,
/// what is not billed, claims, and what pours took over their measure.
class TicketDeskPage : public RecordsPage {
    Q_OBJECT
public:
    explicit TicketDeskPage(Desk& desk, QWidget* parent = nullptr);
    QString answer() const override { return answer_; }
    void refresh() override;
    int waiting() const override;
    bool openRecord(RecordKind kind, std::int64_t id) override;
    void newRecord() override;

    CheckPage& check() { return *check_; }
    ImportPage& import() { return *import_; }
    TicketStackPage& stack() { return *stack_; }

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void showDesk();
    void placeMonths();
    void showExpected();
    void showWarnings();

    QString answer_;
    DeskChecks checks_;
    bool anyLoads_ = false;
    ChartView* months_ = nullptr;
    CheckPage* check_ = nullptr;
    ImportPage* import_ = nullptr;
    TicketStackPage* stack_ = nullptr;
    UnbilledPage* unbilled_ = nullptr;
    YieldPage* yield_ = nullptr;
    ClaimBar* claimBar_ = nullptr;
    QWidget* aside_ = nullptr;
    QLabel* warnings_ = nullptr;
    ExpectedView* expected_ = nullptr;
};

}

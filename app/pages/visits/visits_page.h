#pragma once

#include "records/records_page.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace strikeoff {

class ChartView;
class PlanPage;
class VisitStrip;

/// "Who do I go back to, and when?": fourteen days with their weather and every open visit's window as a bar across them; the visits with their form;
/// the forecast.
class VisitsPage : public RecordsPage {
    Q_OBJECT
public:
    explicit VisitsPage(Desk& desk, QWidget* parent = nullptr);
    QString answer() const override { return answer_; }
    void refresh() override;
    int waiting() const override;

private:
    void showVerbs();
    void planFor();
    const Visit* chosen() const;
    void commitVisit(Visit visit, const QString& title);
    void showMissing();

    QString answer_;
    PlanPage* planPage_;
    Page* forecastPage_;
    ChartView* strip_;
    QWidget* missing_;
    QLabel* missingWords_;
    QPushButton* addMissing_;
    VisitStrip* asking_;
    QPushButton* done_;
    QPushButton* putOff_;
    QPushButton* plan_;
    QLineEdit* day_;
    QPushButton* waive_;
};

}

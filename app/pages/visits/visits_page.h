#pragma once

#include "records/records_page.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace strikeoff {

class PlanPage;
class VisitStrip;

/// "Who do I go back to, and when?": the plan of fourteen days; every visit with its form; the forecast.
class VisitsPage : public RecordsPage {
    Q_OBJECT
public:
    explicit VisitsPage(Desk& desk, QWidget* parent = nullptr);
    QString answer() const override;
    void refresh() override;
    int waiting() const override;

private:
    void showVerbs();
    void planFor();
    const Visit* chosen() const;
    void commitVisit(Visit visit, const QString& title);
    void showMissing();

    QString listAnswer_;
    PlanPage* planPage_;
    QWidget* verbLine_;
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

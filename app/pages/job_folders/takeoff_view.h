#pragma once

#include <QWidget>

#include "desk.h"
#include "paper/plan_view.h"

class QLabel;

namespace strikeoff {

class RecordsPanel;

/// A job's takeoff: its sections and, under them, the plan drawn to scale with what it comes to. Both follow what is typed before it is saved.
class TakeoffView : public QWidget {
    Q_OBJECT
public:
    explicit TakeoffView(Desk& desk, QWidget* parent = nullptr);

    void setJob(Id<Job> job);
    void refresh();
    RecordsPanel* panel() const { return panel_; }
    PlanView& plan() { return *plan_; }

private:
    void showReadings();
    void draw();

    struct Figure {
        QWidget* box;
        QLabel* label;
        QLabel* figure;
    };
    Desk& desk_;
    Id<Job> job_;
    RecordsPanel* panel_;
    PlanView* plan_;
    std::vector<Figure> figures_;
    QLabel* section_;
    QLabel* remarks_;
    std::vector<Id<TakeoffSection>> drawn_;  ///< by the place of their shape
};

}

#pragma once

#include "page.h"

#include "pages/visits/plan_pictures.h"

class QLabel;
class QPushButton;

namespace strikeoff {

class ChartView;
class RecordTable;
class StripView;

/// The plan of the open visits: days across with weather, gates and crew, a bar a visit with its stop; the chosen visit with why; the chosen day's
/// route and stops. What is dragged to another day is pinned there, and the rest is planned anew around it.
class PlanPage : public Page {
    Q_OBJECT
public:
    explicit PlanPage(Desk& desk, QWidget* parent = nullptr);

    QString question() const override { return tr("Who do I go back to, and when?"); }
    QString answer() const override { return answer_; }
    void refresh() override;
    void takeFocus() override;
    RecordTable* table() const override { return stops_; }
    bool openRecord(RecordKind kind, std::int64_t id) override;

    const VisitPlan& plan() const { return plan_; }
    /// The visit chosen on the strip or in the stops; nullptr when there is none.
    const Visit* chosen() const;
    /// Pins a visit to a day, or takes its pin out.
    void pin(const Visit& visit, std::optional<Date> day);

signals:
    void chosenChanged();

private:
    static constexpr int days = 14;
    void chooseVisit(std::optional<Id<Visit>> visit, bool goToDay);
    void chooseDay(int day);
    void showChosen();
    void showDay();
    void write();
    std::optional<std::size_t> rowOf(std::optional<Id<Visit>> visit) const;

    VisitPlan plan_;
    PlanStrip pictured_;
    QString answer_;
    std::optional<Id<Visit>> chosen_;
    int day_ = 0;
    StripView* strip_;
    ChartView* map_;
    RecordTable* stops_;
    QLabel* name_;
    QLabel* when_;
    QLabel* why_;
    QLabel* load_;
    QLabel* blocked_;
    QLabel* dayName_;
    QLabel* missing_;
    QPushButton* write_;
    QPushButton* unpin_;
};

}

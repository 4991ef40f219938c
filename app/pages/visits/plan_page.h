#pragma once

#include "page.h"

#include "pages/visits/plan_pictures.h"
#include "visits/run_sheet.h"

class QLabel;
class QPushButton;
class QTabWidget;
class QTimer;

namespace strikeoff {

class ChartView;
class RecordTable;
class StripView;

/// The plan of the open visits: days across with weather, gates and crew, a bar a visit with its stop; the chosen visit with why; the chosen day's
/// route and stops. What is dragged to another day is pinned there, and the rest is planned anew around it: at once as well as can quickly be found,
/// and a moment later with the proof.
class PlanPage : public Page {
    Q_OBJECT
public:
    explicit PlanPage(Desk& desk, QWidget* parent = nullptr);

    QString question() const override { return tr("Who do I go back to, and when?"); }
    QString answer() const override { return answer_; }
    void refresh() override;
    void takeFocus() override;
    RecordTable* table() const override;
    bool openRecord(RecordKind kind, std::int64_t id) override;

    const VisitPlan& plan() const { return plan_; }
    /// The visit chosen on the strip or in the stops; nullptr when there is none.
    const Visit* chosen() const;
    /// Pins a visit to a day, or takes its pin out.
    void pin(const Visit& visit, std::optional<Date> day);

    std::optional<PaperDocument> paper() const override;

signals:
    void chosenChanged();
    /// The weather of some days is not known and is to be typed.
    void forecastWanted();

private:
    static constexpr int days = 14;
    void take(VisitPlan plan);
    void chooseVisit(std::optional<Id<Visit>> visit, bool goToDay);
    void chooseDay(int day);
    void showChosen();
    void showDay();
    void showAll();
    void showForecast();
    void showShortages();
    RunSheet daySheet() const;
    void showRunSheet();
    void write();
    std::optional<std::size_t> rowOf(std::optional<Id<Visit>> visit) const;

    VisitPlan plan_;
    PlanStrip pictured_;
    QString answer_;
    std::optional<Id<Visit>> chosen_;
    int day_ = 0;
    StripView* strip_;
    ChartView* map_;
    QTabWidget* lists_;
    RecordTable* stops_;
    RecordTable* all_;
    QWidget* unknown_;
    QLabel* unknownWords_;
    QPushButton* runSheet_;
    bool showing_ = false;  ///< rows are being put in, and what becomes current was not chosen
    QLabel* name_;
    QLabel* when_;
    QLabel* why_;
    QLabel* load_;
    QLabel* blocked_;
    QLabel* dayName_;
    QLabel* short_;
    QLabel* missing_;
    QPushButton* write_;
    QPushButton* unpin_;
    QTimer* prove_;  ///< from the quick plan to the proven one
    QPushButton* remind_;
};

}

#include "pages/visits/visits_page.h"

#include "form/record_form.h"
#include "form/visit_strip.h"
#include "labels.h"
#include "pages/visits/forecast_model.h"
#include "pages/visits/forecast_sheet.h"
#include "pages/visits/plan_page.h"
#include "records/visit_columns.h"
#include "table/record_table.h"
#include "visits/visit_list.h"

#include <QBoxLayout>
#include <QLineEdit>
#include <QPushButton>

namespace strikeoff {

namespace {

std::vector<PanelSetup> tabs(const Desk& desk)
{
    std::vector<PanelSetup> tabs;
    tabs.push_back({.kind = RecordKind::visit,
                    .columns = visitColumns(desk, false),
                    .emptyText = VisitsPage::tr("No return visits yet. A pour that is marked as done puts those it needs here by itself; press New for one of your own: the job and what is to be done.")});
    tabs.push_back({.kind = RecordKind::forecast,
                    .columns = {{.field = "date"}, {.field = "low_f"}, {.field = "high_f"}, {.field = "rain_chance_pct"}, {.field = "rain_from"}, {.field = "rain_to"}, {.field = "wind_mph"}, {.field = "humidity_pct"}},
                    .layout = {{{{}, {{"date"}, {"low_f", "high_f"}, {"rain_chance_pct"}, {"rain_from", "rain_to"}, {"wind_mph", "humidity_pct"}}}}, {}},
                    .emptyText = VisitsPage::tr("No forecast yet. Press New and type the coming days; Ctrl+Enter goes on to the next."), .sortBy = "date", .order = Qt::DescendingOrder});
    tabs.push_back({.kind = RecordKind::townDrive,
                    .emptyText = VisitsPage::tr("No drives typed. They are needed only where a site has no coordinates: press New, the two towns and the minutes."), .sortBy = "from_town"});
    return tabs;
}

}

namespace {

/// The grid of two weeks as a tab.
class ForecastPage final : public Page {
public:
    explicit ForecastPage(Desk& desk) : Page{desk}, sheet_{new ForecastSheet{desk, this}}
    {
        auto* all = new QVBoxLayout{this};
        all->setContentsMargins(0, grid(2), 0, 0);
        all->addWidget(sheet_);
        sheet_->setAnswerShown(false);
        connect(&sheet_->model(), &ForecastModel::wordsChanged, this, &Page::answerChanged);
    }
    QString question() const override { return VisitsPage::tr("What weather comes?"); }
    QString answer() const override { return sheet_->answer(); }
    ForecastSheet& sheet() { return *sheet_; }
    void refresh() override { sheet_->refresh(); }
    void takeFocus() override { sheet_->takeFocus(); }
    bool hasUnsaved() const override { return sheet_->hasUnsaved(); }

private:
    ForecastSheet* sheet_;
};

}

VisitsPage::VisitsPage(Desk& desk, QWidget* parent) : RecordsPage{desk, tr("Who do I go back to, and when?"), tabs(desk), parent}
{
    planPage_ = new PlanPage{desk, this};
    addTab(tr("Plan"), planPage_, 0);
    auto* forecast = new ForecastPage{desk};
    addTab(tr("Type the forecast"), forecast, 2);
    // From the weather straight to what it makes of the plan.
    connect(planPage_, &PlanPage::forecastWanted, this, [this, forecast] {
        showTab(forecast);
        forecast->takeFocus();
    });
    connect(&forecast->sheet(), &ForecastSheet::left, this, [this] {
        showTab(planPage_);
        planPage_->takeFocus();
    });
    beginWith(planPage_);  // who, and when, before all the records there are
    auto* column = static_cast<QBoxLayout*>(layout());
    column->setSpacing(grid(2));
    missing_ = new QWidget{this};
    auto* needed = new QHBoxLayout{missing_};
    needed->setContentsMargins(0, 0, 0, 0);
    needed->setSpacing(grid(2));
    missingWords_ = makeLabel({}, TextSize::body, Tone::attention, missing_);
    missingWords_->setObjectName(QStringLiteral("visitsMissing"));
    addMissing_ = makeButton("addMissingVisits", tr("Put them on the list"), nullptr, missing_);
    addMissing_->setToolTip(tr("Without days: their windows follow from the pour. Ctrl+Z takes them off again."));
    needed->addWidget(missingWords_, 1);
    needed->addWidget(addMissing_);
    column->insertWidget(0, missing_);
    connect(addMissing_, &QPushButton::clicked, this, [this] {
        if (const auto edit = addMissingVisits(this->desk().book())) this->desk().commitOrSay(*edit);
    });

    panel(RecordKind::visit)->table()->sortBy(0);  // the most pressing on top
    new WindowHints{desk, panel(RecordKind::visit)->form()};

    asking_ = new VisitStrip{desk, this};
    done_ = makeButton("visitDone", tr("&Done\u2026"), "main", this);
    putOff_ = makeButton("visitLater", tr("Not today\u2026"), nullptr, this);
    plan_ = makeButton("visitPlan", tr("Plan for"), nullptr, this);
    day_ = new QLineEdit{this};
    day_->setObjectName(QStringLiteral("visitDay"));
    day_->setPlaceholderText(tr("tomorrow, fri, 6/12"));
    day_->setAccessibleName(tr("Day to plan the visit for"));
    waive_ = makeButton("visitOut", tr("Leave out\u2026"), nullptr, this);
    verbLine_ = new QWidget{this};
    auto* verbs = new QHBoxLayout{verbLine_};
    verbs->setContentsMargins(0, 0, 0, 0);
    verbs->setSpacing(grid(2));
    verbs->addWidget(makeLabel(tr("Chosen visit:"), TextSize::body, Tone::quiet, this));
    verbs->addWidget(done_);
    verbs->addWidget(putOff_);
    verbs->addWidget(waive_);
    verbs->addSpacing(grid(2));
    verbs->addWidget(plan_);
    verbs->addWidget(day_);
    verbs->addStretch(1);
    column->insertWidget(1, verbLine_);
    column->insertWidget(2, asking_);
    const auto onClick = [this](QPushButton* button, auto ask) {
        connect(button, &QPushButton::clicked, this, [this, ask] {
            if (const auto* visit = chosen()) ask(*visit, this->desk().today());
        });
    };
    onClick(done_, [this](const Visit& visit, Date today) { asking_->ask(visit, today); });
    onClick(putOff_, [this](const Visit& visit, Date today) { asking_->askPutOff(visit, today); });
    onClick(waive_, [this](const Visit& visit, Date today) { asking_->askWaive(visit, today); });
    connect(plan_, &QPushButton::clicked, this, &VisitsPage::planFor);
    connect(day_, &QLineEdit::returnPressed, this, &VisitsPage::planFor);
    connect(&panel(RecordKind::visit)->form(), &RecordForm::dirtyChanged, this, &VisitsPage::showVerbs);
    connect(planPage_, &PlanPage::chosenChanged, this, &VisitsPage::showVerbs);
    column->addWidget(makeLabel(tr("Wet concrete burns skin and eyes; cutting dry makes silica dust: cut wet, or with dust collection and a respirator. Product labels go over any date here."),
                                TextSize::small, Tone::quiet, this));
}

const Visit* VisitsPage::chosen() const
{
    if (isShown(planPage_)) return planPage_->chosen();
    const auto record = panel(RecordKind::visit)->form().record();
    return record.kind == RecordKind::visit ? desk().book().find(Id<Visit>{record.id}) : nullptr;
}

void VisitsPage::showVerbs()
{
    const auto* visit = chosen();
    const bool possible = visit && visit->isOpen() && !desk().store().isReadOnly();
    for (auto* widget : std::initializer_list<QWidget*>{done_, putOff_, waive_, plan_, day_}) widget->setEnabled(possible);
}

QString VisitsPage::answer() const
{
    if (isShown(planPage_)) return planPage_->answer();
    return table() == panel(RecordKind::visit)->table() ? listAnswer_ : RecordsPage::answer();
}

int VisitsPage::waiting() const
{
    int waiting = 0;
    const VisitWindows windows{desk().book()};
    for (const auto& visit : desk().book().all<Visit>())
        if (visit.isOpen() && windows.stateOn(visit, desk().today()) <= VisitState::due) ++waiting;
    return waiting;
}

void VisitsPage::refresh()
{
    listAnswer_ = qs(visitList(desk().book(), desk().today()).answer);
    showMissing();
    verbLine_->setVisible(isShown(planPage_) || table() == panel(RecordKind::visit)->table());
    RecordsPage::refresh();
    showVerbs();
}

void VisitsPage::showMissing()
{
    const auto words = missingText(missingVisits(desk().book()));
    missingWords_->setText(qs(words));
    missing_->setVisible(!words.empty());
    addMissing_->setEnabled(!desk().store().isReadOnly());
}

void VisitsPage::commitVisit(Visit visit, const QString& title)
{
    Edit edit{utf8(title)};
    edit.change(visit);
    desk().commitOrSay(edit);
}

void VisitsPage::planFor()
{
    const auto* visit = chosen();
    if (!visit || !visit->isOpen()) return desk().say(tr("Choose an open visit first."), Tone::attention);
    const auto day = Date::read(utf8(day_->text()), desk().today());
    if (!day) {
        day_->setFocus();
        return desk().say(tr("Write the day like tomorrow, fri, 6/12 or 2026-06-12, then press Enter."), Tone::attention);
    }
    day_->clear();
    if (isShown(planPage_)) return planPage_->pin(*visit, *day);
    auto changed = *visit;
    changed.plannedOn = *day;
    commitVisit(changed, tr("Plan visit for %1").arg(qs(day->shown())));
}

}

#include "pages/visits/plan_page.h"

#include "pages/visits/strip_view.h"
#include "day/sections.h"
#include "paper/paper_print.h"
#include "paper/papers.h"
#include "quantity/words.h"
#include "records/visit_columns.h"
#include "table/record_table.h"
#include "visits/forecast_entry.h"
#include "visits/load_out.h"
#include "visits/visit_words.h"

#include <QBoxLayout>
#include <QFrame>
#include <QPushButton>
#include <QScrollArea>
#include <QTabBar>
#include <QTabWidget>
#include <QTableView>
#include <QTimer>

#include <algorithm>

namespace strikeoff {

namespace {

std::vector<Column> stopColumns()
{
    std::vector<Column> made;
    made.push_back({.heading = PlanPage::tr("Stop"), .align = Align::right, .width = 5});
    made.push_back({.heading = PlanPage::tr("From"), .align = Align::right, .width = 7});
    made.push_back({.heading = PlanPage::tr("To"), .align = Align::right, .width = 7});
    made.push_back({.heading = PlanPage::tr("Drive"), .align = Align::right, .width = 6, .tip = PlanPage::tr("Minutes from the stop before, or from where the run starts")});
    made.push_back({.heading = PlanPage::tr("Visit"), .width = 11});
    made.push_back({.heading = PlanPage::tr("Place"), .width = 14, .stretches = true});
    return made;
}

std::vector<Column> visitColumns()
{
    std::vector<Column> made;
    made.push_back({.heading = PlanPage::tr("State"), .width = 8});
    made.push_back({.heading = PlanPage::tr("Visit"), .width = 11});
    made.push_back({.heading = PlanPage::tr("Place"), .width = 14, .stretches = true});
    made.push_back({.heading = PlanPage::tr("Due"), .width = 10});
    made.push_back({.heading = PlanPage::tr("In the plan"), .width = 17});
    return made;
}

/// A day as it stands in a narrow column: "Wed Nov 25".
Cell dayCell(const std::optional<Date>& day, const QString& more = {})
{
    auto cell = dateCell(day);
    if (day) cell.text = qs(day->shownShort()) + more;
    return cell;
}

QString clockOr(const std::optional<ClockTime>& time) { return time ? qs(time->shown()) : QStringLiteral("\u2013"); }

/// Minutes of a way; one that nobody recorded is marked.
Cell driveCell(const Drive& drive)
{
    auto cell = numberCell(drive.minutes);
    if (drive.source != DriveSource::missing) return cell;
    cell.text += u'?';
    cell.tone = Tone::attention;
    cell.tip = PlanPage::tr("This way is not recorded, so the minutes are a guess. Record the site\u2019s coordinates, or the minutes between the towns.");
    return cell;
}

QFrame* sheet(QWidget* parent)
{
    auto* frame = new QFrame{parent};
    setRole(*frame, "sheet");
    return frame;
}

}

PlanPage::PlanPage(Desk& desk, QWidget* parent) : Page{desk, parent}, plan_{desk.today(), {}, {}, {}, {}, false, {{}, {}, {}}, {}, {}, {}, {}}
{
    auto* rows = new QVBoxLayout{this};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(grid(2));

    auto* upper = new QHBoxLayout;
    upper->setSpacing(grid(2));
    strip_ = new StripView{tr("Fourteen days"), this};
    auto* scroll = new QScrollArea{this};
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidget(strip_);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    upper->addWidget(scroll, 1);

    auto* side = sheet(this);
    side->setFixedWidth(grid(70));
    auto* told = new QVBoxLayout{side};
    told->setContentsMargins(grid(3), grid(3), grid(3), grid(3));
    told->setSpacing(grid(2));
    name_ = makeLabel({}, TextSize::body, Tone::plain, side);
    when_ = makeLabel({}, TextSize::body, Tone::accent, side);
    why_ = makeLabel({}, TextSize::body, Tone::plain, side);
    load_ = makeLabel({}, TextSize::small, Tone::plain, side);
    blocked_ = makeLabel({}, TextSize::small, Tone::quiet, side);
    for (auto* label : {name_, when_, why_, load_, blocked_}) told->addWidget(label);
    told->addStretch(1);
    prove_ = new QTimer{this};
    prove_->setSingleShot(true);
    prove_->setInterval(50);  // the quick plan is drawn first
    unpin_ = makeButton("visitUnpin", tr("Let the plan choose"), nullptr, side);
    told->addWidget(unpin_);
    remind_ = makeButton("planReminder", tr("Copy reminder"), nullptr, side);
    remind_->setToolTip(tr("A message for the customer with day and time, ready to paste"));
    told->addWidget(remind_);
    upper->addWidget(side);
    rows->addLayout(upper, 3);

    auto* between = new QHBoxLayout;
    dayName_ = makeLabel({}, TextSize::body, Tone::plain, this);
    write_ = makeButton("writePlan", tr("Write this plan"), "main", this);
    write_->setToolTip(tr("Puts these days and times on the visits, for day sheet, run sheet and calendar"));
    runSheet_ = makeButton("planRunSheet", tr("Run sheet\u2026"), nullptr, this);
    runSheet_->setToolTip(tr("Where to be on this day, with what, and why not a day later; for the helper"));
    connect(runSheet_, &QPushButton::clicked, this, &PlanPage::showRunSheet, Qt::QueuedConnection);
    between->addWidget(dayName_, 1);
    between->addWidget(runSheet_);
    between->addWidget(write_);
    rows->addLayout(between);

    auto* lower = new QHBoxLayout;
    lower->setSpacing(grid(2));
    map_ = new ChartView{tr("The day\u2019s route"), this};
    lower->addWidget(map_, 1);
    lists_ = new QTabWidget{this};
    lists_->setDocumentMode(true);
    lists_->tabBar()->setDrawBase(false);
    stops_ = new RecordTable{tr("Stops of the day"), stopColumns(), desk, this};
    stops_->setFilterVisible(false);
    stops_->setEmptyText(tr("No stops on this day. Choose a day with a mark above."));
    all_ = new RecordTable{tr("Visits of the plan"), visitColumns(), desk, this};
    all_->setEmptyText(tr("No visit is open."));
    lists_->addTab(stops_, tr("Stops of the day"));
    lists_->addTab(all_, tr("All visits"));
    lower->addWidget(lists_, 2);
    rows->addLayout(lower, 2);
    unknown_ = new QWidget{this};
    auto* unknown = new QHBoxLayout{unknown_};
    unknown->setContentsMargins(0, 0, 0, 0);
    unknownWords_ = makeLabel({}, TextSize::small, Tone::attention, unknown_);
    auto* type = makeButton("typeForecast", tr("Type the forecast"), nullptr, unknown_);
    unknown->addWidget(unknownWords_, 1);
    unknown->addWidget(type);
    rows->addWidget(unknown_);
    connect(type, &QPushButton::clicked, this, &PlanPage::forecastWanted, Qt::QueuedConnection);
    short_ = makeLabel({}, TextSize::small, Tone::attention, this);
    short_->setObjectName(QStringLiteral("planShort"));
    rows->addWidget(short_);
    missing_ = makeLabel({}, TextSize::small, Tone::attention, this);
    rows->addWidget(missing_);

    connect(strip_, &StripView::rowChosen, this, [this](std::size_t row) { chooseVisit(plan_.rows[pictured_.rows[row]].visit->id, true); });
    connect(strip_, &StripView::dayChosen, this, &PlanPage::chooseDay);
    connect(strip_, &StripView::movedTo, this, [this](std::size_t row, int day) {
        const auto visit = *plan_.rows[pictured_.rows[row]].visit;
        chooseVisit(visit.id, false);
        day_ = day;
        pin(visit, plan_.from + day);
    });
    for (auto* table : {stops_, all_}) {
        connect(table, &RecordTable::currentChanged, this, [this, table](const RecordRef& record) {
            if (!showing_ && record.kind == RecordKind::visit && chosen_ != Id<Visit>{record.id}) chooseVisit(Id<Visit>{record.id}, table == all_);
        });
        connect(table, &RecordTable::opened, this, [this](const RecordRef& record) {
            if (const auto* visit = record.kind == RecordKind::visit ? this->desk().book().find(Id<Visit>{record.id}) : nullptr) this->desk().open(visit->job);
        });
    }
    connect(write_, &QPushButton::clicked, this, &PlanPage::write);
    connect(prove_, &QTimer::timeout, this, [this] { take(planVisits(this->desk().book(), this->desk().today(), days)); });
    connect(remind_, &QPushButton::clicked, this, [this] {
        const auto row = rowOf(chosen_);
        if (!row || !plan_.rows[*row].on) return;
        const auto& planned = plan_.rows[*row];
        this->desk().copyText(qs(customerReminder(this->desk().book(), *planned.visit, *planned.on, planned.at)));
        this->desk().say(tr("Copied: the reminder for the customer, ready to paste."), Tone::well);
    });
    connect(unpin_, &QPushButton::clicked, this, [this] {
        if (const auto* visit = chosen()) pin(*visit, std::nullopt);
    });
}

void PlanPage::refresh()
{
    take(planVisits(desk().book(), desk().today(), days, SearchEffort::quick(), &plan_));
    if (plan_.proven) prove_->stop();
    else prove_->start();
}

void PlanPage::take(VisitPlan plan)
{
    plan_ = std::move(plan);
    answer_ = qs(plan_.answer);
    pictured_ = stripOf(plan_);
    strip_->setStrip(pictured_.strip, answer_);
    if (!rowOf(chosen_)) chosen_ = pictured_.rows.empty() ? std::nullopt : std::optional{plan_.rows[pictured_.rows[0]].visit->id};
    showShortages();
    missing_->setText(plan_.drives.missing().empty() ? QString{} : qs(plan_.drives.missing().front()) + (plan_.drives.missing().size() > 1
        ? u' ' + tr("So it is with %1 more.").arg(plan_.drives.missing().size() - 1) : QString{}));
    missing_->setVisible(!plan_.drives.missing().empty());
    // The first day that has a run, unless the owner looks at another that has.
    const auto hasRun = [&](int day) { return static_cast<std::size_t>(day) < plan_.days.size() && !plan_.days[static_cast<std::size_t>(day)].runs.empty(); };
    if (!hasRun(day_))
        for (int day = 0; day < days; ++day)
            if (hasRun(day)) {
                day_ = day;
                break;
            }
    write_->setEnabled(!desk().store().isReadOnly() && writePlan(plan_).has_value());
    showAll();
    showDay();
    showChosen();
    showForecast();
    emit answerChanged();
}

RecordTable* PlanPage::table() const { return lists_->currentWidget() == all_ ? all_ : stops_; }

/// The list beside the strip: sorted and narrowed as any.
void PlanPage::showAll()
{
    std::vector<TableRow> rows;
    for (const auto& row : plan_.rows) {
        const auto at = row.on && row.at ? QStringLiteral(", ") + qs(row.at->shown()) : QString{};
        rows.push_back({RecordRef{RecordKind::visit, row.visit->id.value()},
                        {stateCell(row.state), kindCell(*row.visit), textCell(qs(row.place)), dayCell(row.window.due ? std::optional{row.window.due->date()} : std::nullopt), dayCell(row.on, at)},
                        row.job ? qs(row.job->number) : QString{}, false});
    }
    showing_ = true;
    all_->setRows(std::move(rows));
    showing_ = false;
}

/// What runs out before the plan needs it, while there is time to buy.
void PlanPage::showShortages()
{
    QStringList words;
    for (const auto& shortage : shortagesOf(desk().book(), plan_)) words += qs(shortage.text) + u'.';
    short_->setText(words.join(u' '));
    short_->setVisible(!words.isEmpty());
}

void PlanPage::showForecast()
{
    std::vector<ForecastReading> weather;
    for (const auto& row : forecastRows(desk().book(), plan_.from)) weather.push_back(readForecast(row, plan_.from));
    const bool known = std::ranges::none_of(weather, [](const auto& day) { return day.blank; });
    unknownWords_->setText(qs(forecastAnswer(weather, plan_.from)) + u' ' + tr("What hangs on the weather is not planned on such a day."));
    unknown_->setVisible(!known);
}

RunSheet PlanPage::daySheet() const
{
    std::vector<PlannedVisit> visits;
    const auto date = plan_.from + day_;
    for (const auto& row : plan_.rows)
        if (row.on == date && !row.isCall) visits.push_back({row.visit, date, row.at, row.minutes});
    return runSheet(desk().book(), date, visits);
}

std::optional<PaperDocument> PlanPage::paper() const { return runSheetPaper(desk().book().settings(), daySheet()); }

void PlanPage::showRunSheet() { showPrintPreview(this, runSheetPaper(desk().book().settings(), daySheet())); }

void PlanPage::takeFocus() { strip_->setFocus(); }

bool PlanPage::openRecord(RecordKind kind, std::int64_t id)
{
    if (kind != RecordKind::visit || !rowOf(Id<Visit>{id})) return false;
    chooseVisit(Id<Visit>{id}, true);
    return true;
}

std::optional<std::size_t> PlanPage::rowOf(std::optional<Id<Visit>> visit) const
{
    if (!visit) return {};
    const auto found = std::ranges::find_if(plan_.rows, [&](const PlanRow& row) { return row.visit->id == *visit; });
    return found == plan_.rows.end() ? std::nullopt : std::optional{static_cast<std::size_t>(found - plan_.rows.begin())};
}

const Visit* PlanPage::chosen() const { return chosen_ ? desk().book().find(*chosen_) : nullptr; }

void PlanPage::chooseVisit(std::optional<Id<Visit>> visit, bool goToDay)
{
    chosen_ = visit;
    if (const auto row = rowOf(visit); row && goToDay && plan_.rows[*row].on) day_ = *plan_.rows[*row].on - plan_.from;
    showDay();
    showChosen();
}

void PlanPage::chooseDay(int day)
{
    day_ = day;
    showDay();
    showChosen();
}

void PlanPage::showChosen()
{
    const auto index = rowOf(chosen_);
    std::optional<std::size_t> stripRow;
    if (index)
        if (const auto found = std::ranges::find(pictured_.rows, *index); found != pictured_.rows.end()) stripRow = static_cast<std::size_t>(found - pictured_.rows.begin());
    strip_->choose(stripRow, day_);
    const auto* row = index ? &plan_.rows[*index] : nullptr;
    name_->setText(row ? rowName(*row) + (row->job ? QStringLiteral(" (%1)").arg(qs(row->job->number)) : QString{}) : desk().book().all<Visit>().size() == 0 ? tr("No return visits yet. A pour that is marked as done puts those it needs here by itself; on the tab Return visits, New begins one of your own.") : tr("No visit is open."));
    unpin_->setVisible(row && row->visit->pinned);
    remind_->setVisible(row && row->on && !row->isCall);
    unpin_->setEnabled(!desk().store().isReadOnly());
    for (auto* label : {when_, why_, load_, blocked_}) label->setVisible(row);
    if (row) {
        if (!row->on) when_->setText(tr("No day found"));
        else if (!row->at) when_->setText(qs(row->on->shownShort()));
        else when_->setText(tr("%1, %2 to %3").arg(qs(row->on->shownShort()), qs(row->at->shown()), clockOr(row->until)));
        setTone(*when_, !row->on || row->tooLate || row->outsideHours ? Tone::wrong : row->lateDays > 0 ? Tone::attention : Tone::accent);
        QStringList why;
        if (!row->why.empty()) why += qs(capitalized(row->why)) + u'.';
        if (!row->window.why.empty()) {
            auto reason = qs(capitalized(row->window.why));
            if (!reason.endsWith(u'.')) reason += u'.';
            why += reason;
        }
        why_->setText(why.join(u' '));
        const auto brief = loadOut(desk().book(), *row->visit).brief();
        load_->setText(brief.empty() ? QString{} : tr("Load: %1.").arg(qs(brief)));
        load_->setVisible(!brief.empty());
        // Why not the days before, and why not the day the owner looks at.
        QStringList not_on;
        for (const auto& blocked : row->blocked) {
            if (row->on && blocked.date > *row->on && blocked.date != plan_.from + day_) continue;
            if (not_on.size() >= 4) break;
            not_on += tr("Not %1: %2.").arg(qs(dayText(blocked.date, plan_.from)), qs(blocked.why));
        }
        blocked_->setText(not_on.join(u'\n'));
        blocked_->setVisible(!not_on.isEmpty());
    }
    emit chosenChanged();
}

void PlanPage::showDay()
{
    std::vector<TableRow> rows;
    if (static_cast<std::size_t>(day_) < plan_.days.size()) {
        const auto& day = plan_.days[static_cast<std::size_t>(day_)];
        int stops = 0;
        for (const auto& run : day.runs) {
            auto place = run.startPlace;
            for (const auto index : run.rows) {
                const auto& row = plan_.rows[index];
                const auto number = day.runs.size() > 1 ? QStringLiteral("%1.%2").arg(row.run).arg(row.stop) : QString::number(row.stop);
                rows.push_back({RecordRef{RecordKind::visit, row.visit->id.value()},
                                {textCell(number), textCell(clockOr(row.at)), textCell(clockOr(row.until)),
                                 driveCell(plan_.drives.between(place, plan_.placeOf[index])), kindCell(*row.visit), textCell(qs(row.place))},
                                {}, false});
                place = plan_.placeOf[index];
                ++stops;
            }
        }
        auto words = qs(day.date.shownShort());
        if (stops > 0) {
            words += tr(": %1, leaves %2, back %3, %4 min and %5 miles of driving").arg(qs(counted(stops, "stop", "stops")), qs(day.runs.front().leaves.shown()),
                qs(day.runs.back().back.shown())).arg(day.driveMinutes).arg(day.driveMiles, 0, 'f', 1);
        } else {
            words += tr(": nobody goes out");
        }
        if (!day.crewWhy.empty()) words += QStringLiteral("; ") + qs(day.crewWhy);
        dayName_->setText(words + u'.');
    }
    runSheet_->setEnabled(!rows.empty() || !day::poursPlanned(desk().book(), plan_.from + day_).empty());
    showing_ = true;
    stops_->setRows(std::move(rows));
    if (chosen_)
        for (auto* table : {stops_, all_}) table->select(RecordRef{RecordKind::visit, chosen_->value()});
    showing_ = false;
    auto pictured = routeMapOf(plan_, day_, rowOf(chosen_));
    map_->setSpots([this, pictured](const QPointF& point, const QRectF& area, const ChartStyle&) -> std::optional<ChartSpot> {
        const auto place = mapPlaceAt(point, area, pictured.map);
        if (!place) return {};
        ChartSpot spot{pictured.map.places[*place].name};
        if (const auto row = pictured.rows[*place]) spot.act = [this, id = plan_.rows[*row].visit->id] { chooseVisit(id, false); };
        return spot;
    });
    map_->show([map = pictured.map](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintRouteMap(painter, area, map, style); }, dayName_->text());
}

void PlanPage::pin(const Visit& visit, std::optional<Date> day)
{
    if (!visit.isOpen()) return;
    if (desk().store().isReadOnly()) return desk().say(tr("This book is open to look only."), Tone::attention);
    auto changed = visit;
    changed.pinned = day.has_value();
    changed.plannedAt.reset();
    if (day) changed.plannedOn = *day;
    Edit edit{utf8(day ? tr("Visit pinned to %1").arg(qs(day->shown())) : tr("Visit\u2019s pin taken out"))};
    edit.change(changed);
    if (!desk().commitOrSay(edit)) return;
    const auto row = rowOf(visit.id);
    if (row && plan_.rows[*row].outsideHours) desk().say(tr("Pinned, though its hours say no: %1").arg(qs(plan_.rows[*row].why)), Tone::attention);
}

void PlanPage::write()
{
    if (const auto edit = writePlan(plan_)) desk().commitOrSay(*edit);
}

}

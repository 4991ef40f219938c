#include "pages/rates/rates_page.h"

#include "labels.h"
#include "labor/rates.h"
#include "pages/hours_sheet/hours_sheet_page.h"
#include "pages/rates/hour_cost_page.h"
#include "pages/rates/sheet_page.h"

#include <QBoxLayout>

namespace strikeoff {

namespace {

std::vector<PanelSetup> tabs()
{
    std::vector<PanelSetup> tabs;
    tabs.push_back({.kind = RecordKind::hours, .emptyText = RatesPage::tr("No hours yet. Press New and write the first day: person, date, job, phase and the times."), .sortBy = "date", .order = Qt::DescendingOrder});
    tabs.push_back({.kind = RecordKind::crewMember,
                    .columns = {{.field = "name"}, {.field = "role"}, {.field = "hired_on"}, {.field = "left_on"}, {.field = "comp_class"}},
                    .emptyText = RatesPage::tr("Nobody on the crew yet. Press New and enter the first name; pay goes on the next tab."), .sortBy = "name"});
    tabs.push_back({.kind = RecordKind::payRate,
                    .columns = {{.field = "person"}, {.field = "from_date"}, {.field = "phase"}, {.field = "hourly_rate"}, {.field = "day_rate"}, {.field = "note"}},
                    .emptyText = RatesPage::tr("No pay rates yet. Press New: a person, the first day and the straight pay per hour."), .sortBy = "from_date", .order = Qt::DescendingOrder});
    tabs.push_back({.kind = RecordKind::bonus,
                    .columns = {{.field = "person"}, {.field = "amount"}, {.field = "earned_from"}, {.field = "earned_to"}, {.field = "paid_on"}, {.field = "note"}},
                    .emptyText = RatesPage::tr("No bonuses. Press New: who, how much, and the days it was earned in; overtime weeks between are figured anew."), .sortBy = "earned_to", .order = Qt::DescendingOrder});
    tabs.push_back({.kind = RecordKind::burdenRate,
                    .columns = {{.field = "item", .width = 19}, {.field = "from_date", .width = 11}, {.field = "rate", .width = 6}, {.field = "basis", .width = 15}, {.field = "comp_class", .width = 14}, {.field = "wage_base"}, {.field = "on_premium"}, {.field = "source", .width = 28}},
                    .name = RatesPage::tr("Burden"), .emptyText = RatesPage::tr("No burden rates. The first tab fills in the federal ones; your state, policies and leave are yours to set: ask whoever does your payroll."), .sortBy = "item"});
    tabs.push_back({.kind = RecordKind::supplier, .columns = {{.field = "name"}, {.field = "phone"}, {.field = "account_number"}, {.field = "terms_days"}},
                    .emptyText = RatesPage::tr("No supplier yet. Press New and enter who sends your ready-mix."), .sortBy = "name"});
    tabs.push_back({.kind = RecordKind::priceSheet,
                    .columns = {{.field = "supplier"}, {.field = "effective_on"}, {.field = "charge"}, {.field = "code"}, {.field = "amount"}, {.field = "unit"}, {.field = "meaning"}},
                    .layout = {{{RatesPage::tr("The sheet"), {{"supplier"}, {"effective_on"}}},
                                {RatesPage::tr("The charge"), {{"charge", "code"}, {"meaning"}, {"amount", "unit"}, {"taxable"}}},
                                {RatesPage::tr("When it is on"), {{"from_yards", "to_yards"}, {"season_from", "season_to"}, {"only_when_ordered"}}},
                                {RatesPage::tr("Waiting"), {{"free_minutes", "free_basis"}, {"step_minutes"}}}},
                               {"supplier", "effective_on", "charge", "unit", "taxable"}},
                    .emptyText = RatesPage::tr("No price sheet yet. Press New and enter the first charge of a supplier\u2019s sheet, or load the sheet from a CSV file."),
                    .sortBy = "effective_on", .order = Qt::DescendingOrder});
    tabs.push_back({.kind = RecordKind::jobType,
                    .columns = {{.field = "name"}, {.field = "thickness"}, {.field = "allowance_pct"}, {.field = "pace_sqft_per_hour"}, {.field = "product"}},
                    .emptyText = RatesPage::tr("No job types yet. Press New: patio, driveway, walk, and what each usually needs."), .sortBy = "name"});
    tabs.push_back({.kind = RecordKind::finishingProduct,
                    .columns = {{.field = "name"}, {.field = "kind"}, {.field = "wait_least_hours"}, {.field = "wait_most_hours"}, {.field = "lowest_air_f"}, {.field = "on_hand_gallons"}},
                    .name = RatesPage::tr("Products"), .emptyText = RatesPage::tr("No cure or sealer yet. Press New and copy the label; the label governs."), .sortBy = "name"});
    tabs.push_back({.kind = RecordKind::overhead, .emptyText = RatesPage::tr("No overhead yet. Press New: the year, what it is for, and the amount."), .sortBy = "year", .order = Qt::DescendingOrder});
    tabs.push_back({.kind = RecordKind::settings});
    return tabs;
}

}

RatesPage::RatesPage(Desk& desk, QWidget* parent) : RecordsPage{desk, tr("What do my hours and yards cost me?"), tabs(), parent}
{
    hourCost_ = new HourCostPage{desk, this};
    addTab(tr("Hour\u2019s cost"), hourCost_, 0);
    sheet_ = new HoursSheetPage{desk, this};
    addTab(tr("Day\u2019s hours"), sheet_, 1);
    beginWith(hourCost_);
    addTab(tr("What changed"), new SheetPage{desk, this}, placeOf(RecordKind::priceSheet) + 1);
    const int concrete = placeOf(RecordKind::supplier), work = placeOf(RecordKind::jobType), outfit = placeOf(RecordKind::overhead);
    groupTabs({{tr("Hours and pay"), concrete}, {tr("Concrete"), work - concrete}, {tr("Work"), outfit - work}, {tr("The outfit"), 2}});
    auto* caution = makeLabel(tr("Pay, burden and tax rules differ by state and change by year: ask whoever does your payroll. Product labels go over any figure here."),
                              TextSize::small, Tone::quiet, this);
    static_cast<QBoxLayout*>(layout())->addWidget(caution);
}

QString RatesPage::answer() const
{
    if (isShown(hourCost_)) return hourCost_->answer();
    if (isShown(sheet_)) return sheet_->answer();
    return qs(ratesAnswer(desk().book(), desk().today()));
}

void RatesPage::enterHours(Date day)
{
    showTab(sheet_);
    if (sheet_->showDay(day)) sheet_->takeFocus();
}

}

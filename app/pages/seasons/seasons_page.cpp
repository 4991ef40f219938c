#include "pages/seasons/seasons_page.h"

#include "chart_view.h"
#include "labels.h"
#include "month_series.h"
#include "season/seasons.h"
#include "table/record_table.h"

#include <QTableView>
#include <QVBoxLayout>

#include <cmath>
#include <map>

namespace strikeoff {

SeasonsPage::SeasonsPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    chart_ = new ChartView{tr("Price and pace by month"), this};
    months_ = new RecordTable{tr("Months"),
                              {{.heading = tr("Month"), .width = 17, .stretches = true},
                               {.heading = tr("Tickets"), .align = Align::right, .width = 9},
                               {.heading = tr("Yards, yd\u00b3"), .align = Align::right, .width = 12},
                               {.heading = tr("Paid, $"), .align = Align::right, .width = 14},
                               {.heading = tr("Delivered, $/yd\u00b3"), .align = Align::right, .width = 15},
                               {.heading = tr("Pours"), .align = Align::right, .width = 7},
                               {.heading = tr("Area, ft\u00b2"), .align = Align::right, .width = 12},
                               {.heading = tr("Crew-hours"), .align = Align::right, .width = 11},
                               {.heading = tr("Pace, ft\u00b2/h"), .align = Align::right, .width = 12}},
                              desk, this};
    months_->setEmptyText(tr("Nothing yet: enter tickets on the Ticket desk, and pours with hours, and the months fill up."));
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(3));
    layout->addWidget(chart_, 3);
    layout->addWidget(months_, 2);
}

QString SeasonsPage::question() const { return tr("How do the seasons move price and pace?"); }

void SeasonsPage::refresh()
{
    const auto seasons = seasonsOf(desk().book(), SeasonScope{.today = desk().today(), .from = {}, .to = {}, .jobType = {}});
    answer_ = qs(seasons.answer);
    MonthSeries price{tr("Delivered price, $ per yd\u00b3"), tr("tickets"), {}};
    MonthSeries pace{tr("Pace, ft\u00b2 per crew-hour"), tr("pours"), {}};
    std::map<Date, std::pair<const PriceMonth*, const PaceMonth*>> months;
    for (const auto& month : seasons.price.months) months[month.month].first = &month;
    for (const auto& month : seasons.pace.months) months[month.month].second = &month;
    for (auto month = months.empty() ? Date{} : months.begin()->first; !months.empty() && month < months.rbegin()->first; month = monthsOn(month, 1)) months[month];
    std::vector<TableRow> rows;
    for (const auto& [month, figures] : months) {
        const auto& [priced, paced] = figures;
        const auto perYard = priced ? priced->delivered : std::nullopt;
        const auto perHour = paced ? paced->sum.sqftPerCrewHour : std::nullopt;
        price.points.push_back({month, perYard ? std::optional{perYard->toDouble()} : std::nullopt, priced ? priced->tickets : 0});
        pace.points.push_back({month, perHour, paced ? paced->sum.pours : 0});
        Cell name = textCell(qs(shownMonth(month)));
        name.sort = Value{month.days()};
        const auto minutes = paced ? paced->sum.minutes : Minutes{};
        rows.push_back({{}, {name, numberCell(priced ? priced->tickets : 0), decimalCell(std::optional{priced ? priced->yards : Yards{}}, 2), moneyCell(priced ? priced->paid : Money{}), moneyCell(perYard), numberCell(paced ? paced->sum.pours : 0),
                             numberCell(std::llround(paced ? paced->sum.areaSqft : 0)), decimalCell(std::optional{Quantity::ofUnits(divideHalfUp(static_cast<Int128>(minutes.count()) * 1000, 60))}, 1),
                             decimalCell(perHour ? std::optional{Quantity::ofUnits(std::llround(*perHour * 1000))} : std::nullopt, 1)}, {}, false});
    }
    chart_->setVisible(!rows.empty());
    months_->setRows(std::move(rows));
    months_->sortBy(0, Qt::DescendingOrder);
    chart_->show([panels = std::vector{price, pace}](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintMonthSeries(painter, area, panels, style); }, answer_);
    emit answerChanged();
}

void SeasonsPage::takeFocus() { months_->view().setFocus(); }

}

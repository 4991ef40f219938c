#include "pages/seasons/seasons_page.h"

#include "chart_view.h"
#include "labels.h"
#include "month_series.h"
#include "season/months.h"
#include "table/record_table.h"

#include <QTableView>
#include <QVBoxLayout>

#include <cmath>

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
    const auto seasons = seasonMonths(desk().book());
    answer_ = qs(seasons.answer);
    MonthSeries price{tr("Delivered price, $ per yd\u00b3"), tr("tickets"), {}};
    MonthSeries pace{tr("Pace, ft\u00b2 per crew-hour (prep, placing and finishing)"), tr("pours"), {}};
    std::vector<TableRow> rows;
    for (const auto& month : seasons.months) {
        const auto perYard = month.perYard();
        const auto perHour = month.sqftPerCrewHour();
        price.points.push_back({month.month, perYard ? std::optional{perYard->toDouble()} : std::nullopt, month.tickets});
        pace.points.push_back({month.month, perHour, month.pours});
        Cell name = textCell(qs(shownMonth(month.month)));
        name.sort = Value{month.month.days()};
        rows.push_back({{}, {name, numberCell(month.tickets), decimalCell(std::optional{month.yards}, 2), moneyCell(month.paid), moneyCell(perYard), numberCell(month.pours),
                             numberCell(std::llround(month.areaSqft)), decimalCell(std::optional{Quantity::ofUnits(divideHalfUp(static_cast<Int128>(month.crewMinutes.count()) * 1000, 60))}, 1),
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

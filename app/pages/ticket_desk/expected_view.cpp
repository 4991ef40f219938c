#include "pages/ticket_desk/expected_view.h"

#include "labels.h"
#include "ready_mix/expected_charge.h"
#include "table/record_table.h"

#include <QTableView>
#include <QVBoxLayout>

namespace strikeoff {

ExpectedView::ExpectedView(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    auto* rows = new QVBoxLayout{this};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(grid(1));
    head_ = makeLabel({}, TextSize::small, Tone::quiet, this);
    head_->setObjectName(QStringLiteral("expectedHead"));
    table_ = new RecordTable{tr("Expected charge"),
                             {{.heading = tr("Charge"), .width = 22},
                              {.heading = tr("Quantity"), .align = Align::right, .width = 9},
                              {.heading = tr("Unit"), .width = 6},
                              {.heading = tr("Price, $"), .align = Align::right, .width = 10},
                              {.heading = tr("Amount, $"), .align = Align::right, .width = 11},
                              {.heading = tr("Rule"), .width = 40, .dashWhenBlank = false, .stretches = true}},
                             desk, this};
    table_->setFilterVisible(false);
    table_->view().setMinimumHeight(grid(20));
    table_->setMaximumHeight(grid(50));
    rows->addWidget(head_);
    rows->addWidget(table_);
}

void ExpectedView::show(const Ticket* ticket)
{
    const auto& book = desk_.book();
    const auto sheet = ticket ? sheetInForce(book, ticket->supplier, ticket->date) : std::nullopt;
    table_->setVisible(sheet.has_value());
    if (!ticket) {
        head_->setText({});
        return;
    }
    if (!sheet) {
        head_->setText(tr("No price sheet of this supplier is in force on the ticket\u2019s day; enter it on the page Rates."));
        return;
    }
    const auto charge = expectedCharge(*ticket, *sheet);
    head_->setText(ticket->number.empty() ? tr("What it should cost by the sheet of %1").arg(qs(sheet->effectiveOn.shown()))
                                          : tr("What ticket %1 should cost by the sheet of %2").arg(qs(ticket->number), qs(sheet->effectiveOn.shown())));
    std::vector<TableRow> rows;
    for (const auto& line : charge.lines)
        rows.push_back({{}, {textCell(qs(line.description)), decimalCell(std::optional{line.quantity}, 2), textCell(qs(line.unit)), decimalCell(std::optional{line.unitPrice}, 2), moneyCell(line.amount), textCell(qs(line.rule))}, {}, false});
    if (!charge.tax.isZero()) rows.push_back({{}, {textCell(tr("Sales tax")), {}, {}, {}, moneyCell(charge.tax), textCell(qs(charge.taxRule))}, {}, false});
    std::string unknown;
    for (const auto& word : charge.unknown) unknown += (unknown.empty() ? "" : "; ") + word;
    rows.push_back({{}, {textCell(tr("Total")), {}, {}, {}, moneyCell(charge.total), textCell(qs(unknown), Tone::attention)}, {}, true});
    table_->setRows(std::move(rows));
}

}

#include "pages/ticket_desk/list_tabs.h"

#include "labels.h"
#include "quantity/words.h"
#include "ready_mix/claims.h"
#include "ready_mix/yield.h"
#include "record/field_text.h"
#include "table/record_table.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

namespace strikeoff {

namespace {

QString supplierName(const Book& book, Id<Supplier> id)
{
    const auto* supplier = book.find(id);
    return supplier ? qs(supplier->name) : QString{};
}

Cell rateCell(std::optional<Rate> rate) { return decimalCell(rate, 1); }

}

UnbilledPage::UnbilledPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    table_ = new RecordTable{tr("Not billed"),
                             {{.heading = tr("Date"), .width = 13}, {.heading = tr("Days"), .align = Align::right, .width = 5}, {.heading = tr("Ticket"), .width = 10}, {.heading = tr("Supplier"), .width = 22},
                              {.heading = tr("Plant"), .width = 9}, {.heading = tr("Job"), .width = 8}, {.heading = tr("Mix"), .width = 10}, {.heading = tr("Yards, yd\u00b3"), .align = Align::right, .width = 9},
                              {.heading = tr("Should cost, $"), .align = Align::right, .width = 12}, {.heading = tr("Note"), .width = 8, .dashWhenBlank = false, .stretches = true}},
                             desk, this};
    table_->setEmptyText(tr("Every load of the last twelve months is on a statement."));
    auto* rows = new QVBoxLayout{this};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->addWidget(table_);
    connect(table_, &RecordTable::opened, this, [&desk](const RecordRef& record) { desk.open(record); });
}

void UnbilledPage::show(const std::vector<UnbilledTicket>& tickets)
{
    const auto& book = desk().book();
    std::vector<TableRow> rows;
    Yards yards;
    Money sum;
    for (const auto& each : tickets) {
        const auto& ticket = *each.ticket;
        yards += ticket.yards;
        if (each.expected) sum += *each.expected;
        rows.push_back({{RecordKind::ticket, ticket.id.value()},
                        {dateCell(ticket.date), numberCell(desk().today() - ticket.date), textCell(qs(ticket.number)), textCell(supplierName(book, ticket.supplier)), textCell(qs(ticket.plant)),
                         textCell(ticket.job ? qs(keyText(book, *ticket.job)) : QString{}), textCell(qs(ticket.mix)), decimalCell(std::optional{ticket.yards}, 2), moneyCell(each.expected), textCell(qs(ticket.note))},
                        {}, false});
    }
    if (!rows.empty()) {
        TableRow total;
        total.cells = {textCell(tr("In all")), textCell(QStringLiteral(" ")), textCell(QStringLiteral(" ")), textCell(qs(counted(static_cast<std::int64_t>(tickets.size()), "load", "loads"))), textCell(QStringLiteral(" ")),
                       textCell(QStringLiteral(" ")), textCell(QStringLiteral(" ")), decimalCell(std::optional{yards}, 2), moneyCell(sum), {}};
        total.apart = true;
        rows.push_back(std::move(total));
    }
    table_->setRows(std::move(rows));
}

void UnbilledPage::takeFocus() { table_->view().setFocus(); }

YieldPage::YieldPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    types_ = new RecordTable{tr("Over-order by job type"),
                             {{.heading = tr("Job type"), .width = 24}, {.heading = tr("Pours"), .align = Align::right, .width = 6}, {.heading = tr("Measured, yd\u00b3"), .align = Align::right, .width = 12},
                              {.heading = tr("Placed, yd\u00b3"), .align = Align::right, .width = 12}, {.heading = tr("Over, %"), .align = Align::right, .width = 8},
                              {.heading = tr("Quotes carry, %"), .align = Align::right, .width = 12}, {.heading = tr("Suggested, %"), .align = Align::right, .width = 11}},
                             desk, this};
    types_->setFilterVisible(false);
    types_->view().setMinimumHeight(grid(30));
    types_->setMaximumHeight(grid(60));
    pours_ = new RecordTable{tr("Yield by pour"),
                             {{.heading = tr("Poured"), .width = 12}, {.heading = tr("Job and pour"), .width = 9},
                              {.heading = tr("Delivered, yd\u00b3"), .align = Align::right, .width = 8, .tip = tr("Yards by the tickets, yd\u00b3")}, {.heading = tr("Returned, yd\u00b3"), .align = Align::right, .width = 8, .tip = tr("Sent back, yd\u00b3")}, {.heading = tr("Measured, yd\u00b3"), .align = Align::right, .width = 11},
                              {.heading = tr("Over, %"), .align = Align::right, .width = 8}, {.heading = tr("Planned, in"), .align = Align::right, .width = 9}, {.heading = tr("Implied, in"), .align = Align::right, .width = 9},
                              {.heading = tr("Over, $"), .align = Align::right, .width = 8}, {.heading = tr("Returned, $"), .align = Align::right, .width = 8}},
                             desk, this};
    pours_->setEmptyText(tr("No pour has tickets yet. Enter them on the tab \u201cEnter tickets\u201d; the measure comes from the job\u2019s takeoff."));
    pours_->sortBy(0, Qt::DescendingOrder);
    chosen_ = makeLabel({}, TextSize::body, Tone::plain, this);
    chosen_->setObjectName(QStringLiteral("yieldWords"));
    auto* rows = new QVBoxLayout{this};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(grid(2));
    rows->addWidget(pours_, 1);
    rows->addWidget(chosen_);
    rows->addWidget(types_);
    connect(pours_, &RecordTable::opened, this, [&desk](const RecordRef& record) { desk.open(record); });
    connect(pours_, &RecordTable::currentChanged, this, [this](const RecordRef& record) {
        const auto* pour = this->desk().book().find(Id<Pour>{record.id});
        const auto yield = pour ? yieldOf(this->desk().book(), *pour) : std::nullopt;
        chosen_->setText(yield ? qs(yield->answer) : QString{});
    });
    connect(types_, &RecordTable::currentChanged, this, [this](const RecordRef& record) {
        for (const auto& [type, words] : answers_)
            if (record == RecordRef{RecordKind::jobType, type}) chosen_->setText(words);
    });
}

void YieldPage::refresh()
{
    const auto& book = desk().book();
    std::vector<TableRow> rows;
    for (const auto& pour : book.all<Pour>()) {
        const auto yield = yieldOf(book, pour);
        if (!yield) continue;
        const auto tone = yield->over && *yield->over > Rate::ofWhole(10) ? Tone::attention : Tone::plain;
        auto over = rateCell(yield->over);
        over.tone = tone;
        rows.push_back({{RecordKind::pour, pour.id.value()},
                        {dateCell(pour.pouredOn), textCell(qs(keyText(book, pour.id))), decimalCell(std::optional{yield->delivered}, 2),
                         decimalCell(yield->returned.isZero() ? std::nullopt : std::optional{yield->returned}, 2), decimalCell(yield->measured, 2), over, decimalCell(yield->plannedThickness, 2),
                         decimalCell(yield->impliedThickness, 2), moneyCell(yield->overCost), moneyCell(yield->returnedCost)},
                        yield->job ? qs(yield->job->title) : QString{}, false});
    }
    pours_->setRows(std::move(rows));
    const auto types = yieldByType(book);
    std::vector<TableRow> typeRows;
    answers_.clear();
    for (const auto& each : types) {
        const auto* type = book.find(each.type);
        typeRows.push_back({{RecordKind::jobType, each.type.value()},
                            {textCell(type ? qs(type->name) : QString{}), numberCell(each.pours), decimalCell(std::optional{each.measured}, 2), decimalCell(std::optional{each.placed}, 2), rateCell(each.over),
                             rateCell(each.allowance), rateCell(each.suggested)},
                            {}, false});
        if (answers_.size() < types.size()) answers_.emplace_back(each.type.value(), qs(each.answer));
    }
    types_->setVisible(!types.empty());
    types_->setRows(std::move(typeRows));
    emit answerChanged();
}

void YieldPage::takeFocus() { pours_->view().setFocus(); }

ClaimBar::ClaimBar(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    words_ = makeLabel({}, TextSize::small, Tone::quiet, this);
    reason_ = new QLineEdit{this};
    reason_->setObjectName(QStringLiteral("letGoReason"));
    reason_->setPlaceholderText(tr("Why it is let go"));
    reason_->setAccessibleName(tr("Why the claim is let go"));
    reason_->setFixedWidth(grid(70));
    letGo_ = makeButton("letClaimGo", tr("Let the claim go"), nullptr, this);
    auto* line = new QHBoxLayout{this};
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(grid(2));
    line->addWidget(words_, 1);
    line->addWidget(reason_);
    line->addWidget(letGo_);
    connect(letGo_, &QPushButton::clicked, this, &ClaimBar::letGo);
    connect(reason_, &QLineEdit::returnPressed, this, &ClaimBar::letGo);
    show({});
}

void ClaimBar::show(Id<Claim> claim)
{
    if (claim != claim_) reason_->clear();
    claim_ = claim;
    const auto* shown = desk_.book().find(claim);
    const bool open = shown && !shown->creditedOn && !shown->droppedOn;
    words_->setText(!shown ? QString{} : open ? tr("Claim %1 stays open until a credit line is taken for it on the check, or it is let go.").arg(qs(shown->number)) : tr("Claim %1 is closed.").arg(qs(shown->number)));
    reason_->setVisible(open && !desk_.store().isReadOnly());
    letGo_->setVisible(open && !desk_.store().isReadOnly());
}

void ClaimBar::letGo()
{
    const auto* claim = desk_.book().find(claim_);
    const auto reason = utf8(reason_->text().trimmed());
    if (!claim) return;
    if (reason.empty()) {
        desk_.say(tr("Write first why the claim is let go."), Tone::attention);
        reason_->setFocus();
        return;
    }
    const auto step = letClaimGo(desk_.book(), *claim, reason, desk_.today());
    if (!step.possible()) desk_.say(qs(step.obstacle), Tone::attention);
    else if (desk_.commitOrSay(*step.edit)) show(claim_);
}

}

#include "pages/ticket_desk/ticket_desk_page.h"

#include "chart_view.h"
#include "form/field_editor.h"
#include "form/record_form.h"
#include "labels.h"
#include "pages/ticket_desk/expected_view.h"
#include "pages/ticket_desk/stack_page.h"
#include "quantity/words.h"
#include "ready_mix/ticket_desk.h"
#include "ready_mix/ticket_warnings.h"
#include "table/record_table.h"

#include <QBoxLayout>
#include <QPainter>

#include <algorithm>

namespace strikeoff {

namespace {

std::vector<PanelSetup> tabs()
{
    const auto total = [](const Book& book, const void* record) {
        const auto& statement = *static_cast<const Statement*>(record);
        Money sum;
        for (const auto* line : book.referring<&StatementLine::statement>(statement.id)) sum += line->amount;
        return moneyCell(sum, statement.total && *statement.total != sum ? Tone::wrong : Tone::plain);
    };
    const auto state = [](const Book&, const void* record) {
        const auto& statement = *static_cast<const Statement*>(record);
        if (statement.paidOn) return textCell(TicketDeskPage::tr("Paid"), Tone::well);
        if (statement.approvedOn) return textCell(TicketDeskPage::tr("Approved"), Tone::well);
        return textCell(TicketDeskPage::tr("To check"), Tone::attention);
    };
    const auto claimState = [](const Book&, const void* record) {
        const auto& claim = *static_cast<const Claim*>(record);
        if (claim.creditedOn) return textCell(TicketDeskPage::tr("Credited"), Tone::well);
        if (claim.droppedOn) return textCell(TicketDeskPage::tr("Let go"), Tone::quiet);
        return textCell(TicketDeskPage::tr("Open"), Tone::attention);
    };
    std::vector<PanelSetup> tabs;
    tabs.push_back({.kind = RecordKind::ticket,
                    .columns = {{.field = "date"}, {.field = "number"}, {.field = "supplier", .width = 18}, {.field = "mix"}, {.field = "yards"}, {.field = "job"}, {.field = "pour"}, {.field = "options"}, {.field = "note"}},
                    .emptyText = TicketDeskPage::tr("No tickets yet. Press New and type the first one; what the stack has in common is carried on to the next."),
                    .sortBy = "date", .order = Qt::DescendingOrder});
    tabs.push_back({.kind = RecordKind::statement,
                    .columns = {{.field = "date"}, {.field = "number"}, {.field = "supplier", .width = 18}, {.field = "total"},
                                {.field = {}, .heading = TicketDeskPage::tr("Lines add up to, $"), .width = 16, .reckon = total, .align = Align::right},
                                {.field = {}, .heading = TicketDeskPage::tr("State"), .width = 11, .reckon = state}, {.field = "due_on"}},
                    .emptyText = TicketDeskPage::tr("No statements yet. Press New when the supplier\u2019s bill comes, and put its lines on the next tab."),
                    .sortBy = "date", .order = Qt::DescendingOrder});
    tabs.push_back({.kind = RecordKind::statementLine,
                    .columns = {{.field = "statement", .width = 22}, {.field = "line"}, {.field = "ticket_number"}, {.field = "date"}, {.field = "description", .width = 22}, {.field = "quantity"}, {.field = "unit_price"}, {.field = "amount"}},
                    .layout = {{{TicketDeskPage::tr("The line"), {{"statement"}, {"line", "ticket_number"}, {"date", "code"}, {"description"}, {"quantity", "unit"}, {"unit_price", "amount"}}},
                                {TicketDeskPage::tr("Paired by hand"), {{"ticket"}, {"note"}}}},
                               {"statement", "date", "ticket_number"}},
                    .emptyText = TicketDeskPage::tr("No statement lines yet. Press New, or load the lines from a CSV file.")});
    tabs.push_back({.kind = RecordKind::claim,
                    .columns = {{.field = "number"}, {.field = "opened_on"}, {.field = "supplier", .width = 18}, {.field = "amount"}, {.field = {}, .heading = TicketDeskPage::tr("State"), .width = 10, .reckon = claimState}, {.field = "reason", .width = 30}},
                    .emptyText = TicketDeskPage::tr("No claims. What you dispute on a statement is kept here until the credit comes."),
                    .sortBy = "opened_on", .order = Qt::DescendingOrder});
    return tabs;
}

void paintMonths(QPainter& painter, const QRectF& area, const std::vector<DeskMonth>& months, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small}, body{style.body};
    const double width = area.width() / static_cast<double>(months.size());
    double most = 1;
    for (const auto& month : months) most = std::max(most, month.yards.toDouble());
    const double words = 3 * small.height() + body.height() + 8;
    const double room = std::max(12.0, area.height() - words);
    for (std::size_t i = 0; i < months.size(); ++i) {
        const auto& month = months[i];
        const QRectF cell{area.left() + static_cast<double>(i) * width, area.top(), width, area.height()};
        const double height = month.yards.toDouble() / most * room;
        const QRectF bar{cell.left() + width * 0.2, cell.top() + room - height, width * 0.6, height};
        painter.fillRect(bar, palette.series[0]);
        double y = cell.top() + room + 2;
        const auto line = [&](const QString& text, const QFont& font, const QColor& color) {
            painter.setFont(font);
            painter.setPen(color);
            const QFontMetricsF metrics{font};
            painter.drawText(QRectF{cell.left(), y, width, metrics.height()}, Qt::AlignHCenter | Qt::AlignTop, metrics.elidedText(text, Qt::ElideRight, width - 2));
            y += metrics.height();
        };
        const auto name = shownMonth(month.month);
        line(qs(name.substr(0, 3)) + (month.month.month() == 1 ? QStringLiteral(" \u2019%1").arg(month.month.year() % 100) : QString{}), style.body, palette.ink);
        line(month.loads == 0 ? QStringLiteral("\u2013") : TicketDeskPage::tr("%1 ld, %2 yd\u00b3").arg(month.loads).arg(qs(month.yards.shown(0))), style.small, palette.quiet);
        const auto sum = month.billed + month.expected;
        line(month.loads == 0 ? QString{} : qs("$" + sum.shown(0)), style.small, palette.quiet);
        if (month.notBilled > 0) line(TicketDeskPage::tr("%1 not billed").arg(month.notBilled), style.small, palette.attention);
    }
}

}

TicketDeskPage::TicketDeskPage(Desk& desk, QWidget* parent) : RecordsPage{desk, tr("Does the supplier\u2019s bill agree with my tickets?"), tabs(), parent}
{
    months_ = new ChartView{tr("Twelve months of ready-mix"), this};
    months_->setFixedHeight(grid(28));
    auto* column = static_cast<QBoxLayout*>(layout());
    column->insertWidget(0, months_);
    column->setSpacing(grid(2));

    stack_ = new TicketStackPage{desk, this};
    addTab(tr("Enter tickets"), stack_);

    aside_ = new QWidget{this};
    auto* below = new QVBoxLayout{aside_};
    below->setContentsMargins(0, 0, 0, 0);
    below->setSpacing(grid(1));
    warnings_ = makeLabel({}, TextSize::body, Tone::attention, aside_);
    warnings_->setObjectName(QStringLiteral("ticketWarnings"));
    expected_ = new ExpectedView{desk, aside_};
    below->addWidget(warnings_);
    below->addWidget(expected_);
    column->addWidget(aside_);

    auto* tickets = panel(RecordKind::ticket);
    connect(tickets, &RecordsPanel::recordShown, this, [this] {
        showExpected();
        showWarnings();
    });
    for (const auto& field : describe(RecordKind::ticket).fields)
        if (auto* editor = tickets->form().editor(field.name)) connect(editor, &FieldEditor::edited, this, &TicketDeskPage::showWarnings);
}

int TicketDeskPage::waiting() const
{
    const auto& statements = desk().book().all<Statement>();
    return static_cast<int>(std::count_if(statements.begin(), statements.end(), [](const Statement& statement) { return !statement.approvedOn; }));
}

void TicketDeskPage::refresh()
{
    showMonths();
    RecordsPage::refresh();
    const bool tickets = table() != nullptr && table() == panel(RecordKind::ticket)->table();
    aside_->setVisible(tickets);
    if (tickets) showExpected();
}

void TicketDeskPage::showMonths()
{
    const auto result = ticketDesk(desk().book(), desk().today());
    answer_ = qs(result.answer);
    months_->setVisible(!isShown(stack_) && std::ranges::any_of(result.months, [](const auto& month) { return month.loads > 0; }));
    months_->show([months = result.months](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintMonths(painter, area, months, style); }, answer_);
}

void TicketDeskPage::showExpected()
{
    const auto record = panel(RecordKind::ticket)->form().record();
    expected_->show(desk().book().find(Id<Ticket>{record.id}));
}

void TicketDeskPage::showWarnings()
{
    const auto& form = panel(RecordKind::ticket)->form();
    QString words;
    if (form.isDirty()) {
        try {
            for (const auto& warning : ticketWarnings(desk().book(), recordOf<Ticket>(form.typedRow()))) words += (words.isEmpty() ? QString{} : QStringLiteral("  ")) + qs(warning);
        } catch (const DomainError&) {
            words.clear();  // a half-typed figure: its field says what is wrong
        }
    }
    warnings_->setText(words.isEmpty() ? words : tr("Look again (you may save it all the same): %1").arg(words));
    warnings_->setVisible(!words.isEmpty());
}

}

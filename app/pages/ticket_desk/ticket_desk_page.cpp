#include "pages/ticket_desk/ticket_desk_page.h"

#include "chart_view.h"
#include "desk_months.h"
#include "form/field_editor.h"
#include "form/record_form.h"
#include "labels.h"
#include "pages/ticket_desk/check_page.h"
#include "pages/ticket_desk/expected_view.h"
#include "pages/ticket_desk/import_page.h"
#include "pages/ticket_desk/list_tabs.h"
#include "pages/ticket_desk/stack_page.h"
#include "ready_mix/ticket_desk.h"
#include "ready_mix/ticket_warnings.h"
#include "table/record_table.h"

#include <QBoxLayout>

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

}

TicketDeskPage::TicketDeskPage(Desk& desk, QWidget* parent) : RecordsPage{desk, tr("Does the supplier\u2019s bill agree with my tickets?"), tabs(), parent}, checks_{desk}
{
    months_ = new ChartView{tr("Twelve months of ready-mix"), this};
    months_->setFixedHeight(grid(28));
    auto* column = static_cast<QBoxLayout*>(layout());
    column->insertWidget(0, months_);
    column->setSpacing(grid(2));

    check_ = new CheckPage{desk, checks_, this};
    import_ = new ImportPage{desk, this};
    stack_ = new TicketStackPage{desk, this};
    unbilled_ = new UnbilledPage{desk, this};
    yield_ = new YieldPage{desk, this};
    addTab(tr("Check"), check_, 0);
    addTab(tr("Take in"), import_, 1);
    addTab(tr("Enter tickets"), stack_, 2);
    addTab(tr("Not billed"), unbilled_, 4);
    addTab(tr("Yield"), yield_);
    beginWith(check_);
    connect(check_, &CheckPage::importWanted, this, [this] {
        showTab(import_);
        import_->takeFocus();
    });
    connect(import_, &ImportPage::takenIn, this, [this](Id<Statement> statement) {
        showTab(check_);
        check_->showStatement(statement);
        check_->takeFocus();
    });

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
    claimBar_ = new ClaimBar{desk, this};
    column->addWidget(claimBar_);

    connect(panel(RecordKind::claim), &RecordsPanel::recordShown, this, [this](const RecordRef& record) { claimBar_->show(Id<Claim>{record.id}); });
    connect(panel(RecordKind::statement)->table(), &RecordTable::opened, this, [this](const RecordRef& record) { openRecord(record.kind, record.id); });
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
    showDesk();
    RecordsPage::refresh();
    const bool tickets = table() != nullptr && table() == panel(RecordKind::ticket)->table();
    aside_->setVisible(tickets);
    if (tickets) showExpected();
    const bool claims = table() != nullptr && table() == panel(RecordKind::claim)->table();
    claimBar_->setVisible(claims);
    if (claims) claimBar_->show(Id<Claim>{panel(RecordKind::claim)->form().record().id});
}

void TicketDeskPage::showDesk()
{
    const auto& statements = checks_.statements();
    const auto result = ticketDesk(desk().costs(), desk().today(), statements.matches(), [this](const Statement& statement) -> const StatementCheck& { return *checks_.of(statement.id); });
    answer_ = qs(result.answer);
    anyLoads_ = std::ranges::any_of(result.months, [](const auto& month) { return month.loads > 0; });
    months_->show([months = result.months](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintDeskMonths(painter, area, months, style); }, answer_);
    unbilled_->show(result.unbilled);
    placeMonths();
}

void TicketDeskPage::placeMonths()
{
    // Where a stack is typed or a file put right there is nothing to glance at; the check takes the room of a small window.
    const bool room = !isShown(stack_) && !isShown(import_) && (!isShown(check_) || height() > grid(205));
    months_->setVisible(room && anyLoads_);
}

void TicketDeskPage::resizeEvent(QResizeEvent* event)
{
    RecordsPage::resizeEvent(event);
    placeMonths();
}

bool TicketDeskPage::openRecord(RecordKind kind, std::int64_t id)
{
    if (kind != RecordKind::statement) return RecordsPage::openRecord(kind, id);
    if (!desk().book().find(kind, id)) return false;
    showTab(check_);
    check_->showStatement(Id<Statement>{id});
    return true;
}

void TicketDeskPage::newRecord()
{
    // A new ticket is typed with its stack, unless the list of tickets is in view.
    if (!isShown(check_) && !isShown(unbilled_) && !isShown(yield_)) return RecordsPage::newRecord();
    showTab(stack_);
    stack_->takeFocus();
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

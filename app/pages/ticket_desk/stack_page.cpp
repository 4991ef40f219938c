#include "pages/ticket_desk/stack_page.h"

#include "labels.h"
#include "pages/ticket_desk/expected_view.h"
#include "pages/ticket_desk/stack_model.h"
#include "quantity/words.h"
#include "table/grid_view.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace strikeoff {

TicketStackPage::TicketStackPage(Desk& desk, QWidget* parent) : Page{desk, parent}, drafts_{desk, "stack of tickets", [this] { return typedDraft(); }}
{
    model_ = new StackModel{desk, this};
    view_ = new GridView{tr("Tickets being typed"), *model_, desk, this};
    setFocusProxy(view_);

    auto* bar = new QHBoxLayout;
    bar->setSpacing(grid(2));
    state_ = makeLabel({}, TextSize::body, Tone::plain, this);
    state_->setObjectName(QStringLiteral("stackState"));
    bar->addWidget(state_, 1);
    takeOut_ = makeButton("takeOut", tr("Take row out"), nullptr, this);
    takeOut_->setToolTip(tr("Ctrl+Delete"));
    save_ = makeButton("saveStack", tr("Save the stack"), "main", this);
    save_->setToolTip(tr("Ctrl+Enter"));
    bar->addWidget(takeOut_);
    bar->addWidget(save_);
    auto* hint = makeLabel(tr("Enter or Tab goes on, Shift+Enter to the next ticket, Ctrl+Enter saves the stack. Times like 742 or 7:42a, yards like 9 1/2; mix and options by their first letters (acc 2 fib)."),
                           TextSize::small, Tone::quiet, this);
    expected_ = new ExpectedView{desk, this};

    auto* rows = new QVBoxLayout{this};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(grid(2));
    rows->addLayout(bar);
    rows->addWidget(view_, 1);
    rows->addWidget(hint);
    rows->addWidget(expected_);

    connect(view_, &GridView::saveWanted, this, &TicketStackPage::save);
    connect(save_, &QPushButton::clicked, this, &TicketStackPage::save);
    connect(takeOut_, &QPushButton::clicked, this, [this] {
        model_->takeOut(view_->currentIndex().row());
        takeFocus();
    });
    connect(view_, &GridView::rowChanged, this, &TicketStackPage::showCurrent);
    connect(model_, &StackModel::wordsChanged, this, [this] {
        showCurrent();
        showState();
    });
    if (const auto draft = drafts_.kept()) {
        std::vector<TypedTicket> tickets;
        for (const auto& row : draft->rows) tickets.push_back(row.texts);
        model_->startWith(std::move(tickets));
        begun_ = true;
    }
}

Draft TicketStackPage::typedDraft() const
{
    Draft draft;
    for (const auto& ticket : model_->typed()) draft.rows.push_back({0, 0, ticket});
    draft.words = tr("a stack of %1").arg(qs(counted(static_cast<std::int64_t>(draft.rows.size()), "ticket", "tickets")));
    return draft;
}

void TicketStackPage::refresh()
{
    if (!begun_) model_->begin();
    else model_->readAgain();
    begun_ = true;
    showState();
    showCurrent();
}

void TicketStackPage::takeFocus()
{
    view_->setFocus();
    const int row = std::max(view_->currentIndex().row(), 0);
    view_->typeInRow(std::min(row, model_->rowCount() - 1));
}

bool TicketStackPage::hasUnsaved() const { return model_->hasBegun(); }

bool TicketStackPage::save()
{
    std::vector<int> rows;
    for (int row = 0; row < model_->rowCount(); ++row) {
        if (!model_->readingAt(row).begun) continue;
        if (!model_->readingAt(row).canBeSaved()) {
            desk().say(tr("Nothing is saved yet. Row %1: %2").arg(row + 1).arg(model_->wordsAt(row)), Tone::attention);
            view_->typeInRow(row);
            return false;
        }
        rows.push_back(row);
    }
    if (rows.empty()) {
        desk().say(tr("There is no ticket to save yet. Type its number and yards first."), Tone::attention);
        takeFocus();
        return false;
    }
    const auto what = rows.size() == 1 ? "ticket " + model_->readingAt(rows.front()).ticket.number : counted(static_cast<std::int64_t>(rows.size()), "ticket", "tickets");
    Edit edit{"Enter " + what};
    for (const int row : rows) edit.add(model_->readingAt(row).ticket);
    const auto result = desk().commit(edit);
    if (!result.done()) {
        int at = rows.front();
        for (auto problem = result.problems.rbegin(); problem != result.problems.rend(); ++problem) {
            at = rows[std::min(problem->change, rows.size() - 1)];
            model_->refuse(at, qs(problem->message));
        }
        view_->typeInRow(at);
        return false;
    }
    auto last = model_->typedAt(rows.back());
    model_->startWith({nextOfStack(last)});
    desk().say(tr("Saved: %1. Ctrl+Z takes the stack back.").arg(qs(what)), Tone::well);
    view_->typeInRow(0);
    return true;
}

void TicketStackPage::showCurrent()
{
    const int row = view_->currentIndex().row();
    const bool known = row >= 0 && row < model_->rowCount() && model_->readingAt(row).ticket.yards > Yards{} && model_->readingAt(row).ticket.supplier.value() != 0;
    expected_->show(known ? &model_->readingAt(row).ticket : nullptr);
    takeOut_->setEnabled(row >= 0 && row < model_->rowCount() && model_->readingAt(row).begun);
}

void TicketStackPage::showState()
{
    state_->setText(qs(stackAnswer(model_->readings())));
    save_->setEnabled(model_->hasBegun() && !desk().store().isReadOnly());
    if (model_->hasBegun()) drafts_.wasTyped();
    else drafts_.keepNow();
    emit answerChanged();
}

}

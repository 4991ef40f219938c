#include "pages/day_sheet/day_sheet_page.h"

#include "form/record_form.h"
#include "job/steps.h"
#include "labels.h"
#include "paper/paper_print.h"
#include "paper/papers.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPrinter>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

namespace {

constexpr std::array dailyKinds{RecordKind::lead, RecordKind::ticket, RecordKind::hours, RecordKind::receipt, RecordKind::payment};

}

DaySheetPage::DaySheetPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(3));
    auto* bar = new QHBoxLayout;
    bar->setSpacing(grid(2));
    auto* before = makeButton("dayBefore", tr("Day before"), nullptr, this);
    auto* after = makeButton("dayAfter", tr("Day after"), nullptr, this);
    dayField_ = new QLineEdit{this};
    dayField_->setObjectName(QStringLiteral("day"));
    dayField_->setAccessibleName(tr("The day shown"));
    dayField_->setMaximumWidth(grid(40));
    bar->addWidget(before);
    bar->addWidget(dayField_);
    bar->addWidget(after);
    bar->addSpacing(grid(4));
    bar->addWidget(makeLabel(tr("Enter:"), TextSize::body, Tone::quiet, this));
    for (const auto kind : dailyKinds) {
        const auto name = kind == RecordKind::lead ? tr("New lead") : qs(describe(kind).label);
        auto* button = makeButton("enter", name, nullptr, this);
        connect(button, &QPushButton::clicked, this, [this, kind] { enter(kind); });
        bar->addWidget(button);
    }
    bar->addStretch(1);
    layout->addLayout(bar);

    auto* columns = new QHBoxLayout;
    columns->setSpacing(grid(4));
    scroll_ = new QScrollArea{this};
    scroll_->setWidgetResizable(true);
    columns->addWidget(scroll_, 3);
    side_ = new QStackedWidget{this};
    outlook_ = new QScrollArea{this};
    static_cast<QScrollArea*>(outlook_)->setWidgetResizable(true);
    side_->addWidget(outlook_);
    for (const auto kind : dailyKinds) {
        auto* sheet = new QFrame{this};
        setRole(*sheet, "sheet");
        auto* inside = new QVBoxLayout{sheet};
        inside->setContentsMargins(grid(4), grid(3), grid(4), grid(3));
        auto* form = new RecordForm{desk, kind, layoutFor(kind), sheet};
        inside->addWidget(form);
        connect(form, &RecordForm::left, this, [this] { side_->setCurrentWidget(outlook_); });
        if (kind == RecordKind::payment)
            // What came in pays the customer's oldest invoices first; the split can be changed on the page Money in.
            form->setAlso([this](Edit& edit, const Row& row) {
                if (edit.changes().empty() || edit.changes().front().what != ChangeType::add) return;
                auto payment = recordOf<Payment>(row);
                payment.id = Id<Payment>{edit.changes().front().row.id};
                addShares(edit, this->desk().book(), payment);
            });
        forms_.push_back(form);
        side_->addWidget(sheet);
    }
    columns->addWidget(side_, 2);
    layout->addLayout(columns, 1);
    connect(before, &QPushButton::clicked, this, [this] { turnTo(sheet_.date - 1); });
    connect(after, &QPushButton::clicked, this, [this] { turnTo(sheet_.date + 1); });
    connect(dayField_, &QLineEdit::returnPressed, this, [this] {
        if (const auto day = Date::read(utf8(dayField_->text()), this->desk().today())) turnTo(*day);
        else this->desk().say(tr("Write the day like today, fri, 6/12 or 2026-06-12."), Tone::attention);
    });
}

QString DaySheetPage::question() const { return tr("What needs me today?"); }

void DaySheetPage::turnTo(Date day)
{
    day_ = day == desk().today() ? std::nullopt : std::optional{day};
    refresh();
}

void DaySheetPage::refresh()
{
    sheet_ = daySheet(desk().book(), day_.value_or(desk().today()));
    answer_ = qs(sheet_.answer);
    waiting_ = static_cast<int>(sheet_.items.size());
    if (!dayField_->hasFocus()) dayField_->setText(qs(sheet_.date.shownShort()));

    auto* body = new QWidget;
    auto* lines = new QVBoxLayout{body};
    lines->setContentsMargins(0, 0, grid(2), 0);
    lines->setSpacing(grid(1));
    lines->addWidget(makeLabel(qs(sheet_.weather), TextSize::body, Tone::quiet, body));
    for (const auto& warning : sheet_.warnings) lines->addWidget(makeLabel(tr("Mind: %1").arg(qs(warning)), TextSize::body, Tone::attention, body));
    if (sheet_.items.empty()) lines->addWidget(makeLabel(tr("Nothing waits for this day. Enter a lead, a ticket or hours with the buttons above; the day fills from them."), TextSize::body, Tone::plain, body));
    addItems(*lines, sheet_.items, false);
    lines->addStretch(1);
    scroll_->setWidget(body);

    auto* ahead = new QWidget;
    auto* next = new QVBoxLayout{ahead};
    next->setContentsMargins(0, 0, grid(2), 0);
    next->setSpacing(grid(1));
    next->addWidget(makeLabel(tr("The day after"), TextSize::small, Tone::quiet, ahead));
    if (sheet_.tomorrow.empty()) next->addWidget(makeLabel(tr("No pour and no visit."), TextSize::body, Tone::quiet, ahead));
    addItems(*next, sheet_.tomorrow, true);
    next->addStretch(1);
    next->addWidget(makeLabel(tr("Wet concrete burns skin and eyes: gloves, boots, wash at once. Cut wet against silica dust. Local code and the building department go over any figure here."),
                              TextSize::small, Tone::quiet, ahead));
    static_cast<QScrollArea*>(outlook_)->setWidget(ahead);
    for (auto* form : forms_) form->refresh();
    emit answerChanged();
}

void DaySheetPage::addItems(QVBoxLayout& into, const std::vector<DayItem>& items, bool dimmed)
{
    std::optional<DaySection> section;
    QFrame* sheet = nullptr;
    QVBoxLayout* lines = nullptr;
    for (const auto& item : items) {
        if (section != item.section) {
            section = item.section;
            into.addSpacing(grid(2));
            into.addWidget(makeLabel(qs(labelOf(item.section)), TextSize::small, Tone::quiet));
            sheet = new QFrame;
            setRole(*sheet, "sheet");
            lines = new QVBoxLayout{sheet};
            lines->setContentsMargins(grid(3), grid(1), grid(2), grid(1));
            lines->setSpacing(0);
            into.addWidget(sheet);
        }
        auto* line = new QHBoxLayout;
        line->setSpacing(grid(3));
        auto* words = new QVBoxLayout;
        words->setSpacing(0);
        auto what = qs(item.what);
        if (item.at) what.prepend(qs(item.at->shown()) + QStringLiteral("  "));
        words->addWidget(makeLabel(what, TextSize::body, dimmed ? Tone::quiet : Tone::plain, sheet));
        if (!item.why.empty()) words->addWidget(makeLabel(item.late ? tr("Late: %1").arg(qs(item.why)) : qs(item.why), TextSize::small, item.late ? Tone::wrong : Tone::quiet, sheet));
        line->addLayout(words, 1);
        // The day after is looked ahead to, not worked off.
        if (const auto& verb = dimmed ? std::string{"Open"} : item.verb; !verb.empty()) {
            auto* button = makeButton("dayVerb", qs(verb), nullptr, sheet);
            button->setAccessibleName(qs(verb) + QStringLiteral(": ") + qs(item.what));
            auto asShown = item;
            asShown.verb = verb;
            connect(button, &QPushButton::clicked, this, [this, asShown] { act(asShown); }, Qt::QueuedConnection);
            line->addWidget(button, 0, Qt::AlignTop);
        }
        auto* holder = new QWidget{sheet};
        holder->setLayout(line);
        line->setContentsMargins(0, grid(1), 0, grid(1));
        lines->addWidget(holder);
    }
}

void DaySheetPage::act(const DayItem& item)
{
    const auto& book = desk().book();
    const auto perform = [this](const Step& step) {
        if (step.possible()) desk().commitOrSay(*step.edit);
        else desk().say(qs(step.obstacle), Tone::attention);
    };
    const auto day = std::min(sheet_.date, desk().today());  // nothing is done on a day that has not come
    if (item.verb == "Done" && item.kind == RecordKind::visit) {
        if (const auto* visit = book.find(Id<Visit>{item.id})) perform(finishVisit(book, *visit, day));
    } else if (item.verb == "Done" && item.kind == RecordKind::pour) {
        if (const auto* pour = book.find(Id<Pour>{item.id})) perform(finishPour(book, *pour, day));
    } else if (item.verb == "Call" && item.kind == RecordKind::lead) {
        const auto* lead = book.find(Id<Lead>{item.id});
        if (!lead) return;
        auto called = *lead;
        called.calledOn = day;
        Edit edit{"Called " + called.name};
        edit.change(called);
        if (desk().commitOrSay(edit)) desk().open(called.id);
    } else if (item.verb == "Enter" && item.kind == RecordKind::pour && std::ranges::find(dailyKinds, item.enters) != dailyKinds.end()) {
        const auto* pour = book.find(Id<Pour>{item.id});
        if (!pour) return;
        Presets presets{{"job", Value{pour->job.value()}}, {"pour", Value{pour->id.value()}}};
        if (const auto on = pour->pouredOn ? pour->pouredOn : pour->plannedOn) presets.emplace_back("date", Value{on->days()});
        if (item.enters == RecordKind::ticket && pour->supplier) presets.emplace_back("supplier", Value{pour->supplier->value()});
        if (item.enters == RecordKind::ticket && !pour->mix.empty()) presets.emplace_back("mix", Value{pour->mix});
        const auto place = std::ranges::find(dailyKinds, item.enters) - dailyKinds.begin();
        side_->setCurrentIndex(static_cast<int>(place) + 1);
        forms_[static_cast<std::size_t>(place)]->startNew(presets);
        forms_[static_cast<std::size_t>(place)]->focusFirst();
    } else {
        desk().open(item.kind, item.id);
    }
}

void DaySheetPage::enter(RecordKind kind)
{
    const auto place = std::ranges::find(dailyKinds, kind) - dailyKinds.begin();
    side_->setCurrentIndex(static_cast<int>(place) + 1);
    auto* form = forms_[static_cast<std::size_t>(place)];
    form->startNew();
    form->focusFirst();
}

void DaySheetPage::takeFocus()
{
    const auto buttons = scroll_->findChildren<QPushButton*>(QStringLiteral("dayVerb"));
    if (buttons.isEmpty()) dayField_->setFocus();
    else buttons.first()->setFocus();
}

void DaySheetPage::print(QPrinter& printer) const
{
    const auto paper = daySheetPaper(desk().book().settings(), sheet_);
    setUpPage(printer, paper);
    strikeoff::print(printer, paper);
}

bool DaySheetPage::hasUnsaved() const
{
    return std::ranges::any_of(forms_, [](const auto* form) { return form->hasDrafts(); });
}

}

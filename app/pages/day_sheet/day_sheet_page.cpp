#include "pages/day_sheet/day_sheet_page.h"

#include "form/payment_split.h"
#include "form/record_form.h"
#include "form/visit_strip.h"
#include "job/steps.h"
#include "labels.h"
#include "pages/visits/forecast_sheet.h"
#include "paper/paper_print.h"
#include "paper/papers.h"
#include "visits/run_sheet.h"

#include <QCheckBox>
#include <QFrame>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QStackedWidget>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

namespace {

/// What is entered here, with its button; the letter behind the ampersand enters it with Alt.
struct DailyKind {
    RecordKind kind;
    const char* words;
    const char* keys;
};
constexpr std::array dailyKinds{DailyKind{RecordKind::lead, QT_TRANSLATE_NOOP("DaySheetPage", "New &lead"), "Alt+L"},
                                DailyKind{RecordKind::ticket, QT_TRANSLATE_NOOP("DaySheetPage", "&Ticket"), "Alt+T"},
                                DailyKind{RecordKind::hours, QT_TRANSLATE_NOOP("DaySheetPage", "H&ours"), "Alt+O"},
                                DailyKind{RecordKind::receipt, QT_TRANSLATE_NOOP("DaySheetPage", "&Receipt"), "Alt+R"},
                                DailyKind{RecordKind::payment, QT_TRANSLATE_NOOP("DaySheetPage", "&Payment"), "Alt+P"}};

bool isEnteredHere(RecordKind kind)
{
    return std::ranges::any_of(dailyKinds, [&](const auto& daily) { return daily.kind == kind; });
}

bool isPaperwork(const DayItem& item) { return item.section == DaySection::paper || item.section == DaySection::money; }

std::vector<DayItem> only(const std::vector<DayItem>& items, bool paperwork)
{
    std::vector<DayItem> some;
    std::ranges::copy_if(items, std::back_inserter(some), [&](const auto& item) { return isPaperwork(item) == paperwork; });
    return some;
}

QScrollArea* makeScroll(QWidget* parent)
{
    auto* scroll = new QScrollArea{parent};
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    return scroll;
}

/// Puts a new body into a scroll area and leaves it where it was scrolled to.
void putBody(QScrollArea& scroll, QWidget* body)
{
    const int at = scroll.verticalScrollBar()->value();
    scroll.setWidget(body);
    QTimer::singleShot(0, &scroll, [&scroll, at] { scroll.verticalScrollBar()->setValue(at); });
}

/// What a box is ticked for, over as many lines as it needs; a box's own words would make the column as wide as the longest of them.
class TickedWords : public QLabel {
public:
    TickedWords(const QString& words, QCheckBox& box, QWidget* parent) : QLabel{words, parent}, box_{box}
    {
        setTextFormat(Qt::PlainText);
        setWordWrap(true);
    }

protected:
    void mousePressEvent(QMouseEvent*) override { box_.click(); }

private:
    QCheckBox& box_;
};

}

DaySheetPage::DaySheetPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(2));
    buildBar(*layout);
    weather_ = new QVBoxLayout;
    weather_->setSpacing(0);
    layout->addLayout(weather_);
    visit_ = new VisitStrip{desk, this};
    layout->addWidget(visit_);
    connect(visit_, &VisitStrip::put, this, &DaySheetPage::takeFocus);
    middle_ = new QStackedWidget{this};
    auto* lines = new QWidget{middle_};
    auto* columns = new QHBoxLayout{lines};
    columns->setContentsMargins(0, 0, 0, 0);
    columns->setSpacing(grid(4));
    left_ = makeScroll(this);
    columns->addWidget(left_, 5);
    side_ = new QStackedWidget{this};
    right_ = makeScroll(this);
    side_->addWidget(right_);
    buildForms();
    columns->addWidget(side_, 4);
    middle_->addWidget(lines);
    forecast_ = new ForecastSheet{desk, middle_};
    forecast_->setLeavable(true);
    connect(forecast_, &ForecastSheet::left, this, &DaySheetPage::leaveForecast);
    middle_->addWidget(forecast_);
    if (forecast_->hasUnsaved()) middle_->setCurrentWidget(forecast_);  // half typed when the program broke off
    layout->addWidget(middle_, 1);
}

void DaySheetPage::buildBar(QVBoxLayout& into)
{
    auto* bar = new QHBoxLayout;
    bar->setSpacing(grid(2));
    auto* before = makeButton("dayBefore", tr("Day before"), nullptr, this);
    auto* after = makeButton("dayAfter", tr("Day after"), nullptr, this);
    backToToday_ = makeButton("dayToday", tr("Today"), nullptr, this);
    dayField_ = new QLineEdit{this};
    dayField_->setObjectName(QStringLiteral("day"));
    dayField_->setAccessibleName(tr("The day shown"));
    dayField_->setMaximumWidth(grid(32));
    for (auto* widget : std::initializer_list<QWidget*>{before, dayField_, after, backToToday_}) bar->addWidget(widget);
    bar->addStretch(1);
    bar->addWidget(makeLabel(tr("Enter:"), TextSize::body, Tone::quiet, this));
    for (const auto& daily : dailyKinds) {
        auto* button = makeButton("enter", tr(daily.words), nullptr, this);
        button->setToolTip(QString::fromLatin1(daily.keys));
        button->setEnabled(!desk().store().isReadOnly());
        connect(button, &QPushButton::clicked, this, [this, kind = daily.kind] { enter(kind); });
        bar->addWidget(button);
    }
    into.addLayout(bar);
    connect(before, &QPushButton::clicked, this, [this] { turnTo(sheet_.date - 1); });
    connect(after, &QPushButton::clicked, this, [this] { turnTo(sheet_.date + 1); });
    connect(backToToday_, &QPushButton::clicked, this, [this] { turnTo(desk().today()); });
    connect(dayField_, &QLineEdit::returnPressed, this, [this] {
        if (const auto day = Date::read(utf8(dayField_->text()), desk().today())) turnTo(*day);
        else desk().say(tr("Write the day like today, fri, 6/12 or 2026-06-12."), Tone::attention);
    });
}

void DaySheetPage::buildForms()
{
    for (const auto& daily : dailyKinds) {
        auto* sheet = new QFrame{this};
        setRole(*sheet, "sheet");
        auto* inside = new QVBoxLayout{sheet};
        inside->setContentsMargins(grid(4), grid(3), grid(4), grid(3));
        auto* form = new RecordForm{desk(), daily.kind, layoutFor(daily.kind), sheet};
        inside->addWidget(form);
        connect(form, &RecordForm::left, this, &DaySheetPage::leaveForm);
        if (daily.kind == RecordKind::payment) split_ = new PaymentSplit{desk(), *form};
        forms_.push_back(form);
        side_->addWidget(sheet);
    }
}

QString DaySheetPage::question() const { return day_ ? tr("What needs me on %1?").arg(qs(day_->shownShort())) : tr("What needs me today?"); }

int DaySheetPage::waiting() const
{
    const auto today = desk().today();
    const bool asShown = sheet_.date == today && version_ == desk().book().version();
    return static_cast<int>(asShown ? sheet_.items.size() : daySheet(desk().costs(), today).items.size());
}

void DaySheetPage::turnTo(Date day)
{
    day_ = day == desk().today() ? std::nullopt : std::optional{day};
    last_.reset();
    refresh();
}

void DaySheetPage::refresh()
{
    const auto* line = focused();
    const auto place = line ? std::optional{line->place} : std::nullopt;
    sheet_ = daySheet(desk().costs(), day_.value_or(desk().today()));
    version_ = desk().book().version();
    answer_ = qs(sheet_.answer);
    if (!dayField_->hasFocus()) dayField_->setText(qs(sheet_.date.shownShort()));
    backToToday_->setVisible(day_.has_value());
    lines_.clear();
    showWeather();
    fillDay();
    fillPapers();
    if (place) focusNear(*place);
    forecast_->refresh();
    for (auto* form : forms_) form->refresh();
    split_->refresh();
    emit answerChanged();
}

void DaySheetPage::showWeather()
{
    while (auto* item = weather_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    weather_->addWidget(makeLabel(qs(sheet_.weather), TextSize::body, Tone::quiet, this));
    for (const auto& warning : sheet_.warnings) weather_->addWidget(makeLabel(tr("Mind: %1").arg(qs(warning)), TextSize::body, Tone::attention, this));
    if (!sheet_.forecastMissing || sheet_.date < desk().today()) return;
    auto* missing = new QWidget{this};
    auto* line = new QHBoxLayout{missing};
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(grid(2));
    auto* words = makeLabel(tr("Mind: no forecast is entered for %1, so its weather is unknown.").arg(qs((sheet_.date + 1).shownShort())), TextSize::body, Tone::attention, missing);
    line->addWidget(words, 1);
    auto* enter = makeButton("enterForecast", tr("Enter the forecast"), nullptr, missing);
    enter->setEnabled(!desk().store().isReadOnly());
    connect(enter, &QPushButton::clicked, this, &DaySheetPage::enterForecast, Qt::QueuedConnection);
    line->addWidget(enter);
    weather_->addWidget(missing);
}

void DaySheetPage::enterForecast()
{
    middle_->setCurrentWidget(forecast_);
    forecast_->takeFocus();
}

void DaySheetPage::leaveForecast()
{
    middle_->setCurrentIndex(0);
    takeFocus();
}

void DaySheetPage::showRunSheet()
{
    showPrintPreview(this, runSheetPaper(desk().book().settings(), runSheet(desk().book(), sheet_.date + 1)));
}

/// What goes on the truck tonight, to be ticked off.
void DaySheetPage::addChecklist(QVBoxLayout& into)
{
    if (sheet_.loadOut.items.empty()) return;
    if (loadedFor_ != sheet_.date) {
        loadedFor_ = sheet_.date;
        loaded_.clear();
    }
    auto* sheet = new QFrame;
    setRole(*sheet, "sheet");
    auto* lines = new QVBoxLayout{sheet};
    lines->setContentsMargins(grid(3), grid(2), grid(2), grid(2));
    lines->setSpacing(0);
    auto* head = new QHBoxLayout;
    head->addWidget(makeLabel(tr("On the truck tonight, all of it"), TextSize::small, Tone::quiet, sheet), 1);
    auto* run = makeButton("runSheet", tr("Run sheet\u2026"), nullptr, sheet);
    connect(run, &QPushButton::clicked, this, &DaySheetPage::showRunSheet, Qt::QueuedConnection);
    head->addWidget(run);
    lines->addLayout(head);
    for (const auto& item : sheet_.loadOut.items) {
        const auto text = item.text();
        auto* box = new QCheckBox{sheet};
        box->setObjectName(QStringLiteral("loadItem"));
        box->setAccessibleName(qs(text));
        box->setChecked(loaded_.contains(text));
        connect(box, &QCheckBox::toggled, this, [this, text](bool on) {
            if (on) loaded_.insert(text);
            else loaded_.erase(text);
        });
        auto* line = new QHBoxLayout;
        line->setSpacing(grid(2));
        line->addWidget(box, 0, Qt::AlignTop);
        line->addWidget(new TickedWords{qs(text), *box, sheet}, 1, Qt::AlignVCenter);
        lines->addLayout(line);
    }
    for (const auto& caution : sheet_.loadOut.cautions) lines->addWidget(makeLabel(qs(caution), TextSize::small, Tone::quiet, sheet));
    into.addWidget(sheet);
}

void DaySheetPage::fillDay()
{
    auto* body = new QWidget;
    auto* lines = new QVBoxLayout{body};
    lines->setContentsMargins(0, 0, grid(2), 0);
    lines->setSpacing(grid(1));
    const auto today = only(sheet_.items, false);
    const auto& book = desk().book();
    if (book.count(RecordKind::job) == 0 && book.count(RecordKind::lead) == 0)
        lines->addWidget(makeLabel(tr("The book is empty. Begin with a lead (Alt+L): who asked, and for what; from there it becomes a job, a quote, a pour and an invoice. Rates (Alt+8) takes "
                                      "your crew, pay and price sheets; whole lists load from CSV files, as README says."), TextSize::body, Tone::plain, body));
    else if (today.empty()) lines->addWidget(makeLabel(tr("No pour, no visit and no call. What is planned for the day comes here by itself."), TextSize::body, Tone::quiet, body));
    const auto afterLoading = std::ranges::find_if(today, [](const auto& item) { return item.section != DaySection::loadOut; });
    addItems(*lines, {today.begin(), afterLoading}, false, false);
    addChecklist(*lines);
    addItems(*lines, {afterLoading, today.end()}, false, false);
    lines->addSpacing(grid(4));
    lines->addWidget(makeLabel(tr("The day after, %1").arg(qs((sheet_.date + 1).shownShort())), TextSize::body, Tone::quiet, body));
    if (sheet_.tomorrow.empty()) lines->addWidget(makeLabel(tr("No pour and no visit of its own."), TextSize::small, Tone::quiet, body));
    addItems(*lines, sheet_.tomorrow, false, true);
    lines->addStretch(1);
    putBody(*left_, body);
}

void DaySheetPage::fillPapers()
{
    auto* body = new QWidget;
    auto* lines = new QVBoxLayout{body};
    lines->setContentsMargins(0, 0, grid(2), 0);
    lines->setSpacing(grid(1));
    const auto papers = only(sheet_.items, true);
    if (papers.empty()) lines->addWidget(makeLabel(tr("No paper waits and no money is due."), TextSize::body, Tone::quiet, body));
    addItems(*lines, papers, true, false);
    lines->addStretch(1);
    lines->addWidget(makeLabel(tr("Wet concrete burns skin and eyes: gloves, boots, wash at once. Cut wet against silica dust. Local code and the building department go over any figure here."),
                               TextSize::small, Tone::quiet, body));
    putBody(*right_, body);
}

void DaySheetPage::addItems(QVBoxLayout& into, const std::vector<DayItem>& items, bool right, bool ahead)
{
    std::optional<DaySection> section;
    QVBoxLayout* lines = nullptr;
    bool timed = false;
    int index = 0;
    for (const auto& item : items) {
        if (section != item.section) {
            section = item.section;
            index = 0;
            timed = std::ranges::any_of(items, [&](const auto& other) { return other.section == item.section && other.at; });
            into.addSpacing(grid(2));
            into.addWidget(makeLabel(qs(labelOf(item.section)), TextSize::small, Tone::quiet));
            auto* sheet = new QFrame;
            setRole(*sheet, "sheet");
            lines = new QVBoxLayout{sheet};
            lines->setContentsMargins(grid(3), grid(1), grid(2), grid(1));
            lines->setSpacing(0);
            into.addWidget(sheet);
        }
        addLine(*lines, item, {item.section, index++, item.kind, item.id}, timed, right, ahead);
    }
}

void DaySheetPage::addLine(QVBoxLayout& into, const DayItem& item, Place place, bool timed, bool right, bool ahead)
{
    auto* holder = new QWidget;
    auto* line = new QHBoxLayout{holder};
    line->setContentsMargins(0, grid(1), 0, grid(1));
    line->setSpacing(grid(3));
    if (timed) {
        auto* at = makeLabel(item.at ? qs(item.at->shown()) : QString{}, TextSize::body, ahead ? Tone::quiet : Tone::plain, holder);
        at->setWordWrap(false);
        at->setFixedWidth(QFontMetrics{textFont(TextSize::body)}.horizontalAdvance(QStringLiteral("12:00 pm")) + 1);
        at->setAlignment(Qt::AlignRight | Qt::AlignTop);
        line->addWidget(at, 0, Qt::AlignTop);
    }
    auto* words = new QVBoxLayout;
    words->setSpacing(0);
    words->addWidget(makeLabel(qs(item.what), TextSize::body, ahead ? Tone::quiet : Tone::plain, holder));
    if (!item.why.empty()) words->addWidget(makeLabel(item.late ? tr("Late: %1").arg(qs(item.why)) : qs(item.why), TextSize::small, item.late ? Tone::wrong : Tone::quiet, holder));
    words->addStretch(1);
    line->addLayout(words, 1);
    // The day after is looked ahead to, not worked off.
    if (const auto& verb = ahead ? std::string{"Open"} : item.verb; !verb.empty()) {
        auto* button = makeButton("dayVerb", qs(verb), nullptr, holder);
        button->setAccessibleName(qs(verb) + QStringLiteral(": ") + qs(item.what));
        button->setMinimumWidth(grid(16));
        button->installEventFilter(this);
        auto asShown = item;
        asShown.verb = verb;
        connect(button, &QPushButton::clicked, this, [this, asShown] { act(asShown); }, Qt::QueuedConnection);
        line->addWidget(button, 0, Qt::AlignTop);
        lines_.push_back({place, button, holder, right, ahead});
    }
    into.addWidget(holder);
}

void DaySheetPage::act(const DayItem& item)
{
    const auto& book = desk().book();
    const auto day = std::min(sheet_.date, desk().today());  // nothing is done on a day that has not come
    if ((item.verb == "Done" || item.verb == "Call") && item.kind == RecordKind::visit) {  // a reseal call may become a lead
        if (const auto* visit = book.find(Id<Visit>{item.id})) visit_->ask(*visit, day);
    } else if (item.verb == "Done" && item.kind == RecordKind::pour) {
        if (const auto* pour = book.find(Id<Pour>{item.id})) desk().perform(finishPour(book, *pour, day));
    } else if (item.verb == "Call" && item.kind == RecordKind::lead) {
        const auto* lead = book.find(Id<Lead>{item.id});
        if (!lead) return;
        auto called = *lead;
        called.calledOn = day;
        Edit edit{"Called " + called.name};
        edit.change(called);
        if (desk().commitOrSay(edit)) desk().open(called.id);
    } else if (item.verb == "Enter" && item.kind == RecordKind::pour && isEnteredHere(item.enters)) {
        const auto* pour = book.find(Id<Pour>{item.id});
        if (!pour) return;
        Presets presets{{"job", Value{pour->job.value()}}, {"pour", Value{pour->id.value()}}};
        if (const auto on = pour->pouredOn ? pour->pouredOn : pour->plannedOn) presets.emplace_back("date", Value{on->days()});
        if (item.enters == RecordKind::ticket && pour->supplier) presets.emplace_back("supplier", Value{pour->supplier->value()});
        if (item.enters == RecordKind::ticket && !pour->mix.empty()) presets.emplace_back("mix", Value{pour->mix});
        enter(item.enters, presets);
    } else {
        desk().open(item.kind, item.id);
    }
}

void DaySheetPage::enter(RecordKind kind, const Presets& presets)
{
    if (kind == RecordKind::hours && presets.empty()) return desk().enterHours(std::min(sheet_.date, desk().today()));  // the whole crew's, on one sheet
    const auto place = std::ranges::find(dailyKinds, kind, &DailyKind::kind) - dailyKinds.begin();
    side_->setCurrentIndex(static_cast<int>(place) + 1);
    auto* form = forms_[static_cast<std::size_t>(place)];
    form->startNew(presets);
    form->focusFirst();
}

void DaySheetPage::leaveForm()
{
    side_->setCurrentWidget(right_);
    takeFocus();
}

const DaySheetPage::Line* DaySheetPage::focused() const
{
    const auto* focus = window()->focusWidget();  // also while the window is not the active one
    const auto found = std::ranges::find_if(lines_, [&](const Line& line) { return line.button == focus; });
    return found == lines_.end() ? nullptr : &*found;
}

void DaySheetPage::focusLine(const Line& line)
{
    if (line.right && side_->currentWidget() != right_) return;
    line.button->setFocus(Qt::OtherFocusReason);
}

void DaySheetPage::focusNear(const Place& place)
{
    const Line* same = nullptr;
    const Line* inPlace = nullptr;
    const Line* after = nullptr;
    const Line* before = nullptr;
    for (const auto& line : lines_) {
        if (line.ahead || (line.right && side_->currentWidget() != right_)) continue;
        const auto& other = line.place;
        if (other.section == place.section && other.kind == place.kind && other.id == place.id && !same) same = &line;
        if (other.section == place.section && other.index <= place.index) inPlace = &line;  // the next one has moved up into its place
        if (other.section > place.section && !after) after = &line;
        if (other.section < place.section) before = &line;
    }
    for (const auto* line : {same, inPlace, after, before})
        if (line) return focusLine(*line);
    dayField_->setFocus();
}

void DaySheetPage::takeFocus()
{
    if (middle_->currentWidget() == forecast_) return forecast_->takeFocus();
    if (last_) return focusNear(*last_);
    const auto first = std::ranges::find_if(lines_, [](const Line& line) { return !line.ahead; });
    if (first == lines_.end()) dayField_->setFocus();
    else focusLine(*first);
}

bool DaySheetPage::step(Qt::Key key)
{
    const auto* from = focused();
    if (!from) return false;
    const auto heightOf = [this](const Line& line) { return line.button->mapTo(this, QPoint{}).y(); };
    const Line* to = nullptr;
    if (key == Qt::Key_Up || key == Qt::Key_Down) {
        for (const auto& line : lines_) {
            if (line.right != from->right) continue;
            if (key == Qt::Key_Up && &line < from) to = &line;
            if (key == Qt::Key_Down && &line > from && !to) to = &line;
        }
    } else {
        const bool right = key == Qt::Key_Right;
        if (right == from->right) return false;
        for (const auto& line : lines_)
            if (line.right == right && (!to || std::abs(heightOf(line) - heightOf(*from)) < std::abs(heightOf(*to) - heightOf(*from)))) to = &line;
    }
    if (!to) return false;
    focusLine(*to);
    return true;
}

bool DaySheetPage::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::FocusIn) {
        const auto found = std::ranges::find_if(lines_, [&](const Line& line) { return line.button == watched; });
        if (found != lines_.end()) {
            last_ = found->place;
            (found->right ? right_ : left_)->ensureWidgetVisible(found->holder, 0, grid(8));
        }
    }
    if (event->type() == QEvent::KeyPress) {
        const auto& key = *static_cast<QKeyEvent*>(event);
        const auto which = static_cast<Qt::Key>(key.key());
        const bool arrow = which == Qt::Key_Up || which == Qt::Key_Down || which == Qt::Key_Left || which == Qt::Key_Right;
        if (arrow && !(key.modifiers() & (Qt::AltModifier | Qt::ControlModifier | Qt::ShiftModifier))) {
            step(which);
            return true;
        }
    }
    return Page::eventFilter(watched, event);
}

std::optional<PaperDocument> DaySheetPage::paper() const { return daySheetPaper(desk().book().settings(), sheet_); }

bool DaySheetPage::hasUnsaved() const
{
    return split_->isTouched() || forecast_->hasUnsaved() || std::ranges::any_of(forms_, [](const auto* form) { return form->hasDrafts(); });
}

}

#include "pages/hours_sheet/hours_sheet_page.h"

#include "labels.h"
#include "labor/crew_week.h"
#include "pages/hours_sheet/hours_model.h"
#include "paper/papers.h"
#include "table/grid_view.h"
#include "table/record_table.h"

#include <QBoxLayout>
#include <QHeaderView>
#include <QLineEdit>
#include <QPushButton>
#include <QShortcut>

#include <algorithm>

namespace strikeoff {

namespace {

std::vector<Column> weekColumns(Date from)
{
    std::vector<Column> columns{{.heading = HoursSheetPage::tr("Person"), .width = 18, .stretches = true}};
    for (int i = 0; i < 7; ++i) {
        const auto day = from + i;
        columns.push_back({.heading = qs(day.shownShort().substr(0, 3)), .align = Align::right, .width = 5, .dashWhenBlank = false, .tip = qs(day.shown())});
    }
    for (const auto& heading : {HoursSheetPage::tr("Straight, h"), HoursSheetPage::tr("Overtime, h"), HoursSheetPage::tr("Gross, $"), HoursSheetPage::tr("Burden, $"), HoursSheetPage::tr("True cost, $")})
        columns.push_back({.heading = heading, .align = Align::right, .width = 8, .dashWhenBlank = false});
    return columns;
}

Cell timeCell(Minutes minutes) { return minutes == Minutes{} ? Cell{} : minutesCell(minutes); }

}

HoursSheetPage::HoursSheetPage(Desk& desk, QWidget* parent) : Page{desk, parent}, drafts_{desk, "hours of a day", [this] { return typedDraft(); }}
{
    model_ = new HoursModel{desk, this};
    view_ = new GridView{tr("Hours of the day"), *model_, desk, this};
    view_->verticalHeader()->setFixedWidth(grid(48));
    view_->verticalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignTop);
    view_->verticalHeader()->setStyleSheet(QStringLiteral("QHeaderView::section { padding-top: 7px; }"));  // on a line with the cells
    setFocusProxy(view_);

    auto* bar = new QHBoxLayout;
    bar->setSpacing(grid(2));
    auto* before = makeButton("dayBefore", tr("Day before"), nullptr, this);
    day_ = new QLineEdit{this};
    day_->setObjectName(QStringLiteral("sheetDay"));
    day_->setAccessibleName(tr("The day of the sheet"));
    day_->setMaximumWidth(grid(36));
    auto* after = makeButton("dayAfter", tr("Day after"), nullptr, this);
    auto* copy = makeButton("copyDay", tr("As the day before"), nullptr, this);
    copy->setToolTip(tr("Fills the sheet as on the last day with hours (Alt+D)"));
    auto* same = makeButton("sameForAll", tr("Same for everybody"), nullptr, this);
    same->setToolTip(tr("Puts this cell into the whole column (Alt+A)"));
    auto* except = makeButton("allButThis", tr("All but this one"), nullptr, this);
    except->setToolTip(tr("Puts what stands in this column into every cell of it but this one (Alt+X)"));
    putBack_ = makeButton("putBackSheet", tr("Put back as saved"), nullptr, this);
    save_ = makeButton("saveSheet", tr("Save the day"), "main", this);
    save_->setToolTip(tr("Saves and goes on to the next day (Ctrl+Enter)"));
    for (auto* widget : std::initializer_list<QWidget*>{before, day_, after}) bar->addWidget(widget);
    bar->addStretch(1);
    for (auto* button : {copy, same, except, save_}) bar->addWidget(button);

    auto* hint = makeLabel(tr("Job number, then the phase by its first letters, then each person: hours like 8 or 7:30, or from and to like 7-3:30. Enter goes down, then to the next job; Ctrl+Enter saves."),
                           TextSize::small, Tone::quiet, this);
    weekWords_ = makeLabel({}, TextSize::body, Tone::plain, this);
    week_ = new RecordTable{tr("Crew week"), weekColumns(desk.today()), desk, this};
    week_->setFilterVisible(false);
    week_->setEmptyText(tr("No hours in this week yet."));
    cautions_ = makeLabel({}, TextSize::small, Tone::attention, this);

    auto* rows = new QVBoxLayout{this};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(grid(2));
    rows->addLayout(bar);
    rows->addWidget(view_, 3);
    auto* below = new QHBoxLayout;
    below->setSpacing(grid(2));
    below->addWidget(hint, 1);
    below->addWidget(putBack_, 0, Qt::AlignTop);
    rows->addLayout(below);
    rows->addWidget(weekWords_);
    rows->addWidget(week_, 2);
    rows->addWidget(cautions_);

    connect(before, &QPushButton::clicked, this, [this] { turnTo(model_->day() - 1); });
    connect(after, &QPushButton::clicked, this, [this] { turnTo(model_->day() + 1); });
    connect(day_, &QLineEdit::returnPressed, this, [this] {
        if (const auto day = Date::read(utf8(day_->text()), this->desk().today())) turnTo(*day);
        else this->desk().say(tr("Write the day like today, fri, 6/12 or 2026-06-12."), Tone::attention);
    });
    // Keys of their own rather than the buttons': those would take the keyboard away from the cell for a moment.
    const auto does = [this](QPushButton* button, const char* keys, auto work) {
        connect(button, &QPushButton::clicked, this, work);
        connect(new QShortcut{QKeySequence{QString::fromLatin1(keys)}, this, nullptr, nullptr, Qt::WidgetWithChildrenShortcut}, &QShortcut::activated, this, work);
    };
    does(copy, "Alt+D", [this] {
        view_->setFocus();  // an open cell is taken in first
        model_->copyDayBefore();
        takeFocus();
    });
    does(same, "Alt+A", [this] { fill(false); });
    does(except, "Alt+X", [this] { fill(true); });
    connect(putBack_, &QPushButton::clicked, this, &HoursSheetPage::putBack);
    connect(save_, &QPushButton::clicked, this, &HoursSheetPage::save);
    connect(view_, &GridView::saveWanted, this, &HoursSheetPage::save);
    const auto widen = [this] {
        const QFontMetrics figures{figureFont()};
        for (int column = 0; column < model_->columnCount(); ++column)
            view_->setColumnWidth(column, figures.horizontalAdvance(u'0') * (column == HoursModel::lunchColumn ? 8 : 13) + grid(6));
    };
    if (const auto draft = drafts_.kept()) {
        model_->putTyped(draft->rows);
        begun_ = true;
    }
    connect(model_, &HoursModel::wordsChanged, this, &HoursSheetPage::showState);
    connect(model_, &HoursModel::modelReset, this, widen);
    connect(model_, &HoursModel::columnsInserted, this, widen);
    widen();
    showState();
}

Draft HoursSheetPage::typedDraft() const { return {0, 0, tr("the hours of %1").arg(qs(model_->day().shownShort())), model_->typedRows()}; }

void HoursSheetPage::showState()
{
    putBack_->setVisible(model_->hasChanged());
    if (model_->hasChanged()) drafts_.wasTyped();
    else drafts_.keepNow();
}

void HoursSheetPage::putBack()
{
    model_->showDay(model_->day());
    refresh();
    takeFocus();
}

Date HoursSheetPage::dayToType() const
{
    std::optional<Date> last;
    for (const auto& row : desk().book().all<Hours>())
        if (row.date <= desk().today() && (!last || row.date > *last)) last = row.date;
    if (!last) return desk().today();
    auto next = *last + 1;
    if (next.weekday() == 0) next = next + 1;
    return std::min(next, desk().today());
}

void HoursSheetPage::refresh()
{
    if (!begun_) model_->showDay(dayToType());
    else if (!model_->hasChanged()) model_->showDay(model_->day());
    begun_ = true;
    if (!day_->hasFocus()) day_->setText(qs(model_->day().shownShort()));
    save_->setEnabled(!desk().store().isReadOnly());
    showWeek();
}

void HoursSheetPage::showWeek()
{
    const auto& book = desk().book();
    const auto week = crewWeek(book, LaborCost{book}, model_->day());
    answer_ = qs(week.answer);
    weekWords_->setText(tr("The week from %1 to %2, as saved").arg(qs(week.from.shownShort()), qs(week.to.shownShort())));
    week_->model().setColumns(weekColumns(week.from));
    std::vector<TableRow> rows;
    const auto row = [&](RecordRef record, const QString& name, const std::vector<Minutes>& days, const WeekPay& pay, bool apart) {
        TableRow made{record, {textCell(name)}, {}, apart};
        for (const auto day : days) made.cells.push_back(timeCell(day));
        made.cells.push_back(minutesCell(pay.straightMinutes()));
        made.cells.push_back(timeCell(pay.overtime + pay.doubled));
        for (const auto money : {pay.gross(), pay.burdenTotal(), pay.trueCost()}) made.cells.push_back(moneyCell(money));
        rows.push_back(std::move(made));
    };
    for (const auto& mine : week.people)
        row({RecordKind::crewMember, mine.person->id.value()}, qs(mine.person->name), mine.minutesByDay(), mine.pay, false);
    if (!week.people.empty()) row({}, tr("All"), week.minutesByDay(), week.all, true);
    week_->setRows(std::move(rows));
    QStringList cautions;
    // The last one, whom to ask, stands under the page already.
    for (std::size_t i = 0; i + 1 < week.cautions.size(); ++i) cautions << qs(week.cautions[i]);
    cautions_->setText(cautions.join(u' '));
    cautions_->setVisible(!cautions.isEmpty());
    emit answerChanged();
}

void HoursSheetPage::takeFocus()
{
    view_->setFocus();
    const auto at = view_->currentIndex();
    if (at.isValid()) view_->typeAt(at.row(), at.column());
    else view_->typeAt(HoursModel::jobRow, model_->columnToType(HoursModel::jobRow));
}

bool HoursSheetPage::hasUnsaved() const { return model_->hasChanged(); }

std::optional<PaperDocument> HoursSheetPage::paper() const
{
    const auto& book = desk().book();
    return crewWeekPaper(book.settings(), crewWeek(book, LaborCost{book}, model_->day()));
}

bool HoursSheetPage::showDay(Date day)
{
    begun_ = true;
    if (model_->hasChanged() && day != model_->day()) {
        desk().say(tr("The sheet of %1 is typed and not saved yet. Save it first (Ctrl+Enter).").arg(qs(model_->day().shownShort())), Tone::attention);
        return false;
    }
    if (day != model_->day()) model_->showDay(day);
    view_->setCurrentIndex({});
    refresh();
    return true;
}

void HoursSheetPage::turnTo(Date day)
{
    view_->setFocus();
    if (showDay(day)) takeFocus();
}

void HoursSheetPage::fill(bool exceptHere)
{
    const auto at = view_->currentIndex();
    view_->setFocus();
    model_->fillColumn(at, exceptHere);
    if (at.isValid()) view_->typeAt(at.row(), at.column());
}

bool HoursSheetPage::save()
{
    view_->setFocus();
    QModelIndex toType;
    const auto edit = model_->edit(toType);
    if (!edit) {
        desk().say(tr("Nothing is saved yet. %1").arg(model_->wordsAt(toType.row())), Tone::attention);
        view_->typeAt(toType.row(), toType.column());
        return false;
    }
    const auto day = model_->day();
    if (model_->isOvertaken()) {
        desk().say(tr("Nothing is saved: the hours of %1 were changed elsewhere since they were typed here. \u201cPut back as saved\u201d shows what the book says now.").arg(qs(day.shownShort())), Tone::attention);
        return false;
    }
    if (!edit->empty()) {
        const auto result = desk().commit(*edit);
        if (!result.done()) {
            desk().say(tr("Nothing is saved yet. %1").arg(sentencesOf(result)), Tone::attention);
            return false;
        }
    }
    auto next = day + 1;
    if (next.weekday() == 0) next = next + 1;
    model_->showDay(next);
    view_->setCurrentIndex({});
    refresh();
    desk().say(edit->empty() ? tr("Nothing was changed on %1.").arg(qs(day.shownShort())) : tr("Saved: hours of %1. Ctrl+Z takes them back.").arg(qs(day.shownShort())), Tone::well);
    takeFocus();
    return true;
}

}

#include "pages/keeping/removed_page.h"

#include "form/side_by_side.h"
#include "labels.h"
#include "records/record_words.h"
#include "table/record_table.h"

#include "quantity/words.h"

#include <QFrame>
#include <QGridLayout>
#include <QPushButton>
#include <QScrollArea>
#include <QTableView>
#include <QVBoxLayout>

namespace strikeoff {

RemovedPage::RemovedPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    table_ = new RecordTable{tr("Removed records"), {{.heading = tr("Removed"), .width = 19}, {.heading = tr("Record"), .width = 24, .stretches = true}, {.heading = tr("In the step"), .width = 18},
                                                     {.heading = tr("By"), .width = 12}}, desk, this};
    table_->setEmptyText(tr("Nothing was removed from this book. What you remove from now on stands here and can be brought back."));

    auto* sheet = sheet_ = new QFrame{this};
    setRole(*sheet, "sheet");
    auto* inside = new QVBoxLayout{sheet};
    inside->setContentsMargins(grid(4), grid(3), grid(4), grid(3));
    inside->setSpacing(grid(2));
    name_ = makeLabel({}, TextSize::body, Tone::plain, sheet);
    auto bold = textFont(TextSize::body);
    bold.setBold(true);
    name_->setFont(bold);
    name_->setObjectName(QStringLiteral("removedName"));
    when_ = makeLabel({}, TextSize::small, Tone::quiet, sheet);
    auto* scroll = new QScrollArea{sheet};
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    bodyHolder_ = new QWidget{scroll};
    auto* holder = new QVBoxLayout{bodyHolder_};
    holder->setContentsMargins(0, 0, grid(2), 0);
    holder->addStretch(1);
    scroll->setWidget(bodyHolder_);
    needs_ = makeLabel({}, TextSize::body, Tone::attention, sheet);
    needs_->setObjectName(QStringLiteral("removedNeeds"));
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(grid(2));
    step_ = makeButton("bringBackStep", {}, nullptr, sheet);
    back_ = makeButton("bringBack", tr("Bring back"), "main", sheet);
    buttons->addStretch(1);
    buttons->addWidget(step_);
    buttons->addWidget(back_);
    inside->addWidget(name_);
    inside->addWidget(when_);
    inside->addWidget(scroll, 1);
    inside->addWidget(needs_);
    inside->addLayout(buttons);

    putSideBySide(this, table_, sheet, 60, desk.preferences(), table_->name());

    connect(table_, &RecordTable::currentChanged, this, &RemovedPage::showCurrent);
    connect(table_, &RecordTable::opened, this, [this] {
        if (back_->isEnabled()) back_->setFocus(Qt::TabFocusReason);
    });
    connect(back_, &QPushButton::clicked, this, [this] {
        if (current_) bringBack({*current_});
    });
    connect(step_, &QPushButton::clicked, this, [this] {
        if (!current_) return;
        auto places = removed_->ofSameStep(*current_);
        places.insert(places.begin(), *current_);
        bringBack(places);
    });
    showCurrent();
}

QString RemovedPage::answer() const { return removed_ ? qs(removed_->answer()) : QString{}; }

void RemovedPage::refresh()
{
    current_.reset();
    desk().guarded(tr("Removed records"), [&] { removed_ = std::make_unique<RemovedRows>(desk().store()); });
    if (!removed_) return;
    std::vector<TableRow> rows;
    for (std::size_t i = 0; i < removed_->rows().size(); ++i) {
        const auto& change = removed_->rows()[i];
        QString words;
        for (const auto& value : change.before->values)
            if (const auto* text = std::get_if<std::string>(&value)) words += qs(*text) + u' ';
        rows.push_back({{change.kind, change.id}, {{localTime(change.entry.at), Value{change.entry.at}, Tone::plain, {}}, textCell(qs(removed_->name(i))), textCell(entryWords(change.entry)),
                                                   textCell(qs(change.entry.desk))}, words, false});
    }
    const auto first = rows.empty() ? RecordRef{} : rows.front().record;
    table_->setRows(std::move(rows));
    if (first && !table_->current()) table_->select(first);
    showCurrent();
    emit answerChanged();
}

void RemovedPage::showCurrent()
{
    current_.reset();
    const auto record = table_->current();
    for (std::size_t i = 0; removed_ && record && i < removed_->rows().size(); ++i)
        if (removed_->rows()[i].kind == record.kind && removed_->rows()[i].id == record.id) current_ = i;
    delete body_;
    body_ = nullptr;
    for (auto* widget : std::initializer_list<QWidget*>{needs_, step_, back_, when_}) widget->setVisible(current_.has_value());
    sheet_->setVisible(removed_ && !removed_->rows().empty());  // with nothing to tell there is only the list, which says so
    if (!current_) {
        name_->setText(removed_ && !removed_->rows().empty() ? tr("Choose a record to see what it held.") : QString{});
        return;
    }
    const auto& change = removed_->rows()[*current_];
    name_->setText(qs(removed_->name(*current_)));
    when_->setText(tr("Removed %1 by %2 in the step \u201c%3\u201d. This is what it held:").arg(localTime(change.entry.at), qs(change.entry.desk), entryWords(change.entry)));
    body_ = new QWidget{bodyHolder_};
    auto* lines = new QGridLayout{body_};
    lines->setContentsMargins(0, 0, 0, 0);
    lines->setHorizontalSpacing(grid(4));
    lines->setColumnStretch(1, 1);
    const auto fields = describe(change.kind).fields;
    int line = 0;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const auto words = removed_->words(fields[i], change.before->values[i]);
        if (words.empty() || (fields[i].type == FieldType::boolean && words == "no")) continue;
        auto* label = makeLabel(qs(fields[i].label), TextSize::body, Tone::quiet, body_);
        label->setWordWrap(false);
        lines->addWidget(label, line, 0, Qt::AlignTop);
        lines->addWidget(makeLabel(qs(words), TextSize::body, Tone::plain, body_), line, 1);
        ++line;
    }
    static_cast<QVBoxLayout*>(bodyHolder_->layout())->insertWidget(0, body_);
    const auto hindrance = qs(removed_->hindrance(*current_));
    QStringList needed;
    for (const auto place : removed_->needed(*current_)) needed << qs(removed_->name(place));
    needs_->setText(!hindrance.isEmpty() ? tr("It cannot come back: %1.").arg(hindrance) : needed.isEmpty() ? QString{} : tr("What it refers to was removed too and comes back with it: %1.").arg(needed.join(QStringLiteral("; "))));
    needs_->setVisible(!needs_->text().isEmpty());
    const bool writable = !desk().store().isReadOnly();
    back_->setEnabled(writable && hindrance.isEmpty());
    const auto others = removed_->ofSameStep(*current_).size();
    step_->setText(tr("All %1 of that step").arg(others + 1));
    step_->setVisible(others > 0);
    step_->setEnabled(writable && hindrance.isEmpty());
}

void RemovedPage::bringBack(const std::vector<std::size_t>& places)
{
    const auto name = qs(removed_->name(places.front()));
    const auto changes = removed_->withNeeded(places);
    const auto count = changes.size();
    CommitResult result;
    if (!desk().guarded(tr("Bring back"), [&] { result = desk().store().bringBack(changes); })) return;
    if (!result.done()) {
        desk().say(tr("%1 did not come back: %2").arg(name, sentencesOf(result)), Tone::wrong);
        return;
    }
    desk().say(count == 1 ? tr("%1 is back as it was. Undo takes it out again.").arg(name) : tr("%1 is back as it was, and %2 with it. Undo takes them out again.").arg(name, qs(counted(static_cast<std::int64_t>(count) - 1, "other record", "other records"))),
               Tone::well);
    table_->view().setFocus();
}

void RemovedPage::takeFocus() { table_->view().setFocus(); }

}

#include "form/conflict_view.h"

#include "form/reference_edit.h"
#include "labels.h"
#include "records/record_words.h"

#include "record/field_text.h"

#include <QButtonGroup>
#include <QGridLayout>
#include <QPushButton>
#include <QRadioButton>
#include <QVBoxLayout>

namespace strikeoff {

ConflictView::ConflictView(Desk& desk, QWidget* parent) : QFrame{parent}, desk_{desk}
{
    setRole(*this, "strip");
    setTone(*this, Tone::attention);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(grid(3), grid(2), grid(3), grid(2));
    heading_ = makeLabel({}, TextSize::body, Tone::attention, this);
    layout->addWidget(heading_);
    auto* buttons = new QHBoxLayout;
    auto* keep = makeButton("conflictSave", tr("Save what is chosen"), "main", this);
    auto* leave = makeButton("conflictLeave", tr("Not now"), nullptr, this);
    buttons->addStretch(1);
    buttons->addWidget(leave);
    buttons->addWidget(keep);
    layout->addLayout(buttons);
    connect(keep, &QPushButton::clicked, this, &ConflictView::decided);
    connect(leave, &QPushButton::clicked, this, &ConflictView::putAway);
    hide();
}

void ConflictView::show(const Conflict& conflict)
{
    conflict_ = conflict;
    choices_.clear();
    delete body_;
    body_ = new QWidget{this};
    auto* table = new QGridLayout{body_};
    table->setContentsMargins(0, 0, 0, 0);
    static_cast<QVBoxLayout*>(layout())->insertWidget(1, body_);
    const auto& kind = describe(conflict.mine.kind);
    if (!conflict.theirs) {
        heading_->setText(tr("%1 was removed elsewhere while you worked on it. Saving enters it again as you have it here.").arg(qs(kind.label)));
        QFrame::show();
        return;
    }
    heading_->setText(tr("%1 was changed elsewhere while you worked on it. Choose what to keep, field by field.").arg(qs(kind.label)));
    table->addWidget(makeLabel(tr("Mine"), TextSize::small, Tone::quiet), 0, 1);
    table->addWidget(makeLabel(tr("Theirs"), TextSize::small, Tone::quiet), 0, 2);
    int line = 1;
    for (std::size_t i = 0; i < kind.fields.size(); ++i) {
        const auto& field = kind.fields[i];
        const auto& mine = conflict.mine.values[i];
        const auto& theirs = conflict.theirs->values[i];
        if (mine == theirs) continue;
        const auto shown = [&](const Value& value) {
            if (!isRecorded(value)) return tr("not recorded");
            constexpr int mostShown = 60;
            const auto text = valueWords(desk_, field, value).simplified();
            return text.size() > mostShown ? text.left(mostShown - 1) + u'\u2026' : text;
        };
        auto* group = new QButtonGroup{body_};
        auto* keepMine = new QRadioButton{withoutMnemonic(shown(mine)), body_};
        auto* takeTheirs = new QRadioButton{withoutMnemonic(shown(theirs)), body_};
        keepMine->setAccessibleName(tr("%1: mine").arg(qs(field.label)));
        takeTheirs->setAccessibleName(tr("%1: theirs").arg(qs(field.label)));
        group->addButton(keepMine);
        group->addButton(takeTheirs);
        keepMine->setChecked(true);
        table->addWidget(makeLabel(qs(field.label), TextSize::body, Tone::quiet), line, 0);
        table->addWidget(keepMine, line, 1);
        table->addWidget(takeTheirs, line, 2);
        choices_.push_back({i, keepMine, takeTheirs});
        ++line;
    }
    table->setColumnStretch(1, 1);
    table->setColumnStretch(2, 1);
    table->setHorizontalSpacing(grid(4));
    QFrame::show();
    if (!choices_.empty()) choices_.front().mine->setFocus(Qt::TabFocusReason);
}

Row ConflictView::chosen() const
{
    auto row = conflict_.mine;
    if (!conflict_.theirs) return row;
    row.revision = conflict_.theirs->revision;
    for (const auto& choice : choices_)
        if (choice.theirs->isChecked()) row.values[choice.field] = conflict_.theirs->values[choice.field];
    return row;
}

}

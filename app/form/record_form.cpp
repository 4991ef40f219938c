#include "form/record_form.h"

#include "form/conflict_view.h"
#include "form/field_editor.h"
#include "form/person_actions.h"
#include "form/place_fields.h"
#include "labels.h"
#include "records/record_words.h"

#include <QKeyEvent>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

namespace {

/// From this width on groups stand in two columns.
constexpr int twoColumns = 860;
constexpr int leastWidth = 320;

/// A row counted within its owner, as its key says (a line within its quote), goes behind those there are.
void takeNextPlace(const Book& book, Row& row)
{
    const auto& kind = describe(row.kind);
    if (kind.key.size() != 2) return;
    const auto owner = fieldIndex(kind, kind.key[0]);
    const auto place = fieldIndex(kind, kind.key[1]);
    const auto* id = std::get_if<std::int64_t>(&row.values[owner]);
    if (kind.fields[owner].type != FieldType::reference || kind.fields[place].type != FieldType::integer || !id) return;
    std::int64_t next = 1;
    for (const auto other : book.referring(row.kind, owner, *id))
        if (const auto there = book.row(row.kind, other))
            if (const auto* number = std::get_if<std::int64_t>(&there->values[place])) next = std::max(next, *number + 1);
    row.values[place] = next;
}

}

RecordForm::RecordForm(Desk& desk, RecordKind kind, FormLayout layout, QWidget* parent)
    : QWidget{parent}, desk_{desk}, kind_{kind}, layout_{std::move(layout)}, drafts_{desk, DraftKeeper::of(desk).numbered(describe(kind).name), [this] { return typedDraft(); }}
{
    build(layout_);
    drafts_.dropLost(kind_);
    startNew();
}

RecordForm::~RecordForm() = default;

void RecordForm::build(const FormLayout& layout)
{
    auto* whole = new QVBoxLayout{this};
    whole->setContentsMargins(0, 0, 0, 0);
    whole->setSpacing(grid(2));
    title_ = makeLabel({}, TextSize::body, Tone::plain, this);
    auto bold = textFont(TextSize::body);
    bold.setBold(true);
    title_->setFont(bold);
    title_->setObjectName(QStringLiteral("formTitle"));
    whole->addWidget(title_);

    auto* scroll = new QScrollArea{this};
    scroll_ = scroll;
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    auto* body = new QWidget{scroll};
    columns_ = new QBoxLayout{QBoxLayout::TopToBottom, body};
    columns_->setContentsMargins(0, 0, grid(2), 0);
    columns_->setSpacing(grid(1));
    QVBoxLayout* lines = nullptr;
    const auto nextColumn = [&] {
        auto* column = new QWidget{body};
        lines = new QVBoxLayout{column};
        lines->setContentsMargins(0, 0, 0, 0);
        lines->setSpacing(grid(1));
        columns_->addWidget(column);
    };
    nextColumn();
    const auto breakBefore = firstColumn(describe(kind_), layout);
    const auto& fields = describe(kind_).fields;
    const QFontMetrics metrics{textFont(TextSize::body)};
    std::vector<int> labelWidths;  // the first labels of all lines are of one width, the second ones too, …
    for (const auto& group : layout.groups)
        for (const auto& line : group.lines)
            for (std::size_t i = 0; i < line.size(); ++i) {
                labelWidths.resize(std::max(labelWidths.size(), i + 1));
                labelWidths[i] = std::max(labelWidths[i], metrics.horizontalAdvance(qs(fields[fieldIndex(describe(kind_), line[i])].label)) + 1);
            }
    for (std::size_t i = 0; i < layout.groups.size(); ++i) {
        const auto& group = layout.groups[i];
        if (i == breakBefore) {
            lines->addStretch(1);
            nextColumn();
        }
        if (!group.heading.isEmpty()) {
            auto* heading = makeLabel(group.heading, TextSize::small, Tone::accent, body);
            heading->setContentsMargins(0, grid(1), 0, 0);
            lines->addWidget(heading);
        }
        for (const auto& line : group.lines) addLine(*lines, line, labelWidths);
    }
    places_ = PlaceFields::among(editors_, this);
    lines->addStretch(1);
    lines_ = lines;
    scroll->setWidget(body);
    body->installEventFilter(this);
    whole->addWidget(scroll, 1);

    conflict_ = new ConflictView{desk_, this};
    whole->addWidget(conflict_);
    problem_ = makeLabel({}, TextSize::body, Tone::wrong, this);
    problem_->setObjectName(QStringLiteral("formProblem"));
    problem_->hide();
    whole->addWidget(problem_);
    locked_ = makeLabel({}, TextSize::small, Tone::quiet, this);
    locked_->setObjectName(QStringLiteral("formLocked"));
    locked_->hide();
    whole->addWidget(locked_);

    askLeave_ = new QWidget{this};
    auto* ask = new QHBoxLayout{askLeave_};
    ask->setContentsMargins(0, 0, 0, 0);
    ask->addWidget(makeLabel(tr("What you typed here is not saved."), TextSize::body, Tone::attention, askLeave_), 1);
    auto* keep = makeButton("keepTyping", tr("Go on typing"), nullptr, askLeave_);
    auto* drop = makeButton("dropTyped", tr("Put it away"), nullptr, askLeave_);
    ask->addWidget(keep);
    ask->addWidget(drop);
    askLeave_->hide();
    whole->addWidget(askLeave_);

    buttons_ = new QHBoxLayout;
    buttons_->setSpacing(grid(2));
    remove_ = makeButton("removeRecord", tr("Remove"), nullptr, this);
    history_ = makeButton("showHistory", tr("History"), nullptr, this);
    save_ = makeButton("saveRecord", tr("Save"), "main", this);
    save_->setToolTip(tr("Ctrl+S; Ctrl+Enter saves and goes on to the next"));
    buttons_->addWidget(history_);
    buttons_->addWidget(remove_);
    buttons_->addStretch(1);
    buttons_->addWidget(save_);
    whole->addLayout(buttons_);
    if (kind_ == RecordKind::customer || kind_ == RecordKind::crewMember) addPersonActions(desk_, *this);

    connect(save_, &QPushButton::clicked, this, [this] { save(); });
    connect(remove_, &QPushButton::clicked, this, &RecordForm::remove);
    connect(history_, &QPushButton::clicked, this, &RecordForm::historyWanted);
    connect(keep, &QPushButton::clicked, this, [this] {
        askLeave_->hide();
        focusFirst();
    });
    connect(drop, &QPushButton::clicked, this, [this] {
        askLeave_->hide();
        dropTyped();
        emit left();
    });
    connect(conflict_, &ConflictView::decided, this, [this] {
        const bool anew = conflict_->isRemoved();
        conflict_->hide();
        auto row = conflict_->chosen();
        if (anew) row.id = 0;
        if (commit(std::move(row), anew)) emit saved(record(), anew);
    });
    connect(conflict_, &ConflictView::putAway, conflict_, &QWidget::hide);
}

void RecordForm::addLine(QVBoxLayout& into, const std::vector<std::string>& names, const std::vector<int>& labelWidths)
{
    auto* line = new QHBoxLayout;
    line->setSpacing(grid(2));
    const auto& kind = describe(kind_);
    for (std::size_t i = 0; i < names.size(); ++i) {
        const auto& name = names[i];
        const auto& field = kind.fields[fieldIndex(kind, name)];
        std::function<std::optional<std::int64_t>()> scope;
        if (!field.scope.empty())
            scope = [this, owner = std::string{field.scope}]() -> std::optional<std::int64_t> {
                const auto* other = editor(owner);
                const auto value = other ? other->read().value : base_.value(owner);
                const auto* id = std::get_if<std::int64_t>(&value);
                return id ? std::optional{*id} : std::nullopt;
            };
        auto* box = new FieldEditor{field, desk_, std::move(scope), this};
        auto* label = makeLabel(qs(field.label), TextSize::body, Tone::plain, this);
        label->setWordWrap(false);
        label->setBuddy(&box->input());
        label->setMinimumHeight(leastTarget);
        label->setFixedWidth(labelWidths[i]);
        if (field.required) label->setToolTip(tr("must be filled in"));
        line->addWidget(label, 0, Qt::AlignTop);
        line->addWidget(box, 1, Qt::AlignTop);
        box->input().installEventFilter(this);
        connect(box, &FieldEditor::edited, this, [this, box] { wasEdited(*box); });
        connect(box, &FieldEditor::finished, this, [this, box] { QTimer::singleShot(0, box, [this, box] { goOn(*box); }); });
        editors_.push_back(box);
        byName_[name] = box;
        labels_[box] = label;
    }
    into.addLayout(line);
}

void RecordForm::putUnderFields(QWidget* widget) { lines_->insertWidget(lines_->count() - 1, widget); }

FieldEditor* RecordForm::editor(std::string_view field) const
{
    const auto found = byName_.find(field);
    return found == byName_.end() ? nullptr : found->second;
}

void RecordForm::load(Row base)
{
    loading_ = true;
    base_ = std::move(base);
    const auto& kind = describe(kind_);
    // References others are named within come first in every description, so each finds its scope in place.
    for (std::size_t i = 0; i < kind.fields.size(); ++i)
        if (auto* box = editor(kind.fields[i].name)) box->show(base_.values[i]);
    begun_.clear();
    for (auto* box : editors_) {
        begun_[std::string{box->field().name}] = box->text();
        box->setFault({});
    }
    loading_ = false;
    triedToSave_ = false;
    wasDirty_ = false;
    problem_->hide();
    askLeave_->hide();
    conflict_->hide();
    showHead();
    emit dirtyChanged();
    emit typed();
}

void RecordForm::showHead()
{
    const auto label = qs(describe(kind_).label);
    auto title = isNew() ? tr("New: %1").arg(label) : recordName(desk_.book(), record());
    if (isDirty()) title += tr(" (not saved yet)");
    title_->setText(title);
    remove_->setVisible(!isNew());
    history_->setVisible(!isNew());
    const bool locked = !locked_->text().isEmpty();
    save_->setVisible(!locked || !open_.empty());
    if (locked) remove_->hide();
    const bool readOnly = desk_.store().isReadOnly();
    save_->setEnabled(!readOnly && (isNew() || isDirty()));
    remove_->setEnabled(!readOnly);
}

bool RecordForm::isDirty() const
{
    return std::ranges::any_of(editors_, [&](const auto* box) { return begun_.at(std::string{box->field().name}) != box->text(); });
}

void RecordForm::startNew(const Presets& presets)
{
    stash();
    presets_ = presets;
    auto row = blankRow(kind_);
    const auto& fields = describe(kind_).fields;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        if (!fields[i].required) continue;
        row.values[i] = fields[i].type == FieldType::date ? Value{desk_.today().days()} : Value{};
    }
    for (const auto& [name, value] : presets) row.set(name, value);
    takeNextPlace(desk_.book(), row);
    load(std::move(row));
    takeUp(0);
}

void RecordForm::setLocked(const QString& why, const std::vector<std::string>& open)
{
    if (locked_->text() == why && open_ == open) return;
    locked_->setText(why);
    locked_->setVisible(!why.isEmpty());
    open_ = open;
    for (auto* box : editors_) box->setReadOnly(!why.isEmpty() && std::ranges::find(open_, box->field().name) == open_.end());
    showHead();
}

void RecordForm::setFieldVisible(std::string_view field, bool visible)
{
    auto* box = editor(field);
    if (!box) return;
    box->setVisible(visible);
    labels_[box]->setVisible(visible);
}

bool RecordForm::edit(std::int64_t id)
{
    if (base_.id == id && id != 0 && isDirty()) return true;
    auto row = desk_.book().row(kind_, id);
    if (!row) return false;
    stash();
    load(std::move(*row));
    takeUp(id);
    return true;
}

void RecordForm::refresh()
{
    if (isNew()) return;
    const auto now = desk_.book().row(kind_, base_.id);
    if (!now) {
        if (isDirty()) showProblems({{0, {}, utf8(tr("This record was removed elsewhere; saving enters it again."))}});
        else startNew(presets_);
        return;
    }
    if (!isDirty()) {
        if (now->revision != base_.revision || now->values != base_.values) load(*now);
    } else if (now->revision != base_.revision) {
        showProblems({{0, {}, utf8(tr("This record was changed elsewhere meanwhile; saving shows both versions."))}});
    }
}

Row RecordForm::typedRow() const
{
    auto row = base_;
    const auto& kind = describe(kind_);
    for (std::size_t i = 0; i < kind.fields.size(); ++i) {
        const auto* box = editor(kind.fields[i].name);
        if (!box) continue;
        // Untouched text is not read again: what it stands for is known exactly.
        if (const auto begun = begun_.find(std::string{kind.fields[i].name}); begun != begun_.end() && begun->second == box->text()) continue;
        const auto reading = box->read();
        if (!reading.ok()) continue;
        row.values[i] = reading.value;
        if (!isRecorded(reading.value) && !kind.fields[i].nullable && !kind.fields[i].required) row.values[i] = blankRow(kind_).values[i];
    }
    return row;
}

void RecordForm::checkEditor(FieldEditor& box)
{
    const auto place = std::ranges::find_if(places_, [&](const auto* pair) { return pair->has(box); });
    if (place != places_.end() && PlaceFields::standsIn(box)) return box.setFault((*place)->fault(box));
    const auto reading = box.read();
    auto fault = reading.fault;
    if (reading.ok() && (isRecorded(reading.value) || triedToSave_))
        for (const auto& problem : checkFields(typedRow()))
            if (problem.field == box.field().name) {
                fault = problem.message;
                break;
            }
    box.setFault(qs(fault));
}

void RecordForm::wasEdited(FieldEditor& box)
{
    const auto place = std::ranges::find_if(places_, [&](const auto* pair) { return pair->has(box); });
    const bool pasted = place != places_.end() && (*place)->cameAtOnce(box);
    if (loading_) return;
    if (pasted && takePlace(box)) return;  // both fields have said so by themselves
    checkEditor(box);
    for (auto* other : editors_)
        if (other->field().scope == box.field().name && !other->text().isEmpty()) checkEditor(*other);
    if (triedToSave_) problem_->hide();
    const bool dirty = isDirty();
    if (!dirty) askLeave_->hide();
    if (dirty != wasDirty_) {
        wasDirty_ = dirty;
        showHead();
        emit dirtyChanged();
    }
    if (dirty) drafts_.wasTyped();
    else drafts_.keepNow();
    emit typed();
}

bool RecordForm::takePlace(FieldEditor& from)
{
    const auto place = std::ranges::find_if(places_, [&](const auto* pair) { return pair->has(from); });
    return place != places_.end() && (*place)->take(from);
}

void RecordForm::showProblems(const std::vector<Problem>& problems)
{
    QStringList general;
    FieldEditor* first = nullptr;
    for (const auto& problem : problems) {
        auto* box = problem.change == 0 ? editor(problem.field) : nullptr;
        if (!box) {
            general << qs(problem.message);
            continue;
        }
        box->setFault(qs(problem.message));
        if (!first || std::ranges::find(editors_, box) < std::ranges::find(editors_, first)) first = box;
    }
    problem_->setText(general.join(u'\n'));
    problem_->setVisible(!general.isEmpty());
    if (first) first->input().setFocus();
}

bool RecordForm::save()
{
    triedToSave_ = true;
    std::vector<Problem> unread;
    for (auto* box : editors_) {
        takePlace(*box);
        const auto reading = box->read();
        if (reading.ok()) continue;
        const auto place = std::ranges::find_if(places_, [&](const auto* pair) { return pair->has(*box); });
        const auto fault = place == places_.end() ? std::string{} : utf8((*place)->fault(*box));
        unread.push_back({0, std::string{box->field().name}, fault.empty() ? reading.fault : fault});
    }
    auto row = typedRow();
    for (auto& problem : checkFields(row))
        if (std::ranges::none_of(unread, [&](const auto& known) { return known.field == problem.field; })) unread.push_back(std::move(problem));
    // A number left blank is given by the book.
    if (const auto number = numberField(describe(kind_)); number && !isRecorded(row.values[*number]))
        std::erase_if(unread, [](const auto& problem) { return problem.field == "number"; });
    if (!unread.empty()) {
        showProblems(unread);
        return false;
    }
    if (const auto hindrance = hindrance_ ? hindrance_() : QString{}; !hindrance.isEmpty()) {
        showProblems({{0, {}, utf8(hindrance)}});
        return false;
    }
    if (!isNew() && !isDirty()) return true;
    const bool wasNew = isNew();
    if (!commit(std::move(row), wasNew)) return false;
    emit saved(record(), wasNew);
    return true;
}

bool RecordForm::commit(Row row, bool anew)
{
    const auto& kind = describe(kind_);
    Edit edit{editTitle(anew ? ChangeType::add : ChangeType::change, kind, row)};
    if (anew) edit.add(std::move(row));
    else edit.change(std::move(row));
    if (also_) also_(edit, edit.changes().front().row);
    const auto before = base_.id;
    const auto result = desk_.commit(edit);
    if (!result.done()) {
        showProblems(result.problems);
        for (const auto& conflict : result.conflicts)
            if (conflict.change == 0) conflict_->show(conflict);
        return false;
    }
    drafts_.drop(draftKey(before));
    const auto id = result.ids.empty() ? before : result.ids.front();
    if (const auto now = desk_.book().row(kind_, id)) load(*now);
    return true;
}

void RecordForm::saveAndNext()
{
    const bool wasNew = isNew();
    const auto typed = typedRow();
    if (!save()) return;
    if (!wasNew) {
        emit nextWanted();
        return;
    }
    auto presets = presets_;
    for (const auto& name : layout_.carried) {
        std::erase_if(presets, [&](const auto& preset) { return preset.first == name; });
        presets.emplace_back(name, typed.value(name));
    }
    const auto keep = presets_;
    startNew(presets);
    presets_ = keep;
    focusFirst();
}

void RecordForm::remove()
{
    if (isNew()) return;
    const auto gone = record();
    Edit edit{editTitle(ChangeType::remove, describe(kind_), base_)};
    edit.remove(kind_, base_.id, base_.revision);
    const auto result = desk_.commit(edit);
    if (!result.done()) {
        auto problems = result.problems;
        for (auto& problem : problems) problem.field.clear();
        if (!result.conflicts.empty()) problems.push_back({0, {}, result.text()});
        showProblems(problems);
        return;
    }
    drafts_.drop(draftKey(gone.id));
    if (base_.id == gone.id) {
        load(base_);
        startNew(presets_);
    }
    desk_.say(tr("Removed. Undo brings it back."), Tone::quiet);
    emit removed(gone);
}

void RecordForm::focusFirst()
{
    for (auto* box : editors_) {
        if (!box->isEnabled() || box->isHidden()) continue;
        if (isNew() && !box->text().isEmpty() && box->field().type != FieldType::boolean) continue;  // what is preset need not be typed
        if (isNew() && box->field().name == "number" && !box->field().required && numberField(describe(kind_))) continue;
        box->input().setFocus(Qt::TabFocusReason);
        return;
    }
    if (!editors_.empty()) editors_.front()->input().setFocus(Qt::TabFocusReason);
}

void RecordForm::goOn(FieldEditor& from)
{
    auto at = std::ranges::find(editors_, &from);
    if (at != editors_.end()) ++at;
    while (at != editors_.end() && (*at)->isHidden()) ++at;
    if (at == editors_.end()) save_->setFocus(Qt::TabFocusReason);
    else (*at)->input().setFocus(Qt::TabFocusReason);
}

void RecordForm::leave()
{
    if (!isDirty()) {
        emit left();
        return;
    }
    askLeave_->show();
    askLeave_->findChild<QPushButton*>(QStringLiteral("keepTyping"))->setFocus();
}

void RecordForm::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    bool beside = columns_->count() > 1 && width() >= twoColumns;
    if (beside) {
        int needed = grid(8);
        for (int i = 0; i < columns_->count(); ++i) needed += columns_->itemAt(i)->minimumSize().width();
        beside = needed + grid(6) <= width();
    }
    if (beside == (columns_->direction() == QBoxLayout::LeftToRight)) return;
    columns_->setDirection(beside ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
    columns_->setSpacing(beside ? grid(8) : grid(1));
    for (int i = 0; i < columns_->count(); ++i) columns_->setStretch(i, beside || i + 1 == columns_->count() ? 1 : 0);
}

bool RecordForm::eventFilter(QObject* watched, QEvent* event)
{
    if ((event->type() == QEvent::LayoutRequest || event->type() == QEvent::Polish) && watched == scroll_->widget()) {
        // So that no field is cut off; groups that stand in two columns go back into one first.
        const bool beside = columns_->direction() == QBoxLayout::LeftToRight;
        scroll_->setMinimumWidth(beside ? leastWidth : std::max(leastWidth, scroll_->widget()->minimumSizeHint().width() + scroll_->verticalScrollBar()->sizeHint().width()));
    }
    if (event->type() != QEvent::KeyPress && event->type() != QEvent::FocusOut) return QWidget::eventFilter(watched, event);
    const auto found = std::ranges::find_if(editors_, [&](auto* box) { return &box->input() == watched; });
    if (found == editors_.end()) return QWidget::eventFilter(watched, event);
    if (event->type() == QEvent::FocusOut) {
        takePlace(**found);
        return QWidget::eventFilter(watched, event);
    }
    const auto& key = *static_cast<QKeyEvent*>(event);
    const bool enter = key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter;
    if (enter && (key.modifiers() & Qt::ControlModifier)) {
        (*found)->tidy();
        saveAndNext();
        return true;
    }
    if (enter && !(key.modifiers() & Qt::ShiftModifier) && !(*found)->keepsEnter()) {
        takePlace(**found);
        (*found)->tidy();
        goOn(**found);
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void RecordForm::keyPressEvent(QKeyEvent* event)
{
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (event->key() == Qt::Key_Escape) {
        if (askLeave_->isVisible()) {
            askLeave_->hide();
            focusFirst();
        } else leave();
    } else if (enter && (event->modifiers() & Qt::ControlModifier)) saveAndNext();
    else if (enter && save_->hasFocus()) save();
    else if (event->matches(QKeySequence::Save)) save();
    else QWidget::keyPressEvent(event);
}

}

#include "form/record_form.h"

#include "form/field_editor.h"
#include "labels.h"
#include "records/record_words.h"

/// What is half typed in a form: kept while other records are looked at, and on disk in case the program breaks off.
namespace strikeoff {

bool RecordForm::hasDrafts() const { return isDirty() || drafts_.any(); }

void RecordForm::forgetDrafts()
{
    drafts_.dropAll();
    dropTyped();
}

void RecordForm::dropTyped()
{
    drafts_.drop(draftKey(base_.id));
    emit putAway();
    if (isNew()) load(base_);
    else if (const auto now = desk_.book().row(kind_, base_.id)) load(*now);
}

Draft RecordForm::typedDraft() const
{
    const auto [id, owner] = draftKey(base_.id);
    Draft draft{id, owner, isNew() ? tr("a new %1").arg(qs(describe(kind_).label)) : recordName(desk_.book(), record())};
    if (!isDirty()) return draft;
    auto& row = draft.rows.emplace_back(DraftRow{base_.id, base_.revision});
    for (const auto* box : editors_) row.texts[std::string{box->field().name}] = utf8(box->text());
    return draft;
}

void RecordForm::takeUp(std::int64_t id)
{
    const auto draft = drafts_.kept(draftKey(id));
    if (!draft) return;
    const auto& row = draft->rows.front();
    loading_ = true;
    for (const auto& [name, text] : row.texts)
        if (auto* box = editor(name)) box->setText(qs(text));
    loading_ = false;
    for (auto* box : editors_) checkEditor(*box);
    wasDirty_ = isDirty();
    if (!wasDirty_) drafts_.drop(draftKey(id));
    else if (id != 0) base_.revision = row.revision;  // what somebody else changed meanwhile is met as a conflict
    showHead();
    refresh();
    emit dirtyChanged();
    emit typed();
}

DraftKeeper::Key RecordForm::draftKey(std::int64_t id) const
{
    if (id != 0) return {id, 0};
    for (const auto& [name, value] : presets_) {
        const auto* owner = std::get_if<std::int64_t>(&value);
        if (owner && describe(kind_).fields[fieldIndex(describe(kind_), name)].type == FieldType::reference) return {0, *owner};
    }
    return {0, 0};
}

void RecordForm::stash()
{
    if (!begun_.empty()) drafts_.keepNow();
}

}

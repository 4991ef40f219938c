#include "form/record_form.h"

#include "form/field_editor.h"

/// What is half typed in a form and kept while other records are looked at.
namespace strikeoff {

bool RecordForm::hasDrafts() const { return isDirty() || !drafts_.empty(); }

void RecordForm::forgetDrafts()
{
    drafts_.clear();
    load(base_);
}

/// A new record half typed for one job does not turn up in another one's folder.
RecordForm::DraftKey RecordForm::draftKey(std::int64_t id) const
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
    if (begun_.empty() || !isDirty()) {
        drafts_.erase(draftKey(base_.id));
        return;
    }
    Draft draft{base_, {}};
    for (const auto* box : editors_) draft.texts[std::string{box->field().name}] = box->text();
    drafts_[draftKey(base_.id)] = std::move(draft);
}

bool RecordForm::restore(std::int64_t id)
{
    const auto found = drafts_.find(draftKey(id));
    if (found == drafts_.end()) return false;
    const auto draft = std::move(found->second);
    drafts_.erase(found);
    load(draft.base);
    loading_ = true;
    for (const auto& [name, text] : draft.texts) editor(name)->setText(text);
    loading_ = false;
    for (auto* box : editors_) checkEditor(*box);
    wasDirty_ = isDirty();
    showHead();
    emit dirtyChanged();
    emit typed();
    return true;
}

}

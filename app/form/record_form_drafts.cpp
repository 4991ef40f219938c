#include "form/record_form.h"

#include "form/draft_keeper.h"
#include "form/field_editor.h"

#include <QTimer>

/// What is half typed in a form and kept while other records are looked at, and on disk in case the program breaks off.
namespace strikeoff {

bool RecordForm::hasDrafts() const { return isDirty() || !drafts_.empty() || !left_.empty(); }

void RecordForm::forgetDrafts()
{
    while (!drafts_.empty()) forget(drafts_.begin()->first);
    while (!left_.empty()) forget(left_.begin()->first);
    forget(draftKey(base_.id));
    load(base_);
}

void RecordForm::findLeft()
{
    auto& keeper = DraftKeeper::of(desk_);
    draftName_ = keeper.nameForm(kind_);
    keepTimer_ = new QTimer{this};
    keepTimer_->setSingleShot(true);
    keepTimer_->setInterval(700);
    connect(keepTimer_, &QTimer::timeout, this, &RecordForm::keepNow);
    for (auto& draft : keeper.leftIn(draftName_)) {
        const bool isThere = draft.id == 0 ? draft.owner == 0 || !draft.texts.empty() : desk_.book().find(kind_, draft.id) != nullptr;
        if (isThere) left_[{draft.id, draft.owner}] = {draft.revision, std::move(draft.texts)};
        else keeper.drop(draftName_, draft.id, draft.owner);
    }
}

void RecordForm::takeUp(std::int64_t id)
{
    const auto found = left_.find(draftKey(id));
    if (found == left_.end()) return;
    const auto left = std::move(found->second);
    left_.erase(found);
    if (id != 0) base_.revision = left.revision;  // what somebody else changed meanwhile is met as a conflict
    putTexts(left.texts);
    if (!isDirty()) forget(draftKey(id));
}

void RecordForm::keepNow()
{
    const auto key = draftKey(base_.id);
    auto& keeper = DraftKeeper::of(desk_);
    if (!isDirty()) {
        if (!left_.contains(key)) keeper.drop(draftName_, key.first, key.second);
        return;
    }
    DraftKeeper::Draft draft{key.first, key.second, base_.revision, {}};
    for (const auto* box : editors_) draft.texts[std::string{box->field().name}] = box->text();
    keeper.keep(draftName_, std::move(draft));
}

void RecordForm::forget(const DraftKey& key)
{
    const auto copy = key;  // it may stand in what is forgotten
    drafts_.erase(copy);
    left_.erase(copy);
    DraftKeeper::of(desk_).drop(draftName_, copy.first, copy.second);
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
    if (begun_.empty()) return;
    keepNow();
    if (!isDirty()) {
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
    putTexts(draft.texts);
    return true;
}

void RecordForm::putTexts(const std::map<std::string, QString>& texts)
{
    loading_ = true;
    for (const auto& [name, text] : texts)
        if (auto* box = editor(name)) box->setText(text);
    loading_ = false;
    for (auto* box : editors_) checkEditor(*box);
    wasDirty_ = isDirty();
    showHead();
    emit dirtyChanged();
    emit typed();
}

}

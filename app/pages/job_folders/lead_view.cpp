#include "pages/job_folders/lead_view.h"

#include "form/record_form.h"
#include "labels.h"
#include "records/records_panel.h"

#include <QHBoxLayout>

namespace strikeoff {

LeadView::LeadView(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    lead_ = new RecordsPanel{desk, {.kind = RecordKind::lead, .name = tr("Lead of the job"), .folds = true, .adds = false}, this};
    job_ = new RecordsPanel{desk, {.kind = RecordKind::job, .name = tr("Job of the folder"), .folds = true, .adds = false}, this};
    lead_->form().setAlso([this](Edit& edit, const Row& row) {
        // A lead written here belongs to this folder.
        const auto* job = desk_.book().find(shown_);
        if (!job || job->lead || edit.changes().front().what != ChangeType::add) return;
        auto named = *job;
        named.lead = Id<Lead>{row.id};
        edit.change(named);
    });
    auto* layout = new QHBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(2));
    layout->addWidget(lead_, 1);
    layout->addWidget(job_, 1);
}

void LeadView::setJob(Id<Job> job)
{
    shown_ = job;
    job_->turnTo([job](const Book&, const void* record) { return static_cast<const Job*>(record)->id == job; }, {});
    lead_->form().startNew();
    refresh();
}

void LeadView::refresh()
{
    const auto* job = desk_.book().find(shown_);
    if (!job) return;
    Presets presets{{"received_on", Value{job->openedOn.days()}}, {"customer", Value{job->customer.value()}}};
    if (const auto* customer = desk_.book().find(job->customer)) {
        presets.emplace_back("name", Value{customer->name});
        presets.emplace_back("town", Value{customer->town});
    }
    if (job->jobType) presets.emplace_back("job_type", Value{job->jobType->value()});
    lead_->setFilter([lead = job->lead](const Book&, const void* record) { return lead && static_cast<const Lead*>(record)->id == *lead; }, std::move(presets));
    job_->refresh();
    job_->open(shown_.value());
    if (job->lead) lead_->open(job->lead->value());
    else if (!lead_->form().isNew()) lead_->startNew();
}

}

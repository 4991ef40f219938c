#include "pages/job_folders/takeoff_view.h"

#include "form/field_editor.h"
#include "form/record_form.h"
#include "labels.h"
#include "paper/takeoff_plan.h"
#include "records/records_panel.h"
#include "table/record_table.h"
#include "takeoff/takeoff_words.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

namespace {

/// The section as it is typed; what a new one still lacks is left at its defaults.
TakeoffSection sectionOf(Row row)
{
    const auto blank = blankRow(row.kind);
    const auto fields = describe(row.kind).fields;
    for (std::size_t i = 0; i < fields.size(); ++i)
        if (!isRecorded(row.values[i]) && !fields[i].nullable) row.values[i] = blank.values[i];
    return recordOf<TakeoffSection>(row);
}

std::vector<RecordColumn> sectionColumns()
{
    const auto section = [](const void* record) -> const TakeoffSection& { return *static_cast<const TakeoffSection*>(record); };
    return {{.field = "position", .width = 4},
            {.field = "name", .width = 14},
            {.field = {}, .heading = TakeoffView::tr("Size"), .width = 18, .reckon = [section](const Book&, const void* record) { return textCell(qs(sizeText(section(record)))); }},
            {.field = "thickness", .width = 9},
            {.field = {}, .heading = TakeoffView::tr("Area, ft\u00b2"), .width = 8,
             .reckon = [section](const Book&, const void* record) {
                 const auto measured = measure(section(record));
                 return measured.outline.empty() ? Cell{} : textCell(qs(shownArea(measured.areaSqft)));
             }, .align = Align::right}};
}

}

TakeoffView::TakeoffView(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    panel_ = new RecordsPanel{desk,
                              {.kind = RecordKind::takeoffSection, .columns = sectionColumns(), .layout = without(layoutFor(RecordKind::takeoffSection), "job"), .name = tr("Sections"),
                               .sortBy = "position", .formShare = 49, .folds = true},
                              this};
    auto* sheet = new QFrame{this};
    setRole(*sheet, "sheet");
    auto* inside = new QVBoxLayout{sheet};
    inside->setContentsMargins(grid(4), grid(3), grid(4), grid(3));
    inside->setSpacing(grid(2));
    auto* line = new QHBoxLayout;
    line->setSpacing(grid(4));
    for (int i = 0; i < 5; ++i) {
        Figure figure{new QWidget{sheet}, makeLabel({}, TextSize::small, Tone::quiet, sheet), makeLabel({}, TextSize::body, Tone::plain, sheet)};
        auto* column = new QVBoxLayout{figure.box};
        column->setContentsMargins(0, 0, 0, 0);
        column->setSpacing(0);
        for (auto* label : {figure.label, figure.figure}) column->addWidget(label);
        column->addStretch(1);
        static constexpr int room[] = {3, 3, 6, 7, 6};  // what is said of each
        line->addWidget(figure.box, room[i]);
        figures_.push_back(figure);
    }
    plan_ = new PlanView{sheet};
    plan_->setEmptyText(tr("Nothing to draw yet. What you type at the right is drawn here to scale: a slab needs its length, width and thickness."));
    section_ = makeLabel({}, TextSize::body, Tone::plain, sheet);
    section_->setObjectName(QStringLiteral("sectionWords"));
    remarks_ = makeLabel({}, TextSize::body, Tone::attention, sheet);
    remarks_->setObjectName(QStringLiteral("takeoffRemarks"));
    inside->addLayout(line);
    inside->addWidget(plan_, 1);
    inside->addWidget(section_);
    inside->addWidget(remarks_);
    panel_->putUnderTable(sheet);
    auto* layout = new QHBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(panel_);

    connect(&panel_->form(), &RecordForm::typed, this, [this] {
        showReadings();
        draw();
    });
    showReadings();
    connect(plan_, &PlanView::shapeClicked, this, [this](int shape) {
        const auto& id = drawn_[static_cast<std::size_t>(shape)];
        if (desk_.book().find(id)) panel_->open(id.value());
    });
}

void TakeoffView::setJob(Id<Job> job)
{
    job_ = job;
    panel_->turnTo([job](const Book&, const void* record) { return static_cast<const TakeoffSection*>(record)->job == job; }, {{"job", Value{job.value()}}});
    draw();
}

void TakeoffView::refresh()
{
    panel_->refresh();
    draw();
}

/// A shape is asked for what it is measured by, in its own words.
void TakeoffView::showReadings()
{
    auto& form = panel_->form();
    const auto section = sectionOf(form.typedRow());
    const auto readings = readingsOf(section.shape);
    for (const auto* name : {"length", "width", "second_length", "points", "thickness", "joint_spacing"}) {
        const auto found = std::ranges::find_if(readings, [&](const auto& reading) { return reading.field == name; });
        form.setFieldVisible(name, found != readings.end());
        if (found != readings.end()) form.editor(name)->setHint(qs(found->meaning));
    }
    form.setFieldVisible("finish", section.shape < SectionShape::thickenedEdge);
}

void TakeoffView::draw()
{
    const auto* job = desk_.book().find(job_);
    if (!job) return;
    std::vector<TakeoffSection> sections;
    for (const auto* section : sectionsOf(desk_.book(), job_)) sections.push_back(*section);
    const auto& form = panel_->form();
    const auto shown = form.record().id;
    if (form.isDirty()) {
        auto typed = sectionOf(form.typedRow());
        const auto found = std::ranges::find_if(sections, [&](const auto& section) { return section.id.value() == shown; });
        if (found != sections.end()) *found = std::move(typed);
        else if (shown == 0) sections.push_back(std::move(typed));
    }
    std::vector<const TakeoffSection*> all;
    for (const auto& section : sections) all.push_back(&section);

    PaperPlan plan;
    drawn_.clear();
    int marked = -1;
    QString words;
    QStringList undrawn;
    for (const auto& section : sections) {
        auto shape = planShape(section);
        const bool isShown = section.id.value() == shown;
        if (isShown) {
            words = qs(section.name.empty() ? std::string{"This section"} : section.name);
            if (const auto joints = planJoints(section)) words += QStringLiteral(": ") + qs(panelsText(*joints));
            else words += QStringLiteral(": ") + qs(sizeText(section));
        }
        if (shape.outline.empty()) {
            if (measure(section).fault.empty()) undrawn << qs(section.name + ", " + sizeText(section));
            continue;
        }
        if (isShown) marked = static_cast<int>(plan.shapes.size());
        drawn_.push_back(section.id);
        plan.shapes.push_back(std::move(shape));
    }
    plan_->setPlan(std::move(plan), sections.size() > 1 ? marked : -1);

    const auto takeoff = takeoffOf(desk_.book(), job->jobType, all);
    const auto joints = jointsOf(all);
    const auto figures = takeoffFigures(takeoff, joints, desk_.book().settings());
    for (std::size_t i = 0; i < figures_.size(); ++i) {
        figures_[i].box->setVisible(i < figures.size());
        if (i >= figures.size()) continue;
        figures_[i].label->setText(qs(figures[i].label));
        figures_[i].figure->setText(qs(figures[i].figure));
    }
    if (!undrawn.isEmpty()) words += (words.isEmpty() ? QString{} : QStringLiteral(". ")) + tr("Not drawn: %1").arg(undrawn.join(QStringLiteral("; ")));
    section_->setText(words);
    section_->setVisible(!words.isEmpty());
    QStringList remarks;
    for (const auto& fault : takeoff.faults) remarks << qs(fault);
    for (const auto& remark : joints.remarks) remarks << qs(remark);
    remarks_->setText(remarks.join(u'\n'));
    remarks_->setVisible(!remarks.isEmpty());
}

}

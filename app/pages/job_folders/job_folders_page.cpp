#include "pages/job_folders/job_folders_page.h"

#include "form/record_form.h"
#include "job/stage.h"
#include "job/steps.h"
#include "labels.h"
#include "pages/job_folders/job_folder_view.h"
#include "paper/paper_print.h"
#include "records/records_page.h"
#include "table/record_table.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QPrinter>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableView>
#include <QTabBar>
#include <QTabWidget>
#include <QVBoxLayout>

#include <cmath>

namespace strikeoff {

namespace {

Tone toneOf(Stage stage)
{
    switch (stage) {
    case Stage::paid:
    case Stage::closed: return Tone::well;
    case Stage::declined:
    case Stage::dropped: return Tone::quiet;
    case Stage::poured: return Tone::attention;
    default: return Tone::accent;
    }
}

}

JobFoldersPage::JobFoldersPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    list_ = new RecordTable{tr("Job folders"),
                            {{.heading = tr("Job"), .width = 6},
                             {.heading = tr("Title"), .width = 25},
                             {.heading = tr("Customer"), .width = 15},
                             {.heading = tr("Stage"), .width = 14},
                             {.heading = tr("Area, ft\u00b2"), .align = Align::right, .width = 8},
                             {.heading = tr("Bid, $"), .align = Align::right, .width = 10},
                             {.heading = tr("Result so far, $"), .align = Align::right, .width = 13},
                             {.heading = tr("Next thing"), .width = 20, .dashWhenBlank = false},
                             {.heading = tr("Town"), .width = 12},
                             {.heading = tr("Type"), .width = 11, .stretches = true}},
                            desk, this};
    list_->setEmptyText(tr("No jobs yet. Enter a lead on the next tab and make it a job, or press Ctrl+N for a new job."));
    list_->sortBy(0, Qt::DescendingOrder);
    filter_ = new QComboBox{this};
    filter_->setObjectName(QStringLiteral("folderSentence"));
    filter_->setAccessibleName(tr("Which folders"));
    filter_->addItem(tr("all folders"));
    for (const auto& each : folderFilters()) filter_->addItem(qs(each.sentence));
    list_->bar().insertWidget(0, filter_);
    folder_ = new JobFolderView{desk, this};
    stack_ = new QStackedWidget{this};
    stack_->addWidget(list_);
    stack_->addWidget(folder_);
    people_ = new RecordsPage{desk, {}, {{.kind = RecordKind::lead, .emptyText = tr("No leads yet. Press New when somebody asks for work.")},
                                         {.kind = RecordKind::customer, .emptyText = tr("No customers yet. A lead that becomes a job makes one.")},
                                         {.kind = RecordKind::site, .emptyText = tr("No sites yet. Press New to say where a customer\u2019s work is.")}}, this};
    auto* toJob = makeButton("leadToJob", tr("Make it a job"), nullptr, this);
    people_->panel(RecordKind::lead)->form().buttons().insertWidget(0, toJob);
    connect(toJob, &QPushButton::clicked, this, &JobFoldersPage::jobFromLead);

    tabs_ = new QTabWidget{this};
    tabs_->setDocumentMode(true);
    tabs_->tabBar()->setDrawBase(false);
    tabs_->addTab(stack_, tr("Folders"));
    tabs_->addTab(people_, tr("Leads, customers, sites"));
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(tabs_);
    connect(tabs_, &QTabWidget::currentChanged, this, &JobFoldersPage::refresh);
    connect(filter_, &QComboBox::currentIndexChanged, this, &JobFoldersPage::showList);
    connect(list_, &RecordTable::opened, this, [this](const RecordRef& record) { this->desk().open(record); });
    connect(folder_, &JobFolderView::backWanted, this, [this] {
        stack_->setCurrentWidget(list_);
        refresh();
        list_->view().setFocus();
    });
}

QString JobFoldersPage::question() const { return isFolderOpen() ? tr("Where does this job stand?") : tr("Where does each job stand?"); }

bool JobFoldersPage::isFolderOpen() const { return tabs_->currentWidget() == stack_ && stack_->currentWidget() == folder_; }

void JobFoldersPage::refresh()
{
    if (tabs_->currentWidget() == people_) people_->refresh();
    else if (isFolderOpen()) folder_->refresh();
    else showList();
    showTabs();
    answer_ = isFolderOpen() ? folder_->answer() : qs(jobFoldersAnswer(desk().book()));
    emit answerChanged();
}

/// A folder has a way back of its own and takes the room of the tabs.
void JobFoldersPage::showTabs()
{
    tabs_->tabBar()->setVisible(!isFolderOpen());
    tabs_->setFocusPolicy(isFolderOpen() ? Qt::NoFocus : Qt::TabFocus);  // it would hand the focus to its hidden bar, and Tab would stick
}

void JobFoldersPage::showList()
{
    const auto& book = desk().book();
    const auto filters = folderFilters();
    const int sentence = filter_->currentIndex() - 1;
    std::vector<TableRow> rows;
    for (const auto& folder : jobFolders(desk().costs())) {
        if (sentence >= 0 && !filters[static_cast<std::size_t>(sentence)].meets(book, folder)) continue;
        Cell stage = textCell(qs(labelOf(folder.stage)), toneOf(folder.stage));
        stage.sort = Value{static_cast<std::int64_t>(folder.stage)};
        rows.push_back({{RecordKind::job, folder.job->id.value()},
                        {textCell(qs(folder.number)), textCell(qs(folder.title)), textCell(qs(folder.customer)), stage,
                         numberCell(folder.areaSqft > 0 ? std::optional{static_cast<std::int64_t>(std::llround(folder.areaSqft))} : std::nullopt), moneyCell(folder.bid),
                         moneyCell(folder.result, folder.result && *folder.result < Money{} ? Tone::wrong : Tone::plain), textCell(qs(folder.nextThing)), textCell(qs(folder.town)),
                         textCell(qs(folder.type))},
                        qs(folder.job->note), false});
    }
    list_->setRows(std::move(rows));
}

void JobFoldersPage::openJob(Id<Job> job)
{
    tabs_->setCurrentIndex(0);
    stack_->setCurrentWidget(folder_);
    folder_->setJob(job);
    showTabs();
    answer_ = folder_->answer();
    emit answerChanged();
}

bool JobFoldersPage::openRecord(RecordKind kind, std::int64_t id)
{
    if (people_->panel(kind)) {
        tabs_->setCurrentWidget(people_);
        return people_->openRecord(kind, id);
    }
    const auto job = JobFolderView::jobOf(desk().book(), kind, id);
    if (!job || !desk().book().find(*job)) return false;
    openJob(*job);
    return folder_->openRecord(kind, id);
}

std::optional<RecordRef> JobFoldersPage::currentRecord() const
{
    if (tabs_->currentWidget() == people_) return people_->currentRecord();
    if (stack_->currentWidget() == folder_) return RecordRef{RecordKind::job, folder_->job().value()};
    return std::nullopt;
}

void JobFoldersPage::newRecord()
{
    if (tabs_->currentWidget() == people_) return people_->newRecord();
    if (stack_->currentWidget() == folder_) return folder_->newRecord();
    // A job begins with a lead: who asked, and what for.
    tabs_->setCurrentWidget(people_);
    people_->openRecord(RecordKind::lead, 0);
    people_->newRecord();
}

void JobFoldersPage::jobFromLead()
{
    const auto& book = desk().book();
    const auto record = people_->panel(RecordKind::lead)->form().record();
    const auto* found = book.find(Id<Lead>{record.id});
    if (!found) return desk().say(tr("Save the lead first, then make it a job."), Tone::attention);
    if (const auto jobs = book.referring<&Job::lead>(found->id); !jobs.empty()) return desk().open(jobs.front()->id);
    const auto id = found->id;
    const auto step = takeUpLead(book, *found, desk().today());
    if (!step.possible()) return desk().say(qs(step.obstacle), Tone::attention);
    if (!desk().commitOrSay(*step.edit)) return;
    if (const auto jobs = desk().book().referring<&Job::lead>(id); !jobs.empty()) desk().open(jobs.front()->id);
}

void JobFoldersPage::find(const QString& words)
{
    if (tabs_->currentWidget() == people_) people_->find(words);
    else list_->setFilter(words);
}

void JobFoldersPage::takeFocus()
{
    if (tabs_->currentWidget() == people_) people_->takeFocus();
    else if (stack_->currentWidget() == list_) list_->view().setFocus();
    else folder_->takeFocus();
}

RecordTable* JobFoldersPage::table() const
{
    if (tabs_->currentWidget() == people_) return people_->table();
    return stack_->currentWidget() == folder_ ? folder_->table() : list_;
}

bool JobFoldersPage::hasUnsaved() const { return people_->hasUnsaved() || folder_->hasUnsaved(); }

void JobFoldersPage::print(QPrinter& printer) const
{
    if (tabs_->currentIndex() == 0 && stack_->currentWidget() == folder_)
        if (const auto paper = folder_->paper()) {
            setUpPage(printer, *paper);
            return strikeoff::print(printer, *paper);
        }
    Page::print(printer);
}

}

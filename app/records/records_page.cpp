#include "records/records_page.h"

#include "form/record_form.h"
#include "labels.h"
#include "table/record_table.h"

#include <QSignalBlocker>
#include <QTabBar>
#include <QTabWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

RecordsPage::RecordsPage(Desk& desk, QString question, std::vector<PanelSetup> tabs, QWidget* parent) : Page{desk, parent}, question_{std::move(question)}
{
    tabs_ = new QTabWidget{this};
    tabs_->setDocumentMode(true);
    tabs_->tabBar()->setUsesScrollButtons(true);
    tabs_->tabBar()->setDrawBase(false);
    for (auto& setup : tabs) {
        const auto name = setup.name.isEmpty() ? qs(describe(setup.kind).plural) : setup.name;
        auto* holder = insertTab({}, name, -1);
        auto* panel = new RecordsPanel{desk, std::move(setup), holder};
        holder->layout()->addWidget(panel);
        panels_.push_back(panel);
        inOrder_.back().panel = panel;
        connect(panel, &RecordsPanel::recordShown, this, &Page::answerChanged);
    }
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(tabs_);
    connect(tabs_, &QTabWidget::currentChanged, this, [this](int tab) {
        if (groupBar_) showGroupOf(tab);
        refresh();
    });
}

QWidget* RecordsPage::insertTab(Tab tab, const QString& name, int place)
{
    auto* holder = new QWidget{this};
    auto* column = new QVBoxLayout{holder};
    column->setContentsMargins(0, grid(3), 0, 0);
    const auto count = static_cast<int>(inOrder_.size());
    const int at = place < 0 || place > count ? count : place;
    inOrder_.insert(inOrder_.begin() + at, tab);
    const QSignalBlocker quiet{tabs_};  // the page in view stays, whatever its place
    tabs_->insertTab(at, holder, withoutMnemonic(name));
    tabs_->tabBar()->setVisible(count > 0);
    // A hidden bar would be handed the focus by its widget, and Tab would stick.
    tabs_->setFocusPolicy(count > 0 ? Qt::TabFocus : Qt::NoFocus);
    return holder;
}

void RecordsPage::addTab(const QString& name, Page* page, int place)
{
    insertTab({nullptr, page}, name, place)->layout()->addWidget(page);
    connect(page, &Page::answerChanged, this, &Page::answerChanged);
}

int RecordsPage::placeOf(RecordKind kind) const
{
    const auto found = std::ranges::find_if(inOrder_, [&](const auto& tab) { return tab.panel && tab.panel->kind() == kind; });
    return found == inOrder_.end() ? -1 : static_cast<int>(found - inOrder_.begin());
}

void RecordsPage::showTab(const Page* page)
{
    const auto found = std::ranges::find_if(inOrder_, [&](const auto& tab) { return tab.page == page; });
    if (found != inOrder_.end()) tabs_->setCurrentIndex(static_cast<int>(found - inOrder_.begin()));
}

void RecordsPage::beginWith(const Page* page)
{
    const QSignalBlocker quiet{tabs_};  // what is in view is refreshed when it is looked at
    showTab(page);
    if (groupBar_) showGroupOf(tabs_->currentIndex());
}

void RecordsPage::groupTabs(std::vector<TabGroup> groups)
{
    groups_ = std::move(groups);
    groupBar_ = new QTabBar{this};
    groupBar_->setObjectName(QStringLiteral("tabGroups"));
    groupBar_->setDrawBase(false);
    groupBar_->setExpanding(false);
    int first = 0;
    for (const auto& group : groups_) {
        groupBar_->addTab(withoutMnemonic(group.name));
        lastOfGroup_.push_back(first);
        first += group.tabs;
    }
    static_cast<QBoxLayout*>(layout())->insertWidget(0, groupBar_);
    showGroupOf(tabs_->currentIndex());
    connect(groupBar_, &QTabBar::currentChanged, this, [this](int group) {
        const int tab = lastOfGroup_[static_cast<std::size_t>(group)];
        tabs_->setTabVisible(tab, true);
        tabs_->setCurrentIndex(tab);
    });
}

int RecordsPage::groupOf(int tab) const
{
    int group = 0, behind = 0;
    for (const auto& each : groups_) {
        behind += each.tabs;
        if (tab < behind) break;
        ++group;
    }
    return std::min(group, static_cast<int>(groups_.size()) - 1);
}

void RecordsPage::showGroupOf(int tab)
{
    const int group = groupOf(tab);
    lastOfGroup_[static_cast<std::size_t>(group)] = tab;
    {
        const QSignalBlocker quiet{tabs_};
        tabs_->setTabVisible(tab, true);
        for (int i = 0; i < tabs_->count(); ++i) tabs_->setTabVisible(i, groupOf(i) == group);
    }
    const QSignalBlocker quiet{groupBar_};
    groupBar_->setCurrentIndex(group);
}

const RecordsPage::Tab& RecordsPage::current() const { return inOrder_[static_cast<std::size_t>(std::max(tabs_->currentIndex(), 0))]; }

RecordsPanel* RecordsPage::panel(RecordKind kind) const
{
    const auto found = std::ranges::find_if(panels_, [&](const auto* panel) { return panel->kind() == kind; });
    return found == panels_.end() ? nullptr : *found;
}

QString RecordsPage::answer() const
{
    if (const auto* page = current().page) return page->answer();
    const auto& panel = *current().panel;
    const auto count = desk().book().count(panel.kind());
    const auto& kind = describe(panel.kind());
    if (kind.key.empty()) return {};
    return tr("%1 in the book: %2.").arg(qs(kind.plural), qs(shownDecimal(static_cast<std::int64_t>(count), 0, 0)));
}

void RecordsPage::refresh()
{
    const auto& tab = current();
    if (tab.page) tab.page->refresh();
    else tab.panel->refresh();
    emit answerChanged();
}

bool RecordsPage::openRecord(RecordKind kind, std::int64_t id)
{
    for (std::size_t i = 0; i < inOrder_.size(); ++i) {
        auto* panel = inOrder_[i].panel;
        if (!panel || panel->kind() != kind) continue;
        tabs_->setCurrentIndex(static_cast<int>(i));
        panel->refresh();
        return panel->open(id);
    }
    return false;
}

std::optional<RecordRef> RecordsPage::currentRecord() const
{
    if (const auto* page = current().page) return page->currentRecord();
    const auto record = current().panel->form().record();
    return record ? std::optional{record} : std::nullopt;
}

void RecordsPage::newRecord()
{
    if (current().page) current().page->newRecord();
    else current().panel->startNew();
}

void RecordsPage::find(const QString& words)
{
    if (auto* rows = table()) rows->setFilter(words);
}

void RecordsPage::takeFocus()
{
    if (current().page) current().page->takeFocus();
    else current().panel->takeFocus();
}

RecordTable* RecordsPage::table() const { return current().page ? current().page->table() : current().panel->table(); }
std::optional<PaperDocument> RecordsPage::paper() const { return current().page ? current().page->paper() : Page::paper(); }

bool RecordsPage::hasUnsaved() const
{
    return std::ranges::any_of(inOrder_, [](const auto& tab) { return tab.page ? tab.page->hasUnsaved() : tab.panel->form().hasDrafts(); });
}

}

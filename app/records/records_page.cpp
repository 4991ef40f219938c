#include "records/records_page.h"

#include "form/record_form.h"
#include "labels.h"
#include "table/record_table.h"

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
    tabs_->tabBar()->setVisible(tabs.size() > 1);
    if (tabs.size() < 2) tabs_->setFocusPolicy(Qt::NoFocus);  // it would hand the focus to its hidden bar, and Tab would stick
    for (auto& setup : tabs) {
        const auto name = setup.name.isEmpty() ? qs(describe(setup.kind).plural) : setup.name;
        auto* panel = new RecordsPanel{desk, std::move(setup), this};
        auto* holder = new QWidget{this};
        auto* inside = new QVBoxLayout{holder};
        inside->setContentsMargins(0, grid(3), 0, 0);
        inside->addWidget(panel);
        tabs_->addTab(holder, withoutMnemonic(name));
        panels_.push_back(panel);
        connect(panel, &RecordsPanel::recordShown, this, &Page::answerChanged);
    }
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(tabs_);
    connect(tabs_, &QTabWidget::currentChanged, this, [this] { refresh(); });
}

RecordsPanel& RecordsPage::current() const { return *panels_[static_cast<std::size_t>(std::max(tabs_->currentIndex(), 0))]; }

RecordsPanel* RecordsPage::panel(RecordKind kind) const
{
    const auto found = std::ranges::find_if(panels_, [&](const auto* panel) { return panel->kind() == kind; });
    return found == panels_.end() ? nullptr : *found;
}

QString RecordsPage::answer() const
{
    const auto& panel = current();
    const auto count = desk().book().count(panel.kind());
    const auto& kind = describe(panel.kind());
    if (kind.key.empty()) return {};
    return tr("%1 in the book: %2.").arg(qs(kind.plural), qs(shownDecimal(static_cast<std::int64_t>(count), 0, 0)));
}

void RecordsPage::refresh()
{
    current().refresh();
    emit answerChanged();
}

bool RecordsPage::openRecord(RecordKind kind, std::int64_t id)
{
    for (std::size_t i = 0; i < panels_.size(); ++i) {
        if (panels_[i]->kind() != kind) continue;
        tabs_->setCurrentIndex(static_cast<int>(i));
        panels_[i]->refresh();
        return panels_[i]->open(id);
    }
    return false;
}

std::optional<RecordRef> RecordsPage::currentRecord() const
{
    const auto record = current().form().record();
    return record ? std::optional{record} : std::nullopt;
}

void RecordsPage::newRecord() { current().startNew(); }

void RecordsPage::find(const QString& words)
{
    if (auto* table = current().table()) table->setFilter(words);
}

void RecordsPage::takeFocus() { current().takeFocus(); }
RecordTable* RecordsPage::table() const { return current().table(); }

bool RecordsPage::hasUnsaved() const
{
    return std::ranges::any_of(panels_, [](const auto* panel) { return panel->form().hasDrafts(); });
}

}

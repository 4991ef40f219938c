#pragma once

#include "page.h"
#include "records/records_panel.h"

class QTabBar;
class QTabWidget;

namespace strikeoff {

/// A page of one or more kinds of record, a tab each: list and form. Pages of their own kind may stand among the tabs.
class RecordsPage : public Page {
    Q_OBJECT
public:
    RecordsPage(Desk& desk, QString question, std::vector<PanelSetup> tabs, QWidget* parent = nullptr);

    QString question() const override { return question_; }
    QString answer() const override;
    void refresh() override;
    bool openRecord(RecordKind kind, std::int64_t id) override;
    std::optional<RecordRef> currentRecord() const override;
    void newRecord() override;
    void find(const QString& words) override;
    void takeFocus() override;
    RecordTable* table() const override;
    bool hasUnsaved() const override;
    std::optional<PaperDocument> paper() const override;
    bool stepOpen(int direction) override { return current().page && current().page->stepOpen(direction); }

    RecordsPanel* panel(RecordKind kind) const;
    /// Puts a page among the tabs, at a place or (below zero) behind the others. It is refreshed when it comes into view, like a list.
    void addTab(const QString& name, Page* page, int place = -1);
    /// The place of the list of a kind among the tabs, or −1.
    int placeOf(RecordKind kind) const;
    /// Brings a tab that was added into view.
    void showTab(const Page* page);
    /// So many tabs that a row does not hold them: names for runs of them, from the first tab on, in a row above. Only the tabs of one run are seen at a time.
    struct TabGroup {
        QString name;
        int tabs = 0;
    };
    void groupTabs(std::vector<TabGroup> groups);
    /// Has that tab in front when the page comes into view for the first time.
    void beginWith(const Page* page);
    bool isShown(const Page* page) const { return current().page == page; }

private:
    /// What stands on one tab: a list with its form, or a page.
    struct Tab {
        RecordsPanel* panel = nullptr;
        Page* page = nullptr;
    };
    const Tab& current() const;
    int groupOf(int tab) const;
    void showGroupOf(int tab);
    /// The empty place of the tab, already where it belongs: what is made in it is styled once, what is moved into it once more.
    QWidget* insertTab(Tab tab, const QString& name, int place);

    QString question_;
    QTabWidget* tabs_;
    QTabBar* groupBar_ = nullptr;
    std::vector<TabGroup> groups_;
    std::vector<int> lastOfGroup_;  ///< the tab each group was left on
    std::vector<Tab> inOrder_;
    std::vector<RecordsPanel*> panels_;
};

}

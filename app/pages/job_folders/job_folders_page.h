#pragma once

#include "page.h"

class QComboBox;
class QStackedWidget;
class QTabWidget;

namespace strikeoff {

class JobFolderView;
class RecordsPage;

/// "Where does each job stand?": every job by its stage, narrowed by sentences; a job opens to its folder. Leads, customers and sites stand on the
/// next tab.
class JobFoldersPage : public Page {
    Q_OBJECT
public:
    explicit JobFoldersPage(Desk& desk, QWidget* parent = nullptr);
    QString question() const override;
    QString answer() const override { return answer_; }
    void refresh() override;
    bool openRecord(RecordKind kind, std::int64_t id) override;
    std::optional<RecordRef> currentRecord() const override;
    void newRecord() override;
    void find(const QString& words) override;
    void takeFocus() override;
    RecordTable* table() const override;
    bool hasUnsaved() const override;
    bool canPrint() const override { return true; }
    void print(QPrinter& printer) const override;

private:
    bool isFolderOpen() const;
    void showTabs();
    void showList();
    void openJob(Id<Job> job);
    void jobFromLead();

    QString answer_;
    QTabWidget* tabs_;
    QStackedWidget* stack_;
    QComboBox* filter_;
    RecordTable* list_;
    JobFolderView* folder_;
    RecordsPage* people_;
};

}

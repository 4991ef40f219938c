#pragma once

#include "page.h"
#include "records/records_panel.h"

class QTabWidget;

namespace strikeoff {

/// A page of one or more kinds of record, a tab each: list and form.
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

    RecordsPanel* panel(RecordKind kind) const;

private:
    RecordsPanel& current() const;

    QString question_;
    QTabWidget* tabs_;
    std::vector<RecordsPanel*> panels_;
};

}

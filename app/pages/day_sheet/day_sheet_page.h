#pragma once

#include "page.h"

#include "day/day_sheet.h"

class QLineEdit;
class QScrollArea;
class QStackedWidget;
class QVBoxLayout;

namespace strikeoff {

class RecordForm;

/// "What needs me today?": the day from top to bottom with one verb a line, tomorrow beside it, and the papers that come in daily entered in place.
class DaySheetPage : public Page {
    Q_OBJECT
public:
    explicit DaySheetPage(Desk& desk, QWidget* parent = nullptr);
    QString question() const override;
    QString answer() const override { return answer_; }
    void refresh() override;
    int waiting() const override { return waiting_; }
    void takeFocus() override;
    bool canPrint() const override { return true; }
    void print(QPrinter& printer) const override;
    bool hasUnsaved() const override;

private:
    void addItems(QVBoxLayout& into, const std::vector<DayItem>& items, bool dimmed);
    void act(const DayItem& item);
    void enter(RecordKind kind);
    void turnTo(Date day);

    QString answer_;
    int waiting_ = 0;
    std::optional<Date> day_;  ///< another day than today
    QLineEdit* dayField_;
    QScrollArea* scroll_;
    QStackedWidget* side_;
    QWidget* outlook_;
    std::vector<RecordForm*> forms_;
    DaySheet sheet_;
};

}

#pragma once

#include "records/records_page.h"

#include "billing/billing.h"

class QPushButton;

namespace strikeoff {

/// "Who owes me?": what is owed by age on top, each figure narrowing the list; then the invoices owed, and the papers of money coming in.
class MoneyInPage : public RecordsPage {
    Q_OBJECT
public:
    explicit MoneyInPage(Desk& desk, QWidget* parent = nullptr);
    QString answer() const override { return answer_; }
    void refresh() override;
    int waiting() const override;
    bool canPrint() const override { return true; }
    void print(QPrinter& printer) const override;

private:
    void showOwed(const Owed& owed);
    void issue();
    const Invoice* chosen() const;

    QString answer_;
    std::vector<QPushButton*> ages_;
    std::optional<AgingBucket> narrowed_;
    RecordTable* owed_;
    QPushButton* issue_;
};

}

#pragma once

#include "page.h"

#include "record/billing.h"

class QComboBox;
class QTabWidget;

namespace strikeoff {

class AccountView;
class InProgressView;
class InvoiceList;
class PaymentSplit;
class RecordsPanel;

/// "Who owes me?": the invoices with what is owed by age and by due day, the payments with their split, each customer's account, credits and lines.
class MoneyInPage : public Page {
    Q_OBJECT
public:
    explicit MoneyInPage(Desk& desk, QWidget* parent = nullptr);

    QString question() const override { return tr("Who owes me?"); }
    QString answer() const override { return answer_; }
    void refresh() override;
    int waiting() const override;
    bool openRecord(RecordKind kind, std::int64_t id) override;
    std::optional<RecordRef> currentRecord() const override;
    void newRecord() override;
    void find(const QString& words) override;
    void takeFocus() override;
    RecordTable* table() const override;
    std::optional<PaperDocument> paper() const override;
    bool canPrint() const override { return true; }
    bool hasUnsaved() const override;

private:
    void addTab(QWidget* view, const QString& name);
    RecordsPanel* makePayments();
    RecordsPanel* makeCredits();
    RecordsPanel* makeLines();
    RecordsPanel* currentPanel() const;
    void receivePayment(Id<Customer> customer);
    void writeCredit(const Invoice& invoice);
    void showLines(Id<Invoice> invoice);
    void narrowLines();

    QString answer_;
    QTabWidget* tabs_;
    InvoiceList* invoices_;
    RecordsPanel* payments_;
    PaymentSplit* split_;
    AccountView* accounts_;
    RecordsPanel* credits_;
    RecordsPanel* lines_;
    InProgressView* inProgress_;
    QComboBox* whichLines_;
    Id<Invoice> linesOf_;  ///< whose lines are shown
};

}

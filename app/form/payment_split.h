#pragma once

#include <QWidget>

#include "billing/billing.h"
#include "desk.h"
#include "form/draft_keeper.h"

class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace strikeoff {

class RecordForm;

/// Under the fields of a payment's form: how the payment is split over its customer's invoices. For a new payment the split proposed, which can be changed
/// before it is saved along with it; for one of the book the split as it is, changed by a button of its own. Adds up while one types.
class PaymentSplit : public QWidget {
    Q_OBJECT
public:
    /// Puts itself into the form and sees to it that what is saved there is split as shown here.
    PaymentSplit(Desk& desk, RecordForm& form);

    /// Takes in what the book says now; what was typed stays.
    void refresh();
    /// Whether a share was typed that is not saved yet.
    bool isTouched() const { return touched_ || drafts_.any(); }
    const std::vector<SplitLine>& lines() const { return lines_; }

private:
    std::optional<Payment> payment() const;
    void showNow(bool anew);
    void showLines();
    void showSum();
    /// Takes the shares from the fields; the first that cannot be read, in words.
    QString takeShares();
    QString hindrance();
    void save();
    Draft typedDraft() const;
    /// The shares the book has of the payment, as they were seen.
    std::vector<DraftRow> sharesInBook() const;
    void takeUp(const Draft& draft);
    void forget();

    Desk& desk_;
    RecordForm& form_;
    DraftPlace drafts_;
    QGridLayout* grid_;
    std::vector<std::array<QLabel*, 3>> labels_;
    std::vector<QLineEdit*> fields_;
    QLabel* sum_;
    QPushButton* propose_;
    QPushButton* save_;
    std::vector<SplitLine> lines_;
    DraftKeeper::Key shown_;          ///< the payment the lines belong to
    std::int64_t shownCustomer_ = 0;
    std::vector<DraftRow> seen_;      ///< its shares when typing began
    bool touched_ = false;
};

}

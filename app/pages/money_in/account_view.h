#pragma once

#include <QWidget>

#include "desk.h"
#include "paper/paper_document.h"

class QComboBox;
class QLabel;
class QPushButton;

namespace strikeoff {

class RecordTable;

/// The customers with what each owes, and the chosen one's statement of account: the same lines as on the paper it prints to.
class AccountView : public QWidget {
    Q_OBJECT
public:
    explicit AccountView(Desk& desk, QWidget* parent = nullptr);

    void refresh();
    /// Shows a customer's account; false when there is none such.
    bool open(Id<Customer> customer);
    Id<Customer> customer() const { return customer_; }
    std::optional<PaperDocument> paper() const;
    RecordTable* table() const { return lines_; }
    void takeFocus();

signals:
    void paymentWanted(strikeoff::Id<strikeoff::Customer> customer);

private:
    void showAccount();

    Desk& desk_;
    QComboBox* which_;
    RecordTable* customers_;
    QLabel* title_;
    QLabel* answer_;
    RecordTable* lines_;
    QPushButton* print_;
    QPushButton* receive_;
    QPushButton* card_;
    Id<Customer> customer_;
};

}

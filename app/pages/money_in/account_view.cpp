#include "pages/money_in/account_view.h"

#include "billing/billing.h"
#include "form/side_by_side.h"
#include "labels.h"
#include "paper/paper_print.h"
#include "paper/papers.h"
#include "table/record_table.h"

#include <QComboBox>
#include <QFrame>
#include <QHBoxLayout>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

namespace strikeoff {

AccountView::AccountView(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    customers_ = new RecordTable{tr("Accounts"),
                                 {{.heading = tr("Customer"), .width = 20, .stretches = true},
                                  {.heading = tr("Past due, $"), .align = Align::right, .width = 11, .dashWhenBlank = false, .sumDecimals = 2},
                                  {.heading = tr("Balance, $"), .align = Align::right, .width = 11, .tip = tr("Open on invoices, less what was received and is not assigned"), .sumDecimals = 2}},
                                 desk, this};
    which_ = new QComboBox{this};
    which_->setObjectName(QStringLiteral("whichAccounts"));
    which_->setAccessibleName(tr("Which accounts"));
    which_->addItems({tr("with a balance"), tr("all customers")});
    customers_->bar().insertWidget(0, which_);

    auto* sheet = new QFrame{this};
    setRole(*sheet, "sheet");
    auto* inside = new QVBoxLayout{sheet};
    inside->setContentsMargins(grid(4), grid(3), grid(4), grid(3));
    inside->setSpacing(grid(2));
    title_ = makeLabel({}, TextSize::body, Tone::plain, sheet);
    auto bold = textFont(TextSize::body);
    bold.setBold(true);
    title_->setFont(bold);
    answer_ = makeLabel({}, TextSize::body, Tone::plain, sheet);
    answer_->setObjectName(QStringLiteral("accountAnswer"));
    lines_ = new RecordTable{tr("Statement of account"),
                             {{.heading = tr("Date"), .width = 12},
                              {.heading = tr("What"), .width = 22, .stretches = true},
                              {.heading = tr("Billed, $"), .align = Align::right, .width = 10, .dashWhenBlank = false, .sumDecimals = 2},
                              {.heading = tr("Received, $"), .align = Align::right, .width = 10, .dashWhenBlank = false, .sumDecimals = 2},
                              {.heading = tr("Balance, $"), .align = Align::right, .width = 10}},
                             desk, sheet};
    lines_->setFilterVisible(false);
    lines_->view().setSortingEnabled(false);  // its balance runs from line to line
    inside->addWidget(title_);
    inside->addWidget(answer_);
    inside->addWidget(lines_, 1);
    auto* verbs = new QHBoxLayout;
    verbs->setSpacing(grid(2));
    receive_ = makeButton("accountPayment", tr("Receive a &payment"), nullptr, sheet);
    card_ = makeButton("accountCustomer", tr("Open the customer"), nullptr, sheet);
    print_ = makeButton("accountPrint", tr("Print the statement"), "main", sheet);
    verbs->addWidget(receive_);
    verbs->addWidget(card_);
    verbs->addStretch(1);
    verbs->addWidget(print_);
    inside->addLayout(verbs);

    putSideBySide(this, customers_, sheet, 42, desk_.preferences(), customers_->name());
    connect(which_, &QComboBox::currentIndexChanged, this, &AccountView::refresh);
    connect(customers_, &RecordTable::currentChanged, this, [this](const RecordRef& record) {
        if (!record) return;
        customer_ = Id<Customer>{record.id};
        showAccount();
    });
    connect(customers_, &RecordTable::opened, this, [this] { lines_->view().setFocus(); });
    connect(lines_, &RecordTable::opened, this, [this](const RecordRef& record) { desk_.open(record); });
    connect(receive_, &QPushButton::clicked, this, [this] { emit paymentWanted(customer_); });
    connect(card_, &QPushButton::clicked, this, [this] { desk_.open(customer_); });
    connect(print_, &QPushButton::clicked, this, [this] {
        if (const auto what = paper()) showPrintPreview(this, *what);
    });
}

void AccountView::refresh()
{
    const auto& book = desk_.book();
    const auto day = desk_.today();
    std::vector<CustomerAccount> accounts;
    if (which_->currentIndex() == 0) accounts = accountsOn(book, day);
    else
        for (const auto& customer : book.all<Customer>()) accounts.push_back(accountOf(book, customer.id, day));
    std::vector<TableRow> rows;
    for (const auto& account : accounts)
        rows.push_back({{RecordKind::customer, account.customer->id.value()},
                        {textCell(qs(account.customer->name)), moneyCell(account.late.isZero() ? std::nullopt : std::optional{account.late}, Tone::wrong),
                         moneyCell(account.balance())},
                        qs(account.customer->town + " " + account.customer->phone + " " + account.customer->note), false});
    customers_->setEmptyText(book.count(RecordKind::customer) == 0 ? tr("No customers yet. A lead that becomes a job makes one; its invoices and payments come together here.")
                                                                   : tr("Nobody owes anything. Choose \u201call customers\u201d to see an account all the same."));
    customers_->setRows(std::move(rows));
    if (!book.find(customer_)) customer_ = {};
    if (customer_.value() == 0 && customers_->model().shownRows() > 0) customers_->select(customers_->model().recordAt(0));
    showAccount();
}

bool AccountView::open(Id<Customer> customer)
{
    if (!desk_.book().find(customer)) return false;
    customer_ = customer;
    const RecordRef record{RecordKind::customer, customer.value()};
    customers_->setFilter({});
    if (!customers_->select(record)) {
        which_->setCurrentIndex(1);
        customers_->select(record);
    }
    showAccount();
    return true;
}

void AccountView::showAccount()
{
    const auto& book = desk_.book();
    const auto* customer = book.find(customer_);
    for (auto* button : {print_, receive_, card_}) button->setEnabled(customer != nullptr);
    if (desk_.store().isReadOnly()) receive_->setEnabled(false);
    title_->setText(customer ? tr("Statement of account: %1").arg(qs(customer->name)) : tr("Statement of account"));
    answer_->setText(customer ? qs(accountAnswer(accountOf(book, customer_, desk_.today()))) : tr("Choose a customer."));
    std::vector<TableRow> rows;
    const auto unlessZero = [](Money money) { return money.isZero() ? Cell{} : moneyCell(money); };
    if (customer)
        for (const auto& line : statementOfAccount(book, customer_, desk_.today()))
            rows.push_back({{}, {dateCell(line.date), textCell(qs(line.what)), unlessZero(line.charge), unlessZero(line.received), moneyCell(line.balance)}, {}, false});
    lines_->setEmptyText(tr("Nothing was billed or received up to today."));
    lines_->setRows(std::move(rows));
    lines_->view().scrollToBottom();
}

std::optional<PaperDocument> AccountView::paper() const
{
    const auto* customer = desk_.book().find(customer_);
    return customer ? std::optional{accountPaper(desk_.book(), *customer, desk_.today())} : std::nullopt;
}

void AccountView::takeFocus() { customers_->view().setFocus(); }

}

#include "pages/money_in/money_in_page.h"

#include "form/payment_split.h"
#include "form/record_form.h"
#include "job/steps.h"
#include "labels.h"
#include "pages/money_in/account_view.h"
#include "pages/money_in/in_progress_view.h"
#include "pages/money_in/invoice_list.h"
#include "paper/papers.h"
#include "records/records_panel.h"
#include "table/record_table.h"

#include <QComboBox>
#include <QTabBar>
#include <QTabWidget>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

namespace {

constexpr int inProgressTab = 5;

}

MoneyInPage::MoneyInPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    tabs_ = new QTabWidget{this};
    tabs_->setDocumentMode(true);
    tabs_->tabBar()->setDrawBase(false);
    invoices_ = new InvoiceList{desk, this};
    payments_ = makePayments();
    split_ = new PaymentSplit{desk, payments_->form()};
    accounts_ = new AccountView{desk, this};
    credits_ = makeCredits();
    lines_ = makeLines();
    addTab(invoices_, tr("Invoices"));
    addTab(payments_, tr("Payments"));
    addTab(accounts_, tr("Accounts"));
    addTab(credits_, tr("Credits"));
    addTab(lines_, tr("Invoice lines"));
    inProgress_ = new InProgressView{desk, this};
    addTab(inProgress_, tr("Earned and billed"));
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(tabs_);

    connect(tabs_, &QTabWidget::currentChanged, this, &MoneyInPage::refresh);
    const auto customerOf = [this](const Invoice& invoice) {
        const auto* job = this->desk().book().find(invoice.job);
        return job ? job->customer : Id<Customer>{};
    };
    connect(invoices_, &InvoiceList::paymentWanted, this, [this, customerOf](const Invoice& invoice) { receivePayment(customerOf(invoice)); });
    connect(invoices_, &InvoiceList::creditWanted, this, &MoneyInPage::writeCredit);
    connect(invoices_, &InvoiceList::accountWanted, this, [this, customerOf](const Invoice& invoice) {
        openRecord(RecordKind::customer, customerOf(invoice).value());
        accounts_->takeFocus();
    });
    connect(invoices_, &InvoiceList::linesWanted, this, [this](const Invoice& invoice) { showLines(invoice.id); });
    connect(accounts_, &AccountView::paymentWanted, this, &MoneyInPage::receivePayment);
    connect(payments_, &RecordsPanel::recordShown, split_, [this] { split_->refresh(); });
}

void MoneyInPage::addTab(QWidget* view, const QString& name)
{
    auto* holder = new QWidget{this};
    auto* inside = new QVBoxLayout{holder};
    inside->setContentsMargins(0, grid(3), 0, 0);
    inside->addWidget(view);
    tabs_->addTab(holder, name);
}

RecordsPanel* MoneyInPage::makePayments()
{
    const auto left = [](const Book& book, const void* record) {
        const auto& payment = *static_cast<const Payment*>(record);
        Money open = payment.amount;
        for (const auto* share : book.referring<&PaymentShare::payment>(payment.id)) open -= share->amount;
        return open.isZero() ? Cell{} : moneyCell(open, Tone::attention);
    };
    const auto pays = [](const Book& book, const void* record) {
        QStringList numbers;
        for (const auto* share : book.referring<&PaymentShare::payment>(static_cast<const Payment*>(record)->id))
            if (const auto* invoice = book.find(share->invoice)) numbers << qs(invoice->number);
        return textCell(numbers.join(QStringLiteral(", ")));
    };
    return new RecordsPanel{desk(),
                            {.kind = RecordKind::payment,
                             .columns = {{.field = "number", .width = 8}, {.field = "received_on", .width = 12}, {.field = "customer", .width = 18}, {.field = "amount", .width = 11, .sum = true},
                                         {.field = {}, .heading = tr("Pays"), .width = 13, .reckon = pays},
                                         {.field = {}, .heading = tr("Not assigned, $"), .width = 11, .reckon = left, .align = Align::right, .dashWhenBlank = false, .sum = true},
                                         {.field = "method", .width = 13}, {.field = "reference", .width = 12}},
                             .emptyText = tr("No payments yet. Press Ctrl+N when money comes in; its split over the open invoices is proposed."), .sortBy = "number", .order = Qt::DescendingOrder},
                            this};
}

RecordsPanel* MoneyInPage::makeCredits()
{
    return new RecordsPanel{desk(),
                            {.kind = RecordKind::credit,
                             .columns = {{.field = "number", .width = 8}, {.field = "issued_on", .width = 12}, {.field = "invoice", .width = 9}, {.field = "invoice.job", .width = 8},
                                         {.field = "amount", .width = 11, .sum = true}, {.field = "reason", .width = 30}},
                             .layout = {{{{}, {{"invoice"}, {"number", "issued_on"}, {"amount"}, {"reason"}}}}, {}},
                             .emptyText = tr("No credits. A mistake on an issued invoice is put right by one: choose the invoice and press Write credit."), .sortBy = "number",
                             .order = Qt::DescendingOrder},
                            this};
}

RecordsPanel* MoneyInPage::makeLines()
{
    const auto amount = [](const Book&, const void* record) { return moneyCell(static_cast<const InvoiceLine*>(record)->amount()); };
    auto* panel = new RecordsPanel{desk(),
                                   {.kind = RecordKind::invoiceLine,
                                    .columns = {{.field = "invoice", .width = 9}, {.field = "position", .width = 5}, {.field = "description", .width = 32}, {.field = "quantity", .width = 9},
                                                {.field = "unit", .width = 6}, {.field = "unit_price", .width = 11},
                                                {.field = {}, .heading = tr("Amount, $"), .width = 12, .reckon = amount, .align = Align::right, .sum = true}, {.field = "taxable", .width = 8}},
                                    .layout = {{{{}, {{"invoice"}, {"position"}, {"description"}, {"quantity", "unit"}, {"unit_price"}, {"taxable"}}}}, {"invoice"}},
                                    .emptyText = tr("No lines yet. Press Ctrl+N and write what the invoice bills, as the customer reads it.")},
                                   this};
    whichLines_ = new QComboBox{this};
    whichLines_->setObjectName(QStringLiteral("whichLines"));
    whichLines_->setAccessibleName(tr("Whose lines"));
    whichLines_->addItems({tr("of the chosen invoice"), tr("of all invoices")});
    panel->table()->bar().insertWidget(1, whichLines_);
    connect(whichLines_, &QComboBox::currentIndexChanged, this, &MoneyInPage::narrowLines);
    return panel;
}

void MoneyInPage::refresh()
{
    answer_ = qs(owedOn(desk().book(), desk().today()).answer);
    switch (tabs_->currentIndex()) {
    case 0: invoices_->refresh(); break;
    case 1:
        payments_->refresh();
        split_->refresh();
        break;
    case 2: accounts_->refresh(); break;
    case 3: credits_->refresh(); break;
    case inProgressTab: inProgress_->refresh(); break;
    default:
        if (const auto* invoice = invoices_->chosen(); invoice && linesOf_.value() == 0) linesOf_ = invoice->id;
        narrowLines();
    }
    emit answerChanged();
}

int MoneyInPage::waiting() const
{
    const auto owed = owedOn(desk().book(), desk().today());
    return static_cast<int>(std::ranges::count_if(owed.invoices, [](const auto& invoice) { return invoice.daysLate > 0; }));
}

RecordsPanel* MoneyInPage::currentPanel() const
{
    switch (tabs_->currentIndex()) {
    case 0: return &invoices_->panel();
    case 1: return payments_;
    case 3: return credits_;
    case 4: return lines_;
    default: return nullptr;
    }
}

void MoneyInPage::narrowLines()
{
    const auto* invoice = desk().book().find(linesOf_);
    whichLines_->setItemText(0, invoice ? tr("of invoice %1").arg(qs(invoice->number)) : tr("of the chosen invoice"));
    if (whichLines_->currentIndex() == 1 || !invoice) return lines_->setFilter({});
    lines_->setFilter([id = linesOf_](const Book&, const void* record) { return static_cast<const InvoiceLine*>(record)->invoice == id; }, {{"invoice", Value{linesOf_.value()}}});
}

void MoneyInPage::showLines(Id<Invoice> invoice)
{
    linesOf_ = invoice;
    whichLines_->setCurrentIndex(0);
    tabs_->setCurrentIndex(4);
    narrowLines();
    const auto* of = desk().book().find(invoice);
    if (of && !of->issuedOn && lines_->table()->model().shownRows() == 0) lines_->startNew();
    else lines_->takeFocus();
}

void MoneyInPage::receivePayment(Id<Customer> customer)
{
    if (!desk().book().find(customer)) return;
    tabs_->setCurrentIndex(1);
    const auto account = accountOf(desk().book(), customer, desk().today());
    Presets presets{{"customer", Value{customer.value()}}};
    if (account.balance() > Money{}) presets.emplace_back("amount", Value{account.balance().cents()});
    payments_->startNew(presets);
}

void MoneyInPage::writeCredit(const Invoice& invoice)
{
    const auto credit = proposedCredit(desk().book(), invoice, desk().today());
    tabs_->setCurrentIndex(3);
    credits_->startNew({{"invoice", Value{credit.invoice.value()}}, {"issued_on", Value{credit.issuedOn.days()}}, {"amount", Value{credit.amount.cents()}}});
}

bool MoneyInPage::openRecord(RecordKind kind, std::int64_t id)
{
    const auto& book = desk().book();
    switch (kind) {
    case RecordKind::invoice:
        tabs_->setCurrentIndex(0);
        return invoices_->open(id);
    case RecordKind::payment:
        tabs_->setCurrentIndex(1);
        return payments_->open(id);
    case RecordKind::paymentShare: {
        const auto* share = book.find(Id<PaymentShare>{id});
        return share && openRecord(RecordKind::payment, share->payment.value());
    }
    case RecordKind::customer:
        tabs_->setCurrentIndex(2);
        return accounts_->open(Id<Customer>{id});
    case RecordKind::credit:
        tabs_->setCurrentIndex(3);
        return credits_->open(id);
    case RecordKind::invoiceLine: {
        const auto* line = book.find(Id<InvoiceLine>{id});
        if (!line) return false;
        showLines(line->invoice);
        return lines_->open(id);
    }
    default: return false;
    }
}

std::optional<RecordRef> MoneyInPage::currentRecord() const
{
    if (tabs_->currentIndex() == inProgressTab) return inProgress_->table()->current() ? std::optional{inProgress_->table()->current()} : std::nullopt;
    if (const auto* panel = currentPanel()) return panel->form().record() ? std::optional{panel->form().record()} : std::nullopt;
    return accounts_->customer().value() == 0 ? std::nullopt : std::optional{RecordRef{RecordKind::customer, accounts_->customer().value()}};
}

void MoneyInPage::newRecord()
{
    if (auto* panel = currentPanel()) return panel->startNew();
    receivePayment(accounts_->customer());
}

void MoneyInPage::find(const QString& words)
{
    if (auto* rows = table()) rows->setFilter(words);
}

void MoneyInPage::takeFocus()
{
    if (auto* panel = currentPanel()) panel->takeFocus();
    else if (tabs_->currentIndex() == inProgressTab) inProgress_->takeFocus();
    else accounts_->takeFocus();
}

RecordTable* MoneyInPage::table() const
{
    if (const auto* panel = currentPanel()) return panel->table();
    return tabs_->currentIndex() == inProgressTab ? inProgress_->table() : accounts_->table();
}

std::optional<PaperDocument> MoneyInPage::paper() const
{
    const auto& book = desk().book();
    if (tabs_->currentIndex() == 0)
        if (auto paper = invoices_->paper()) return paper;
    if (tabs_->currentIndex() == 2)
        if (auto paper = accounts_->paper()) return paper;
    if (tabs_->currentIndex() == 3)
        if (const auto* credit = book.find(Id<Credit>{credits_->form().record().id})) return creditPaper(book, *credit);
    if (tabs_->currentIndex() == inProgressTab) return inProgress_->paper();
    return Page::paper();
}

bool MoneyInPage::hasUnsaved() const
{
    return split_->isTouched() || std::ranges::any_of(std::array{&invoices_->panel(), payments_, credits_, lines_}, [](const auto* panel) { return panel->form().hasDrafts(); });
}

}

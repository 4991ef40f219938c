#include "window/shared_book.h"

#include "labels.h"
#include "server_address.h"
#include "store.h"
#include "window/book_place.h"

#include <QDialog>
#include <QFormLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QUrl>
#include <QVBoxLayout>

namespace strikeoff {

namespace {

struct Frame {
    QDialog dialog;
    QVBoxLayout* rows;
    QFormLayout* lines;
    QLabel* fault;
    QPushButton* go;

    Frame(QWidget* parent, const char* name, const QString& title, const QString& meaning, const QString& verb) : dialog{parent}
    {
        dialog.setObjectName(QLatin1String{name});
        dialog.setWindowTitle(title);
        dialog.setMinimumWidth(grid(120));
        rows = new QVBoxLayout{&dialog};
        rows->setContentsMargins(grid(6), grid(5), grid(6), grid(4));
        rows->setSpacing(grid(3));
        rows->addWidget(makeLabel(title, TextSize::question, Tone::plain, &dialog));
        rows->addWidget(makeLabel(meaning, TextSize::body, Tone::quiet, &dialog));
        lines = new QFormLayout;
        lines->setHorizontalSpacing(grid(4));
        lines->setVerticalSpacing(grid(2));
        lines->setFieldGrowthPolicy(QFormLayout::ExpandingFieldsGrow);
        rows->addLayout(lines);
        fault = makeLabel({}, TextSize::small, Tone::wrong, &dialog);
        fault->setObjectName(QStringLiteral("dialogFault"));
        rows->addWidget(fault);
        auto* buttons = new QHBoxLayout;
        buttons->setSpacing(grid(2));
        auto* leave = makeButton("dialogLeave", QObject::tr("Not now"), nullptr, &dialog);
        go = makeButton("dialogGo", verb, "main", &dialog);
        buttons->addStretch(1);
        buttons->addWidget(leave);
        buttons->addWidget(go);
        rows->addLayout(buttons);
        QObject::connect(leave, &QPushButton::clicked, &dialog, &QDialog::reject);
        QObject::connect(go, &QPushButton::clicked, &dialog, &QDialog::accept);
    }
    QLineEdit* line(const char* name, const QString& label, const QString& hint = {})
    {
        auto* field = new QLineEdit{&dialog};
        field->setObjectName(QLatin1String{name});
        field->setAccessibleName(label);
        field->setPlaceholderText(hint);
        field->setMinimumHeight(leastTarget);
        auto* words = makeLabel(label, TextSize::body, Tone::plain, &dialog);
        words->setMinimumHeight(leastTarget);
        words->setWordWrap(false);
        words->setBuddy(field);
        lines->addRow(words, field);
        QObject::connect(field, &QLineEdit::returnPressed, &dialog, [this] {
            if (go->isEnabled()) dialog.accept();
        });
        return field;
    }
};

QString encoded(const QString& part) { return QString::fromLatin1(QUrl::toPercentEncoding(part)); }

}

std::optional<QString> askSharedBook(QWidget* parent, const QString& lately)
{
    Frame frame{parent, "sharedBookDialog", QObject::tr("Open a shared book"),
                QObject::tr("A book that several desks work in lies on the office\u2019s PostgreSQL server. Whoever keeps the server tells you these; the password is asked for afterwards."), QObject::tr("Open it")};
    auto* server = frame.line("sharedServer", QObject::tr("Server"), QObject::tr("office.example.com, or paste a whole address"));
    auto* user = frame.line("sharedUser", QObject::tr("User"), QObject::tr("your name on the server"));
    auto* database = frame.line("sharedDatabase", QObject::tr("Database"), QObject::tr("the database that holds the book"));
    auto* book = frame.line("sharedName", QObject::tr("Book"), QObject::tr("blank unless the database holds several"));
    auto* shown = makeLabel({}, TextSize::small, Tone::quiet, &frame.dialog);
    shown->setObjectName(QStringLiteral("sharedAddress"));
    frame.rows->insertWidget(3, shown);
    QString settings;  // of a pasted address, such as sslmode
    bool filling = false;
    const auto address = [&] {
        auto text = QStringLiteral("postgresql://");
        if (!user->text().trimmed().isEmpty()) text += encoded(user->text().trimmed()) + u'@';
        text += server->text().trimmed() + u'/' + encoded(database->text().trimmed());
        QStringList behind;
        if (!book->text().trimmed().isEmpty()) behind << QStringLiteral("book=") + book->text().trimmed();
        if (!settings.isEmpty()) behind << settings;
        return behind.isEmpty() ? text : text + u'?' + behind.join(u'&');
    };
    const auto fill = [&](const QString& whole) {
        const auto read = readServerAddress(utf8(whole));
        filling = true;
        server->setText(qs(read.host) + (read.port.empty() ? QString{} : u':' + qs(read.port)));
        user->setText(qs(read.user));
        database->setText(qs(read.database));
        book->setText(read.schema == ServerAddress{}.schema ? QString{} : qs(read.schema));
        QStringList kept;
        for (const auto& [name, value] : read.settings) kept << qs(name) + u'=' + encoded(qs(value));
        settings = kept.join(u'&');
        filling = false;
    };
    const auto look = [&] {
        if (filling) return;
        QString words;
        bool ready = false;
        try {
            if (isServerAddress(utf8(server->text().trimmed()))) fill(server->text().trimmed());
            if (!database->text().trimmed().isEmpty()) {
                readServerAddress(utf8(address()));
                ready = true;
            }
        } catch (const StorageError& error) {
            filling = false;
            words = qs(error.what());
        }
        frame.fault->setText(words);
        shown->setText(ready ? QObject::tr("Address: %1").arg(address()) : QString{});
        frame.go->setEnabled(ready);
    };
    for (auto* field : {server, user, database, book}) QObject::connect(field, &QLineEdit::textChanged, &frame.dialog, look);
    if (isShared(lately)) server->setText(lately);
    look();
    server->setFocus();
    server->selectAll();
    if (frame.dialog.exec() != QDialog::Accepted) return std::nullopt;
    return address();
}

std::optional<std::string> askServerPassword(QWidget* parent, const QString& book, bool again)
{
    Frame frame{parent, "passwordDialog", QObject::tr("Open a shared book"), QObject::tr("%1 on %2 wants your password. It is kept nowhere.").arg(bookName(book), bookPlace(book)), QObject::tr("Open it")};
    auto* password = frame.line("serverPassword", QObject::tr("Password"));
    password->setEchoMode(QLineEdit::Password);
    if (again) frame.fault->setText(QObject::tr("That password was not taken. Check the user and type it again."));
    password->setFocus();
    if (frame.dialog.exec() != QDialog::Accepted) return std::nullopt;
    return utf8(password->text());
}

}

#include "window/pass_phrase.h"

#include "labels.h"
#include "sealed_file.h"

#include <QDialog>
#include <QFileInfo>
#include <QFormLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace strikeoff {

namespace {

/// One or two unseen lines to type into, and what is wrong with them in words.
std::optional<std::string> ask(QWidget* parent, const QString& title, const QString& meaning, bool isNew)
{
    QDialog dialog{parent};
    dialog.setObjectName(QStringLiteral("passPhraseDialog"));
    dialog.setWindowTitle(title);
    auto* rows = new QVBoxLayout{&dialog};
    rows->setContentsMargins(grid(6), grid(5), grid(6), grid(4));
    rows->setSpacing(grid(3));
    rows->addWidget(makeLabel(title, TextSize::question, Tone::plain, &dialog));
    rows->addWidget(makeLabel(meaning, TextSize::body, Tone::quiet, &dialog));
    auto* lines = new QFormLayout;
    lines->setHorizontalSpacing(grid(4));
    lines->setVerticalSpacing(grid(2));
    const auto line = [&](const char* name, const QString& label) {
        auto* field = new QLineEdit{&dialog};
        field->setObjectName(QLatin1String{name});
        field->setEchoMode(QLineEdit::Password);
        field->setAccessibleName(label);
        field->setMinimumHeight(leastTarget);
        lines->addRow(label, field);
        return field;
    };
    auto* phrase = line("passPhrase", QObject::tr("Pass phrase"));
    auto* again = isNew ? line("passPhraseAgain", QObject::tr("Once more")) : nullptr;
    rows->addLayout(lines);
    auto* fault = makeLabel({}, TextSize::small, Tone::wrong, &dialog);
    fault->setObjectName(QStringLiteral("passPhraseFault"));
    rows->addWidget(fault);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(grid(2));
    auto* leave = makeButton("passPhraseLeave", QObject::tr("Not now"), nullptr, &dialog);
    auto* go = makeButton("passPhraseGo", isNew ? QObject::tr("Seal it") : QObject::tr("Open it"), "main", &dialog);
    buttons->addStretch(1);
    buttons->addWidget(leave);
    buttons->addWidget(go);
    rows->addLayout(buttons);
    const auto look = [&] {
        const auto typed = utf8(phrase->text());
        QString words;
        if (isNew && !typed.empty() && typed.size() < leastPassPhrase) words = QObject::tr("At least %1 characters; four words of your own are a good one.").arg(leastPassPhrase);
        else if (again && !again->text().isEmpty() && again->text() != phrase->text()) words = QObject::tr("The two are not alike.");
        fault->setText(words);
        go->setEnabled(isNew ? typed.size() >= leastPassPhrase && again->text() == phrase->text() : !typed.empty());
    };
    const auto accept = [&] {
        if (go->isEnabled()) dialog.accept();
        else if (again && phrase->hasFocus()) again->setFocus();
    };
    for (auto* field : {phrase, again}) {
        if (!field) continue;
        QObject::connect(field, &QLineEdit::textChanged, &dialog, look);
        QObject::connect(field, &QLineEdit::returnPressed, &dialog, accept);
    }
    QObject::connect(leave, &QPushButton::clicked, &dialog, &QDialog::reject);
    QObject::connect(go, &QPushButton::clicked, &dialog, &QDialog::accept);
    look();
    phrase->setFocus();
    dialog.setMinimumWidth(grid(110));
    if (dialog.exec() != QDialog::Accepted) return std::nullopt;
    return utf8(phrase->text());
}

}

std::optional<std::string> askNewPassPhrase(QWidget* parent)
{
    return ask(parent, QObject::tr("Seal the copy with a pass phrase"),
               QObject::tr("Whoever has the copy needs the phrase to open it. It is kept nowhere: without it nobody opens the copy, you neither. Write it down where you will find it."), true);
}

std::optional<std::string> askPassPhrase(QWidget* parent, const QString& copy)
{
    return ask(parent, QObject::tr("Open a sealed copy"), QObject::tr("%1 is sealed with a pass phrase.").arg(QFileInfo{copy}.fileName()), false);
}

}

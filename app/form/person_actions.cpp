#include "form/person_actions.h"

#include "copy_list.h"
#include "form/record_form.h"
#include "labels.h"
#include "person_account.h"
#include "records/record_words.h"

#include "quantity/words.h"

#include <QApplication>
#include <QCheckBox>
#include <QDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QMenu>
#include <QPushButton>
#include <QVBoxLayout>

namespace strikeoff {

namespace {

void writeOut(Desk& desk, const RecordForm& form)
{
    const Person person{form.kind(), form.record().id};
    std::string text;
    if (!desk.guarded(QObject::tr("Write out"), [&] { text = personAccount(desk.store(), person); })) return;
    desk.saveFile(QObject::tr("What the book holds about this person"), recordKey(desk.book(), form.record()).replace(u'/', u'-') + QStringLiteral(".txt"), QObject::tr("Text (*.txt)"),
                  QByteArray::fromStdString(text));
}

std::vector<BookCopy> copiesNow(Desk& desk)
{
    const auto book = desk.store().path();
    std::vector<std::string> own;
    for (const auto& file : desk.preferences().ownCopies(qs(book)))
        if (QFileInfo{file} != QFileInfo{qs(book)} && mayBeCopyOf(utf8(file), desk.store())) own.push_back(utf8(file));
    return copiesOf(book, own);
}

enum class Answer { leave, blotOut, withCopies };

Answer askForGood(const QString& name, const QString& what, const std::vector<BookCopy>& copies)
{
    QDialog dialog{QApplication::activeWindow()};
    dialog.setObjectName(QStringLiteral("blotDialog"));
    dialog.setWindowTitle(QObject::tr("Blot out for good"));
    auto* rows = new QVBoxLayout{&dialog};
    rows->setContentsMargins(grid(6), grid(5), grid(6), grid(4));
    rows->setSpacing(grid(3));
    rows->addWidget(makeLabel(QObject::tr("Blot out %1 for good?").arg(name), TextSize::question, Tone::plain, &dialog));
    rows->addWidget(makeLabel(QObject::tr("Names, numbers to call, addresses and notes are taken out of %1, and out of what the trail kept of them. Figures and days stay: amounts, hours, yards, what was sold.").arg(what),
                              TextSize::body, Tone::plain, &dialog));
    rows->addWidget(makeLabel(QObject::tr("This cannot be undone, by Undo or otherwise."), TextSize::body, Tone::wrong, &dialog));
    rows->addWidget(makeLabel(QObject::tr(blottingCaution), TextSize::body, Tone::attention, &dialog));
    QCheckBox* too = nullptr;
    if (!copies.empty()) {
        QStringList files;
        for (const auto& copy : copies) files << qs(copy.file);
        constexpr int mostShown = 6;
        auto list = files.mid(0, mostShown).join(u'\n');
        if (files.size() > mostShown) list += QObject::tr("\n\u2026 and %1 more").arg(files.size() - mostShown);
        rows->addWidget(makeLabel(QObject::tr("These copies were made before and hold the person still:"), TextSize::body, Tone::plain, &dialog));
        rows->addWidget(makeLabel(list, TextSize::small, Tone::quiet, &dialog));
        too = new QCheckBox{copies.size() == 1 ? QObject::tr("Remove this copy as well") : QObject::tr("Remove these %1 copies as well").arg(copies.size()), &dialog};
        too->setObjectName(QStringLiteral("blotCopies"));
        rows->addWidget(too);
    }
    rows->addWidget(makeLabel(QObject::tr("Copies on other disks, papers already sent and files already written out are not reached."), TextSize::small, Tone::quiet, &dialog));
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(grid(2));
    auto* leave = makeButton("blotLeave", QObject::tr("Leave it"), "main", &dialog);
    auto* go = makeButton("blotGo", QObject::tr("Blot out for good"), nullptr, &dialog);
    buttons->addStretch(1);
    buttons->addWidget(go);
    buttons->addWidget(leave);
    rows->addLayout(buttons);
    QObject::connect(leave, &QPushButton::clicked, &dialog, &QDialog::reject);
    QObject::connect(go, &QPushButton::clicked, &dialog, &QDialog::accept);
    leave->setFocus();
    dialog.setMinimumWidth(grid(140));
    if (dialog.exec() != QDialog::Accepted) return Answer::leave;
    return too && too->isChecked() ? Answer::withCopies : Answer::blotOut;
}

void blotOut(Desk& desk, const RecordForm& form)
{
    const Person person{form.kind(), form.record().id};
    const auto name = recordName(desk.book(), form.record());
    if (const auto typed = DraftKeeper::of(desk).words(); !typed.isEmpty())
        return desk.say(QObject::tr("This is typed and not saved yet: %1. Save it or put it away first.").arg(typed), Tone::attention);
    std::string what;
    std::vector<BookCopy> copies;
    if (!desk.guarded(QObject::tr("Blot out"), [&] {
            what = blottingWords(desk.store(), person);
            copies = copiesNow(desk);
        }))
        return;
    const auto answer = askForGood(name, qs(what), copies);
    if (answer == Answer::leave) return;
    BlottedOut out;
    desk.beAlone();  // a copy that is made just now would hold the person, and its reading keep the log
    QApplication::setOverrideCursor(Qt::WaitCursor);
    const bool done = desk.guarded(QObject::tr("Not blotted out"), [&] { out = desk.store().blotOut(person); });
    QApplication::restoreOverrideCursor();
    if (!done) return;
    QStringList words{QObject::tr("Blotted out: %1 about this person and %2 that named them; the trail was made anew and says so.")
                          .arg(qs(counted(static_cast<std::int64_t>(out.rows), "record", "records")), qs(counted(static_cast<std::int64_t>(out.mentions), "other", "others")))};
    auto tone = Tone::well;
    if (!out.stillNaming.empty()) {
        words << QObject::tr("Left, as it holds the same name or number in its own right: %1.").arg(qs(out.stillNaming.front()));
        tone = Tone::attention;
    }
    if (answer == Answer::withCopies) {
        std::vector<std::string> files;
        for (const auto& copy : copies) files.push_back(copy.file);
        const auto left = removeCopies(files);
        if (!left.empty()) {
            words << QObject::tr("This copy could not be removed: %1.").arg(qs(left.front()));
            tone = Tone::attention;
        } else {
            words << QObject::tr("The copies were removed.");
        }
    } else if (!copies.empty()) {
        words << QObject::tr("%1 made before still hold the person (Ctrl+Shift+K).").arg(qs(capitalized(counted(static_cast<std::int64_t>(copies.size()), "copy", "copies"))));
        tone = Tone::attention;
    }
    if (!out.remark.empty()) {
        words << QObject::tr("Look: %1.").arg(qs(out.remark));
        tone = Tone::attention;
    }
    desk.say(words.join(u' '), tone);
}

}

void addPersonActions(Desk& desk, RecordForm& form)
{
    auto* button = makeButton("personMenu", QObject::tr("Person"), nullptr, &form);
    button->setToolTip(QObject::tr("Write out what the book holds about this person, or blot them out"));
    auto* menu = new QMenu{button};
    auto* out = menu->addAction(QObject::tr("&Write out what the book holds\u2026"));
    out->setObjectName(QStringLiteral("personWriteOut"));
    auto* blot = menu->addAction(QObject::tr("&Blot out for good\u2026"));
    blot->setObjectName(QStringLiteral("personBlotOut"));
    button->setMenu(menu);
    form.buttons().insertWidget(1, button);
    const auto show = [&desk, &form, button, blot] {
        button->setVisible(!form.isNew());
        blot->setEnabled(!desk.store().isReadOnly());
    };
    QObject::connect(&form, &RecordForm::typed, button, show);
    show();
    QObject::connect(out, &QAction::triggered, button, [&desk, &form] { writeOut(desk, form); });
    QObject::connect(blot, &QAction::triggered, button, [&desk, &form] { blotOut(desk, form); });
}

}

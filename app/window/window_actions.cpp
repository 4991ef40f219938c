#include "window/main_window.h"

#include "labels.h"
#include "pages/keeping/keeping_page.h"
#include "pages/visits/phone_files.h"
#include "paper/paper_print.h"
#include "table/record_table.h"
#include "window/book_place.h"
#include "window/message_strip.h"
#include "window/shared_book.h"

#include <QAction>
#include <QApplication>
#include <QDialog>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QLineEdit>
#include <QMessageBox>
#include <QPrintDialog>
#include <QPushButton>
#include <QPrintPreviewDialog>
#include <QPrinter>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

namespace {

const char* const cautionLines[] = {
    "Wet concrete burns skin and eyes: gloves, boots and eye protection; wash off at once, and see a doctor for a burn.",
    "Silica dust from sawing or grinding dry ruins lungs: cut wet or with a vacuum, and wear a respirator that fits.",
    "Heat and cold make people ill: water, shade, breaks and watching each other in heat; dry layers and warm-up in cold.",
    "Hoses under pressure whip, and a pump\u2019s boom near overhead lines kills: keep clear, keep the distance the utility asks for.",
    "Lifting, kneeling and vibration wear people out: share the load, use the tool that spares the back.",
    "Never place on frozen or saturated subgrade.",
    "Posts, footings and anything that carries a roof belong to the drawings and a licensed engineer.",
    "Local code and the building department stand over any table here; product labels and data sheets over any default here.",
    "Pay, tax, lien and contract rules differ by state: nothing here is legal, tax or engineering advice. Ask a lawyer or an accountant.",
};

QString keyboardText()
{
    QStringList lines;
    for (const auto& spec : actionTable()) {
        const auto keys = keysOf(spec);
        if (keys.isEmpty() || spec.id == ActionId::page1 || (spec.id > ActionId::page1 && spec.id <= ActionId::page8)) continue;
        auto words = QString::fromUtf8(spec.text).remove(u'&');
        lines << QStringLiteral("%1\t%2").arg(keys.front().toString(QKeySequence::NativeText), words);
    }
    lines << QObject::tr("Alt+1 \u2026 Alt+8\tThe pages");
    lines << QObject::tr("Alt+L, T, O, R, P\tOn the day sheet: enter a lead, ticket, hours, receipt, payment");
    lines << QObject::tr("Arrows\tOn the day sheet: from line to line; Enter does what its button says");
    lines << QObject::tr("Arrows\tIn a picture: from point to point; Enter opens the record");
    lines << QObject::tr("F8\tOn Seasons: counts, intervals and method, and back");
    lines << QObject::tr("Enter\tIn a list: open. In a form: go on to the next field");
    lines << QObject::tr("Ctrl+S\tIn a form: save");
    lines << QObject::tr("Ctrl+Enter\tIn a form: save and go on to the next");
    lines << QObject::tr("Esc\tIn a form: leave; asks only if something would be lost");
    lines << QObject::tr("Down\tIn a field that names a record: show all there are");
    lines << QObject::tr("Letters\tIn a list: narrow it");
    return lines.join(u'\n');
}

/// A dialog of plain lines; what stands behind a tab goes into a second column.
void showText(QWidget* parent, const QString& title, const QString& text)
{
    QDialog dialog{parent};
    dialog.setWindowTitle(title);
    auto* layout = new QVBoxLayout{&dialog};
    layout->setContentsMargins(grid(6), grid(5), grid(6), grid(4));
    layout->addWidget(makeLabel(title, TextSize::question, Tone::plain, &dialog));
    auto* body = new QWidget{&dialog};
    auto* table = new QGridLayout{body};
    table->setContentsMargins(0, 0, 0, 0);
    table->setHorizontalSpacing(grid(6));
    table->setColumnStretch(1, 1);
    int row = 0;
    for (const auto& line : text.split(u'\n')) {
        if (const auto parts = line.split(u'\t'); parts.size() > 1) {
            auto* key = makeLabel(parts[0], TextSize::body, Tone::quiet, body);
            key->setWordWrap(false);
            table->addWidget(key, row, 0, Qt::AlignTop);
            table->addWidget(makeLabel(parts[1], TextSize::body, Tone::plain, body), row, 1);
        } else {
            table->addWidget(makeLabel(line, TextSize::body, Tone::plain, body), row, 0, 1, 2);
        }
        ++row;
    }
    table->setRowStretch(row, 1);
    auto* scroll = new QScrollArea{&dialog};
    scroll->setWidgetResizable(true);
    scroll->setWidget(body);
    layout->addWidget(scroll, 1);
    auto* buttons = new QDialogButtonBox{QDialogButtonBox::Close, &dialog};
    QObject::connect(buttons, &QDialogButtonBox::rejected, &dialog, &QDialog::reject);
    layout->addWidget(buttons);
    dialog.resize(grid(160), grid(130));
    dialog.exec();
}

}

void MainWindow::run(ActionId id)
{
    if (id >= ActionId::page1 && id <= ActionId::page8) {
        showPage(static_cast<int>(id) - static_cast<int>(ActionId::page1));
        return;
    }
    auto* page = current_ >= 0 ? pages_[static_cast<std::size_t>(current_)] : nullptr;
    const bool searching = !search_->text().isEmpty();
    auto* table = searching ? results_ : page ? page->table() : nullptr;
    switch (id) {
    case ActionId::newBook: newBook(false); break;
    case ActionId::demonstration: newBook(true); break;
    case ActionId::openBook: {
        const auto path = QFileDialog::getOpenFileName(this, tr("Open a book"), preferences_.folder(), tr("Books (*.strikeoff);;All files (*)"));
        if (path.isEmpty()) break;
        preferences_.setFolder(QFileInfo{path}.absolutePath());
        openBook(path);
        break;
    }
    case ActionId::openShared: {
        const auto books = preferences_.recentBooks();
        const auto lately = std::ranges::find_if(books, isShared);
        if (const auto address = askSharedBook(this, lately == books.end() ? QString{} : *lately)) openBook(*address);
        break;
    }
    case ActionId::backUp: backUp(false); break;
    case ActionId::backUpSealed: backUp(true); break;
    case ActionId::copies: showKeeping(&KeepingPage::showCopies); break;
    case ActionId::removedRecords: showKeeping(&KeepingPage::showRemoved); break;
    case ActionId::changes: showKeeping(&KeepingPage::showChanges); break;
    case ActionId::backToBook: backToBook(); break;
    case ActionId::exportTable:
        if (table) table->exportCsv();
        else strip_->say(tr("There is no table in view to export."), Tone::attention);
        break;
    case ActionId::phoneCalendar: saveCalendar(*desk_); break;
    case ActionId::phoneAddresses: saveAddresses(*desk_); break;
    case ActionId::printPreview: printPage(true); break;
    case ActionId::print: printPage(false); break;
    case ActionId::quit: close(); break;
    case ActionId::undo: desk_->undo(); break;
    case ActionId::redo: desk_->redo(); break;
    case ActionId::newRecord:
        if (page) page->newRecord();
        break;
    case ActionId::copy:
        if (table) table->copySelection();
        break;
    case ActionId::find:
        search_->setFocus(Qt::ShortcutFocusReason);
        search_->selectAll();
        break;
    case ActionId::narrow:
        if (table) table->filterField().setFocus(Qt::ShortcutFocusReason);
        break;
    case ActionId::nextOpen:
    case ActionId::previousOpen:
        if (page && !page->stepOpen(id == ActionId::nextOpen ? 1 : -1)) strip_->say(tr("There are no findings on this page to step through."), Tone::quiet);
        break;
    case ActionId::back: goBack(); break;
    case ActionId::forward: goForward(); break;
    case ActionId::lookSystem: setLook(Look::system); break;
    case ActionId::lookLight: setLook(Look::light); break;
    case ActionId::lookDark: setLook(Look::dark); break;
    default: showHelp(id); break;
    }
    showActions();
}

void MainWindow::setLook(Look look)
{
    preferences_.setLook(look);
    applyLook(look);
    if (current_ >= 0 && desk_) {
        std::fill(stale_.begin(), stale_.end(), true);
        bookChanged();
    }
}

void MainWindow::newBook(bool demonstration)
{
    const auto& make = demonstration ? shelf_.demonstrate : shelf_.create;
    if (!make) {
        strip_->say(tr("This build writes no demonstration book."), Tone::attention);
        return;
    }
    auto path = QFileDialog::getSaveFileName(this, demonstration ? tr("Where to keep the demonstration book") : tr("Where to keep the new book"),
                                             preferences_.folder() + (demonstration ? QStringLiteral("/demonstration.strikeoff") : QStringLiteral("/book.strikeoff")),
                                             tr("Books (*.strikeoff)"), nullptr, QFileDialog::DontConfirmOverwrite);
    if (path.isEmpty()) return;
    if (QFileInfo{path}.suffix().isEmpty()) path += QStringLiteral(".strikeoff");
    preferences_.setFolder(QFileInfo{path}.absolutePath());
    try {
        make(utf8(path));
    } catch (const std::exception& error) {
        strip_->say(qs(error.what()), Tone::wrong);
        return;
    }
    openBook(path);
}

void MainWindow::printPage(bool preview)
{
    auto* page = current_ >= 0 ? pages_[static_cast<std::size_t>(current_)] : nullptr;
    if (!page || !page->canPrint()) {
        strip_->say(tr("There is nothing in view that prints."), Tone::attention);
        return;
    }
    QPrinter printer{QPrinter::HighResolution};
    printer.setPageSize(QPageSize{desk_->book().settings().paper == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter});
    printer.setPageMargins(QMarginsF{0.75, 0.75, 0.75, 0.75}, QPageLayout::Inch);
    printer.setDocName(entries_[static_cast<std::size_t>(current_)].name);
    if (const auto paper = page->paper()) setUpPage(printer, *paper);
    if (preview) {
        QPrintPreviewDialog dialog{&printer, this};
        connect(&dialog, &QPrintPreviewDialog::paintRequested, this, [page](QPrinter* to) { page->print(*to); });
        dialog.exec();
        return;
    }
    QPrintDialog dialog{&printer, this};
    if (dialog.exec() == QDialog::Accepted) page->print(printer);
}

bool MainWindow::mayLeaveBook()
{
    for (std::size_t i = 0; i < pages_.size(); ++i) {
        if (!pages_[i]->hasUnsaved()) continue;
        QMessageBox box{QMessageBox::NoIcon, tr("Not saved"), {}, QMessageBox::NoButton, this};
        box.setTextFormat(Qt::PlainText);
        box.setText(tr("Something typed on the page \u201c%1\u201d is not saved.").arg(entries_[i].name));
        auto* stay = box.addButton(tr("Go there"), QMessageBox::RejectRole);
        box.addButton(tr("Leave it"), QMessageBox::DestructiveRole);
        box.setDefaultButton(stay);
        box.setEscapeButton(stay);
        box.exec();
        if (box.clickedButton() != stay) return true;
        showPage(static_cast<int>(i));
        return false;
    }
    return true;
}

void MainWindow::showHelp(ActionId id)
{
    if (id == ActionId::keyboard) {
        showText(this, tr("Keyboard"), keyboardText());
    } else if (id == ActionId::cautions) {
        QStringList lines;
        for (const auto* line : cautionLines) lines << tr(line);
        showText(this, tr("Cautions"), lines.join(u'\n'));
    } else {
        showText(this, tr("About Strikeoff"), tr("The ledger of a small flatwork crew: one local book from lead to paid.\n"
                                                 "Version 0.1. Your book stays on your machine; nothing is sent anywhere.\n"
                                                 "Made with Qt and SQLite. Nothing here is legal, tax or engineering advice."));
    }
}

}

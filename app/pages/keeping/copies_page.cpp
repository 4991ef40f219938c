#include "pages/keeping/copies_page.h"

#include "form/side_by_side.h"
#include "labels.h"
#include "records/record_words.h"
#include "server_address.h"
#include "table/record_table.h"

#include "quantity/words.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QFrame>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

QString originWords(const BookCopy& copy)
{
    const auto words = copy.origin == CopyOrigin::daily             ? QObject::tr("Daily")
                     : copy.origin == CopyOrigin::beforeNewVersion ? QObject::tr("Before a new version")
                     : copy.origin == CopyOrigin::beforeRestore    ? QObject::tr("Before going back")
                                                                   : QObject::tr("Your own");
    return copy.isSealed ? QObject::tr("%1, sealed").arg(words) : words;
}

QString sizeWords(std::int64_t bytes)
{
    if (bytes < 1'000'000) return QObject::tr("%1 kB").arg(qs(shownDecimal((bytes + 500) / 1000, 0, 0)));
    return QObject::tr("%1 MB").arg(qs(shownDecimal((bytes + 50'000) / 100'000, 1, 1)));
}

namespace {

QString dayWords(const std::string& iso)
{
    const auto day = Date::parse(iso);
    return day ? qs(day->shown()) : qs(iso);
}

/// The file first, by which copies in one folder are told apart where the column is narrow.
QString whereWords(const BookCopy& copy)
{
    const QFileInfo file{qs(copy.file)};
    return QObject::tr("%1 in %2").arg(file.fileName(), file.absolutePath());
}

/// A copy is no record; its place in the list stands in for one.
RecordRef placeRef(std::size_t place) { return {RecordKind::settings, static_cast<std::int64_t>(place) + 1}; }

}

CopiesPage::CopiesPage(Desk& desk, QWidget* parent) : Page{desk, parent}, book_{qs(desk.store().path())}
{
    table_ = new RecordTable{tr("Copies"), {{.heading = tr("Of"), .width = 12}, {.heading = tr("Kind"), .width = 16}, {.heading = tr("Written"), .width = 19},
                                            {.heading = tr("Size"), .align = Align::right, .width = 8}, {.heading = tr("Where"), .width = 20, .stretches = true}}, desk, this};
    table_->setEmptyText(tr("No copy is known of yet. Press Back up, and keep the copy on another disk."));
    auto* backUp = makeButton("copiesBackUp", tr("Back up\u2026"), nullptr, this);
    auto* sealed = makeButton("copiesSealed", tr("Sealed\u2026"), nullptr, this);
    sealed->setToolTip(tr("Back up with a pass phrase, without which nobody opens the copy"));
    auto* other = makeButton("copiesOther", tr("Another copy\u2026"), nullptr, this);
    other->setToolTip(tr("A copy that is not in the list: on another disk, or sent by somebody"));
    table_->bar().insertWidget(0, backUp);
    table_->bar().insertWidget(1, sealed);
    table_->bar().insertWidget(2, other);

    auto* sheet = new QFrame{this};
    setRole(*sheet, "sheet");
    auto* inside = new QVBoxLayout{sheet};
    inside->setContentsMargins(grid(4), grid(3), grid(4), grid(3));
    inside->setSpacing(grid(2));
    name_ = makeLabel({}, TextSize::body, Tone::plain, sheet);
    auto bold = textFont(TextSize::body);
    bold.setBold(true);
    name_->setFont(bold);
    name_->setObjectName(QStringLiteral("copyName"));
    facts_ = makeLabel({}, TextSize::small, Tone::quiet, sheet);
    words_ = makeLabel({}, TextSize::body, Tone::plain, sheet);
    words_->setObjectName(QStringLiteral("copyWords"));
    look_ = makeButton("copyLook", tr("Look into it"), "main", sheet);
    restore_ = makeButton("copyRestore", tr("Go back to it\u2026"), nullptr, sheet);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(grid(2));
    buttons->addStretch(1);
    buttons->addWidget(restore_);
    buttons->addWidget(look_);
    inside->addWidget(name_);
    inside->addWidget(facts_);
    inside->addWidget(words_);
    inside->addStretch(1);
    inside->addLayout(buttons);
    putSideBySide(this, table_, sheet, 68, desk.preferences(), table_->name());

    connect(table_, &RecordTable::currentChanged, this, &CopiesPage::showCurrent);
    connect(table_, &RecordTable::opened, this, [this] { look_->setFocus(Qt::TabFocusReason); });
    connect(look_, &QPushButton::clicked, this, [this] {
        if (const auto* copy = current()) emit lookWanted(qs(copy->file));
    });
    connect(restore_, &QPushButton::clicked, this, [this] {
        if (const auto* copy = current()) emit restoreWanted(qs(copy->file));
    });
    connect(backUp, &QPushButton::clicked, this, [this] { emit backUpWanted(false); });
    connect(sealed, &QPushButton::clicked, this, [this] { emit backUpWanted(true); });
    connect(other, &QPushButton::clicked, this, &CopiesPage::takeOther);
    showCurrent();
}

const BookCopy* CopiesPage::current() const
{
    const auto place = table_->current().id;
    return place >= 1 && place <= static_cast<std::int64_t>(copies_.size()) ? &copies_[static_cast<std::size_t>(place - 1)] : nullptr;
}

QString CopiesPage::answer() const
{
    if (copies_.empty()) return tr("None is known of yet.");
    return tr("%1; the newest is of %2. Keep one on another disk as well.").arg(qs(capitalized(counted(static_cast<std::int64_t>(copies_.size()), "copy", "copies"))), dayWords(copies_.front().day));
}

void CopiesPage::setBook(const QString& book)
{
    book_ = book;
    refresh();
}

void CopiesPage::refresh()
{
    std::vector<std::string> own;
    for (const auto& file : desk().preferences().ownCopies(book_)) own.push_back(utf8(file));
    const auto chosen = current() ? current()->file : std::string{};
    desk().guarded(tr("Copies"), [&] { copies_ = copiesOf(utf8(book_), own); });
    std::vector<TableRow> rows;
    for (std::size_t i = 0; i < copies_.size(); ++i) {
        const auto& copy = copies_[i];
        rows.push_back({placeRef(i), {{dayWords(copy.day), Value{copy.day}, Tone::plain, {}}, textCell(originWords(copy)), {localTime(copy.at), Value{copy.at}, Tone::plain, {}},
                                      {sizeWords(copy.bytes), Value{copy.bytes}, Tone::plain, {}}, {whereWords(copy), {}, Tone::plain, qs(copy.file)}}, {}, false});
    }
    table_->setRows(std::move(rows));
    const auto found = std::ranges::find(copies_, chosen, &BookCopy::file);
    if (!copies_.empty()) table_->select(placeRef(found == copies_.end() ? 0 : static_cast<std::size_t>(found - copies_.begin())));
    showCurrent();
    emit answerChanged();
}

void CopiesPage::showCurrent()
{
    const auto* copy = current();
    look_->setVisible(copy != nullptr);
    facts_->setVisible(copy != nullptr);
    restore_->setVisible(copy != nullptr);
    if (!copy) {
        name_->setText(copies_.empty() ? tr("No copy yet") : tr("Choose a copy"));
        words_->setText(copies_.empty() ? tr("A copy is the whole book as it stood. One is kept each day the book is opened; Back up writes one wherever you say, with a pass phrase if others could get at it. Keep one on another disk.")
                                        : tr("Look into one without touching the book, or go back to it."));
        return;
    }
    name_->setText(tr("The copy of %1").arg(dayWords(copy->day)));
    facts_->setText(tr("%1, %2, written %3\n%4").arg(originWords(*copy), sizeWords(copy->bytes), localTime(copy->at), qs(copy->file)));
    const bool shared = isServerAddress(utf8(book_));
    auto words = tr("\u201cLook into it\u201d opens it to read only, to find what was lost or changed since; the book stays as it is.\n");
    words += shared ? tr("\n\u201cGo back to it\u201d verifies the copy and puts it in the place of the shared book, at every desk at once. The book of now is kept in this list. Only whoever owns the book on the server can do it.")
                    : tr("\n\u201cGo back to it\u201d verifies the copy and puts it in the place of the book. The book of now is kept beside it under another name.");
    if (copy->isSealed) words += tr("\n\nIt is sealed: its pass phrase is asked for.");
    words_->setText(words);
}

void CopiesPage::takeOther()
{
    auto& preferences = desk().preferences();
    const auto file = QFileDialog::getOpenFileName(this, tr("A copy of the book"), preferences.folder());
    if (file.isEmpty()) return;
    if (QFileInfo{file} == QFileInfo{book_} || !mayBeCopyOf(utf8(file), desk().store())) {
        desk().say(tr("%1 is no copy of this book: what is in it began elsewhere. Nothing was taken into the list.").arg(QFileInfo{file}.fileName()), Tone::attention);
        return;
    }
    preferences.addOwnCopy(book_, QFileInfo{file}.absoluteFilePath());
    refresh();
    for (std::size_t i = 0; i < copies_.size(); ++i)
        if (qs(copies_[i].file) == QFileInfo{file}.absoluteFilePath()) table_->select(placeRef(i));
    table_->view().setFocus();
}

void CopiesPage::takeFocus() { table_->view().setFocus(); }

}

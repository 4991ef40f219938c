#include "window/main_window.h"

#include "labels.h"
#include "pages/keeping/copies_page.h"
#include "pages/keeping/keeping_page.h"
#include "plain_words.h"
#include "pages/rates/rates_page.h"
#include "records/record_words.h"
#include "store_state.h"
#include "window/book_care.h"
#include "table/record_table.h"
#include "window/book_place.h"
#include "window/book_search.h"
#include "window/message_strip.h"
#include "window/page_list.h"
#include "window/start_view.h"

#include <QAction>
#include <QActionGroup>
#include <QApplication>
#include <QCloseEvent>
#include <QFileInfo>
#include <QLineEdit>
#include <QMenuBar>
#include <QPushButton>
#include <QSocketNotifier>
#include <QStackedWidget>
#include <QTableView>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

MainWindow::MainWindow(Preferences& preferences, BookShelf shelf, QWidget* parent) : QMainWindow{parent}, preferences_{preferences}, shelf_{std::move(shelf)}, entries_{allPages()}
{
    entries_.push_back({tr("The book"), [](Desk& desk, QWidget* into) -> Page* { return new KeepingPage{desk, into}; }, {}});
    setObjectName(QStringLiteral("window"));
    setWindowTitle(tr("Strikeoff"));
    buildFrame();
    buildMenus();
    resize(1280, 800);
    if (const auto geometry = preferences_.geometry(); !geometry.isEmpty()) restoreGeometry(geometry);
    news_ = new QTimer{this};
    news_->setInterval(1000);
    connect(news_, &QTimer::timeout, this, [this] {
        if (!desk_) return;
        desk_->lookForNews();
        listenForNews();
        if (countedOf_ && countedOf_->second != desk_->today()) {  // midnight has passed
            bookChanged();
            if (!care_->isRunning()) care_->begin(bookAgain(*store_), false, keepsCopies());
        }
    });
    care_ = new BookCare{this};
    connect(care_, &BookCare::progressed, this, &MainWindow::showFoot);
    connect(care_, &BookCare::checked, this, &MainWindow::sayChecked);
    connect(care_, &BookCare::copied, this, &MainWindow::sayCopied);
    searchTimer_ = new QTimer{this};
    searchTimer_->setSingleShot(true);
    searchTimer_->setInterval(150);
    connect(searchTimer_, &QTimer::timeout, this, [this] { search(search_->text()); });
    start_->setRecent(preferences_.recentBooks());
    showHead();
    showFoot();
    showActions();
}

MainWindow::~MainWindow()
{
    stopListening();
    care_->disconnect(this);
    care_->stop();
    for (auto* page : pages_) delete page;  // before the desk they work at
    delete resultsView_;
}

void MainWindow::listenForNews()
{
    const int socket = newsSocket(*store_);
    if (listener_ && listener_->socket() == socket) return;
    stopListening();
    if (socket < 0) return;
    listener_ = new QSocketNotifier{socket, QSocketNotifier::Read, this};
    connect(listener_, &QSocketNotifier::activated, this, [this] {
        desk_->lookForNews();
        listenForNews();  // a connection that is gone is listened to no more
    });
}

void MainWindow::stopListening()
{
    if (!listener_) return;
    listener_->setEnabled(false);
    listener_->deleteLater();
    listener_ = nullptr;
}

void MainWindow::buildFrame()
{
    auto* whole = new QWidget{this};
    auto* rows = new QVBoxLayout{whole};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(0);
    auto* across = new QHBoxLayout;
    across->setContentsMargins(0, 0, 0, 0);
    across->setSpacing(0);
    rows->addLayout(across, 1);

    side_ = new QFrame{whole};
    setRole(*side_, "side");
    side_->setFixedWidth(grid(46));
    auto* sideRows = new QVBoxLayout{side_};
    sideRows->setContentsMargins(grid(2), grid(4), grid(2), grid(2));
    list_ = new PageList{side_};
    QStringList names;
    for (std::size_t i = 0; i + 1 < entries_.size(); ++i) names << entries_[i].name;
    list_->setPages(names);
    sideRows->addWidget(list_);
    across->addWidget(side_);

    auto* mainArea = new QWidget{whole};
    auto* area = new QVBoxLayout{mainArea};
    area->setContentsMargins(grid(5), grid(4), grid(5), grid(3));
    area->setSpacing(grid(3));
    across->addWidget(mainArea, 1);

    auto* head = new QHBoxLayout;
    head->setSpacing(grid(4));
    auto* words = new QVBoxLayout;
    words->setSpacing(grid(1));
    question_ = makeLabel({}, TextSize::question, Tone::plain, mainArea);
    question_->setObjectName(QStringLiteral("question"));
    answer_ = makeLabel({}, TextSize::body, Tone::plain, mainArea);
    answer_->setObjectName(QStringLiteral("answer"));
    answer_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    words->addWidget(question_);
    words->addWidget(answer_);
    head->addLayout(words, 1);
    search_ = new QLineEdit{mainArea};
    search_->setObjectName(QStringLiteral("search"));
    search_->setPlaceholderText(tr("Find in the whole book"));
    search_->setAccessibleName(tr("Find in the whole book"));
    search_->setToolTip(tr("Ctrl+F"));
    search_->setClearButtonEnabled(true);
    search_->setFixedWidth(grid(64));
    search_->installEventFilter(this);
    head->addWidget(search_, 0, Qt::AlignTop);
    area->addLayout(head);

    copyBar_ = new QFrame{mainArea};
    setRole(*copyBar_, "strip");
    setTone(*copyBar_, Tone::attention);
    copyWords_ = makeLabel({}, TextSize::body, Tone::attention, copyBar_);
    copyWords_->setObjectName(QStringLiteral("copyShown"));
    auto* leaveCopy = makeButton("backToBook", tr("Back to the book"), nullptr, copyBar_);
    auto* copyLine = new QHBoxLayout{copyBar_};
    copyLine->setContentsMargins(grid(3), grid(1), grid(2), grid(1));
    copyLine->setSpacing(grid(2));
    copyLine->addWidget(copyWords_, 1);
    auto* takeCopy = makeButton("goBackToShown", tr("Go back to this copy\u2026"), nullptr, copyBar_);
    copyLine->addWidget(takeCopy);
    copyLine->addWidget(leaveCopy);
    connect(takeCopy, &QPushButton::clicked, this, [this] { goBackToCopy(QString{copyShown_}); }, Qt::QueuedConnection);
    copyBar_->hide();
    area->addWidget(copyBar_);
    connect(leaveCopy, &QPushButton::clicked, this, [this] { run(ActionId::backToBook); }, Qt::QueuedConnection);
    strip_ = new MessageStrip{mainArea};
    area->addWidget(strip_);
    stack_ = new QStackedWidget{mainArea};
    area->addWidget(stack_, 1);
    start_ = new StartView{stack_};
    resultsView_ = new QWidget{stack_};
    auto* resultRows = new QVBoxLayout{resultsView_};
    resultRows->setContentsMargins(0, 0, 0, 0);
    stack_->addWidget(start_);
    stack_->addWidget(resultsView_);

    foot_ = new QFrame{whole};
    setRole(*foot_, "foot");
    auto* line = new QHBoxLayout{foot_};
    line->setContentsMargins(grid(5), grid(1), grid(5), grid(1));
    line->setSpacing(grid(6));
    footBook_ = makeLabel({}, TextSize::small, Tone::quiet, foot_);
    footCopy_ = makeButton("footCopies", {}, "link", foot_);
    footCopy_->setFont(textFont(TextSize::small));
    footCopy_->setFocusPolicy(Qt::NoFocus);
    footCopy_->setToolTip(tr("The copies of the book (Ctrl+Shift+K)"));
    connect(footCopy_, &QPushButton::clicked, this, [this] { run(ActionId::copies); });
    footUndo_ = makeLabel({}, TextSize::small, Tone::quiet, foot_);
    for (auto* label : {footBook_, footUndo_}) label->setWordWrap(false);
    footBook_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    footBook_->setMinimumWidth(grid(20));
    line->addWidget(footBook_, 1);
    line->addWidget(footCopy_);
    line->addWidget(footUndo_);
    rows->addWidget(foot_);
    setCentralWidget(whole);

    connect(list_, &QListWidget::currentRowChanged, this, [this](int row) {
        if (row >= 0 && row != current_ && desk_) showPage(row);
    });
    connect(list_, &QListWidget::itemClicked, this, [this] {
        if (desk_) closeSearch();
    });
    connect(search_, &QLineEdit::textChanged, this, [this](const QString& text) {
        if (text.isEmpty()) closeSearch();
        else searchTimer_->start();
    });
    connect(start_, &StartView::newWanted, this, [this] { run(ActionId::newBook); });
    connect(start_, &StartView::openWanted, this, [this] { run(ActionId::openBook); });
    connect(start_, &StartView::demonstrationWanted, this, [this] { run(ActionId::demonstration); });
    connect(start_, &StartView::bookWanted, this, &MainWindow::openBook);
}

void MainWindow::buildMenus()
{
    std::map<QString, QMenu*> menus;
    auto* looks = new QActionGroup{this};
    for (const auto& spec : actionTable()) {
        const auto menuText = tr(spec.menu);
        auto*& menu = menus[menuText];
        if (!menu) menu = menuBar()->addMenu(menuText);
        if (spec.lineBefore) menu->addSeparator();
        auto text = tr(spec.text);
        if (spec.id >= ActionId::page1 && spec.id <= ActionId::page8)
            text = withoutMnemonic(entries_[static_cast<std::size_t>(spec.id) - static_cast<std::size_t>(ActionId::page1)].name);
        auto* action = menu->addAction(text);
        action->setShortcuts(keysOf(spec));
        if (spec.id == ActionId::lookLight || spec.id == ActionId::lookDark || spec.id == ActionId::lookSystem) {
            action->setCheckable(true);
            looks->addAction(action);
        }
        connect(action, &QAction::triggered, this, [this, id = spec.id] { run(id); });
        actions_[spec.id] = action;
    }
    const auto look = preferences_.look();
    actions_[look == Look::light ? ActionId::lookLight : look == Look::dark ? ActionId::lookDark : ActionId::lookSystem]->setChecked(true);
}

bool MainWindow::openBook(const QString& path)
{
    try {
        auto store = shelf_.open(utf8(path));
        if (!mayLeaveBook()) return false;
        showStore(std::move(store));
        preferences_.addRecentBook(path);
        return true;
    } catch (const std::exception& error) {
        strip_->say(qs(error.what()), Tone::wrong);
        return false;
    }
}

void MainWindow::closeBook()
{
    news_->stop();
    stopListening();
    care_->stop();
    search_->clear();
    for (auto* page : pages_) delete page;
    pages_.clear();
    delete results_;
    results_ = nullptr;
    backward_.clear();
    forward_.clear();
    current_ = -1;
    countedOf_.reset();
    desk_.reset();
    store_.reset();
    made_.reset();
    bookBefore_.clear();
    copyShown_.clear();
    copyBar_->hide();
    showActions();  // none is left that needs a book, while another one is opened or a copy put in its place
}

void MainWindow::showStore(std::unique_ptr<Store> store)
{
    closeBook();
    store_ = std::move(store);
    desk_ = std::make_unique<Desk>(*store_, preferences_);
    connect(desk_.get(), &Desk::changed, this, &MainWindow::bookChanged);
    connect(desk_.get(), &Desk::said, strip_, &MessageStrip::say);
    connect(desk_.get(), &Desk::aloneWanted, care_, &BookCare::stop);
    connect(desk_.get(), &Desk::openRequested, this, &MainWindow::openRecord);
    connect(desk_.get(), &Desk::hoursWanted, this, [this](Date day) {
        const auto rates = std::ranges::find_if(pages_, [](auto* page) { return qobject_cast<RatesPage*>(page); });
        if (rates == pages_.end()) return;
        showPage(static_cast<int>(rates - pages_.begin()));
        static_cast<RatesPage*>(*rates)->enterHours(day);
    });
    for (const auto& entry : entries_) {
        auto* page = entry.make(*desk_, stack_);  // made in its place: moved there, every widget of it would be styled twice
        stack_->addWidget(page);
        pages_.push_back(page);
        connect(page, &Page::answerChanged, this, [this, page] {
            if (current_ < 0 || pages_[static_cast<std::size_t>(current_)] != page) return;
            showHead();
            showCounts();
        });
    }
    auto& copies = keeping()->copies();
    connect(&copies, &CopiesPage::lookWanted, this, &MainWindow::lookIntoCopy, Qt::QueuedConnection);  // the page does not outlive it
    connect(&copies, &CopiesPage::restoreWanted, this, &MainWindow::goBackToCopy, Qt::QueuedConnection);
    connect(&copies, &CopiesPage::backUpWanted, this, &MainWindow::backUp);
    results_ = new RecordTable{tr("Found"), {{.heading = tr("Kind"), .width = 16}, {.heading = tr("Name"), .width = 26}, {.heading = tr("About"), .width = 46, .dashWhenBlank = false},
                                             {.heading = tr("Found in"), .width = 16}, {.heading = tr("Text"), .width = 40, .dashWhenBlank = false}}, *desk_, resultsView_};
    results_->setEmptyText(tr("Nothing in the book holds these words."));
    results_->setFilterVisible(false);
    resultsView_->layout()->addWidget(results_);
    connect(results_, &RecordTable::opened, this, [this](const RecordRef& record) { openRecord(record.kind, record.id); });
    stale_.assign(pages_.size(), true);
    strip_->hide();
    setWindowTitle(tr("%1 \u2013 Strikeoff").arg(bookName(qs(store_->path()))));
    showPage(0);
    showFoot();
    showCounts();
    takeCare();
    news_->start();
    listenForNews();
}

void MainWindow::showPage(int index)
{
    if (!desk_ || index < 0 || index >= static_cast<int>(pages_.size())) return;
    if (!search_->text().isEmpty()) {
        const QSignalBlocker quiet{search_};
        search_->clear();
        searchTimer_->stop();
    }
    if (index != current_ && current_ >= 0) remember();
    current_ = index;
    list_->setCurrentIndex(list_->model()->index(index, 0));  // also to none: set by row, the list would choose its first when the keyboard comes by
    auto* page = pages_[static_cast<std::size_t>(index)];
    stack_->setCurrentWidget(page);
    if (stale_[static_cast<std::size_t>(index)]) {
        stale_[static_cast<std::size_t>(index)] = false;
        desk_->guarded(entries_[static_cast<std::size_t>(index)].name, [page] { page->refresh(); });
    }
    showHead();
    showActions();
    page->takeFocus();
}

MainWindow::Place MainWindow::here() const
{
    if (current_ < 0) return {};
    return {current_, pages_[static_cast<std::size_t>(current_)]->currentRecord().value_or(RecordRef{})};
}

void MainWindow::remember()
{
    if (travelling_ || current_ < 0) return;
    if (backward_.empty() || backward_.back() != here()) backward_.push_back(here());
    if (backward_.size() > 100) backward_.erase(backward_.begin());
    forward_.clear();
}

void MainWindow::goTo(const Place& place)
{
    travelling_ = true;
    showPage(place.page);
    if (place.record && desk_->book().find(place.record.kind, place.record.id)) pages_[static_cast<std::size_t>(place.page)]->openRecord(place.record.kind, place.record.id);
    else if (!place.record && place.page >= 0) pages_[static_cast<std::size_t>(place.page)]->closeRecord();
    travelling_ = false;
    showHead();
    showActions();
}

void MainWindow::goBack()
{
    if (stack_->currentWidget() == resultsView_) {
        closeSearch();
        return;
    }
    if (backward_.empty()) return;
    const auto place = backward_.back();
    backward_.pop_back();
    forward_.push_back(here());
    goTo(place);
}

void MainWindow::goForward()
{
    if (forward_.empty()) return;
    const auto place = forward_.back();
    forward_.pop_back();
    backward_.push_back(here());
    goTo(place);
}

bool MainWindow::openRecord(RecordKind kind, std::int64_t id)
{
    if (!desk_ || !desk_->book().find(kind, id)) return false;
    const auto opensOn = [&](std::size_t index) {
        const auto before = here();
        auto* page = pages_[index];
        if (stale_[index]) {
            stale_[index] = false;
            page->refresh();
        }
        if (!page->openRecord(kind, id)) return false;
        if (!travelling_ && before != Place{static_cast<int>(index), {kind, id}}) {
            backward_.push_back(before);
            forward_.clear();
        }
        travelling_ = true;
        showPage(static_cast<int>(index));
        travelling_ = false;
        showActions();
        return true;
    };
    bool opened = false;
    desk_->guarded(tr("Open"), [&] {
        for (std::size_t i = 0; i < entries_.size() && !opened; ++i)
            if (std::ranges::find(entries_[i].keeps, kind) != entries_[i].keeps.end()) opened = opensOn(i);
    });
    return opened;
}

void MainWindow::search(const QString& words)
{
    if (!desk_) return;
    searchTimer_->stop();
    if (words.trimmed().isEmpty()) {
        closeSearch();
        return;
    }
    if (search_->text() != words) {
        const QSignalBlocker quiet{search_};
        search_->setText(words);
    }
    std::vector<TableRow> rows;
    constexpr std::size_t most = 400;
    for (const auto& found : searchBook(desk_->book(), utf8(words), most)) {
        const auto& kind = describe(found.record.kind);
        rows.push_back({found.record, {textCell(qs(kind.label)), textCell(recordKey(desk_->book(), found.record)), textCell(recordTelling(desk_->book(), found.record)),
                                       textCell(qs(found.field)), textCell(qs(found.text).simplified())}, {}, false});
    }
    const auto count = rows.size();
    results_->setRows(std::move(rows));
    stack_->setCurrentWidget(resultsView_);
    question_->setText(tr("Where does the book say \u201c%1\u201d?").arg(words.trimmed()));
    answer_->setText(count == 0 ? tr("Nowhere.") : count == 1 ? tr("In one record. Enter opens it.")
                     : count >= most ? tr("In more than %1 records; these are the newest. A longer text finds fewer.").arg(most) : tr("In %1 records. Enter opens one.").arg(count));
    answer_->show();
}

void MainWindow::closeSearch()
{
    searchTimer_->stop();
    if (!search_->text().isEmpty()) {
        const QSignalBlocker quiet{search_};
        search_->clear();
    }
    if (stack_->currentWidget() == resultsView_ && current_ >= 0) showPage(current_);
}

void MainWindow::bookChanged()
{
    std::fill(stale_.begin(), stale_.end(), true);
    if (current_ >= 0) {
        stale_[static_cast<std::size_t>(current_)] = false;
        auto* page = pages_[static_cast<std::size_t>(current_)];
        desk_->guarded(entries_[static_cast<std::size_t>(current_)].name, [page] { page->refresh(); });
    }
    if (stack_->currentWidget() == resultsView_) search(search_->text());
    else showHead();
    showFoot();
    showCounts();
    showActions();
}

void MainWindow::showHead()
{
    if (current_ < 0) {
        question_->setText(tr("Which book?"));
        answer_->clear();
    } else if (stack_->currentWidget() != resultsView_) {
        auto* page = pages_[static_cast<std::size_t>(current_)];
        question_->setText(page->question());
        answer_->setText(page->answer());
    }
    answer_->setVisible(!answer_->text().isEmpty());
    search_->setVisible(desk_ != nullptr);
    side_->setVisible(desk_ != nullptr);
}

void MainWindow::showFoot()
{
    foot_->setVisible(desk_ != nullptr);
    if (!desk_) return;
    const auto path = qs(store_->path());
    auto book = (isShared(path) ? tr("%1, shared on %2") : tr("%1, kept in %2")).arg(bookName(path), bookPlace(path));
    if (store_->isReadOnly()) book += tr(" (read-only)");
    footBook_->setText(book);
    footBook_->setToolTip(asPlainTip(isShared(path) ? path : QFileInfo{path}.absoluteFilePath()));
    const auto copy = Date::parse(store_->lastCopy());
    const auto now = care_->progressWords();
    footCopy_->setText(!now.isEmpty() ? now : copy ? tr("Last copy %1").arg(qs(copy->shown())) : tr("No daily copy yet"));
    const auto undo = qs(store_->undoTitle());
    footUndo_->setText(store_->isReadOnly() ? tr("Read-only: look, print and export; nothing can be changed") : undo.isEmpty() ? tr("Nothing to undo") : tr("Ctrl+Z undoes: %1").arg(undo));
}

void MainWindow::showCounts()
{
    if (!desk_) return;
    // Pages out of view are asked too, but only once for what the book says on a day.
    const std::pair now{desk_->book().version(), desk_->today()};
    if (countedOf_ == now) return;
    countedOf_ = now;
    for (std::size_t i = 0; i < pages_.size(); ++i) list_->setWaiting(static_cast<int>(i), pages_[i]->waiting());
}

void MainWindow::showActions()
{
    const bool book = desk_ != nullptr;
    const bool writable = book && !store_->isReadOnly();
    const auto undo = writable ? qs(store_->undoTitle()) : QString{};
    const auto redo = writable ? qs(store_->redoTitle()) : QString{};
    actions_[ActionId::undo]->setText(undo.isEmpty() ? tr("&Undo") : tr("&Undo %1").arg(withoutMnemonic(undo)));
    actions_[ActionId::redo]->setText(redo.isEmpty() ? tr("&Redo") : tr("&Redo %1").arg(withoutMnemonic(redo)));
    actions_[ActionId::undo]->setEnabled(!undo.isEmpty());
    actions_[ActionId::redo]->setEnabled(!redo.isEmpty());
    actions_[ActionId::backToBook]->setVisible(isInCopy());
    for (const auto id : {ActionId::backUp, ActionId::backUpSealed, ActionId::copies, ActionId::removedRecords, ActionId::changes, ActionId::exportTable, ActionId::phoneCalendar, ActionId::phoneAddresses, ActionId::printPreview, ActionId::print, ActionId::newRecord, ActionId::copy, ActionId::find, ActionId::narrow})
        actions_[id]->setEnabled(book);
    for (auto id = static_cast<int>(ActionId::page1); id <= static_cast<int>(ActionId::page8); ++id) actions_[static_cast<ActionId>(id)]->setEnabled(book);
    actions_[ActionId::back]->setEnabled(!backward_.empty());
    actions_[ActionId::forward]->setEnabled(!forward_.empty());
}

bool MainWindow::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == search_ && event->type() == QEvent::KeyPress) {
        const auto key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Escape) {
            closeSearch();
            if (current_ >= 0) pages_[static_cast<std::size_t>(current_)]->takeFocus();
            return true;
        }
        if ((key == Qt::Key_Down || key == Qt::Key_Return || key == Qt::Key_Enter) && !search_->text().isEmpty()) {
            search(search_->text());
            if (results_->model().rowCount() > 0) {
                results_->view().setCurrentIndex(results_->model().index(0, 0));
                results_->view().setFocus();
            }
            return true;
        }
    }
    return QMainWindow::eventFilter(watched, event);
}

void MainWindow::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::ActivationChange && isActiveWindow() && desk_) desk_->lookForNews();
    QMainWindow::changeEvent(event);
}

void MainWindow::closeEvent(QCloseEvent* event)
{
    if (!mayLeaveBook()) {
        event->ignore();
        return;
    }
    preferences_.setGeometry(saveGeometry());
    event->accept();
}

bool savePicture(MainWindow& window, const QString& file) { return window.grab().save(file, "PNG"); }

}

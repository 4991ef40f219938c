#pragma once

#include <QMainWindow>

#include "page.h"
#include "window/actions.h"

#include <algorithm>
#include <functional>
#include <memory>

class QFrame;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QSocketNotifier;
class QTimer;

namespace strikeoff {

class BookCare;
class KeepingPage;
class MessageStrip;
class PageList;
class RecordTable;
class StartView;

/// How books come into being; given from outside, so that the window knows no files.
struct BookShelf {
    std::function<std::unique_ptr<Store>(const std::string& path)> open;
    std::function<void(const std::string& path)> create;
    std::function<void(const std::string& path)> demonstrate;  ///< writes the demonstration book; empty when there is none to write
    bool keepsCopies = false;  ///< today's copy is kept while the book is worked in
};

/// The frame: pages at the left, question and answer on top with the search field, the page, and one line at the bottom.
class MainWindow : public QMainWindow {
    Q_OBJECT
public:
    MainWindow(Preferences& preferences, BookShelf shelf, QWidget* parent = nullptr);
    ~MainWindow() override;

    /// Opens a book; on a fault says so and stays as it is. False on a fault.
    bool openBook(const QString& path);
    /// Shows an open store.
    void showStore(std::unique_ptr<Store> store);
    /// Looks for news as soon as a server tells of them, not only every second.
    void listenForNews();
    void stopListening();
    bool hasBook() const { return desk_ != nullptr; }
    Desk& desk() { return *desk_; }

    /// The pages of the list; how the book is kept stands behind them.
    int pageCount() const { return std::max(static_cast<int>(pages_.size()) - 1, 0); }
    Page& page(int index) { return *pages_[static_cast<std::size_t>(index)]; }
    int currentPage() const { return current_; }
    void showPage(int index);
    /// Opens a record on the page that keeps it.
    bool openRecord(RecordKind kind, std::int64_t id);
    void goBack();
    void goForward();
    /// Finds across the whole book; an empty text closes the results.
    void search(const QString& words);

    QAction* action(ActionId id) const { return actions_.at(id); }
    QLineEdit& searchField() { return *search_; }
    MessageStrip& strip() { return *strip_; }
    /// What is done for the book meanwhile.
    BookCare& care() { return *care_; }
    /// Opens a copy of the book to read only; the way back leads to the book. False on a fault, which is said.
    bool lookIntoCopy(const QString& copy);
    bool isInCopy() const { return !bookBefore_.isEmpty(); }
    /// Puts a copy in the place of the open book, after asking and verifying it.
    void goBackToCopy(const QString& copy);
    RecordTable* results() { return results_; }

protected:
    void closeEvent(QCloseEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    struct Place {
        int page = 0;
        RecordRef record;
        friend bool operator==(const Place&, const Place&) = default;
    };
    void buildFrame();
    void buildMenus();
    void run(ActionId id);
    void bookChanged();
    void showHead();
    void showFoot();
    void showCounts();
    void showActions();
    void closeSearch();
    Place here() const;
    void goTo(const Place& place);
    void remember();
    bool mayLeaveBook();
    void setLook(Look look);
    void newBook(bool demonstration);
    void backUp(bool withPassPhrase);
    KeepingPage* keeping() const;
    void showKeeping(void (KeepingPage::*tab)());
    void closeBook();
    bool keepsCopies() const { return shelf_.keepsCopies && !store_->isReadOnly(); }
    void takeCare();
    void sayCopied(const QString& fault);
    void sayChecked(const std::vector<VerifyFinding>& findings, const QString& fault);
    void goBackAlone(const QString& copy, const QString& book, const std::optional<std::string>& phrase);
    void goBackShared(const QString& copy, const std::optional<std::string>& phrase);
    /// Restores and puts into words what came of it.
    std::pair<QString, Tone> restoredWords(const QString& copy, const QString& book, const std::optional<std::string>& phrase, const AskPassword& ask);
    void sayRestored(const std::pair<QString, Tone>& words);
    void backToBook();
    void printPage(bool preview);
    void showHelp(ActionId id);

    Preferences& preferences_;
    BookShelf shelf_;
    std::shared_ptr<void> made_;  ///< what was made to look into a copy, gone with it
    std::unique_ptr<Store> store_;
    std::unique_ptr<Desk> desk_;
    QString bookBefore_;          ///< the book, while a copy of it is looked into
    QString left_;                ///< what was typed when the program broke off, in words
    QString copyShown_;           ///< and the copy
    std::vector<PageEntry> entries_;
    std::vector<Page*> pages_;
    std::vector<bool> stale_;
    int current_ = -1;
    std::vector<Place> backward_, forward_;
    bool travelling_ = false;
    std::optional<std::pair<std::uint64_t, Date>> countedOf_;  ///< version of the book and day that the counts in the list are of

    std::map<ActionId, QAction*> actions_;
    QFrame* side_;
    PageList* list_;
    QLabel* question_;
    QLabel* answer_;
    QLineEdit* search_;
    MessageStrip* strip_;
    QFrame* copyBar_;
    QLabel* copyWords_;
    QStackedWidget* stack_;
    StartView* start_;
    QWidget* resultsView_;
    RecordTable* results_ = nullptr;
    QFrame* foot_;
    QLabel* footBook_;
    QPushButton* footCopy_;
    QLabel* footUndo_;
    QTimer* news_;
    BookCare* care_;
    QSocketNotifier* listener_ = nullptr;  ///< for what another desk tells by the server
    QTimer* searchTimer_;
};

/// Draws the window as it stands into a PNG file.
bool savePicture(MainWindow& window, const QString& file);

}

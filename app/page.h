#pragma once

#include <QWidget>

#include "desk.h"
#include "paper/paper_document.h"

#include <functional>
#include <optional>
#include <vector>

class QPrinter;

namespace strikeoff {

class RecordTable;

/// One page of the window. The frame shows its question and answer above it and asks it to refresh when it comes into view and when the book changed
/// while it is in view; a page out of view is left alone until then.
class Page : public QWidget {
    Q_OBJECT
public:
    explicit Page(Desk& desk, QWidget* parent = nullptr) : QWidget{parent}, desk_{desk} {}

    /// The heading: the question the page answers.
    virtual QString question() const = 0;
    /// The answer in one sentence with numbers, from the domain; empty while there is none.
    virtual QString answer() const { return {}; }
    /// Takes in what the book says now.
    virtual void refresh() {}
    /// How many things wait here today, reckoned from the book as it is now whether the page is in view or not. The frame asks once after a change.
    virtual int waiting() const { return 0; }

    /// Shows a record; false when the page does not keep it.
    virtual bool openRecord(RecordKind, std::int64_t) { return false; }
    /// Shows what the page shows before a record is opened, for the way back.
    virtual void closeRecord() {}
    /// The record in view, for the way back.
    virtual std::optional<RecordRef> currentRecord() const { return std::nullopt; }
    /// Begins a new record (Ctrl+N).
    virtual void newRecord() {}
    /// Narrows the page's list to a text.
    virtual void find(const QString&) {}
    /// Goes to the next thing that waits for the owner (F3), or with −1 to the one before; false where a page has none to step through.
    virtual bool stepOpen(int) { return false; }
    /// Puts the keyboard where work begins.
    virtual void takeFocus() { setFocus(); }

    /// The table in view, for Export and Copy; nullptr where there is none.
    virtual RecordTable* table() const { return nullptr; }
    /// What is in view as a paper; the frame makes preview and dialog. Without an override the table in view; nothing where there is none.
    virtual std::optional<PaperDocument> paper() const;
    virtual bool canPrint() const { return table() != nullptr; }
    /// Prints the paper on the pages the printer has.
    virtual void print(QPrinter& printer) const;

    /// Whether something typed here is not saved yet.
    virtual bool hasUnsaved() const { return false; }

signals:
    /// Question, answer or count are others now.
    void answerChanged();

protected:
    Desk& desk() const { return desk_; }

private:
    Desk& desk_;
};

/// One line of the list of pages: name, how it is made, and the kinds of record that are opened on it.
struct PageEntry {
    QString name;
    std::function<Page*(Desk&, QWidget* parent)> make;
    std::vector<RecordKind> keeps;
};

/// The pages in the order of the list, Alt+1 the first.
std::vector<PageEntry> allPages();

}

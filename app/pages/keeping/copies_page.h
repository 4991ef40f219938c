#pragma once

#include "page.h"

#include "copy_list.h"

class QLabel;
class QPushButton;

namespace strikeoff {

/// The copies of the book that are known of: to look into, to go back to, and to make more of. The window does it, as the book itself is closed for some.
class CopiesPage : public Page {
    Q_OBJECT
public:
    explicit CopiesPage(Desk& desk, QWidget* parent = nullptr);

    QString question() const override { return tr("Which copies of the book are there?"); }
    QString answer() const override;
    void refresh() override;
    void takeFocus() override;
    RecordTable* table() const override { return table_; }
    /// The copies are those of that book, while one of them is looked into.
    void setBook(const QString& book);

signals:
    void lookWanted(const QString& copy);
    void restoreWanted(const QString& copy);
    void backUpWanted(bool withPassPhrase);

private:
    void showCurrent();
    const BookCopy* current() const;
    void takeOther();

    RecordTable* table_;
    QLabel* name_;
    QLabel* facts_;
    QLabel* words_;
    QPushButton* look_;
    QPushButton* restore_;
    QString book_;
    std::vector<BookCopy> copies_;
};

/// "Daily", "Before going back", … of a copy.
QString originWords(const BookCopy& copy);
/// "12.4 MB".
QString sizeWords(std::int64_t bytes);

}

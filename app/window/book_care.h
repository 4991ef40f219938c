#pragma once

#include <QObject>
#include <QString>

#include "book_again.h"

#include <atomic>
#include <memory>

class QThread;
class QTimer;

namespace strikeoff {

/// What is done for a book beside the work in it, on a thread and a connection of its own: the check after the program broke off, and the day's copy. The
/// window goes on meanwhile.
class BookCare : public QObject {
    Q_OBJECT
public:
    explicit BookCare(QObject* parent = nullptr);
    ~BookCare() override;

    /// Begins with what is wanted of it; what was under way is stopped first. A book in which the check finds a fault is not copied, so that no sound copy has to
    /// go for it.
    void begin(BookAgain book, bool check, bool copy);
    /// Stops and waits: nobody but the store holds the book afterwards.
    void stop();
    bool isRunning() const { return work_ != nullptr; }
    /// "Checking the book, 40 %"; blank while nothing is done.
    QString progressWords() const;

signals:
    void progressed();
    /// With what was wrong, or the reason why it could not be found out.
    void checked(const std::vector<strikeoff::VerifyFinding>& findings, const QString& fault);
    /// Today's copy is there; or it was not kept for this reason.
    void copied(const QString& fault);

private:
    /// Shared with the thread.
    struct Work {
        std::atomic<bool> stop{false};
        std::atomic<bool> isCopying{false};
        std::atomic<int> percent{0};
        std::optional<std::vector<VerifyFinding>> findings;
        std::string checkFault, copyFault;
        bool isCopied = false;
    };
    static void check(Work& work, const BookAgain& book);
    static void copy(Work& work, const BookAgain& book);
    void finish();

    std::shared_ptr<Work> work_;
    QThread* thread_ = nullptr;
    QTimer* poll_;
};

}

#include "window/book_care.h"

#include "labels.h"

#include <QDateTime>
#include <QThread>
#include <QTimer>

namespace strikeoff {

namespace {

std::string todayUtc() { return utf8(QDateTime::currentDateTimeUtc().date().toString(Qt::ISODate)); }

}

BookCare::BookCare(QObject* parent) : QObject{parent}, poll_{new QTimer{this}}
{
    poll_->setInterval(200);
    connect(poll_, &QTimer::timeout, this, &BookCare::progressed);
}

BookCare::~BookCare() { stop(); }

void BookCare::begin(BookAgain book, bool check, bool copy)
{
    stop();
    copy = copy && isCopyDue(book.path, todayUtc());
    if (!check && !copy) return;
    work_ = std::make_shared<Work>();
    work_->isCopying = !check;
    thread_ = QThread::create([work = work_, book = std::move(book), check, copy] {
        if (check) BookCare::check(*work, book);
        const bool isSound = !check || (work->findings && work->findings->empty());
        if (copy && isSound && !work->stop) BookCare::copy(*work, book);
    });
    connect(thread_, &QThread::finished, this, &BookCare::finish);
    poll_->start();
    thread_->start(QThread::LowPriority);
    emit progressed();
}

void BookCare::check(Work& work, const BookAgain& book)
{
    try {
        work.findings = checkBook(book, [&](int percent) {
            work.percent = percent;
            return !work.stop.load();
        });
    } catch (const std::exception& error) {
        work.checkFault = error.what();
    }
}

void BookCare::copy(Work& work, const BookAgain& book)
{
    work.percent = 0;
    work.isCopying = true;
    try {
        work.isCopied = keepDailyCopy(book, todayUtc(), [&](int percent) {
            work.percent = percent;
            return !work.stop.load();
        });
    } catch (const std::exception& error) {
        work.copyFault = error.what();
    }
}

void BookCare::stop()
{
    if (!work_) return;
    work_->stop = true;
    thread_->disconnect(this);
    thread_->wait();
    delete thread_;
    thread_ = nullptr;
    work_.reset();
    poll_->stop();
    emit progressed();
}

void BookCare::finish()
{
    thread_->deleteLater();
    thread_ = nullptr;
    const auto work = std::exchange(work_, nullptr);
    poll_->stop();
    if (work->findings || !work->checkFault.empty()) emit checked(work->findings.value_or(std::vector<VerifyFinding>{}), qs(work->checkFault));
    if (work->isCopied || !work->copyFault.empty()) emit copied(qs(work->copyFault));
    emit progressed();
}

QString BookCare::progressWords() const
{
    if (!work_) return {};
    return (work_->isCopying ? tr("Today\u2019s copy, %1 %") : tr("Checking the book, %1 %")).arg(work_->percent.load());
}

}

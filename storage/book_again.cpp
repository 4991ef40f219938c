#include "book_again.h"

#include "copies.h"
#include "store_state.h"

#include <QFileInfo>

namespace strikeoff {

BookAgain bookAgain(const Store& store) { return {store.path(), askAsBefore(store)}; }

bool isCopyDue(const std::string& book, const std::string& day) { return !QFileInfo::exists(QString::fromStdString(copiesFolder(book) + '/' + day + ".strikeoff")); }

bool keepDailyCopy(const BookAgain& book, const std::string& day, const std::function<bool(int)>& progress)
{
    if (!isCopyDue(book.path, day)) return true;
    Database database{book.path, Database::Mode::readOnly, book.ask};
    return keepDailyCopy(database, day, progress);
}

std::optional<std::vector<VerifyFinding>> checkBook(const BookAgain& book, const std::function<bool(int)>& progress)
{
    OpenOptions options;
    options.readOnly = true;
    options.askPassword = book.ask;
    const auto store = Store::open(book.path, options);
    bool isStopped = false;
    auto findings = store->verify([&](int percent) {
        isStopped = isStopped || !progress(percent);
        return !isStopped;
    });
    if (isStopped) return std::nullopt;
    return findings;
}

}

#include "window/run_window.h"

#include "labels.h"
#include "plain_words.h"
#include "verbs/demonstration_book.h"
#include "window/book_place.h"
#include "window/message_strip.h"
#include "window/shared_book.h"

#include <QApplication>
#include <QDir>
#include <QFileInfo>

namespace strikeoff {

BookShelf booksInFiles()
{
    BookShelf shelf;
    shelf.open = [](const std::string& path) {
        if (isShared(qs(path))) {
            OpenOptions options;
            options.askPassword = [](const std::string& book, bool again) { return askServerPassword(QApplication::activeWindow(), qs(book), again); };
            return Store::open(path, options);
        }
        const QFileInfo file{qs(path)};
        constexpr auto anyWriter = QFile::WriteOwner | QFile::WriteGroup | QFile::WriteOther;
        OpenOptions options;
        // A daily copy is there to be looked at and restored, and stays as it is.
        const bool isCopy = file.absoluteDir().dirName().endsWith(QStringLiteral(".copies"));
        // An administrator may write to any file; one marked as not to be written is left alone all the same.
        options.readOnly = isCopy || (file.isFile() && (!file.isWritable() || !(file.permissions() & anyWriter)));
        return Store::open(path, options);
    };
    shelf.create = [](const std::string& path) { Store::create(path); };
    shelf.demonstrate = [](const std::string& path) { writeDemonstrationBook(path); };
    shelf.keepsCopies = true;
    return shelf;
}

int runWindow(int& argc, char** argv, const std::string& book)
{
    QApplication application{argc, argv};
    QApplication::setApplicationName(QStringLiteral("strikeoff"));
    QApplication::setOrganizationName(QStringLiteral("Strikeoff"));
    QApplication::setApplicationDisplayName(QStringLiteral("Strikeoff"));
    Preferences preferences;
    applyLook(preferences.look());
    MainWindow window{preferences, booksInFiles()};
    window.show();
    if (!book.empty()) window.openBook(qs(book));
    return QApplication::exec();
}

}

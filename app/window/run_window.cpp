#include "window/run_window.h"

#include "labels.h"
#include "verbs/demonstration_book.h"
#include "window/main_window.h"
#include "window/message_strip.h"

#include <QApplication>

namespace strikeoff {

int runWindow(int& argc, char** argv, const std::string& book)
{
    QApplication application{argc, argv};
    QApplication::setApplicationName(QStringLiteral("strikeoff"));
    QApplication::setOrganizationName(QStringLiteral("Strikeoff"));
    QApplication::setApplicationDisplayName(QStringLiteral("Strikeoff"));
    Preferences preferences;
    applyLook(preferences.look());
    BookShelf shelf;
    shelf.open = [](const std::string& path) {
        OpenOptions options;
        options.keepDailyCopy = true;
        return Store::open(path, options);
    };
    shelf.create = [](const std::string& path) { Store::create(path); };
    shelf.demonstrate = [](const std::string& path) { writeDemonstrationBook(path); };
    MainWindow window{preferences, std::move(shelf)};
    window.show();
    if (!book.empty()) window.openBook(qs(book));
    return QApplication::exec();
}

}

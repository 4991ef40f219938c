#include "labels.h"
#include "record/field_text.h"
#include "window/main_window.h"

#include <QApplication>
#include <QTemporaryDir>

#include <cstdio>
#include <cstdlib>

/// Draws one page of a book into a PNG file, without a screen:
/// picture BOOK PAGE(1-8, 0 for the start) WIDTHxHEIGHT light|dark OUT.png [--open KIND KEY] [--find WORDS] [--today DATE]
int main(int argc, char** argv)
{
    using namespace strikeoff;
    if (argc < 6) {
        std::fputs("picture BOOK PAGE(1-8) WIDTHxHEIGHT light|dark OUT.png [--open KIND KEY] [--find WORDS] [--today DATE]\n", stderr);
        return 2;
    }
    if (!std::getenv("QT_QPA_PLATFORM")) setenv("QT_QPA_PLATFORM", "offscreen", 1);
    QApplication application{argc, argv};
    QTemporaryDir folder;
    Preferences preferences{folder.filePath(QStringLiteral("preferences.ini"))};
    const auto arguments = QApplication::arguments();
    preferences.setLook(arguments[4] == u"dark" ? Look::dark : Look::light);
    applyLook(preferences.look());
    BookShelf shelf;
    shelf.open = [](const std::string& path) {
        OpenOptions options;
        options.readOnly = true;
        return Store::open(path, options);
    };
    MainWindow window{preferences, std::move(shelf)};
    const auto size = arguments[3].split(u'x');
    const int page = arguments[2].toInt();
    if (page > 0 && !window.openBook(arguments[1])) {
        std::fprintf(stderr, "%s cannot be opened\n", argv[1]);
        return 1;
    }
    window.resize(size.value(0).toInt(), size.value(1).toInt());
    window.show();
    if (page > 0) {
        for (int i = 6; i < arguments.size(); ++i)
            if (arguments[i] == u"--today")
                if (const auto day = Date::parse(utf8(arguments.value(i + 1)))) window.desk().setToday(*day);
        window.showPage(page - 1);
        window.page(page - 1).refresh();
    }
    for (int i = 6; i < arguments.size(); ++i) {
        if (arguments[i] == u"--find") window.search(arguments.value(++i));
        if (arguments[i] != u"--open") continue;
        const auto* kind = findKind(utf8(arguments.value(i + 1)));
        const auto& book = window.desk().book();
        const auto key = utf8(arguments.value(i + 2));
        bool opened = false;
        for (std::size_t row = 0; kind && row < book.count(kind->kind) && !opened; ++row)
            if (const auto id = book.idAt(kind->kind, row); key.empty() || keyText(book, kind->kind, id) == key) opened = window.openRecord(kind->kind, id);
        if (!opened) std::fprintf(stderr, "no such record to open\n");
    }
    for (int i = 0; i < 5; ++i) QApplication::processEvents();
    if (!savePicture(window, arguments[5])) {
        std::fprintf(stderr, "%s cannot be written\n", argv[5]);
        return 1;
    }
    return 0;
}

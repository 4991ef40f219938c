#include "labels.h"
#include "record/field_text.h"
#include "window/main_window.h"
#include "window/message_strip.h"

#include <QApplication>
#include <QClipboard>
#include <QFile>
#include <QKeyEvent>
#include <QTabBar>
#include <QTemporaryDir>

#include <cstdio>
#include <cstdlib>

namespace {

/// Brings the tab of a name into view.
bool showTab(QWidget& page, const QString& name)
{
    for (auto* bar : page.findChildren<QTabBar*>())
        for (int i = 0; i < bar->count(); ++i)
            if (bar->isVisible() && bar->tabText(i) == name) {
                bar->setCurrentIndex(i);
                return true;
            }
    return false;
}

/// Types text where the keyboard is; keys stand in braces: "48213{Return}9 1/2{Ctrl+Return}".
void type(const QString& text)
{
    const auto press = [](int key, Qt::KeyboardModifiers modifiers, const QString& words) {
        auto* target = QApplication::focusWidget();
        if (!target) return;
        QKeyEvent down{QEvent::KeyPress, key, modifiers, words};
        QApplication::sendEvent(target, &down);
        for (int i = 0; i < 3; ++i) QApplication::processEvents();
    };
    for (qsizetype i = 0; i < text.size(); ++i) {
        if (const auto end = text.indexOf(u'}', i); text[i] == u'{' && end > i) {
            const auto keys = QKeySequence::fromString(text.mid(i + 1, end - i - 1), QKeySequence::PortableText)[0];
            press(keys.key(), keys.keyboardModifiers(), {});
            i = end;
        } else {
            press(0, Qt::NoModifier, text.mid(i, 1));
        }
    }
}

}

/// Draws one page of a book into a PNG file, without a screen:
/// picture BOOK PAGE(1-8, 0 for the start) WIDTHxHEIGHT light|dark OUT.png [--open KIND KEY] [--find WORDS] [--tab NAME] [--clipboard FILE] [--type KEYS] [--today DATE]
int main(int argc, char** argv)
{
    using namespace strikeoff;
    if (argc < 6) {
        std::fputs("picture BOOK PAGE(1-8) WIDTHxHEIGHT light|dark OUT.png [--open KIND KEY] [--find WORDS] [--tab NAME] [--clipboard FILE] [--type KEYS] [--today DATE]\n", stderr);
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
    shelf.open = [typed = arguments.contains(QStringLiteral("--type")), &folder](const std::string& path) {
        OpenOptions options;
        options.readOnly = !typed;
        if (!typed) return Store::open(path, options);
        // What is typed goes into a copy.
        const auto copy = utf8(folder.filePath(QStringLiteral("book.strikeoff")));
        options.readOnly = true;
        Store::open(path, options)->backup(copy);
        return Store::open(copy);
    };
    MainWindow window{preferences, std::move(shelf)};
    const auto size = arguments[3].split(u'x');
    const int page = arguments[2].toInt();
    if (page > 0 && !window.openBook(arguments[1])) {
        std::fprintf(stderr, "%s cannot be opened\n", argv[1]);
        return 1;
    }
    window.strip().hide();  // that it was opened to look only is no news here
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
        if (arguments[i] == u"--tab" && page > 0 && !showTab(window.page(page - 1), arguments.value(++i))) std::fprintf(stderr, "no such tab\n");
        if (QFile file{arguments.value(i + 1)}; arguments[i] == u"--clipboard" && file.open(QIODevice::ReadOnly)) QApplication::clipboard()->setText(QString::fromUtf8(file.readAll()));
        if (arguments[i] == u"--type") {
            QApplication::setActiveWindow(&window);
            if (page > 0) window.page(page - 1).takeFocus();
            for (int round = 0; round < 3; ++round) QApplication::processEvents();
            type(arguments.value(++i));
        }
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

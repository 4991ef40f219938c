#pragma once

#include "app/application.h"

#include "labels.h"
#include "window/main_window.h"

#include <QPushButton>
#include <QTest>

#include <catch2/catch.hpp>

namespace strikeoff::test {

/// The window as an owner without a mouse has it: everything is reached by keys, and failing to reach it fails the test.
struct Keyboard {
    Office office;
    std::unique_ptr<MainWindow> window;

    void open()
    {
        BookShelf shelf;
        shelf.open = [](const std::string& path) { return Store::open(path); };
        window = std::make_unique<MainWindow>(office.preferences, std::move(shelf));
        window->resize(1280, 800);
        window->show();
        QApplication::setActiveWindow(window.get());
        REQUIRE(window->openBook(qs(office.path)));
        window->desk().setToday(day("2026-06-11"));
        settle();
    }
    const Book& book() { return window->desk().book(); }
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier)
    {
        auto* target = QApplication::focusWidget();
        QTest::keyClick(target ? target : window.get(), key, modifiers);
        settle();
    }
    /// Tab by Tab until the widget, or something inside it, has the focus.
    void reach(QWidget* wanted)
    {
        REQUIRE(wanted);
        INFO("to reach " << wanted->objectName().toStdString() << " " << wanted->metaObject()->className());
        const auto there = [&] {
            const auto* focus = QApplication::focusWidget();
            return focus && (focus == wanted || wanted->isAncestorOf(focus));
        };
        for (int i = 0; i < 250 && !there(); ++i) key(Qt::Key_Tab);
        REQUIRE(there());
    }
    void press(QPushButton* button)
    {
        REQUIRE(button);
        INFO(button->text().toStdString());
        REQUIRE(button->isEnabled());
        reach(button);
        key(Qt::Key_Return);
    }
    QString focused() const { return QApplication::focusWidget() ? QApplication::focusWidget()->objectName() : QString{}; }
    /// Types text into whatever has the focus.
    void type(const char* text)
    {
        auto* target = QApplication::focusWidget();
        REQUIRE(target);
        QTest::keyClicks(target, QString::fromUtf8(text));
        settle();
    }
};

}

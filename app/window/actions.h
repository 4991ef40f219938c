#pragma once

#include <QKeySequence>
#include <QString>

#include <map>
#include <vector>

class QAction;
class QWidget;

namespace strikeoff {

/// Everything the window can be told to do.
enum class ActionId {
    newBook, openBook, openShared, demonstration, backUp, backUpSealed, copies, backToBook, removedRecords, changes, exportTable, phoneCalendar, phoneAddresses, printPreview, print, quit,
    undo, redo, newRecord, copy, find, narrow, nextOpen, previousOpen,
    page1, page2, page3, page4, page5, page6, page7, page8, back, forward,
    lookSystem, lookLight, lookDark,
    keyboard, cautions, about,
};

/// One action: the menu it stands in, its words, and its keys.
struct ActionSpec {
    ActionId id;
    const char* menu;
    const char* text;
    const char* keys;    ///< as portable text, several parted by ";"; empty for none
    bool lineBefore = false;
};

/// The one table of actions, in the order of the menus.
const std::vector<ActionSpec>& actionTable();
QList<QKeySequence> keysOf(const ActionSpec& spec);

}

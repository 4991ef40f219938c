#include "window/actions.h"

#include <QStringList>

namespace strikeoff {

const std::vector<ActionSpec>& actionTable()
{
    using enum ActionId;
    static const std::vector<ActionSpec> table{
        {newBook, "&File", "&New book\u2026", ""},
        {openBook, "&File", "&Open\u2026", "Ctrl+O"},
        {openShared, "&File", "Open s&hared book\u2026", "Ctrl+Shift+O"},
        {demonstration, "&File", "&Demonstration book\u2026", ""},
        {backUp, "&File", "&Back up\u2026", "", true},
        {backUpSealed, "&File", "Back &up with a pass phrase\u2026", ""},
        {copies, "&File", "Cop&ies of the book", "Ctrl+Shift+K"},
        {backToBook, "&File", "From the copy back to the boo&k", ""},
        {removedRecords, "&File", "&Removed records", "Ctrl+Shift+R", true},
        {changes, "&File", "What was chan&ged", "Ctrl+Shift+H"},
        {exportTable, "&File", "&Export table\u2026", "Ctrl+E", true},
        {phoneCalendar, "&File", "&Calendar for the phone\u2026", ""},
        {phoneAddresses, "&File", "&Addresses for the phone\u2026", ""},
        {printPreview, "&File", "Print pre&view\u2026", "Ctrl+Shift+P", true},
        {print, "&File", "&Print\u2026", "Ctrl+P"},
        {quit, "&File", "&Quit", "Ctrl+Q", true},
        {undo, "&Edit", "&Undo", "Ctrl+Z"},
        {redo, "&Edit", "&Redo", "Ctrl+Shift+Z;Ctrl+Y"},
        {newRecord, "&Edit", "&New record", "Ctrl+N", true},
        {copy, "&Edit", "&Copy rows", "Ctrl+Shift+C", true},
        {find, "&Edit", "&Find in the book", "Ctrl+F", true},
        {narrow, "&Edit", "Narrow the &list", "Ctrl+L"},
        {nextOpen, "&Edit", "Next &open finding", "F3"},
        {previousOpen, "&Edit", "Pre&vious open finding", "Shift+F3"},
        {page1, "&View", "", "Alt+1"},
        {page2, "&View", "", "Alt+2"},
        {page3, "&View", "", "Alt+3"},
        {page4, "&View", "", "Alt+4"},
        {page5, "&View", "", "Alt+5"},
        {page6, "&View", "", "Alt+6"},
        {page7, "&View", "", "Alt+7"},
        {page8, "&View", "", "Alt+8"},
        {back, "&View", "&Back", "Alt+Left", true},
        {forward, "&View", "For&ward", "Alt+Right"},
        {lookLight, "&View", "&Light", "", true},
        {lookDark, "&View", "&Dark", ""},
        {lookSystem, "&View", "As the &system", ""},
        {keyboard, "&Help", "&Keyboard", "F1"},
        {cautions, "&Help", "&Cautions", ""},
        {about, "&Help", "&About Strikeoff", "", true},
    };
    return table;
}

QList<QKeySequence> keysOf(const ActionSpec& spec)
{
    QList<QKeySequence> keys;
    for (const auto& text : QString::fromLatin1(spec.keys).split(u';', Qt::SkipEmptyParts)) keys << QKeySequence{text, QKeySequence::PortableText};
    return keys;
}

}

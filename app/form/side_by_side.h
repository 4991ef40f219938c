#pragma once

#include <QSplitter>
#include <QVBoxLayout>

#include "labels.h"
#include "preferences.h"

namespace strikeoff {

/// Puts the handle between two parts where the owner left it last, under that name, and remembers where it is left from now on.
inline void rememberHandle(QSplitter* splitter, Preferences& preferences, const QString& name)
{
    if (const auto state = preferences.splitter(name); !state.isEmpty()) splitter->restoreState(state);
    QObject::connect(splitter, &QSplitter::splitterMoved, splitter, [splitter, &preferences, name] { preferences.setSplitter(name, splitter->saveState()); });
}

/// Fills a page with a list and a sheet beside it, a handle between them; the list begins with so many hundredths of the width, until the owner moves the handle,
/// which is remembered under the name.
inline void putSideBySide(QWidget* page, QWidget* list, QWidget* sheet, int share, Preferences& preferences, const QString& name)
{
    auto* splitter = new QSplitter{Qt::Horizontal, page};
    splitter->setHandleWidth(grid(2));
    splitter->setChildrenCollapsible(false);
    splitter->addWidget(list);
    splitter->addWidget(sheet);
    splitter->setStretchFactor(0, share);
    splitter->setStretchFactor(1, 100 - share);
    splitter->setSizes({share * 100, (100 - share) * 100});
    auto* layout = new QVBoxLayout{page};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(splitter);
    rememberHandle(splitter, preferences, name);
}

}

#pragma once

#include <QSplitter>
#include <QVBoxLayout>

#include "labels.h"

namespace strikeoff {

/// Fills a page with a list and a sheet beside it, a handle between them; the list begins with so many hundredths of the width.
inline QSplitter* putSideBySide(QWidget* page, QWidget* list, QWidget* sheet, int share)
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
    return splitter;
}

}

#include "window/start_view.h"

#include "labels.h"
#include "window/book_place.h"

#include <QFileInfo>
#include <QFrame>
#include <QPushButton>
#include <QVBoxLayout>

namespace strikeoff {

StartView::StartView(QWidget* parent) : QWidget{parent}
{
    auto* column = new QFrame{this};
    setRole(*column, "sheet");
    column->setFixedWidth(grid(170));
    auto* inside = new QVBoxLayout{column};
    inside->setContentsMargins(grid(8), grid(7), grid(8), grid(7));
    inside->setSpacing(grid(4));
    inside->addWidget(makeLabel(tr("One book holds the whole run of your jobs: leads, quotes, pours, tickets, hours, return visits, invoices. It is one file on "
                                   "your own machine.")));
    const auto choice = [&](const char* name, const QString& words, const char* role, const QString& meaning) {
        auto* button = makeButton(name, words, role, column);
        button->setMinimumWidth(grid(48));
        auto* line = new QHBoxLayout;
        line->setSpacing(grid(4));
        line->addWidget(button);
        line->addWidget(makeLabel(meaning, TextSize::body, Tone::quiet, column), 1);
        inside->addLayout(line);
        return button;
    };
    auto* fresh = choice("startNew", tr("New book"), "main", tr("Begin your own; nothing is in it but sensible settings."));
    auto* open = choice("startOpen", tr("Open a book"), nullptr, tr("Go on with a book you have."));
    auto* demonstration = choice("startDemonstration", tr("Demonstration book"), nullptr, tr("Look around in three and a half years of an invented outfit."));
    recent_ = new QVBoxLayout;
    recent_->setSpacing(grid(1));
    inside->addLayout(recent_);
    inside->addSpacing(grid(2));
    inside->addWidget(makeLabel(tr("A safety copy of the book is kept each day it is opened. Nothing here is legal, tax or engineering advice."), TextSize::small, Tone::quiet, column));
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, grid(4), 0, 0);
    layout->addStretch(1);
    auto* across = new QHBoxLayout;  // stretches rather than an alignment, which would cut text that wraps
    across->addStretch(1);
    across->addWidget(column);
    across->addStretch(1);
    layout->addLayout(across);
    layout->addStretch(2);
    connect(fresh, &QPushButton::clicked, this, &StartView::newWanted);
    connect(open, &QPushButton::clicked, this, &StartView::openWanted);
    connect(demonstration, &QPushButton::clicked, this, &StartView::demonstrationWanted);
    setFocusProxy(fresh);
}

void StartView::setRecent(const QStringList& paths)
{
    while (auto* item = recent_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    QStringList there;
    for (const auto& path : paths)
        if (isShared(path) || QFileInfo::exists(path)) there << path;
    if (there.isEmpty()) return;
    recent_->addWidget(makeLabel(tr("Opened lately"), TextSize::small, Tone::quiet, this));
    for (const auto& path : there) {
        auto* button = makeButton("recentBook", withoutMnemonic(bookName(path) + QStringLiteral("  \u2013  ") + bookPlace(path)), "link", this);
        connect(button, &QPushButton::clicked, this, [this, path] { emit bookWanted(path); });
        recent_->addWidget(button);
    }
}

}

#include "window/start_view.h"

#include "labels.h"

#include <QFileInfo>
#include <QPushButton>
#include <QVBoxLayout>

namespace strikeoff {

StartView::StartView(QWidget* parent) : QWidget{parent}
{
    auto* column = new QWidget{this};
    column->setMaximumWidth(grid(150));
    column->setMinimumWidth(grid(150));
    auto* inside = new QVBoxLayout{column};
    inside->setContentsMargins(0, 0, 0, 0);
    inside->setSpacing(grid(3));
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
    inside->addSpacing(grid(4));
    inside->addLayout(recent_);
    inside->addStretch(1);
    auto* layout = new QHBoxLayout{this};
    layout->setContentsMargins(0, grid(4), 0, 0);
    layout->addWidget(column);
    layout->addStretch(1);
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
        if (QFileInfo::exists(path)) there << path;
    if (there.isEmpty()) return;
    recent_->addWidget(makeLabel(tr("Opened lately"), TextSize::small, Tone::quiet, this));
    for (const auto& path : there) {
        auto* button = makeButton("recentBook", withoutMnemonic(QFileInfo{path}.completeBaseName() + QStringLiteral("  \u2013  ") + QFileInfo{path}.absolutePath()), "link", this);
        connect(button, &QPushButton::clicked, this, [this, path] { emit bookWanted(path); });
        recent_->addWidget(button);
    }
}

}

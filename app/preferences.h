#pragma once

#include "theme.h"

#include <QByteArray>
#include <QSettings>
#include <QStringList>

namespace strikeoff {

/// What the window remembers between two evenings, kept in the user's own settings; nothing of the book stands here.
class Preferences {
public:
    /// The user's settings, or those of a file (for tests and pictures).
    explicit Preferences(const QString& file = {});

    Look look() const;
    void setLook(Look look);
    QByteArray geometry() const;
    void setGeometry(const QByteArray& geometry);
    QByteArray splitter(const QString& name) const;
    void setSplitter(const QString& name, const QByteArray& state);
    /// Widths of a table's columns by heading; nothing for a column that was never touched.
    int columnWidth(const QString& table, const QString& column) const;
    void setColumnWidth(const QString& table, const QString& column, int width);
    QStringList recentBooks() const;
    void addRecentBook(const QString& path);
    /// Where the owner's own copies of a book were put, the newest first.
    QStringList ownCopies(const QString& book) const;
    void addOwnCopy(const QString& book, const QString& file);
    QString folder() const;
    void setFolder(const QString& folder);

private:
    mutable QSettings settings_;
};

}

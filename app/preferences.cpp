#include "preferences.h"

#include "server_address.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>

namespace strikeoff {

namespace {

QString keyOf(QString text) { return text.replace(u'/', u'_').replace(u'\\', u'_'); }

}

Preferences::Preferences(const QString& file)
    : settings_{file.isEmpty() ? QSettings{QSettings::IniFormat, QSettings::UserScope, QStringLiteral("Strikeoff"), QStringLiteral("strikeoff")}.fileName() : file,
                QSettings::IniFormat}
{
}

Look Preferences::look() const
{
    const auto text = settings_.value(QStringLiteral("look")).toString();
    return text == u"light" ? Look::light : text == u"dark" ? Look::dark : Look::system;
}

void Preferences::setLook(Look look)
{
    settings_.setValue(QStringLiteral("look"), look == Look::light ? QStringLiteral("light") : look == Look::dark ? QStringLiteral("dark") : QStringLiteral("system"));
}

QByteArray Preferences::geometry() const { return settings_.value(QStringLiteral("window/geometry")).toByteArray(); }
void Preferences::setGeometry(const QByteArray& geometry) { settings_.setValue(QStringLiteral("window/geometry"), geometry); }
QByteArray Preferences::splitter(const QString& name) const { return settings_.value(QStringLiteral("splitter/") + keyOf(name)).toByteArray(); }
void Preferences::setSplitter(const QString& name, const QByteArray& state) { settings_.setValue(QStringLiteral("splitter/") + keyOf(name), state); }

int Preferences::columnWidth(const QString& table, const QString& column) const
{
    return settings_.value(QStringLiteral("columns/%1/%2").arg(keyOf(table), keyOf(column)), -1).toInt();
}

void Preferences::setColumnWidth(const QString& table, const QString& column, int width)
{
    settings_.setValue(QStringLiteral("columns/%1/%2").arg(keyOf(table), keyOf(column)), width);
}

QStringList Preferences::recentBooks() const { return settings_.value(QStringLiteral("books/recent")).toStringList(); }

void Preferences::addRecentBook(const QString& path)
{
    auto books = recentBooks();
    const auto whole = isServerAddress(path.toStdString()) ? path : QFileInfo{path}.absoluteFilePath();
    books.removeAll(whole);
    books.prepend(whole);
    while (books.size() > 8) books.removeLast();
    settings_.setValue(QStringLiteral("books/recent"), books);
}

QStringList Preferences::ownCopies(const QString& book) const { return settings_.value(QStringLiteral("copies/") + keyOf(book)).toStringList(); }

void Preferences::addOwnCopy(const QString& book, const QString& file)
{
    auto files = ownCopies(book);
    files.removeAll(file);
    files.prepend(file);
    while (files.size() > 50) files.removeLast();
    settings_.setValue(QStringLiteral("copies/") + keyOf(book), files);
}

QString Preferences::folder() const { return settings_.value(QStringLiteral("books/folder"), QDir::homePath()).toString(); }
void Preferences::setFolder(const QString& folder) { settings_.setValue(QStringLiteral("books/folder"), folder); }

}

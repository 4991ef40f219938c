#include "app/commands.h"

#include "chart_file.h"
#include "copy_list.h"
#include "file.h"

#include <QDirIterator>
#include <QProcess>

#include <catch2/catch.hpp>

#include <sys/stat.h>

using namespace strikeoff;
using test::run;

namespace {

/// Nothing is taken from a new file's permissions while it lives, as on a machine set up carelessly.
struct OpenDoors {
    mode_t before = ::umask(0);
    ~OpenDoors() { ::umask(before); }
};

/// The files of a folder and under it that anybody but their owner may read or write.
QStringList openTo(const QString& folder)
{
    QStringList open;
    QDirIterator files{folder, QDir::Files | QDir::Hidden | QDir::System, QDirIterator::Subdirectories};
    int seen = 0;
    while (files.hasNext()) {
        const auto file = files.next();
        struct stat status {};
        REQUIRE(::stat(QFile::encodeName(file).constData(), &status) == 0);
        ++seen;
        if ((status.st_mode & 077) != 0) open << QStringLiteral("%1 (%2)").arg(file).arg(status.st_mode & 0777, 0, 8);
    }
    CHECK(seen > 0);
    return open;
}

}

TEST_CASE("every file is readable by its owner alone, however careless the machine", "[private]")
{
    test::application();
    const OpenDoors doors;
    QTemporaryDir folder;
    const auto path = [&](const char* name) { return folder.filePath(QLatin1String{name}).toStdString(); };
    const auto book = path("book.strikeoff");
    REQUIRE(run({"demo", book}).status == 0);
    OpenOptions options;
    options.keepDailyCopy = true;
    {
        const auto store = Store::open(book, options);
        Edit edit{"Enter customer"};
        Customer row;
        row.name = "Nora Bell";
        edit.add(row);
        REQUIRE(store->commit(std::move(edit)).done());
        REQUIRE(QFile::exists(QString::fromStdString(book + "-wal")));
        CHECK(openTo(folder.path()).join(u'\n').toStdString() == "");  // book, log and its index, the daily copy
        store->backup(path("copy.strikeoff"));
        backupSealed(*store, path("sealed.strikeoff"), "gravel under the north stoop");
        REQUIRE(store->copyTo(path("moved.strikeoff")));
        const auto looked = openCopy(path("sealed.strikeoff"), book, [] { return std::optional<std::string>{"gravel under the north stoop"}; });
        CHECK(openTo(folder.path()).join(u'\n').toStdString() == "");  // the working copy of a sealed one too
    }
    REQUIRE(run({"seasons", book, "--out", path("charts")}).status == 0);
    CHECK(run({"visits", book, "--from", "2026-06-29", "--ics", path("visits.ics")}).status == 0);
    REQUIRE(QFile::exists(folder.filePath(QStringLiteral("visits.ics"))));
    REQUIRE(run({"person", book, "--customer", "Nora Bell", "--file", path("nora.txt")}).status == 0);
    REQUIRE(run({"restore", path("copy.strikeoff"), book}).status == 0);
    REQUIRE(QFile::exists(QString::fromStdString(book + ".before-restore")));
    CHECK(openTo(folder.path()).join(u'\n').toStdString() == "");
    // What was there with wider permissions does not stay so.
    std::string fault;
    REQUIRE(writePrivateFile(path("list.csv"), "a\n", fault));
    REQUIRE(::chmod(path("list.csv").c_str(), 0644) == 0);
    REQUIRE(writePrivateFile(path("list.csv"), "b\n", fault));
    CHECK(openTo(folder.path()).join(u'\n').toStdString() == "");
}

TEST_CASE("the window's exports, drafts and preferences are readable by their owner alone", "[private][window]")
{
    const OpenDoors doors;
    test::Office office;
    office.addCustomer("Nora Bell");
    REQUIRE(office.desk->saveFile({}, {}, {}, "text", office.folder.filePath(QStringLiteral("list.csv"))));
    office.preferences.addOwnCopy(QString::fromStdString(office.path), QStringLiteral("/nowhere"));
    CHECK(openTo(office.folder.path()).join(u'\n').toStdString() == "");
}

TEST_CASE("the program itself makes no file that others may read", "[private][program]")
{
    QTemporaryDir folder;
    const auto book = folder.filePath(QStringLiteral("book.strikeoff"));
    QProcess process;
    process.setWorkingDirectory(folder.path());
    auto environment = QProcessEnvironment::systemEnvironment();
    for (const auto* name : {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}) environment.remove(QString::fromUtf8(name));
    process.setProcessEnvironment(environment);
    process.start(QStringLiteral("/bin/sh"), {QStringLiteral("-c"), QStringLiteral("umask 000; \"$0\" demo \"$1\" && \"$0\" cost \"$1\" >/dev/null && \"$0\" seasons \"$1\" --out charts >/dev/null && \"$0\" backup \"$1\" copy.strikeoff"),
                                              QStringLiteral(STRIKEOFF_PROGRAM), book});
    REQUIRE(process.waitForFinished(120'000));
    INFO(process.readAllStandardError().toStdString());
    REQUIRE(process.exitCode() == 0);
    CHECK(openTo(folder.path()).join(u'\n').toStdString() == "");
}

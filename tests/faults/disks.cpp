#include "bench_of_harm.h"

#include <csignal>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sched.h>
#include <sys/mount.h>
#include <sys/wait.h>
#include <unistd.h>

namespace strikeoff::faults {

namespace {

std::string messageOf(const std::function<void()>& action)
{
    try {
        action();
    } catch (const StorageError& error) {
        return error.what();
    }
    return {};
}

bool says(const std::string& message, const char* words) { return message.find(words) != std::string::npos; }

/// A small file system of our own, seen by nobody else; false where the system does not let us.
bool mountSmall(const std::string& folder)
{
    if (unshare(CLONE_NEWNS) != 0 && unshare(CLONE_NEWUSER | CLONE_NEWNS) != 0) return false;
    if (mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0) return false;
    return mount("none", folder.c_str(), "tmpfs", 0, "size=3m") == 0;
}

/// Takes all room there is but so many bytes.
void fill(const std::string& file, std::uintmax_t left)
{
    const auto room = std::filesystem::space(std::filesystem::path{file}.parent_path()).available;
    if (room <= left) return;
    std::ofstream out{file, std::ios::binary | std::ios::app};
    const std::string block(4096, 'x');
    for (std::uintmax_t written = 0; written + left < room; written += block.size()) out.write(block.data(), 4096);
}

struct Figures {
    int rounds = 0;
    int books = 0;
    int steps = 0;
    int done = 0;
    int refused = 0;
};

OpenOptions toLook()
{
    OpenOptions options;
    options.readOnly = true;
    return options;
}

/// Edits on a disk that is nearly full: what is refused is neither in the open book nor in the file.
void writeUntilRefused(Store& store, Figures& figures)
{
    for (int i = 0; i < 40; ++i) {
        const auto before = dumpOf(store.book());
        const auto tag = "Step " + std::to_string(figures.steps++);
        const auto message = messageOf([&] { require(store.commit(threeRows(tag)).done(), "an edit is taken or thrown back"); });
        if (message.empty()) {
            ++figures.done;
            require(rowsOf(store.book(), tag) == 3, "what was done is there");
            continue;
        }
        ++figures.refused;
        require(says(message, "disk is full"), "a full disk is called one: " + message);
        require(dumpOf(store.book()) == before, "what was refused is not in the open book");
        require(dumpOf(Store::open(store.path(), toLook())->book()) == before, "nor in the file");
        return;
    }
}

void copyWhereNoneFits(const Store& store, const std::string& folder)
{
    const auto copy = folder + "/copy.strikeoff", moved = folder + "/moved.strikeoff";
    if (!messageOf([&] { store.backup(copy); }).empty()) require(!std::filesystem::exists(copy), "a copy that did not fit leaves nothing behind");
    if (!messageOf([&] { store.copyTo(moved); }).empty()) require(!std::filesystem::exists(moved), "a move that did not fit leaves nothing behind");
    for (const auto& file : {copy, moved}) {
        std::filesystem::remove(file);
        for (const auto* suffix : {".part", ".part-wal", ".part-journal"}) require(!std::filesystem::exists(file + suffix), "no half copy is left");
    }
}

/// On a disk with hardly any room a book is begun whole or not at all, and nothing is left in the way.
void beginWhereHardlyAnyFits(const std::string& folder)
{
    const auto filler = folder + "/filler", path = folder + "/begun.strikeoff";
    int begun = 0, refused = 0;
    for (std::uintmax_t room = 0; room <= 1'200'000; room += 40'000) {
        fill(filler, room);
        const auto message = messageOf([&] { Store::create(path); });
        std::filesystem::remove(filler);
        for (const auto* suffix : {".part", ".part-wal", ".part-journal"}) require(!std::filesystem::exists(path + suffix), "no half book is left");
        if (message.empty()) {
            ++begun;
            const auto store = Store::open(path);
            require(store->book().all<Settings>().size() == 1 && faultsOf(*store).empty(), "a book that was begun is whole");
        } else {
            ++refused;
            require(says(message, "full") || says(message, "No space"), "a full disk is called one: " + message);
            require(!std::filesystem::exists(path), "a book that was refused is not there");
        }
        std::filesystem::remove(path);
    }
    require(begun > 0 && refused > 0, "some fit and some do not");
    std::printf("a book begun on a nearly full disk: %d refused in words with nothing left, %d whole\n", refused, begun);
}

/// Kills a program of its own that has the book open, so that its log stays beside it.
void leaveLog(const std::string& path)
{
    const auto child = fork();
    if (child == 0) {
        const auto store = Store::open(path);
        if (!store->commit(threeRows("In the log")).done()) _exit(1);
        raise(SIGKILL);
    }
    int status = 0;
    waitpid(child, &status, 0);
    require(WIFSIGNALED(status) && std::filesystem::file_size(path + "-wal") > 0, "a program that is killed leaves its log");
    std::filesystem::remove(path + "-shm");
}

void lookWhereNothingIsWritten(const std::string& folder, const std::string& path)
{
    const auto whole = dumpOf(Store::open(path)->book());
    const auto remount = [&](unsigned long how) { require(mount("none", folder.c_str(), nullptr, MS_REMOUNT | how, nullptr) == 0, "the file system is made another one"); };
    remount(MS_RDONLY);
    const auto toWrite = messageOf([&] { Store::open(path); });
    require(says(toWrite, "can only be read"), "a book that cannot be written says so: " + toWrite);
    require(dumpOf(Store::open(path, toLook())->book()) == whole, "it can be looked at");
    require(!messageOf([&] { Store::create(folder + "/new.strikeoff"); }).empty(), "no book is begun on it");
    remount(0);
    leaveLog(path);
    remount(MS_RDONLY);
    require(rowsOf(Store::open(path, toLook())->book(), "In the log") == 3, "a book with a log that nobody can write back is looked at with what is in the log");
    std::printf("a file system to read only: said when opened to write, whole when opened to look, also with a log left beside the book\n");
}

}

int disks(const Call& call)
{
    const Ground ground;
    const auto folder = ground.folder.path().toStdString() + "/small";
    std::filesystem::create_directory(folder);
    if (!mountSmall(folder)) {
        std::fprintf(stderr, "this system lets us mount no file system of our own\n");
        return 77;
    }
    beginWhereHardlyAnyFits(folder);
    const auto filler = folder + "/filler";
    std::mt19937 random{call.seed};
    Figures figures;
    // A book that outgrew the disk could not be helped by making room beside it: before that comes near, another one is begun.
    constexpr std::uintmax_t mostBytes = 800'000;
    std::string path;
    for (const int rounds = call.isLong ? 200 : 15; figures.rounds < rounds; ++figures.books) {
        if (!path.empty()) std::filesystem::remove(path);
        path = folder + "/book-" + std::to_string(figures.books) + ".strikeoff";
        Store::create(path);
        const auto store = Store::open(path);
        require(store->commit(threeRows("Before")).done(), "a plain edit");
        while (figures.rounds < rounds && std::filesystem::file_size(path) < mostBytes) {
            fill(filler, std::uniform_int_distribution<std::uintmax_t>{0, 120'000}(random));
            writeUntilRefused(*store, figures);
            copyWhereNoneFits(*store, folder);
            std::filesystem::remove(filler);
            require(store->commit(threeRows("Room again " + std::to_string(figures.rounds++))).done(), "with room again, edits are taken");
        }
        require(faultsOf(*store).empty(), "the book passes verify: " + faultsOf(*store));
    }
    std::printf("a disk filled %d times under %d books: %d edits done, %d refused as \"the disk is full\", book and file whole each time, and writing went on with room again\n", figures.rounds,
                figures.books, figures.done, figures.refused);

    lookWhereNothingIsWritten(folder, path);
    umount(folder.c_str());
    return 0;
}

}

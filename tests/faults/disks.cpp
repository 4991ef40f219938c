#include "bench_of_harm.h"

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sched.h>
#include <sys/mount.h>
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
    const auto path = folder + "/book.strikeoff", filler = folder + "/filler";
    Store::create(path);
    std::mt19937 random{call.seed};
    const int rounds = call.isLong ? 200 : 15;
    int refused = 0, done = 0, steps = 0;
    {
        const auto store = Store::open(path);
        require(store->commit(threeRows("Before")).done(), "a plain edit");
        for (int round = 0; round < rounds; ++round) {
            fill(filler, std::uniform_int_distribution<std::uintmax_t>{0, 120'000}(random));
            for (int i = 0; i < 40; ++i) {
                const auto before = dumpOf(store->book());
                const auto tag = "Step " + std::to_string(steps++);
                const auto message = messageOf([&] { require(store->commit(threeRows(tag)).done(), "an edit is taken or thrown back"); });
                if (message.empty()) {
                    ++done;
                    require(rowsOf(store->book(), tag) == 3, "what was done is there");
                    continue;
                }
                ++refused;
                require(says(message, "disk is full") || says(message, "disk did not answer"), "a full disk is called one: " + message);
                require(dumpOf(store->book()) == before, "what was refused is not in the open book");
                require(dumpOf(Store::open(path, {.readOnly = true, .keepDailyCopy = false, .desk = {}, .askPassword = {}, .now = {}})->book()) == before, "nor in the file");
                break;
            }
            const auto copy = folder + "/copy.strikeoff";
            if (const auto message = messageOf([&] { store->backup(copy); }); !message.empty()) require(!std::filesystem::exists(copy), "a copy that did not fit leaves nothing behind");
            if (const auto message = messageOf([&] { store->copyTo(folder + "/moved.strikeoff"); }); !message.empty())
                require(!std::filesystem::exists(folder + "/moved.strikeoff"), "a move that did not fit leaves nothing behind");
            for (const auto* name : {"/filler", "/copy.strikeoff", "/moved.strikeoff"}) std::filesystem::remove(folder + name);
            require(!std::filesystem::exists(copy + ".part") && !std::filesystem::exists(folder + "/moved.strikeoff.part"), "no half copy is left");
            if (steps > 300) continue;  // the book itself has to stay well below the disk's size
            require(store->commit(threeRows("Room again " + std::to_string(round))).done(), "with room again, edits are taken");
        }
        require(faultsOf(*store).empty(), "the book passes verify: " + faultsOf(*store));
    }
    std::printf("a disk filled %d times: %d edits done, %d refused as \"the disk is full\", book and file whole each time\n", rounds, done, refused);

    const auto whole = dumpOf(Store::open(path)->book());
    require(mount("none", folder.c_str(), nullptr, MS_REMOUNT | MS_RDONLY, nullptr) == 0, "the file system is made one to read only");
    const auto toWrite = messageOf([&] { Store::open(path); });
    require(says(toWrite, "can only be read"), "a book that cannot be written says so: " + toWrite);
    OpenOptions look;
    look.readOnly = true;
    require(dumpOf(Store::open(path, look)->book()) == whole, "it can be looked at");
    require(!messageOf([&] { Store::create(folder + "/new.strikeoff"); }).empty(), "no book is begun on it");
    std::printf("a file system to read only: said when opened to write, whole when opened to look\n");
    umount(folder.c_str());
    return 0;
}

}

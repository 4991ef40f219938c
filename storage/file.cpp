#include "file.h"

#include "book_header.h"

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace strikeoff {

namespace {

namespace fs = std::filesystem;

/// An open file that is closed at the end of its block.
class Descriptor {
public:
    explicit Descriptor(int number) : number_{number} {}
    ~Descriptor() { close(); }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    bool isOpen() const { return number_ >= 0; }
    int number() const { return number_; }
    /// False when the system kept a write error for the close.
    bool close()
    {
        const int number = number_;
        number_ = -1;
        return number < 0 || ::close(number) == 0;
    }

private:
    int number_;
};

std::string reason(int code) { return std::generic_category().message(code); }

std::string quoted(const fs::path& path) { return '"' + path.string() + '"'; }

bool writeAll(int file, std::string_view bytes)
{
    while (!bytes.empty()) {
        const auto written = ::write(file, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return false;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

/// Gives the finished file its name without ever replacing one that is there.
bool renameIfFree(const std::string& from, const std::string& to)
{
    if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
    if (errno != EINVAL && errno != ENOSYS) return false;
    // A file system without that call: a second name refuses just as well.
    if (::link(from.c_str(), to.c_str()) != 0) return false;
    ::unlink(from.c_str());
    return true;
}

}

std::optional<std::string> readWholeFile(const fs::path& path, std::string& fault)
{
    const auto fail = [&](const std::string& why) {
        fault = "cannot read " + quoted(path) + ": " + why;
        return std::nullopt;
    };
    const std::string tooLarge = "it is larger than " + std::to_string(mostBytesInFile >> 20) + " MiB";

    const Descriptor file{::open(path.c_str(), O_RDONLY | O_CLOEXEC)};
    if (!file.isOpen()) return fail(errno == ENOENT ? "there is no such file" : reason(errno));
    struct stat status {};
    if (::fstat(file.number(), &status) != 0) return fail(reason(errno));
    if (S_ISDIR(status.st_mode)) return fail("it is a directory, not a file");
    const auto expected = static_cast<std::size_t>(status.st_size);
    if (expected > mostBytesInFile) return fail(tooLarge);

    std::string bytes;
    std::size_t have = 0;
    bytes.resize(expected + 1);  // a byte of room, so that the end is met without growing
    while (true) {
        const auto got = ::read(file.number(), bytes.data() + have, bytes.size() - have);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return fail(reason(errno));
        if (got == 0) break;
        have += static_cast<std::size_t>(got);
        if (have > mostBytesInFile) return fail(tooLarge);
        if (have == bytes.size()) bytes.resize(bytes.size() * 2 + 4096);  // a pipe, or a file that grows
    }
    bytes.resize(have);
    return bytes;
}

bool writePrivateFile(const fs::path& path, std::string_view bytes, std::string& fault, IfThere ifThere)
{
    const auto fail = [&](const std::string& why) {
        fault = "cannot write " + quoted(path) + ": " + why;
        return false;
    };
    constexpr auto thereAlready = "there is a file of that name already; give another name";

    auto target = path;
    struct stat status {};
    if (::lstat(path.c_str(), &status) == 0) {
        if (ifThere == IfThere::refuse) return fail(thereAlready);
        if (S_ISLNK(status.st_mode)) {
            std::error_code error;
            target = fs::canonical(path, error);
            if (error || ::stat(target.c_str(), &status) != 0) return fail("it is a link that leads nowhere");
        }
        if (S_ISDIR(status.st_mode)) return fail("it is a directory, not a file");
        if (!S_ISREG(status.st_mode)) return fail("it is no ordinary file");
        if (holdsBook(target.string())) return fail("that is a book or a copy of one, which nothing is written over; give another name");
    }

    const auto folder = target.has_parent_path() ? target.parent_path() : fs::path{"."};
    auto working = (folder / ".strikeoff-XXXXXX").string();
    Descriptor file{::mkostemp(working.data(), O_CLOEXEC)};  // made with mode 0600
    if (!file.isOpen()) return fail(errno == ENOENT ? "there is no such directory" : reason(errno));
    const auto giveUp = [&](int code) {
        ::unlink(working.c_str());
        return fail(code == EEXIST ? thereAlready : reason(code));
    };
    if (!writeAll(file.number(), bytes) || ::fsync(file.number()) != 0 || !file.close()) return giveUp(errno);
    const bool named = ifThere == IfThere::refuse ? renameIfFree(working, target.string())
                                                  : std::rename(working.c_str(), target.c_str()) == 0;
    if (!named) return giveUp(errno);

    // The name itself reaches the disk with its folder; a file system that cannot do that still has the file.
    const Descriptor folderFile{::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)};
    if (folderFile.isOpen()) ::fsync(folderFile.number());
    return true;
}

}

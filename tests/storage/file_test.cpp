#include "file.h"

#include <catch2/catch.hpp>

#include <csignal>
#include <cstdlib>
#include <fstream>
#include <sys/resource.h>
#include <sys/stat.h>
#include <thread>
#include <unistd.h>

using namespace strikeoff;
namespace fs = std::filesystem;

namespace {

/// A directory of its own, gone after the test.
class Folder {
public:
    Folder()
    {
        auto name = (fs::temp_directory_path() / "file-test-XXXXXX").string();
        REQUIRE(::mkdtemp(name.data()) != nullptr);
        path_ = name;
    }
    ~Folder()
    {
        std::error_code ignored;
        fs::remove_all(path_, ignored);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    fs::path operator/(std::string_view name) const { return path_ / name; }
    std::size_t count() const { return static_cast<std::size_t>(std::distance(fs::directory_iterator{path_}, fs::directory_iterator{})); }
    const fs::path& path() const { return path_; }

private:
    fs::path path_;
};

void put(const fs::path& path, std::string_view bytes) { std::ofstream{path, std::ios::binary} << bytes; }

std::string bytesOf(const fs::path& path)
{
    std::ifstream file{path, std::ios::binary};
    return {std::istreambuf_iterator<char>{file}, {}};
}

std::string readFault(const fs::path& path)
{
    std::string fault;
    return readWholeFile(path, fault) ? "read" : fault;
}

std::string writeFault(const fs::path& path, IfThere ifThere = IfThere::replace)
{
    std::string fault;
    return writePrivateFile(path, "new", fault, ifThere) ? "written" : fault;
}

}

TEST_CASE("a file is read whole, whatever its bytes", "[file]")
{
    const Folder folder;
    std::string bytes;
    for (int i = 0; i < 300'000; ++i) bytes += static_cast<char>(i * 7 % 256);
    put(folder / "a.csv", bytes);
    std::string fault;
    CHECK(readWholeFile(folder / "a.csv", fault) == bytes);
    put(folder / "empty.csv", "");
    CHECK(readWholeFile(folder / "empty.csv", fault) == "");
    CHECK(fault.empty());
}

TEST_CASE("a pipe is read to its end", "[file]")
{
    const Folder folder;
    REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
    const std::string bytes(200'000, 'x');
    std::thread writer{[&] { put(folder / "pipe", bytes); }};
    std::string fault;
    const auto read = readWholeFile(folder / "pipe", fault);
    writer.join();
    CHECK(read == bytes);
}

TEST_CASE("what cannot be read says which file and why", "[file]")
{
    const Folder folder;
    const auto path = folder.path().string();
    CHECK(readFault(folder / "none.csv") == "cannot read \"" + path + "/none.csv\": there is no such file");
    CHECK(readFault(folder.path()) == "cannot read \"" + path + "\": it is a directory, not a file");
    put(folder / "a.csv", "x");
    CHECK(readFault(folder / "a.csv/b.csv") == "cannot read \"" + path + "/a.csv/b.csv\": Not a directory");
    CHECK(readFault("") == "cannot read \"\": there is no such file");
    if (fs::exists("/proc/self/mem"))  // opens, and then fails to be read
        CHECK(readFault("/proc/self/mem") == "cannot read \"/proc/self/mem\": Input/output error");
    if (::geteuid() != 0) {  // no file is closed to root
        fs::permissions(folder / "a.csv", fs::perms::none);
        CHECK(readFault(folder / "a.csv") == "cannot read \"" + path + "/a.csv\": Permission denied");
    }
}

TEST_CASE("a file over 512 MiB is refused before it is read", "[file]")
{
    const Folder folder;
    put(folder / "large.csv", "a,b\n");
    REQUIRE(::truncate((folder / "large.csv").c_str(), static_cast<off_t>(mostBytesInFile) + 1) == 0);
    CHECK(readFault(folder / "large.csv") == "cannot read \"" + (folder / "large.csv").string() + "\": it is larger than 512 MiB");
}

TEST_CASE("a written file is whole, private, and the only one left behind", "[file]")
{
    const Folder folder;
    const std::string bytes(1'000'000, 'y');
    std::string fault;
    REQUIRE(writePrivateFile(folder / "out.csv", bytes, fault));
    CHECK(bytesOf(folder / "out.csv") == bytes);
    CHECK(fs::status(folder / "out.csv").permissions() == (fs::perms::owner_read | fs::perms::owner_write));
    put(folder / "old.csv", "old");
    fs::permissions(folder / "old.csv", fs::perms::all);
    REQUIRE(writePrivateFile(folder / "old.csv", "new", fault));
    CHECK(bytesOf(folder / "old.csv") == "new");
    CHECK(fs::status(folder / "old.csv").permissions() == (fs::perms::owner_read | fs::perms::owner_write));
    CHECK(folder.count() == 2);
    CHECK(fault.empty());
}

TEST_CASE("a file in the working directory is written by its bare name", "[file]")
{
    const Folder folder;
    const auto before = fs::current_path();
    fs::current_path(folder.path());
    CHECK(writeFault("bare.csv") == "written");
    fs::current_path(before);
    CHECK(bytesOf(folder / "bare.csv") == "new");
}

TEST_CASE("a file that is there is kept when asked", "[file]")
{
    const Folder folder;
    CHECK(writeFault(folder / "a.csv", IfThere::refuse) == "written");
    put(folder / "a.csv", "mine");
    fs::create_symlink("nowhere", folder / "link.csv");
    for (const auto* name : {"a.csv", "link.csv"})
        CHECK(writeFault(folder / name, IfThere::refuse)
              == "cannot write \"" + (folder / name).string() + "\": there is a file of that name already; give another name");
    CHECK(bytesOf(folder / "a.csv") == "mine");
    CHECK(folder.count() == 2);
}

TEST_CASE("a link stays a link, and what it names is written", "[file]")
{
    const Folder folder;
    put(folder / "real.csv", "old");
    fs::create_symlink("real.csv", folder / "link.csv");
    CHECK(writeFault(folder / "link.csv") == "written");
    CHECK(fs::is_symlink(folder / "link.csv"));
    CHECK(bytesOf(folder / "real.csv") == "new");
    fs::create_symlink("nowhere", folder / "lost.csv");
    CHECK(writeFault(folder / "lost.csv") == "cannot write \"" + (folder / "lost.csv").string() + "\": it is a link that leads nowhere");
}

TEST_CASE("what cannot be written says which file and why, and leaves nothing behind", "[file]")
{
    const Folder folder;
    const auto path = folder.path().string();
    CHECK(writeFault(folder / "none/a.csv") == "cannot write \"" + path + "/none/a.csv\": there is no such directory");
    CHECK(writeFault(folder.path()) == "cannot write \"" + path + "\": it is a directory, not a file");
    REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
    CHECK(writeFault(folder / "pipe") == "cannot write \"" + path + "/pipe\": it is no ordinary file");
    put(folder / "a.csv", "x");
    CHECK(writeFault(folder / "a.csv/b.csv") == "cannot write \"" + path + "/a.csv/b.csv\": Not a directory");
    CHECK(writeFault("").find("cannot write \"\": ") == 0);
    CHECK(writeFault(folder / std::string(300, 'n')).find("File name too long") != std::string::npos);
    CHECK(folder.count() == 2);
}

TEST_CASE("a write that stops half way leaves the old file as it was", "[file]")
{
    const Folder folder;
    put(folder / "a.csv", "old");
    rlimit limit{};
    REQUIRE(::getrlimit(RLIMIT_FSIZE, &limit) == 0);
    const auto before = std::signal(SIGXFSZ, SIG_IGN);
    const rlimit small{4096, limit.rlim_max};
    REQUIRE(::setrlimit(RLIMIT_FSIZE, &small) == 0);
    std::string fault;
    const bool written = writePrivateFile(folder / "a.csv", std::string(100'000, 'z'), fault);
    ::setrlimit(RLIMIT_FSIZE, &limit);
    std::signal(SIGXFSZ, before);
    CHECK_FALSE(written);
    CHECK(fault == "cannot write \"" + (folder / "a.csv").string() + "\": File too large");
    CHECK(bytesOf(folder / "a.csv") == "old");
    CHECK(folder.count() == 1);
}

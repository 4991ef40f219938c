#pragma once

#include <filesystem>
#include <string>
#include <unistd.h>

namespace strikeoff::fuzz {

/// A folder of this program in memory where there is such a place, else among the temporary ones; gone with it.
class MemoryFolder {
public:
    explicit MemoryFolder(const std::string& name)
    {
        namespace fs = std::filesystem;
        std::error_code error;
        const auto parent = fs::is_directory("/dev/shm", error) ? fs::path{"/dev/shm"} : fs::temp_directory_path();
        path_ = parent / (name + '-' + std::to_string(getpid()));
        fs::create_directories(path_);
    }
    ~MemoryFolder()
    {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    MemoryFolder(const MemoryFolder&) = delete;
    MemoryFolder& operator=(const MemoryFolder&) = delete;

    const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_;
};

}

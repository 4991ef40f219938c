// One fuzz program a reader: its header is put in front of this by the build, and READER names its function.
#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    strikeoff::fuzz::READER({reinterpret_cast<const char*>(data), size});
    return 0;
}

// One fuzz program a reader: READER_HEADER and READER say which.
#include READER_HEADER

#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    strikeoff::fuzz::READER({reinterpret_cast<const char*>(data), size});
    return 0;
}

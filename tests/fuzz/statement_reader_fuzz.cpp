#include "read_any_statement.h"

#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    strikeoff::readAnyStatement({reinterpret_cast<const char*>(data), size});
    return 0;
}

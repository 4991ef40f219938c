#include "dialect.h"

#include <array>
#include <utility>

namespace strikeoff {

std::string expanded(std::string statement)
{
    constexpr std::array<std::pair<const char*, const char*>, 3> words{{{"{id}", "INTEGER PRIMARY KEY"}, {"{int}", "INTEGER"}, {"{strict}", "STRICT"}}};
    for (const auto& [mark, word] : words)
        for (auto at = statement.find(mark); at != std::string::npos; at = statement.find(mark, at)) statement.replace(at, std::string{mark}.size(), word);
    return statement;
}

}

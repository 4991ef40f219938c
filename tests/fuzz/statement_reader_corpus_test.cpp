#include "read_any_statement.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

using namespace strikeoff;

namespace {

std::vector<std::string> corpus()
{
    std::vector<std::string> files;
    for (const auto& file : std::filesystem::directory_iterator{STRIKEOFF_CORPUS "/statement_reader"}) {
        std::ostringstream text;
        text << std::ifstream{file.path(), std::ios::binary}.rdbuf();
        files.push_back(text.str());
    }
    return files;
}

}

TEST_CASE("no file makes the statement reader crash or take in half of it", "[fuzz]")
{
    const auto files = corpus();
    REQUIRE(files.size() >= 8);
    for (const auto& file : files) CHECK_NOTHROW(readAnyStatement(file));
}

TEST_CASE("no spoiled file does either", "[fuzz]")
{
    constexpr std::string_view pieces[] = {",", ";", "\t", "\"", "\n", "(", ")", "-", "99999999999999999999", "1.234,56", "31/12/2026", "Total", "CR", "$", "\xff", "\xe2\x88\x92", "0000", "e", "#", "%3b"};
    std::mt19937 random{5};
    const auto files = corpus();
    for (int i = 0; i < 4000; ++i) {
        auto text = files[random() % files.size()];
        for (int edits = 1 + static_cast<int>(random() % 6); edits > 0; --edits) {
            const auto at = text.empty() ? 0 : random() % text.size();
            switch (random() % 4) {
            case 0: text.insert(at, pieces[random() % std::size(pieces)]); break;
            case 1: text.erase(at, 1 + random() % 12); break;
            case 2:
                if (!text.empty()) text[at] = static_cast<char>(random() % 256);
                break;
            case 3: text.insert(at, text.substr(random() % (text.size() + 1), random() % 40)); break;
            }
        }
        INFO(text);
        REQUIRE_NOTHROW(readAnyStatement(text));
    }
}

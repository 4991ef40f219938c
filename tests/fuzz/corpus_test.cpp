#include "fuzz/read_any_book_file.h"
#include "fuzz/read_any_command_line.h"
#include "fuzz/read_any_csv.h"
#include "fuzz/read_any_csv_load.h"
#include "fuzz/read_any_geo.h"
#include "fuzz/read_any_pasted_text.h"
#include "fuzz/read_any_quantity.h"
#include "fuzz/read_any_sealed_copy.h"
#include "fuzz/read_any_server_address.h"
#include "fuzz/read_any_statement.h"
#include "fuzz/read_any_tape.h"
#include "fuzz/read_any_trail.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

using namespace strikeoff::fuzz;

namespace {

struct Reader {
    const char* folder;
    void (*readAny)(std::string_view bytes);
    int spoiled;  ///< how many inputs the second test makes of its corpus
};

constexpr Reader readers[] = {
    {"book_file", readAnyBookFile, 40},
    {"command_line", readAnyCommandLine, 150},
    {"csv", readAnyCsv, 3000},
    {"csv_load", readAnyCsvLoad, 1500},
    {"geo", readAnyGeo, 3000},
    {"pasted_text", readAnyPastedText, 1000},
    {"quantity", readAnyQuantity, 1500},
    {"sealed_copy", readAnySealedCopy, 1500},
    {"server_address", readAnyServerAddress, 1500},
    {"statement", readAnyStatement, 4000},
    {"tape", readAnyTape, 3000},
    {"trail", readAnyTrail, 1500},
};

std::vector<std::string> corpusOf(const Reader& reader)
{
    std::vector<std::filesystem::path> paths;
    for (const auto& file : std::filesystem::directory_iterator{std::filesystem::path{STRIKEOFF_CORPUS} / reader.folder}) paths.push_back(file.path());
    std::sort(paths.begin(), paths.end());  // the order of a folder is any
    std::vector<std::string> files;
    for (const auto& path : paths) {
        std::ostringstream text;
        text << std::ifstream{path, std::ios::binary}.rdbuf();
        files.push_back(text.str());
    }
    return files;
}

}

TEST_CASE("no input that was kept makes a reader crash or break a promise", "[fuzz]")
{
    for (const auto& reader : readers) {
        INFO(reader.folder);
        const auto files = corpusOf(reader);
        CHECK(files.size() >= 8);
        for (const auto& file : files) {
            INFO(file);
            CHECK_NOTHROW(reader.readAny(file));
        }
    }
}

TEST_CASE("no spoiled input does either", "[fuzz]")
{
    constexpr std::string_view pieces[] = {",", ";", "\t", "\"", "\n", "(", ")", "-", "99999999999999999999", "1.234,56", "31/12/2026", "Total", "CR", "$", "\xff", "\xe2\x88\x92", "0000", "e",
                                           "#", "%3b", "'", "/", "@", ":", "=", "tomorrow", "7:30a", "1/2", "%", "null", "{", "[", " ", "yes"};
    std::mt19937 random{5};
    for (const auto& reader : readers) {
        const auto files = corpusOf(reader);
        REQUIRE_FALSE(files.empty());
        for (int i = 0; i < reader.spoiled; ++i) {
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
            INFO(reader.folder << ": " << text);
            REQUIRE_NOTHROW(reader.readAny(text));
        }
    }
}

#include "bench_of_harm.h"

#include "file.h"

#include <cstdio>
#include <filesystem>
#include <fstream>

namespace strikeoff::faults {

namespace {

enum class Seen { whenOpened, byVerify, harmless };

/// What becomes of a damaged book: refused, found, or whole all the same.
Seen lookAt(const std::string& path, const std::map<RecordKind, std::string>& whole, const std::string& what)
{
    try {
        const auto store = opened(path, true);
        const bool isWhole = dumpOf(store->book()) == whole;
        if (isWhole) return Seen::harmless;
        require(!faultsOf(*store).empty(), what + " changed what the book says, and neither opening nor verify saw it");
        return Seen::byVerify;
    } catch (const StorageError&) {
        return Seen::whenOpened;
    }
}

/// A book with rows of several kinds, added one by one and by the hundred, changed and removed.
void fill(const std::string& path)
{
    Store::create(path);
    const auto store = opened(path);
    for (int i = 0; i < 30; ++i) require(store->commit(threeRows("Yard " + std::to_string(i))).done(), "a plain edit");
    require(loadCsv(*store, RecordKind::customer, "rows.csv", manyCustomers("Ledger", 400)).done(), "a plain load");
    std::string hours = "name,role\n";
    for (int i = 0; i < 40; ++i) hours += "Hand " + std::to_string(i) + ",finisher\n";
    require(loadCsv(*store, RecordKind::crewMember, "crew.csv", hours).done(), "a plain load of crew");
    for (int i = 0; i < 20; ++i) {
        auto customer = store->book().all<Customer>()[static_cast<std::size_t>(i) * 7];
        customer.phone = "555-01" + std::to_string(10 + i);
        Edit edit{"Phone"};
        edit.change(customer);
        require(store->commit(std::move(edit)).done(), "a plain change");
    }
    Edit remove{"Remove one"};
    remove.remove(store->book().all<Customer>()[store->book().all<Customer>().size() - 1]);
    require(store->commit(std::move(remove)).done(), "a plain removal");
    require(faultsOf(*store).empty(), "an unharmed book passes verify: " + faultsOf(*store));
}

}

int damage(const Call& call)
{
    const Ground ground;
    const auto path = ground.file("whole");
    fill(path);
    const auto whole = dumpOf(opened(path)->book());
    std::string fault;
    const auto bytes = *readWholeFile(path, fault);
    std::mt19937 random{call.seed};
    const auto harmed = ground.file("harmed");
    const auto write = [&](const std::string& content) {
        for (const auto* suffix : {"-wal", "-shm"}) std::filesystem::remove(harmed + suffix);
        std::ofstream{harmed, std::ios::binary | std::ios::trunc}.write(content.data(), static_cast<std::streamsize>(content.size()));
    };
    const int flips = call.isLong ? 1000 : 120, cuts = call.isLong ? 200 : 30;
    int seen[3]{};
    for (int i = 0; i < flips; ++i) {
        auto content = bytes;
        const auto bit = std::uniform_int_distribution<std::size_t>{0, bytes.size() * 8 - 1}(random);
        content[bit / 8] = static_cast<char>(content[bit / 8] ^ (1 << (bit % 8)));
        write(content);
        ++seen[static_cast<int>(lookAt(harmed, whole, "bit " + std::to_string(bit % 8) + " of byte " + std::to_string(bit / 8)))];
    }
    std::printf("bit flips: %d in a book of %zu bytes; %d refused when opened, %d found by verify, %d harmless (an equal dump)\n", flips, bytes.size(), seen[0], seen[1], seen[2]);
    int cut[3]{};
    for (int i = 0; i < cuts; ++i) {
        const auto length = std::uniform_int_distribution<std::size_t>{0, bytes.size() - 1}(random);
        write(bytes.substr(0, length));
        ++cut[static_cast<int>(lookAt(harmed, whole, "cutting after " + std::to_string(length) + " bytes"))];
    }
    std::printf("cut short: %d; %d refused when opened, %d found by verify, %d harmless\n", cuts, cut[0], cut[1], cut[2]);
    return 0;
}

}

#pragma once

#include "file.h"
#include "fuzz/memory_folder.h"
#include "fuzz/promise.h"
#include "load.h"
#include "store.h"

#include <QCoreApplication>

#include <array>
#include <filesystem>
#include <fstream>
#include <map>
#include <unistd.h>

namespace strikeoff::fuzz {

namespace detail {

/// The folder in memory that books are spoiled in, and the books as they were before.
class BookGround {
public:
    BookGround()
    {
        // The engine's driver is a plugin, and finding it needs an application.
        if (!QCoreApplication::instance()) {
            static int count = 1;
            static char name[] = "fuzz";
            static char* names[] = {name, nullptr};
            static const QCoreApplication application{count, names};
        }
        makeSmallBook();
        for (const auto* released : {"version_1", "version_2"}) whole_.push_back(bytesOf(std::string{STRIKEOFF_RELEASED_BOOKS} + '/' + released + ".strikeoff"));
    }
    BookGround(const BookGround&) = delete;
    BookGround& operator=(const BookGround&) = delete;

    const std::string& whole(std::size_t which) const { return whole_[which % whole_.size()]; }
    std::size_t count() const { return whole_.size(); }
    const std::map<RecordKind, std::string>& dump() const { return dump_; }

    /// A file of these bytes in a folder without any other.
    std::string file(const std::string& bytes) const
    {
        namespace fs = std::filesystem;
        for (const auto& entry : fs::directory_iterator{memory_.path()}) fs::remove_all(entry.path());
        const auto path = (memory_.path() / "book.strikeoff").string();
        std::ofstream{path, std::ios::binary}.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        return path;
    }

    static OpenOptions options(bool readOnly)
    {
        OpenOptions options;
        options.readOnly = readOnly;
        options.desk = "fuzz";
        options.now = "2026-11-25T12:00:00Z";
        return options;
    }
    static std::map<RecordKind, std::string> dumpOf(const Book& book)
    {
        std::map<RecordKind, std::string> dump;
        for (const auto& kind : allKinds()) dump[kind.kind] = dumpCsv(book, kind.kind);
        return dump;
    }

private:
    static std::string bytesOf(const std::string& path)
    {
        std::string fault;
        const auto bytes = readWholeFile(path, fault);
        require(bytes.has_value(), fault);
        return *bytes;
    }
    void makeSmallBook()
    {
        const auto path = (memory_.path() / "small.strikeoff").string();
        Store::create(path, options(false));
        {
            const auto store = Store::open(path, options(false));
            Edit edit{"Begin"};
            Customer customer;
            customer.name = "Fir & Sons";
            customer.note = "gate\nis locked";
            customer.id = edit.add(customer);
            Job job;
            job.title = "Drive";
            job.customer = customer.id;
            job.openedOn = *Date::of(2026, 5, 4);
            edit.add(job);
            require(store->commit(std::move(edit)).done(), "a plain edit");
            auto row = *store->book().row(RecordKind::customer, 1);
            row.set("phone", std::string{"555-0100"});
            Edit change{"Phone"};
            change.change(row);
            require(store->commit(std::move(change)).done(), "a plain change");
            require(store->undo().done(), "a plain undo");
            dump_ = dumpOf(store->book());
        }
        whole_.push_back(bytesOf(path));
    }

    MemoryFolder memory_{"strikeoff-fuzz"};
    std::vector<std::string> whole_;
    std::map<RecordKind, std::string> dump_;
};

/// A book spoiled as a list of steps says, six bytes each: what is done, a page, a place on it, a byte. Steps on pages keep a fuzz program from
/// spending its time on files that are no book at all.
inline std::string spoiled(std::string book, std::string_view steps)
{
    constexpr std::size_t page = 4096;
    const auto byte = [&](std::size_t i) { return static_cast<std::size_t>(static_cast<unsigned char>(steps[i])); };
    for (; steps.size() >= 6 && !book.empty(); steps.remove_prefix(6)) {
        const auto pages = std::max<std::size_t>(book.size() / page, 1);
        const auto first = (byte(1) % pages) * page, place = (byte(2) << 8 | byte(3)) % page, second = (byte(4) % pages) * page;
        const auto at = std::min(first + place, book.size() - 1);
        const auto value = static_cast<char>(byte(5));
        const auto piece = [&](std::size_t from) { return book.substr(from, page); };
        switch (byte(0) % 10) {
        case 0: book[at] = value; break;
        case 1: book[at] = static_cast<char>(book[at] ^ (1 << (byte(5) % 8))); break;
        case 2: {
            const auto one = piece(first), other = piece(second);
            if (one.size() == page && other.size() == page) book.replace(first, page, other).replace(second, page, one);
            break;
        }
        case 3:
            if (const auto one = piece(first); one.size() == page && piece(second).size() == page) book.replace(second, page, one);
            break;
        case 4: std::fill_n(book.begin() + static_cast<std::ptrdiff_t>(at), std::min<std::size_t>(byte(5) * 16, book.size() - at), '\0'); break;
        case 5: book.resize(at); break;
        case 6: book[std::min<std::size_t>(place % 100, book.size() - 1)] = value; break;   // the file's head
        case 7:
            if (book.size() > 63) book[63] = static_cast<char>(byte(5) % 5);  // the version
            break;
        case 8: {
            // Somewhere a word stands, in the schema or in a row: another letter.
            const std::array<std::string_view, 8> words{"STRICT", "INTEGER", "TEXT", "customer", "REFERENCES", "NOT NULL", "2026-", "Fir"};
            auto found = book.find(words[byte(4) % words.size()], at);
            if (found == std::string::npos) found = book.find(words[byte(4) % words.size()]);
            if (found != std::string::npos) book[found] = value;
            break;
        }
        case 9: book.append(page, value); break;
        }
    }
    return book;
}

}

/// Opens any bytes as a book: as they are, or, when they do not begin as one, as steps that spoil one. It is refused or opened, and what is opened is
/// looked at from all sides.
inline void readAnyBookFile(std::string_view bytes)
{
    static const detail::BookGround ground;
    using Ground = detail::BookGround;
    const bool isWhole = bytes.starts_with("SQLite format 3");
    const auto choice = isWhole ? 1 : choiceIn(bytes);
    const bool readOnly = choice % 2 == 1;
    const auto which = choice / 2 % ground.count();
    const auto content = isWhole ? std::string{bytes} : detail::spoiled(ground.whole(which), bytes);
    const auto path = ground.file(content);
    bool opened = false;
    std::map<RecordKind, std::string> dump;
    try {
        const auto store = Store::open(path, Ground::options(readOnly));
        opened = true;
        dump = Ground::dumpOf(store->book());
        const auto findings = store->verify();
        for (const auto& finding : findings) require(!finding.what.empty(), "a finding says what");
        const bool small = !isWhole && which == 0;
        if (small && findings.empty()) require(dump == ground.dump(), "a book that passes verify says what it said before it was spoiled");
        for (const auto& entry : store->recentTrail(20)) require(entry.id > 0, "an entry of the trail has a number");
        (void)store->removedRows(20);
        for (const auto& kind : allKinds())
            if (store->book().count(kind.kind) > 0) (void)store->trailOf(kind.kind, store->book().idAt(kind.kind, 0));
        if (!readOnly) {
            (void)store->undo();
            (void)store->redo();
            Edit edit{"One more"};
            Customer customer;
            customer.name = "One more";
            edit.add(customer);
            if (store->commit(std::move(edit)).done()) {
                dump = Ground::dumpOf(store->book());
            } else {
                require(store->book().count(RecordKind::customer) < 1000, "an edit that is refused adds nothing");
            }
        }
    } catch (const StorageError& error) {
        require(std::string_view{error.what()}.size() > 10, "a refusal says why");
    }
    // What was opened once, and perhaps written to, is opened again and says the same; what was refused is refused again.
    try {
        const auto again = Store::open(path, Ground::options(true));
        if (opened && readOnly) require(Ground::dumpOf(again->book()) == dump, "a book that was only looked at says the same again");
    } catch (const StorageError&) {
    }
}

}

#include "server_bench.h"

#include "record/field_text.h"
#include "server_address.h"
#include "store.h"
#include "store_state.h"
#include "timing.h"

#include <atomic>
#include <charconv>
#include <cstdlib>
#include <libpq-fe.h>
#include <memory>
#include <optional>
#include <poll.h>
#include <thread>

namespace strikeoff {

namespace {

using Clock = std::chrono::steady_clock;

/// A connection by the server's library alone. The password comes from the environment, as for a book.
class Bare {
public:
    explicit Bare(const std::string& address)
    {
        const auto place = readServerAddress(address);
        connection_.reset(PQsetdbLogin(place.host.c_str(), place.port.empty() ? nullptr : place.port.c_str(), nullptr, nullptr, place.database.c_str(), place.user.c_str(), nullptr));
        if (PQstatus(connection_.get()) != CONNECTION_OK) throw StorageError{PQerrorMessage(connection_.get())};
        PQsetNoticeProcessor(connection_.get(), [](void*, const char*) {}, nullptr);
        run("SET search_path = " + place.schema);
    }
    using Result = std::unique_ptr<PGresult, void (*)(PGresult*)>;
    Result run(const std::string& sql) { return checked(PQexec(connection_.get(), sql.c_str())); }
    void prepare(const char* name, const char* sql) { checked(PQprepare(connection_.get(), name, sql, 0, nullptr)); }
    void execute(const char* name, const std::vector<const char*>& values)
    {
        checked(PQexecPrepared(connection_.get(), name, static_cast<int>(values.size()), values.data(), nullptr, nullptr, 0));
    }

private:
    Result checked(PGresult* answer)
    {
        Result result{answer, PQclear};
        const auto status = PQresultStatus(answer);
        if (status != PGRES_COMMAND_OK && status != PGRES_TUPLES_OK) throw StorageError{PQerrorMessage(connection_.get())};
        return result;
    }
    std::unique_ptr<PGconn, void (*)(PGconn*)> connection_{nullptr, PQfinish};
};

struct BareJob { std::int64_t id, revision; std::string number, title; std::int64_t customer, site, lead, type; std::string opened, closed, dropped, reason, lien, note; };
struct BareTicket {
    std::int64_t id, revision, supplier; std::string number, plant, truck, date, mix; std::int64_t yards, batched, arrived, began, ended, slumpOrdered, slump, water, temp;
    std::string options; std::int64_t job, pour, returned; std::string signedBy, note;
};
struct BareHours { std::int64_t id, revision, person; std::string date; std::int64_t job, pour; std::string phase; std::int64_t started, ended, unpaid, minutes; std::string note; };

/// The columns of a row, one after the other.
class Cells {
public:
    Cells(const PGresult* result, int row) : result_{result}, row_{row} {}
    std::int64_t number()
    {
        std::int64_t value = 0;
        const auto* digits = PQgetvalue(result_, row_, column_);
        std::from_chars(digits, digits + PQgetlength(result_, row_, column_++), value);
        return value;
    }
    std::string text()
    {
        const std::string value(PQgetvalue(result_, row_, column_), static_cast<std::size_t>(PQgetlength(result_, row_, column_)));
        ++column_;
        return value;
    }

private:
    const PGresult* result_;
    int row_;
    int column_ = 0;
};

/// Braces keep the order of the columns.
void take(Cells c, std::vector<BareJob>& rows)
{
    rows.push_back({c.number(), c.number(), c.text(), c.text(), c.number(), c.number(), c.number(), c.number(), c.text(), c.text(), c.text(), c.text(), c.text(), c.text()});
}
void take(Cells c, std::vector<BareTicket>& rows)
{
    rows.push_back({c.number(), c.number(), c.number(), c.text(), c.text(), c.text(), c.text(), c.text(), c.number(), c.number(), c.number(), c.number(), c.number(), c.number(), c.number(), c.number(),
                    c.number(), c.text(), c.number(), c.number(), c.number(), c.text(), c.text()});
}
void take(Cells c, std::vector<BareHours>& rows)
{
    rows.push_back({c.number(), c.number(), c.number(), c.text(), c.number(), c.number(), c.text(), c.number(), c.number(), c.number(), c.number(), c.text()});
}

template <class Record>
std::size_t readBare(Bare& connection, const char* sql)
{
    const auto result = connection.run(sql);
    std::vector<Record> rows;
    const int count = PQntuples(result.get());
    rows.reserve(static_cast<std::size_t>(count));
    for (int row = 0; row < count; ++row) take(Cells{result.get(), row}, rows);
    return rows.size();
}

std::string bookBeside(const std::string& address, const char* name) { return address.substr(0, address.find('?')) + "?book=" + name; }

/// The tables of a book in a schema of their own with their rows, for the transactions of the library alone.
void makeBareBook(const std::string& address, const std::string& bareAddress)
{
    Store::create(bareAddress);
    const auto from = readServerAddress(address).schema, to = readServerAddress(bareAddress).schema;
    Bare connection{bareAddress};
    connection.run("SET session_replication_role = replica");  // what the rows refer to need not be looked up again
    for (const auto* table : {"hours", "counter", "edit", "edit_change"})
        connection.run(std::string{"DELETE FROM "} + table + "; INSERT INTO " + to + '.' + table + " SELECT * FROM " + from + '.' + table);
    connection.run("ANALYZE");
}

std::string columnsToSet(const KindDescription& kind, int first)
{
    std::string sql;
    for (const auto& field : kind.fields) sql += ", " + std::string{field.name} + " = $" + std::to_string(first++);
    return sql + " WHERE id = $" + std::to_string(first);
}

}

ServerTimes timeOpeningOnServer(const std::string& address)
{
    std::vector<double> ours, bare;
    for (int i = 0; i < 5; ++i) {
        bare.push_back(seconds([&] {
            Bare connection{address};
            readBare<BareJob>(connection, "SELECT * FROM job ORDER BY id");
            readBare<BareTicket>(connection, "SELECT * FROM ticket ORDER BY id");
            if (readBare<BareHours>(connection, "SELECT * FROM hours ORDER BY id") == 0) std::abort();
        }));
        std::unique_ptr<Store> store;
        ours.push_back(seconds([&] { store = Store::open(address); }));
    }
    return {median(ours), median(bare)};
}

ServerTimes timeCommitOnServer(const std::string& address)
{
    const auto bareAddress = bookBeside(address, "bare");
    makeBareBook(address, bareAddress);
    const auto store = Store::open(address);
    Bare bare{bareAddress};
    const auto& kind = describe(RecordKind::hours);
    bare.prepare("row", ("UPDATE hours SET revision = $1" + columnsToSet(kind, 2)).c_str());
    bare.prepare("entry", "INSERT INTO edit (id, at, desk, title, how, of_edit, chain) VALUES ($1, $2, $3, $4, $5, $6, $7)");
    bare.prepare("change", "INSERT INTO edit_change (edit, place, kind, row, revision, before, after) VALUES ($1, $2, $3, $4, $5, $6, $7)");
    bare.prepare("counter", "INSERT INTO counter (name, next) VALUES ($1, $2) ON CONFLICT (name) DO UPDATE SET next = excluded.next");
    const auto& hours = store->book().all<Hours>();
    auto nextEdit = std::atoll(PQgetvalue(bare.run("SELECT max(id) FROM edit").get(), 0, 0));
    std::vector<double> ours, bares;
    for (int i = 0; i < 400; ++i) {
        const auto at = static_cast<std::size_t>(i) * 997 % hours.size();
        const auto before = *store->book().row(RecordKind::hours, hours[at].id.value());
        auto row = hours[at];
        row.note = "rain at noon " + std::to_string(i);
        Edit edit{"Change hours"};
        edit.change(row);
        ours.push_back(seconds([&] { if (!store->commit(std::move(edit)).done()) std::abort(); }));

        const auto after = *store->book().row(RecordKind::hours, row.id.value());
        std::vector<std::optional<std::string>> texts{std::to_string(after.revision)};
        for (std::size_t f = 0; f < kind.fields.size(); ++f) {
            const auto value = storedForm(kind.fields[f], after.values[f]);
            if (const auto* number = std::get_if<std::int64_t>(&value)) texts.emplace_back(std::to_string(*number));
            else if (const auto* text = std::get_if<std::string>(&value)) texts.emplace_back(*text);
            else texts.emplace_back();
        }
        texts.push_back(std::to_string(after.id));
        std::vector<const char*> values;
        for (const auto& text : texts) values.push_back(text ? text->c_str() : nullptr);
        const auto id = std::to_string(++nextEdit), next = std::to_string(nextEdit + 1), revision = std::to_string(before.revision), rowId = std::to_string(after.id);
        const std::string chain(64, 'a');
        bares.push_back(seconds([&] {
            bare.run("BEGIN ISOLATION LEVEL READ COMMITTED READ WRITE");
            bare.run("SELECT pg_advisory_xact_lock(1399057775, hashtext('bare'))");
            bare.run("SELECT coalesce(max(id), 0) FROM edit");
            bare.execute("row", values);
            bare.execute("entry", {id.c_str(), "2026-11-25T12:00:00Z", "owner@desk", "Change hours", "do", nullptr, chain.c_str()});
            bare.execute("change", {id.c_str(), "0", "hours", rowId.c_str(), revision.c_str(), "{\"note\":null}", "{\"note\":\"rain at noon\"}"});
            bare.execute("counter", {"edit", next.c_str()});
            bare.run("NOTIFY bare");
            bare.run("COMMIT");
        }));
    }
    return {median(ours), median(bares)};
}

std::vector<double> timesToBeSeen(const std::string& address, int edits)
{
    const auto writer = Store::open(address);
    const auto id = writer->book().all<Customer>()[0].id;
    std::atomic<int> seen{-1};
    std::atomic<bool> over{false}, ready{false};
    std::atomic<Clock::rep> seenAt{0};
    std::thread desk{[&] {
        const auto reader = Store::open(address);
        ready = true;
        while (!over) {
            pollfd news{newsSocket(*reader), POLLIN, 0};
            poll(&news, 1, 1000);  // the window looks every second whatever it is told
            if (!reader->refresh()) continue;
            seenAt = Clock::now().time_since_epoch().count();
            seen = std::atoi(reader->book().find(id)->note.c_str());
        }
    }};
    while (!ready) std::this_thread::sleep_for(std::chrono::milliseconds{10});
    std::vector<double> times;
    for (int i = 1; i <= edits; ++i) {
        auto customer = *writer->book().find(id);
        customer.note = std::to_string(i);
        Edit edit{"Change a note"};
        edit.change(customer);
        const auto begin = Clock::now();
        if (!writer->commit(std::move(edit)).done()) std::abort();
        while (seen != i) std::this_thread::sleep_for(std::chrono::microseconds{50});
        times.push_back(std::chrono::duration<double>{Clock::time_point{Clock::duration{seenAt.load()}} - begin}.count());
    }
    over = true;
    desk.join();
    return times;
}

}

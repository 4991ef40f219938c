#include "dialect.h"
#include "schema.h"
#include "schema_steps.h"
#include "store.h"

#include <QFile>
#include <QTemporaryDir>

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

/// A book as the first version laid it out, with a little in it.
std::string bookOfVersionOne(const QTemporaryDir& dir)
{
    const auto name = dir.filePath("old.strikeoff");
    QFile file{name};
    REQUIRE(file.open(QIODevice::WriteOnly));
    file.close();
    Database database{name.toStdString(), Database::Mode::readWrite};
    for (const auto& statement : schemaStep1()) database.run(expanded(statement));
    database.run("PRAGMA application_id = " + std::to_string(applicationId));
    database.run("PRAGMA user_version = 1");
    database.run("INSERT INTO supplier (id, revision, name) VALUES (1, 1, 'Lindmoor Ready Mix')");
    database.run("INSERT INTO statement (id, revision, supplier, number, date) VALUES (1, 1, 1, 'S-1', '2026-08-31')");
    database.run("INSERT INTO statement_line (id, revision, statement, line, ticket_number, amount) VALUES (1, 1, 1, 1, '48213', 161500)");
    return name.toStdString();
}

}

TEST_CASE("a book of the first version comes forward with all that was in it", "[schema]")
{
    const QTemporaryDir dir;
    const auto path = bookOfVersionOne(dir);
    {
        const auto store = Store::open(path);
        REQUIRE(store->book().all<StatementLine>().size() == 1);
        const auto& line = store->book().all<StatementLine>()[0];
        CHECK(line.ticketNumber == "48213");
        CHECK(line.amount == Money::ofCents(1615'00));
        CHECK_FALSE(line.leaveUnpaired);
        CHECK(line.standsBecause.empty());
        CHECK(store->book().all<Supplier>()[0].statementColumns.empty());
        CHECK(store->book().settings().dischargeLimit == Minutes::of(90));
    }
    Database database{path, Database::Mode::readWrite};
    CHECK(schemaDifferences(database).empty());
    CHECK(database.number("PRAGMA user_version") == schemaVersion);
    // The copy beside it is the book as it was.
    CHECK(QFile::exists(QString::fromStdString(path + ".before-version-" + std::to_string(schemaVersion))));
}

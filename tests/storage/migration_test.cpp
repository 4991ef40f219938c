#include "database.h"
#include "storage/loading.h"

#include "schema.h"

#include <QFile>
#include <QFileInfo>

using namespace strikeoff;
using namespace strikeoff::test;

// Records name the members that matter.
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"

namespace {

/// A copy of a book that a released version wrote, in a folder of its own.
std::string releasedBook(const Folder& folder, int version)
{
    const auto name = QStringLiteral("version_%1.strikeoff").arg(version);
    const auto path = folder.dir.filePath(name);
    REQUIRE(QFile::copy(QStringLiteral(STRIKEOFF_RELEASED_BOOKS "/") + name, path));
    QFile::setPermissions(path, QFileDevice::ReadOwner | QFileDevice::WriteOwner);
    return path.toStdString();
}

std::vector<std::string> layoutOf(const std::string& path)
{
    Database database{path, Database::Mode::readOnly};
    return database.column("SELECT type || ' ' || name || ' ' || coalesce(sql, '') FROM sqlite_master ORDER BY type, name");
}

}

TEST_CASE("a book of version 1 comes forward to the layout a new book has, after a copy, its rows unchanged", "[migration]")
{
    const Folder folder;
    const auto path = releasedBook(folder, 1);
    const auto layoutBefore = layoutOf(path);
    const auto store = Store::open(path);
    const auto& book = store->book();

    Store::create(folder.dir.filePath(QStringLiteral("new.strikeoff")).toStdString());
    CHECK(layoutOf(path) == layoutOf(folder.dir.filePath(QStringLiteral("new.strikeoff")).toStdString()));
    CHECK(layoutOf(path) != layoutBefore);
    CHECK(store->verify().empty());

    const auto copy = path + ".before-version-" + std::to_string(schemaVersion);
    REQUIRE(QFile::exists(QString::fromStdString(copy)));
    CHECK(layoutOf(copy) == layoutBefore);
    const auto others = QFileDevice::ReadGroup | QFileDevice::WriteGroup | QFileDevice::ReadOther | QFileDevice::WriteOther;
    CHECK((QFile::permissions(QString::fromStdString(copy)) & others) == QFileDevice::Permissions{});

    // What was written into it when it was made.
    REQUIRE(book.all<CrewMember>().size() == 2);
    CHECK(book.all<CrewMember>()[0].name == "Ilse Marrow");
    CHECK(book.all<CrewMember>()[0].compClass == "concrete flatwork");
    REQUIRE(book.all<PayRate>().size() == 2);
    CHECK(book.all<PayRate>()[0].hourlyRate == UnitPrice::parse("32.50"));
    CHECK_FALSE(book.all<PayRate>()[0].phase);
    CHECK_FALSE(book.all<PayRate>()[0].dayRate);
    REQUIRE(book.all<Hours>().size() == 3);
    CHECK(book.all<Hours>()[0].worked() == Minutes::of(490));
    CHECK(book.all<Hours>()[2].note == "saw service");
    REQUIRE(book.all<Customer>().size() == 1);
    CHECK(book.all<Customer>()[0].name == "O'Dell & Sons, the \"\u00dc\" yard");
    CHECK(book.all<Job>()[0].number == "1001");
    CHECK(book.all<Ticket>()[0].yards == Yards::parse("9.5"));
    CHECK(book.all<StatementLine>()[0].amount == Money::parse("1534.25"));
    CHECK(book.all<Overhead>()[0].amount == Money::ofWhole(6000));
    CHECK(book.settings().outfitName == "Marrow Flatwork");
    CHECK(book.settings().workweekStart == Weekday::sunday);
    // What version 1 did not know stands at what it did: overtime was nobody's rule yet, the federal one holds from now on.
    CHECK(book.settings().clockRounding == ClockRounding::none);
    CHECK(book.settings().overtimeRule == OvertimeRule::weekly);
    CHECK(book.settings().premiumSpread == PremiumSpread::week);
    CHECK(book.settings().rateRounding == RateRounding::exact);
    // The burden tables are offered, not written behind the owner's back.
    CHECK(book.all<BurdenRate>().empty());
    CHECK(store->undoTitle() == Store::open(path)->undoTitle());
}

TEST_CASE("a book of version 2 comes forward with its rows, and what it did not know stands at the usual", "[migration]")
{
    const Folder folder;
    const auto path = releasedBook(folder, 2);
    const auto store = Store::open(path);
    const auto& book = store->book();
    Store::create(folder.dir.filePath(QStringLiteral("new.strikeoff")).toStdString());
    CHECK(layoutOf(path) == layoutOf(folder.dir.filePath(QStringLiteral("new.strikeoff")).toStdString()));
    CHECK(store->verify().empty());

    // What was written into it when it was made.
    REQUIRE(book.all<Bonus>().size() == 1);
    CHECK(book.all<Bonus>()[0].amount == Money::ofWhole(150));
    REQUIRE(book.all<BurdenRate>().size() == 1);
    CHECK(book.all<BurdenRate>()[0].rate == UnitPrice::parse("8.25"));
    REQUIRE(book.all<FinishingProduct>().size() == 1);
    CHECK(book.all<FinishingProduct>()[0].onHandGallons == Quantity::parse("7.5"));
    CHECK_FALSE(book.all<FinishingProduct>()[0].countedOn);
    REQUIRE(book.all<Visit>().size() == 2);
    CHECK(book.all<Visit>()[0].plannedOn == Date::of(2026, 6, 12));
    CHECK_FALSE(book.all<Visit>()[0].pinned);
    CHECK(book.all<Visit>()[1].waivedReason == "the owner stripped them");
    CHECK(book.all<CrewMember>()[0].doesVisits);
    const auto fresh = Settings{};
    CHECK(book.settings().roadFactor == fresh.roadFactor);
    CHECK(book.settings().driveMph == fresh.driveMph);
    CHECK(book.settings().visitRuns == fresh.visitRuns);
    CHECK(book.settings().sealerSpare == fresh.sealerSpare);
    CHECK(book.all<TownDrive>().empty());
}

TEST_CASE("a book of version 1 is not brought forward by looking at it, and only once by opening it", "[migration]")
{
    const Folder folder;
    const auto path = releasedBook(folder, 1);
    OpenOptions look;
    look.readOnly = true;
    CHECK_THROWS_WITH(Store::open(path, look), Catch::Contains("older version"));
    CHECK_FALSE(QFile::exists(QString::fromStdString(path + ".before-version-" + std::to_string(schemaVersion))));
    std::map<RecordKind, std::string> first;
    {
        const auto store = Store::open(path);
        first = dumpOf(store->book());
        Edit edit{"A bonus"};
        edit.add(Bonus{.person = store->book().all<CrewMember>()[0].id, .amount = Money::ofWhole(100), .earnedFrom = *Date::of(2026, 5, 11), .earnedTo = *Date::of(2026, 5, 24)});
        REQUIRE(store->commit(std::move(edit)).done());
    }
    const auto store = Store::open(path);
    CHECK(store->book().all<Bonus>().size() == 1);
    REQUIRE(store->undo().done());
    CHECK(dumpOf(store->book()) == first);
    CHECK(store->verify().empty());
}

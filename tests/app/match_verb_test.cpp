#include "app/commands.h"
#include "file.h"
#include "store.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include <catch2/catch.hpp>

#include <fstream>

using namespace strikeoff;
using test::run;

namespace {

QJsonObject jsonOf(const std::string& text)
{
    QJsonParseError error;
    const auto document = QJsonDocument::fromJson(QByteArray::fromStdString(text), &error);
    INFO(text);
    REQUIRE(error.error == QJsonParseError::NoError);
    return document.object();
}

/// "1234.50" in cents.
std::int64_t cents(const QJsonValue& value)
{
    REQUIRE(value.isString());
    return Money::parse(value.toString().toStdString()).value().cents();
}

/// A book with a supplier, a sheet and three tickets of June 2026, and a place for files.
struct Counter {
    QTemporaryDir dir;
    std::string book = path("june.strikeoff");

    Counter()
    {
        REQUIRE(run({"new", book}).status == 0);
        load("supplier", "name,terms_days,discount_days\nLindmoor Ready Mix,30,10\n");
        load("price_sheet", "supplier,effective_on,charge,code,meaning,amount,unit,taxable\n"
                            "Lindmoor Ready Mix,2026-01-01,mix,4000AE,\"4000 psi, air\",170,per_yard,yes\n"
                            "Lindmoor Ready Mix,2026-01-01,load,ENV,Washout and environment,12,per_load,no\n"
                            "Lindmoor Ready Mix,2026-01-01,tax,TAX,Sales tax,6.25,percent,no\n");
        load("ticket", "supplier,number,date,mix,yards\n"
                       "Lindmoor Ready Mix,48213,2026-06-12,4000AE,9.5\n"
                       "Lindmoor Ready Mix,48260,2026-06-15,4000AE,4\n"
                       "Lindmoor Ready Mix,48271,2026-06-16,4000AE,6\n");
    }
    std::string path(const char* name) const { return dir.filePath(QString::fromUtf8(name)).toStdString(); }
    std::string write(const char* name, const std::string& text) const
    {
        std::ofstream{path(name)} << text;
        return path(name);
    }
    void load(const char* kind, const std::string& csv) const
    {
        const auto loaded = run({"load", book, kind, write("rows.csv", csv)});
        INFO(loaded.err);
        REQUIRE(loaded.status == 0);
    }
    /// A statement no program has seen the headings of: a digit swapped in one number, and one load at an old price.
    std::string statement() const
    {
        return write("L-0626.csv", "Lindmoor Ready Mix;;;;;;\n\nExtended;Docket #;Del. Date;What;Volume;UOM;Rate\n"
                                   "1.615,00;48231;12.06.2026;4000 psi, air;9,5;cy;170,00\n12,00;48231;12.06.2026;Environment;1;ea;12,00\n100,94;48231;12.06.2026;Sales tax;;;\n"
                                   "700,00;48260;15.06.2026;4000 psi, air;4;cy;175,00\n12,00;48260;15.06.2026;Environment;1;ea;12,00\n43,75;48260;15.06.2026;Sales tax;;;\n"
                                   "2.483,69;;;Statement total;;;\n");
    }
    std::size_t statements() const { return Store::open(book)->book().all<Statement>().size(); }
};

}

TEST_CASE("a supplier's file with headings never seen is checked without being kept", "[command][match]")
{
    const Counter desk;
    const auto printed = run({"match", desk.book, "--csv", desk.statement(), "--supplier", "lindmoor ready mix", "--json"});
    INFO(printed.err);
    CHECK(printed.status == 3);
    const auto json = jsonOf(printed.out);
    CHECK(json["supplier"].toString() == "Lindmoor Ready Mix");
    CHECK(json["statement"].toString() == "L-0626");
    CHECK(cents(json["billed"]) == 2483'69);
    CHECK(cents(json["disputed"]) == 21'25);  // 20.00 on the price and 1.25 of tax on it
    CHECK(cents(json["needs_eye"]) == 0);
    CHECK(cents(json["billed"]) == cents(json["agreed"]) + cents(json["disputed"]) + cents(json["needs_eye"]));
    const auto lines = json["lines"].toArray();
    REQUIRE(lines.size() == 6);
    CHECK(lines[0].toObject()["ticket"].toString() == "48231");
    CHECK(lines[0].toObject()["matched_ticket"].toString() == "48213");
    CHECK(lines[0].toObject()["how"].toString() == "near");
    CHECK(lines[0].toObject()["finding"].toString() == "agrees");
    CHECK(lines[3].toObject()["finding"].toString() == "price_off");
    CHECK(cents(lines[3].toObject()["expected"]) == 680'00);
    CHECK(cents(lines[3].toObject()["difference"]) == 20'00);
    CHECK(lines[5].toObject()["finding"].toString() == "tax_off");
    const auto unbilled = json["unbilled"].toArray();
    CHECK(unbilled.isEmpty());  // the ticket of June 16 is behind the last day billed
    CHECK(json["claims_open"].isArray());
    CHECK(desk.statements() == 0);
}

TEST_CASE("a file that is kept gives the same check by its number, and its layout is remembered", "[command][match]")
{
    const Counter desk;
    const auto file = desk.statement();
    const auto tried = run({"match", desk.book, "--csv", file, "--supplier", "Lindmoor Ready Mix", "--statement", "June", "--json"});
    const auto kept = run({"match", desk.book, "--csv", file, "--supplier", "Lindmoor Ready Mix", "--statement", "June", "--keep", "--json"});
    INFO(kept.err);
    CHECK(kept.status == 3);
    CHECK(kept.out == tried.out);
    CHECK(run({"match", desk.book, "--statement", "june", "--json"}).out == kept.out);
    CHECK(desk.statements() == 1);
    CHECK(Store::open(desk.book)->book().all<Supplier>()[0].statementColumns.find("ticket=Docket %23") != std::string::npos);
    // Never twice.
    const auto again = run({"match", desk.book, "--csv", file, "--supplier", "Lindmoor Ready Mix", "--statement", "June", "--keep"});
    CHECK(again.status == 1);
    CHECK(desk.statements() == 1);
    const auto all = run({"match", desk.book});
    CHECK(all.status == kept.status);  // it is the one statement of the book
    CHECK(all.out.find("June") != std::string::npos);
    CHECK(all.out.find("2,483.69") != std::string::npos);
    const auto desks = jsonOf(run({"match", desk.book, "--json"}).out)["statements"].toArray();
    REQUIRE(desks.size() == 1);
    CHECK(desks[0].toObject()["billed"].toString() == "2483.69");
    const auto text = run({"match", desk.book, "--statement", "June"});
    CHECK(text.out.find("$21.25 is in dispute") != std::string::npos);
    CHECK(text.out.find("Price off") != std::string::npos);
}

TEST_CASE("a statement with nothing open ends with status 0", "[command][match]")
{
    const Counter desk;
    const auto file = desk.write("fine.csv", "Ticket,Date,Code,Qty,Unit price,Amount\n48271,6/16/2026,4000AE,6,170.00,\"1,020.00\"\n48271,6/16/2026,ENV,1,12.00,12.00\n48271,6/16/2026,TAX,,,63.75\n");
    const auto printed = run({"match", desk.book, "--csv", file, "--supplier", "Lindmoor Ready Mix"});
    INFO(printed.out << printed.err);
    CHECK(printed.status == 0);
    CHECK(printed.out.find("nothing waits for you") != std::string::npos);
}

TEST_CASE("a column that was guessed wrong is named, and a file that cannot be read whole is refused", "[command][match]")
{
    const Counter desk;
    const auto file = desk.write("odd.csv", "Our ref,Their no,Date,Amount\n771,48271,6/16/2026,\"1,020.00\"\n772,48271,6/16/2026,12.00\n773,48271,6/16/2026,63.75\n");
    const auto corrected = jsonOf(run({"match", desk.book, "--csv", file, "--supplier", "Lindmoor Ready Mix", "--column", "ticket=their no", "--json"}).out);
    CHECK(corrected["lines"].toArray()[0].toObject()["ticket"].toString() == "48271");
    const auto wrong = run({"match", desk.book, "--csv", file, "--supplier", "Lindmoor Ready Mix", "--column", "ticket=Docket"});
    CHECK(wrong.status == 2);
    CHECK(wrong.err.find("Their no") != std::string::npos);
    CHECK(run({"match", desk.book, "--csv", file, "--supplier", "Lindmoor Ready Mix", "--column", "tickets=1"}).status == 2);
    CHECK(run({"match", desk.book, "--csv", file}).status == 2);
    CHECK(run({"match", desk.book, "--supplier", "Lindmoor Ready Mix"}).status == 2);
    CHECK(run({"match", desk.book, "--statement", "none"}).status == 2);
    const auto nobody = run({"match", desk.book, "--csv", file, "--supplier", "Nobody"});
    CHECK(nobody.status == 2);
    CHECK(nobody.err.find("Lindmoor Ready Mix") != std::string::npos);
    const auto bad = desk.write("bad.csv", "Ticket,Date,Amount\n48271,6/16/2026,12.00\n48271,soon,63.75\n");
    const auto refused = run({"match", desk.book, "--csv", bad, "--supplier", "Lindmoor Ready Mix", "--keep"});
    CHECK(refused.status == 1);
    CHECK(refused.err.find("Row 3") != std::string::npos);
    CHECK(desk.statements() == 0);
    CHECK(run({"match", desk.book, "--csv", desk.path("none.csv"), "--supplier", "Lindmoor Ready Mix"}).status == 1);
}

#include "app/application.h"

#include "labels.h"
#include "table/record_source.h"
#include "table/record_table.h"

#include <QAbstractItemModelTester>
#include <QClipboard>
#include <QHeaderView>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTableView>
#include <QTest>

#include <catch2/catch.hpp>

#include <chrono>

using namespace strikeoff;
using strikeoff::test::Office;

namespace {

QStringList columnTexts(const TableModel& model, int column)
{
    QStringList texts;
    for (int i = 0; i < model.rowCount(); ++i) texts << model.index(i, column).data().toString();
    return texts;
}

std::vector<TableRow> threeRows()
{
    return {
        {{RecordKind::receipt, 1}, {textCell(QStringLiteral("Lumber")), moneyCell(Money::ofCents(100'000))}},
        {{RecordKind::receipt, 2}, {textCell(QStringLiteral("=SUM(A1)")), moneyCell(std::nullopt)}},
        {{RecordKind::receipt, 3}, {textCell(QStringLiteral("<b>Steel</b>")), moneyCell(Money::ofCents(-2'550))}},
    };
}

std::vector<Column> vendorAndAmount() { return {{.heading = QStringLiteral("Vendor")}, {.heading = QStringLiteral("Amount, $"), .align = Align::right}}; }

}

TEST_CASE("a table keeps the rules of an item model while its rows, sorting and filter change", "[table]")
{
    Office office;
    TableModel model{vendorAndAmount()};
    const QAbstractItemModelTester tester{&model, QAbstractItemModelTester::FailureReportingMode::Fatal};
    model.setSource(std::make_shared<PlainSource>(threeRows()));
    model.sort(1, Qt::AscendingOrder);
    model.setFilter(QStringLiteral("steel"));
    CHECK(model.rowCount() == 1);
    model.setFilter({});
    model.setSource(std::make_shared<PlainSource>(std::vector<TableRow>{}));
    CHECK(model.rowCount() == 0);
}

TEST_CASE("a table sorts by value, and what is not recorded comes last either way", "[table]")
{
    Office office;
    TableModel model{vendorAndAmount()};
    model.setSource(std::make_shared<PlainSource>(threeRows()));
    model.sort(1, Qt::AscendingOrder);
    CHECK(columnTexts(model, 1) == QStringList{QStringLiteral("\u221225.50"), QStringLiteral("1,000.00"), QStringLiteral("\u2013")});
    model.sort(1, Qt::DescendingOrder);
    CHECK(columnTexts(model, 1) == QStringList{QStringLiteral("1,000.00"), QStringLiteral("\u221225.50"), QStringLiteral("\u2013")});
}

TEST_CASE("a blank cell shows a dash and says that nothing is recorded", "[table]")
{
    Office office;
    TableModel model{vendorAndAmount()};
    model.setSource(std::make_shared<PlainSource>(threeRows()));
    CHECK(model.index(1, 1).data().toString() == QStringLiteral("\u2013"));
    CHECK(model.index(1, 1).data(Qt::ToolTipRole).toString().contains(QStringLiteral("not recorded")));
}

TEST_CASE("figures in one column have the same number of decimals", "[table]")
{
    Office office;
    Supplier supplier;
    supplier.name = "Three Forks";
    Edit edit{"Enter tickets"};
    const auto from = edit.add(supplier);
    for (const auto thousandths : {4'000, 9'250, 10'500}) {
        Ticket ticket;
        ticket.supplier = from;
        ticket.number = std::to_string(thousandths);
        ticket.date = test::day("2026-06-01");
        ticket.yards = Yards::ofUnits(thousandths);
        edit.add(ticket);
    }
    office.commit(edit);
    const std::vector<RecordColumn> columns{{.field = "number"}, {.field = "yards"}};
    TableModel model{columnsOf(RecordKind::ticket, columns)};
    model.setSource(tableOf(*office.desk, RecordKind::ticket, columns));
    CHECK(columnTexts(model, 1) == QStringList{QStringLiteral("4.00"), QStringLiteral("9.25"), QStringLiteral("10.50")});
    CHECK(model.headerData(1, Qt::Horizontal, Qt::DisplayRole).toString() == QStringLiteral("Yards, yd\u00b3"));
}

TEST_CASE("a list is narrowed by names, numbers without marks, notes, and what a reference names", "[table]")
{
    Office office;
    const auto nora = office.addCustomer("Nora Bell", "gate code 4411");
    office.addCustomer("Tomas Ferrin");
    office.addJob(nora, "Patio");
    Receipt receipt;
    receipt.date = test::day("2026-06-02");
    receipt.costClass = CostClass::forms;
    receipt.amount = Money::ofCents(125'000);
    Edit edit{"Enter receipt"};
    edit.add(receipt);
    office.commit(edit);

    const auto rowsWith = [&](RecordKind kind, const char* words) {
        const std::vector<RecordColumn> columns = everyField(kind);
        TableModel model{columnsOf(kind, columns)};
        model.setSource(tableOf(*office.desk, kind, columns));
        model.setFilter(QString::fromUtf8(words));
        return model.rowCount();
    };
    CHECK(rowsWith(RecordKind::customer, "BELL nor") == 1);
    CHECK(rowsWith(RecordKind::customer, "4411") == 1);
    CHECK(rowsWith(RecordKind::customer, "bell ferrin") == 0);
    CHECK(rowsWith(RecordKind::job, "nora") == 1);
    CHECK(rowsWith(RecordKind::receipt, "1250") == 1);
    CHECK(rowsWith(RecordKind::receipt, "1,250") == 1);
}

TEST_CASE("text that looks like markup or a formula comes out as the text it is", "[table]")
{
    Office office;
    RecordTable table{QStringLiteral("Receipts"), vendorAndAmount(), *office.desk};
    table.setRows(threeRows());
    // Source: OWASP, "CSV Injection": a cell beginning with = is led by an apostrophe.
    const auto csv = QString::fromUtf8(table.csv());
    CHECK(csv.contains(QStringLiteral("'=SUM(A1)")));
    CHECK(csv.contains(QStringLiteral("<b>Steel</b>,-25.50")));
    CHECK(csv.contains(QStringLiteral("Lumber,1000.00")));
    CHECK(table.model().index(2, 0).data().toString() == QStringLiteral("<b>Steel</b>"));
    table.copySelection();
    CHECK(QApplication::clipboard()->text().contains(QStringLiteral("<b>Steel</b>\t-25.50")));
}

TEST_CASE("a table is worked by keyboard: letters narrow it, Enter opens, Ctrl+C copies the row", "[table]")
{
    Office office;
    RecordTable table{QStringLiteral("Receipts"), vendorAndAmount(), *office.desk};
    table.setRows(threeRows());
    table.resize(600, 400);
    table.show();
    QSignalSpy opened{&table, &RecordTable::opened};
    table.view().setFocus();
    QTest::keyClick(&table.view(), Qt::Key_L);
    CHECK(table.filterField().text() == QStringLiteral("l"));
    QTest::keyClicks(&table.filterField(), QStringLiteral("umb"));
    CHECK(table.model().rowCount() == 1);
    QTest::keyClick(&table.filterField(), Qt::Key_Return);
    QTest::keyClick(&table.view(), Qt::Key_Return);
    REQUIRE(opened.count() == 1);
    CHECK(opened.front().front().value<RecordRef>().id == 1);
    QTest::keyClick(&table.view(), Qt::Key_C, Qt::ControlModifier);
    CHECK(QApplication::clipboard()->text() == QStringLiteral("Vendor\tAmount, $\nLumber\t1000.00\n"));
    QTest::keyClick(&table.filterField(), Qt::Key_Escape);
    CHECK(table.model().rowCount() == 3);
}

TEST_CASE("the current record stays current when rows are sorted, narrowed or replaced", "[table]")
{
    Office office;
    RecordTable table{QStringLiteral("Receipts"), vendorAndAmount(), *office.desk};
    table.setRows(threeRows());
    REQUIRE(table.select({RecordKind::receipt, 3}));
    table.sortBy(1, Qt::AscendingOrder);
    CHECK(table.current().id == 3);
    table.setFilter(QStringLiteral("steel"));
    CHECK(table.current().id == 3);
    table.setFilter({});
    auto rows = threeRows();
    rows.insert(rows.begin(), TableRow{{RecordKind::receipt, 9}, {textCell(QStringLiteral("First")), moneyCell(Money::ofCents(1))}});
    table.setRows(std::move(rows));
    CHECK(table.current().id == 3);
}

TEST_CASE("column widths are remembered for the next window", "[table]")
{
    Office office;
    {
        RecordTable table{QStringLiteral("Receipts"), vendorAndAmount(), *office.desk};
        table.show();
        table.view().horizontalHeader()->resizeSection(0, 333);
    }
    RecordTable again{QStringLiteral("Receipts"), vendorAndAmount(), *office.desk};
    CHECK(again.view().columnWidth(0) == 333);
}

TEST_CASE("an empty table says what to do first", "[table]")
{
    Office office;
    RecordTable table{QStringLiteral("Receipts"), vendorAndAmount(), *office.desk};
    table.setEmptyText(QStringLiteral("No receipts yet."));
    bool said = false;
    for (const auto* label : table.findChildren<QLabel*>()) said = said || (label->text() == QStringLiteral("No receipts yet.") && !label->isHidden());
    CHECK(said);
}

TEST_CASE("a column that is added up is so over the rows shown, whatever narrows them", "[table]")
{
    Office office;
    auto columns = vendorAndAmount();
    columns[1].sumDecimals = 2;
    RecordTable table{QStringLiteral("Receipts"), columns, *office.desk};
    const QAbstractItemModelTester tester{&table.model(), QAbstractItemModelTester::FailureReportingMode::Fatal};
    table.setRows(threeRows());
    REQUIRE(table.model().rowCount() == 4);
    CHECK(table.model().shownRows() == 3);
    CHECK(columnTexts(table.model(), 0).back() == QStringLiteral("Sum"));
    CHECK(columnTexts(table.model(), 1).back() == QStringLiteral("974.50"));
    table.sortBy(1, Qt::DescendingOrder);
    CHECK(columnTexts(table.model(), 1).back() == QStringLiteral("974.50"));
    table.setFilter(QStringLiteral("steel"));
    CHECK(columnTexts(table.model(), 1) == QStringList{QStringLiteral("\u221225.50"), QStringLiteral("\u221225.50")});
    table.setFilter(QStringLiteral("steel b"));  // narrower still
    CHECK(table.model().shownRows() == 1);
    table.setFilter(QStringLiteral("lumber"));
    CHECK(columnTexts(table.model(), 1).back() == QStringLiteral("1,000.00"));
    CHECK_FALSE(table.model().recordAt(1));
    table.setFilter(QStringLiteral("nowhere"));
    CHECK(table.model().rowCount() == 0);
    table.setFilter({});
    CHECK(QString::fromUtf8(table.csv()).contains(QStringLiteral("Sum,974.50")));
}

#include "pages/job_folders/result_view.h"

#include "app/demo_book.h"
#include "app/keyboard.h"
#include "chart_view.h"
#include "cost_bridge.h"

#include "cost/explanation.h"
#include "domain/book_maker.h"
#include "table/record_table.h"

#include <QTableView>

using namespace strikeoff;
using strikeoff::test::Keyboard;

TEST_CASE("the waterfall of every job ends at its cost, and its steps are the parts of the table", "[result]")
{
    Book book;
    REQUIRE(applyEdit(book, withIds(demonstrationEdit())).problems.empty());
    CostReckoner reckoner{book};
    int drawn = 0;
    for (const auto& job : book.all<Job>()) {
        const auto explained = explain(reckoner, job);
        std::size_t parts = 0;
        for (const auto& each : explained.classes) parts += each.because.size();
        const auto bridge = bridgeOf(explained);
        std::size_t steps = 0;
        for (const auto& group : bridge.groups) steps += group.steps.size();
        INFO(job.number);
        CHECK(steps == parts);
        CHECK(rowsOf(bridge, 1000).back().to == Approx(explained.actual.toDouble()).margin(0.005));
        if (steps > 0) ++drawn;
    }
    CHECK(drawn > 200);
}

TEST_CASE("a folder's result opens from the run of its papers and shows what made the difference", "[window][result]")
{
    Keyboard desk;
    desk.open();
    Edit edit{"a job that went over"};
    const auto customer = edit.add(Customer{.name = "Result Test"});
    const auto job = edit.add(Job{.number = "7001", .title = "Walk", .customer = customer, .openedOn = on("2026-05-01")});
    const auto quote = edit.add(Quote{.number = "Q7001", .job = job, .draftedOn = on("2026-05-01"), .sentOn = on("2026-05-02"), .acceptedOn = on("2026-05-03")});
    edit.add(QuoteLine{.quote = quote, .costClass = CostClass::base, .description = "crushed base", .quantity = Quantity::ofWhole(10), .unit = "ton", .unitCost = UnitPrice::ofWhole(20)});
    edit.add(Receipt{.number = "R7001", .date = on("2026-05-09"), .job = job, .costClass = CostClass::base, .description = "base", .quantity = Quantity::ofWhole(12), .unit = "ton", .amount = Money::ofWhole(300)});
    const auto result = desk.window->desk().commit(edit);
    REQUIRE(result.done());
    const auto found = desk.book().withKey(RecordKind::job, std::vector<Value>{std::string{"7001"}});
    REQUIRE(found.size() == 1);
    REQUIRE(desk.window->openRecord(RecordKind::job, found.front()));
    QPushButton* paper = nullptr;
    for (auto* button : desk.window->findChildren<QPushButton*>(QStringLiteral("paper")))
        if (button->text().startsWith(QStringLiteral("Result"))) paper = button;
    desk.press(paper);
    auto* view = desk.window->findChild<ResultView*>();
    REQUIRE(view);
    REQUIRE(view->isVisible());
    const auto csv = view->table()->csv().toStdString();
    INFO(csv);
    // Twelve tons at $25 against ten at $20: two tons more at $20, and $5 more on each of twelve.
    CHECK(csv.find("quantity") != std::string::npos);
    CHECK(csv.find("40.00") != std::string::npos);
    CHECK(csv.find("60.00") != std::string::npos);
    CHECK(csv.find("cost $100.00 more") != std::string::npos);
    auto* chart = view->findChild<ChartView*>();
    REQUIRE(chart);
    CHECK(chart->isVisible());
    CHECK(chart->accessibleDescription().contains(QStringLiteral("$300.00")));
}

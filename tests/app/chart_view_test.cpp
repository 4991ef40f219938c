#include "app/commands.h"

#include "chart_file.h"
#include "chart_view.h"
#include "interval_plot.h"
#include "labels.h"
#include "scatter.h"
#include "time_chart.h"
#include "verbs/demonstration_book.h"

#include <QFile>
#include <QFileInfo>
#include <QImage>
#include <QSignalSpy>
#include <QSvgRenderer>
#include <QTemporaryDir>
#include <QTest>
#include <QToolButton>

#include <catch2/catch.hpp>

using namespace strikeoff;
using strikeoff::test::day;

namespace {

IntervalPlot types()
{
    IntervalPlot plot;
    plot.name = "Profit by job type";
    plot.axis = "gross profit, $ per crew-hour";
    plot.estimated = "estimate";
    plot.interval = "80 % interval";
    plot.raw = "as it came out";
    plot.countedOne = "job";
    plot.counted = "jobs";
    plot.rows = {{"Driveway", 64, 61, 48, 74, 22, "$61", {}, RecordKind::jobType, 7}, {"=Sidewalk", 30, 33, 25, 41, 15, "$33", {}, RecordKind::jobType, 8}};
    return plot;
}

TimeChart prices()
{
    TimeChart time;
    time.name = "Delivered price";
    TimePanel panel;
    panel.axis = "Delivered price, $ per yd\u00b3";
    panel.one = "ticket";
    panel.counted = "tickets";
    panel.kind = RecordKind::ticket;
    panel.middle = "median";
    for (int i = 0; i < 6; ++i) {
        panel.points.push_back({monthsOn(day("2026-01-10"), i), 170.0 + i, 40 + i});
        panel.months.push_back({monthsOn(day("2026-01-01"), i), 170.0 + i, 168.0 + i, 172.0 + i, 1});
    }
    time.panels = {panel, panel};
    return time;
}

struct View {
    test::Office office;
    ChartView view{QStringLiteral("Charts")};
    std::vector<RecordRef> opened;

    explicit View(Chart chart)
    {
        view.resize(900, 420);
        view.show(std::move(chart), office.desk.get());
        view.setVisible(true);
        QObject::connect(&view, &ChartView::opened, [this](const RecordRef& record) { opened.push_back(record); });
        QApplication::setActiveWindow(&view);
        view.setFocus();
        test::settle();
    }
    void key(Qt::Key key) { QTest::keyClick(&view, key); }
};

bool isPrivate(const QString& path)
{
    constexpr auto others = QFile::ReadGroup | QFile::WriteGroup | QFile::ExeGroup | QFile::ReadOther | QFile::WriteOther | QFile::ExeOther;
    return QFileInfo{path}.isFile() && !(QFile::permissions(path) & others);
}

QByteArray contentOf(const QString& path)
{
    QFile file{path};
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray{};
}

}

TEST_CASE("a list in a chart is gone through by arrow keys, and Enter opens the record", "[window][chart]")
{
    View view{chartOf(types())};
    CHECK(view.view.currentStop()->id == 7);
    view.key(Qt::Key_Down);
    CHECK(view.view.currentStop()->id == 8);
    CHECK(view.view.accessibleDescription().contains("=Sidewalk"));
    view.key(Qt::Key_Down);  // the last one stays the last
    view.key(Qt::Key_Return);
    REQUIRE(view.opened.size() == 1);
    CHECK(view.opened[0] == RecordRef{RecordKind::jobType, 8});
    view.key(Qt::Key_Up);
    view.key(Qt::Key_Return);
    CHECK(view.opened.back() == RecordRef{RecordKind::jobType, 7});
}

TEST_CASE("up and down stay at the same month of a time chart, and a point opens by click and by Enter", "[window][chart]")
{
    View view{chartOf(prices())};
    for (int i = 0; i < 3; ++i) view.key(Qt::Key_Right);
    CHECK(view.view.currentStop()->tip.contains("April 2026"));
    view.key(Qt::Key_Down);  // to the points of the panel
    const auto stop = view.view.currentStop();
    CHECK(stop->id == 43);
    view.key(Qt::Key_Return);
    QTest::mouseClick(&view.view, Qt::LeftButton, {}, stop->place.center().toPoint());
    REQUIRE(view.opened.size() == 2);
    CHECK(view.opened[0] == view.opened[1]);
    CHECK(view.opened[0] == RecordRef{RecordKind::ticket, 43});
    view.key(Qt::Key_End);
    CHECK(view.view.currentStop()->id == 45);
}

TEST_CASE("a chart is kept as PNG, SVG, PDF and CSV that only the owner may read", "[window][chart]")
{
    View view{chartOf(types())};
    QTemporaryDir folder;
    for (const auto& spec : chartFormats) {
        const auto path = folder.filePath(QStringLiteral("chart.") + QLatin1String{spec.ending});
        INFO(spec.ending);
        REQUIRE(view.view.keep(spec.format, path));
        CHECK(isPrivate(path));
    }
    const QImage picture{folder.filePath(QStringLiteral("chart.png"))};
    CHECK(picture.width() >= 1800);
    QSvgRenderer drawing{folder.filePath(QStringLiteral("chart.svg"))};
    CHECK(drawing.isValid());
    CHECK(contentOf(folder.filePath(QStringLiteral("chart.svg"))).contains("gross profit, $ per crew-hour"));
    CHECK(contentOf(folder.filePath(QStringLiteral("chart.pdf"))).startsWith("%PDF-1."));
    const auto csv = contentOf(folder.filePath(QStringLiteral("chart.csv")));
    CHECK(csv.contains("\r\nDriveway,22,64,61,48,74\r\n"));
    CHECK(csv.contains("\"'=Sidewalk\",15"));  // no formula for a spreadsheet
    CHECK_FALSE(view.view.keep(ChartFormat::csv, folder.filePath(QStringLiteral("nowhere/chart.csv"))));
    CHECK(view.view.findChild<QToolButton*>(QStringLiteral("keepPicture"))->isVisible());
}

TEST_CASE("all charts are written into a folder under their names, and a place that cannot be written is named", "[chart]")
{
    test::application();
    QTemporaryDir folder;
    const auto out = utf8(folder.filePath(QStringLiteral("pictures/of the year")));
    ScatterPlot scatter;
    scatter.name = "Pace by temperature";
    const std::vector charts{chartOf(types()), chartOf(prices()), chartOf(scatter)};
    const auto written = writeCharts(out, charts);
    CHECK(written.size() == 9);
    for (const auto& path : written) {
        INFO(path);
        CHECK(isPrivate(qs(path)));
    }
    CHECK(QFileInfo::exists(qs(out + "/profit-by-job-type.png")));
    CHECK(QFileInfo::exists(qs(out + "/delivered-price.svg")));
    CHECK(QFileInfo::exists(qs(out + "/pace-by-temperature.csv")));
    CHECK(writeCharts(out, charts) == written);  // again: the same files anew
    const auto file = out + "/profit-by-job-type.png";
    CHECK_THROWS_WITH(writeCharts(file, charts), Catch::Contains(file));
}

TEST_CASE("the picture of a chart on the screen follows its size and does not change by looking at it", "[window][chart]")
{
    View view{chartOf(prices())};
    view.key(Qt::Key_Right);
    const auto before = view.view.grab().toImage();
    view.view.clearFocus();
    const auto bare = view.view.grab().toImage();
    CHECK(before != bare);  // the stop in focus is marked
    CHECK(view.view.grab().toImage() == bare);
    view.view.resize(700, 420);
    test::settle();
    CHECK(view.view.grab().toImage().width() == 700);
    CHECK(view.view.area().right() < 700);
}

TEST_CASE("seasons --out writes every picture of a book as PNG, SVG and CSV and says where", "[commands][chart]")
{
    QTemporaryDir folder;
    const auto book = utf8(folder.filePath(QStringLiteral("demo.strikeoff")));
    writeDemonstrationBook(book);
    const auto out = utf8(folder.filePath(QStringLiteral("pictures")));
    const auto printed = test::run({"seasons", book, "--out", out});
    INFO(printed.err);
    REQUIRE(printed.status == 0);
    for (const auto* name : {"price-of-a-yard", "price-by-season", "pace-of-the-crew", "pace-by-season", "pace-by-temperature", "gross-profit-per-crew-hour-by-job-type", "bids-against-results",
                             "what-moved-the-profit-from-2025-to-2026", "leads-to-paid"})
        for (const auto* ending : {".png", ".svg", ".csv"}) {
            const auto path = out + '/' + name + ending;
            INFO(path);
            CHECK(isPrivate(qs(path)));
            CHECK(printed.out.find(path + '\n') != std::string::npos);
        }
    CHECK(QImage{qs(out + "/price-of-a-yard.png")}.width() > 1000);
    // The prices behind the picture are those the verb prints without it.
    CHECK(contentOf(qs(out + "/price-of-a-yard.csv")).count('\n') > 300);
    const auto told = test::run({"seasons", book, "--out", book});
    CHECK(told.status == 1);
    CHECK(told.err.find(book) != std::string::npos);
}

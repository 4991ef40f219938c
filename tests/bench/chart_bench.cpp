#include "marks.h"
#include "time_chart.h"

#include <QGuiApplication>
#include <QImage>
#include <QPainter>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <random>

using namespace strikeoff;

namespace {

template <class Work>
double medianMilliseconds(const Work& work)
{
    std::vector<double> took;
    for (int i = 0; i < 9; ++i) {
        const auto start = std::chrono::steady_clock::now();
        work();
        took.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
    }
    std::nth_element(took.begin(), took.begin() + 4, took.end());
    return took[4];
}

/// Twenty years of loads, each with its price.
TimeChart loads(int count)
{
    TimePanel panel;
    panel.axis = QStringLiteral("Delivered price, $ per yd\u00b3");
    panel.one = QStringLiteral("ticket");
    panel.counted = QStringLiteral("tickets");
    const auto first = *Date::of(2006, 1, 1);
    std::mt19937 random{7};
    std::normal_distribution<double> noise{0, 12};
    const int days = 7300;
    for (int i = 0; i < count; ++i) panel.points.push_back({first + static_cast<int>(static_cast<long long>(i) * days / count), 120.0 + 80.0 * i / count + noise(random), i + 1});
    for (int i = 0; i < days / 31; ++i) panel.months.push_back({monthsOn(first, i), 120.0 + i * 0.34, 112.0 + i * 0.34, 128.0 + i * 0.34, count / (days / 31)});
    return {QStringLiteral("Price"), {panel}, false};
}

}

/// chart_bench: milliseconds to draw 100,000 loads as a picture of 1600 × 500, the same as a mark each without anything else, and to find the load under the mouse.
int main(int argc, char** argv)
{
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QGuiApplication application{argc, argv};
    constexpr int count = 100'000;
    const auto chart = chartOf(loads(count));
    const auto time = loads(count);
    const QRectF area{0, 0, 1600, 500};
    const ChartStyle style{&lightPalette(), {}, {}};
    QImage image{1600, 500, QImage::Format_RGB32};
    const auto ours = medianMilliseconds([&] {
        QPainter painter{&image};
        chart.paint(painter, area, style);
    });
    const auto bare = medianMilliseconds([&] {
        QPainter painter{&image};
        painter.setRenderHint(QPainter::Antialiasing);
        for (const auto& point : time.panels[0].points)
            paintMark(painter, PointMark::circle, {area.width() * static_cast<double>(point.id) / count, 500 - point.value * 2}, 2, style.palette->series[0], false, style);
    });
    bool found = false;
    const auto hover = medianMilliseconds([&] { found = chart.stopAt({800, 250}, area, style).has_value(); });
    if (!found) return 1;  // something lies there, or the figure is worth nothing
    std::printf("%.3f %.3f %.3f\n", ours, bare, hover);
    return 0;
}

#pragma once

#include "axis.h"

#include <QGuiApplication>
#include <QImage>
#include <QPainter>

#include <functional>

namespace strikeoff::test {

/// A style to draw with, the application it needs included.
inline ChartStyle chartStyle(const Palette& palette = lightPalette())
{
    static int count = 1;
    static char name[] = "charts_tests";
    static char* arguments[] = {name, nullptr};
    if (!QCoreApplication::instance()) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
        static const auto* const application = new QGuiApplication{count, arguments};
        static_cast<void>(application);
    }
    return {&palette, {}, {}};
}

/// What a painter leaves on a sheet.
inline QImage drawn(QSize size, const Palette& palette, const std::function<void(QPainter&)>& paint)
{
    QImage image{size, QImage::Format_RGB32};
    image.fill(palette.sheet);
    QPainter painter{&image};
    paint(painter);
    return image;
}

/// How many pixels of a part of a picture have a colour, give or take a little for soft edges.
inline int pixelsOf(const QImage& image, const QRect& part, const QColor& color, int tolerance = 8)
{
    int count = 0;
    const auto inside = part.intersected(image.rect());
    for (int y = inside.top(); y <= inside.bottom(); ++y)
        for (int x = inside.left(); x <= inside.right(); ++x) {
            const QColor is{image.pixel(x, y)};
            if (std::abs(is.red() - color.red()) <= tolerance && std::abs(is.green() - color.green()) <= tolerance && std::abs(is.blue() - color.blue()) <= tolerance) ++count;
        }
    return count;
}

}

#include "palette.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

const Palette& lightPalette()
{
    static const Palette palette{0xF4F3EF, 0xFFFFFF, 0xD5D2CA, 0x22262A, 0x5A6169, 0x1F5F7A, 0x8A5200, 0xA3311F, 0x2E6B3A,
                                 {QColor{0x0072B2}, QColor{0xD55E00}, QColor{0x009E73}, QColor{0xCC79A7}}, false};
    return palette;
}

const Palette& darkPalette()
{
    static const Palette palette{0x1D2023, 0x26292D, 0x3A3F44, 0xE8E6E1, 0xA9AEB4, 0x7FB8D1, 0xE0A44A, 0xE88873, 0x8CC799,
                                 {QColor{0x56B4E9}, QColor{0xE69F00}, QColor{0x009E73}, QColor{0xCC79A7}}, true};
    return palette;
}

const Palette& paperPalette()
{
    static const Palette palette{0xFFFFFF, 0xFFFFFF, 0x808080, Qt::black, 0x404040, Qt::black, Qt::black, Qt::black, Qt::black,
                                 {QColor{0x0072B2}, QColor{0xD55E00}, QColor{0x009E73}, QColor{0xCC79A7}}, false};
    return palette;
}

double contrastRatio(const QColor& a, const QColor& b)
{
    const auto channel = [](double c) { return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
    const auto luminance = [&](const QColor& c) { return 0.2126 * channel(c.redF()) + 0.7152 * channel(c.greenF()) + 0.0722 * channel(c.blueF()); };
    const auto [low, high] = std::minmax({luminance(a), luminance(b)});  // a list: two temporaries would give references to nothing
    return (high + 0.05) / (low + 0.05);
}

}

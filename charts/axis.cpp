#include "axis.h"

#include "quantity/decimal.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

std::vector<double> niceTicks(double low, double high, int steps)
{
    if (!std::isfinite(low) || !std::isfinite(high)) return {0, 1};
    if (high < low) std::swap(low, high);
    if (high - low < 1e-9) high = low + 1;
    const double raw = (high - low) / std::max(steps, 1);
    const double power = std::pow(10.0, std::floor(std::log10(raw)));
    const double part = raw / power;
    const double step = power * (part <= 1 ? 1 : part <= 2 ? 2 : part <= 5 ? 5 : 10);
    std::vector<double> ticks;
    const auto first = static_cast<long long>(std::floor(low / step + 1e-9));
    for (auto i = first; ticks.size() < 100; ++i) {
        ticks.push_back(static_cast<double>(i) * step);
        if (ticks.back() >= high - step * 1e-9) break;
    }
    return ticks;
}

QString tickText(double value, double step)
{
    const int decimals = step >= 1 ? 0 : step >= 0.1 ? 1 : 2;
    const auto units = static_cast<std::int64_t>(std::llround(value * 100));
    return QString::fromStdString(shownDecimal(units, 2, decimals));
}

}

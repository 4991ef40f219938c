#include "visits/equivalent_age.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

constexpr double kelvin = 273.15;

}

double ageFactor(double celsius, double referenceCelsius, double activation)
{
    return std::exp(-activation * (1 / (celsius + kelvin) - 1 / (referenceCelsius + kelvin)));
}

double equivalentHours(std::span<const TemperatureSpan> spans, double referenceCelsius, double activation)
{
    double hours = 0;
    for (const auto& span : spans) hours += span.hours * ageFactor(span.celsius, referenceCelsius, activation);
    return hours;
}

double nurseSaul(std::span<const TemperatureSpan> spans, double datumCelsius)
{
    double maturity = 0;
    for (const auto& span : spans) maturity += span.hours * std::max(0.0, span.celsius - datumCelsius);
    return maturity;
}

}

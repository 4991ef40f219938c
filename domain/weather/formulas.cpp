#include "weather/formulas.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

constexpr double psiPerKpa = 0.1450377377;

double square(double x) { return x * x; }

}

double celsiusOf(double f) { return (f - 32) / 1.8; }

double fahrenheitOf(double c) { return c * 1.8 + 32; }

double saturationPressureKpa(double c) { return 0.6108 * std::exp(17.27 * c / (c + 237.3)); }

double heatIndexF(double t, double rh)
{
    const double simple = (t + 61 + (t - 68) * 1.2 + rh * 0.094) / 2;
    if ((simple + t) / 2 < 80) return simple;  // its mean with the air decides which formula holds
    double index = -42.379 + 2.04901523 * t + 10.14333127 * rh - 0.22475541 * t * rh - 0.00683783 * t * t - 0.05481717 * rh * rh +
                   0.00122874 * t * t * rh + 0.00085282 * t * rh * rh - 0.00000199 * t * t * rh * rh;
    if (rh < 13 && t >= 80 && t <= 112) index -= (13 - rh) / 4 * std::sqrt((17 - std::abs(t - 95)) / 17);
    else if (rh > 85 && t >= 80 && t <= 87) index += (rh - 85) / 10 * ((87 - t) / 5);
    return index;
}

double windChillF(double t, double mph)
{
    if (t > 50 || mph < 3) return t;
    const double wind = std::pow(mph, 0.16);
    return 35.74 + 0.6215 * t - 35.75 * wind + 0.4275 * t * wind;
}

double menzelEvaporation(double concreteF, double airF, double humidity, double windMph)
{
    const double atSurface = saturationPressureKpa(celsiusOf(concreteF)) * psiPerKpa;
    const double inAir = humidity / 100 * saturationPressureKpa(celsiusOf(airF)) * psiPerKpa;
    return std::max(0.0, 0.44 * (atSurface - inAir) * (0.253 + 0.096 * windMph));
}

double unoEvaporation(double concreteF, double airF, double humidity, double windMph)
{
    // Below 0 °F a power of 2.5 has no value; fresh concrete is never that cold, and such air holds next to no water.
    const double surface = square(std::max(concreteF, 0.0)) * std::sqrt(std::max(concreteF, 0.0));
    const double air = square(std::max(airF, 0.0)) * std::sqrt(std::max(airF, 0.0));
    return std::max(0.0, (surface - humidity / 100 * air) * (1 + 0.4 * windMph) * 1e-6);
}

double unoEvaporationMetric(double concreteC, double airC, double humidity, double windKmh)
{
    const auto term = [](double c) { return std::pow(std::max(c + 18, 0.0), 2.5); };
    return std::max(0.0, 5 * (term(concreteC) - humidity / 100 * term(airC)) * (windKmh + 4) * 1e-6);
}

}

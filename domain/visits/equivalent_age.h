#pragma once

#include <span>

namespace strikeoff {

/// Some hours that concrete spent at one temperature.
struct TemperatureSpan {
    double hours = 0;
    double celsius = 0;
};

/// Over the gas constant, in kelvin: 5,000 K (41.6 kJ/mol) for plain Type I cement (ASTM C1074; from memory).
inline constexpr double usualActivation = 5000;
inline constexpr double gasConstant = 8.314462;  ///< J/(mol·K)

/// How much faster concrete ages at a temperature than at the reference, by Arrhenius' law: exp(−Q (1/T − 1/Tr)), temperatures in °C.
double ageFactor(double celsius, double referenceCelsius = 20, double activation = usualActivation);
/// Hours at the reference temperature that age concrete as much (ASTM C1074, Freiesleben Hansen and Pedersen).
double equivalentHours(std::span<const TemperatureSpan> spans, double referenceCelsius = 20, double activation = usualActivation);
/// Maturity by Nurse and Saul, °C·h over a datum; time under the datum adds nothing.
double nurseSaul(std::span<const TemperatureSpan> spans, double datumCelsius);

}

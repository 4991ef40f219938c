#pragma once

/// Published weather formulas. Temperatures in °F, wind in mph, humidity in per cent unless the name says otherwise.
namespace strikeoff {

double celsiusOf(double f);
double fahrenheitOf(double c);

/// Saturation vapor pressure over water in kPa at °C (Allen and others 1998, FAO Irrigation and Drainage Paper 56, equation 11).
double saturationPressureKpa(double c);

/// Heat index: the low-range formula below 80 °F, the Rothfusz regression with both adjustments from there (US National Weather Service).
double heatIndexF(double airF, double humidity);
/// Wind chill of 2001 (US National Weather Service, Environment Canada). Defined for air at or below 50 °F and wind of 3 mph or more; outside of
/// that the air itself is given back.
double windChillF(double airF, double windMph);

/// Water leaving a fresh surface, lb/ft²/h, never under zero. Menzel 1954, the formula behind the nomograph of ACI 305R and 308R (from memory), with
/// the vapor pressures of FAO-56.
double menzelEvaporation(double concreteF, double airF, double humidity, double windMph);
/// The same after Uno 1998 (ACI Materials Journal 95-M34), inch-pound form, lb/ft²/h. The two differ by up to a fifth in cold air.
double unoEvaporation(double concreteF, double airF, double humidity, double windMph);
/// Uno's metric form, kg/m²/h from °C and km/h. Its rounding makes it read 3 to 5 % under the inch-pound form.
double unoEvaporationMetric(double concreteC, double airC, double humidity, double windKmh);

inline constexpr double evaporationAlarm = 0.2;    ///< lb/ft²/h: act (FHWA-HRT-05-038 chapter 5)
inline constexpr double evaporationCaution = 0.1;  ///< half of it: caution (the same)

}

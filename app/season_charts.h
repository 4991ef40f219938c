#pragma once

#include "chart.h"

#include "season/seasons.h"

namespace strikeoff {

/// What a yard of concrete cost: tickets, the month's average with its spread, the mix alone, new price sheets, and what to carry in the months ahead.
Chart priceChart(const Book& book, const PriceSeasons& prices);
/// How fast the crew was: pours, their running median, and the spread of each month.
Chart paceChart(const Book& book, const PaceSeasons& pace);
/// Both over the same months, price above.
Chart priceAndPaceChart(const Book& book, const Seasons& seasons);
/// What each season does to the price of a yard, and to the pace.
Chart priceSeasonsChart(const PriceSeasons& prices);
Chart paceSeasonsChart(const PaceSeasons& pace);
/// Pace of each pour against the temperature of the air on its day.
Chart paceByTemperatureChart(const Book& book, const PaceSeasons& pace);

/// All of the above but the joint one, each with what it says in words.
std::vector<Chart> seasonCharts(const Book& book, const Seasons& seasons);

}
